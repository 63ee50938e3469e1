import type { Problem } from '../problem/index.ts';

type Rest = Pick<Problem, 'found' | 'allowed' | 'mend'>;

/** Why something is not recorded. `code` without its room. */
export const refusal = (code: string, title: string, rest: Rest = {}): Problem => ({
  code: `cli/${code}`,
  severity: 'error',
  title,
  path: [],
  ...rest,
});

/** Something worth knowing that stops nothing. */
export const remark = (code: string, title: string, rest: Rest = {}): Problem => ({ ...refusal(code, title, rest), severity: 'warning' });

/** A proposal that was lost or cancelled takes no more of this. Code: `cli/is-closed`. */
export const alreadyClosed = (slug: string, closed: { readonly kind: 'lost' | 'cancelled'; readonly on: string }): Problem =>
  refusal('is-closed', `${slug} is closed already`, {
    found: `${closed.kind} on ${closed.on}`,
    mend: `a revision that is issued takes it up again: leafwright revise ${slug}`,
  });

/** What can be insisted against says so at its end. */
function withInsist(problem: Problem): Problem {
  const insist = '--insist "why" records it all the same';
  return { ...problem, mend: problem.mend === undefined ? insist : `${problem.mend}; ${insist}` };
}

/** What became of refusals under `--insist`: nothing may be recorded, or these codes are recorded with the reason. */
export type Insisted =
  | { readonly problems: readonly Problem[] }
  | { readonly insisted?: readonly string[]; readonly reason?: string; readonly warnings: readonly Problem[] };

/**
 * Weighs refusals. `hard` ones can not be insisted against; `soft` ones can, with a reason, and stay as warnings.
 * Code: `cli/nothing-to-insist`, a warning.
 */
export function weighed(hard: readonly Problem[], soft: readonly Problem[], reason: string | undefined): Insisted {
  if (hard.length > 0) return { problems: [...hard, ...(reason === undefined ? soft.map(withInsist) : [])] };
  if (soft.length === 0)
    return {
      warnings: reason === undefined ? [] : [remark('nothing-to-insist', 'nothing stood against it, so the reason was not recorded')],
    };
  if (reason === undefined) return { problems: soft.map(withInsist) };
  const insisted = [...new Set(soft.map(({ code }) => code))].sort();
  return { insisted, reason, warnings: soft.map((problem) => ({ ...problem, severity: 'warning' })) };
}
