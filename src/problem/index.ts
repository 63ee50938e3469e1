/** Problems as values, their catalogue of codes and the one format in which they are printed. Imports units; pure. */
export { CATALOGUE } from './catalogue.ts';
export type { CodeEntry } from './codes/entry.ts';
export type { Shown } from './format.ts';
export { formatProblem, formatProblems, MOST_SHOWN } from './format.ts';
export { editDistance, nearestName } from './nearest.ts';
export { countProblems, hasErrors, orderProblems } from './order.ts';
export type { Place, Problem, Severity, SpecPath } from './problem.ts';
