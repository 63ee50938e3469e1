/** Problems as values, their catalogue of codes and the one format in which they are printed. */
export type { Place, Problem, Severity, SpecPath } from './problem.ts';
