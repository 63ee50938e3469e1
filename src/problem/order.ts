import { byCodeUnit } from '../units/index.ts';
import type { Problem } from './problem.ts';

/** Problems in the order in which a maker meets them: by file, line and column; those without a place last, as they came. */
export function orderProblems(problems: readonly Problem[]): readonly Problem[] {
  return problems
    .map((problem, index) => ({ problem, index }))
    .toSorted((a, b) => {
      const [p, q] = [a.problem.place, b.problem.place];
      if (p === undefined || q === undefined) return p === q ? a.index - b.index : p === undefined ? 1 : -1;
      return byCodeUnit(p.file, q.file) || p.line - q.line || p.column - q.column || a.index - b.index;
    })
    .map(({ problem }) => problem);
}

/** Whether anything stands in the way; warnings do not. */
export function hasErrors(problems: readonly Problem[]): boolean {
  return problems.some((problem) => problem.severity === 'error');
}

/** `3 errors and 1 warning in 2 files.` */
export function countProblems(problems: readonly Problem[]): string {
  const errors = problems.filter((problem) => problem.severity === 'error').length;
  const warnings = problems.length - errors;
  const files = new Set(problems.flatMap((problem) => (problem.place === undefined ? [] : [problem.place.file]))).size;
  const counts = [counted(errors, 'error'), counted(warnings, 'warning')].filter((text) => text !== '').join(' and ');
  const where = files === 0 ? '' : ` in ${counted(files, 'file')}`;
  return `${counts === '' ? 'No problems' : counts}${where}.`;
}

function counted(count: number, noun: string): string {
  if (count === 0) return '';
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
