import type { Problem } from '../../problem/index.ts';

/** A problem of the records: `file` is a path as the maker sees it. */
export function recordProblem(code: string, title: string, more: Partial<Problem> = {}): Problem {
  return { code: `record/${code}`, severity: 'error', title, path: [], ...more };
}
