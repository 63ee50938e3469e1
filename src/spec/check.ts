import type { z } from 'zod';
import type { Problem, SpecPath } from '../problem/index.ts';
import { wordIssue } from './wording.ts';

/** A checked value, or why there is none. */
export interface Checked<T> {
  /** Absent where there is an error. */
  readonly value?: T;
  readonly problems: readonly Problem[];
}

/**
 * Checks a plain value (every scalar the text of the file) against a schema. Problems carry `root` before their path.
 * Codes: `spec/missing`, `spec/wrong-type`, `spec/not-a-quantity`, `spec/out-of-range`, `spec/not-a-choice`, `spec/bad-text`,
 * `spec/unknown-key`, `spec/unknown-kind`, `spec/bad-id`, `spec/wrong-count`.
 */
export function checkSpec<T>(schema: z.ZodType<T>, plain: unknown, root: SpecPath): Checked<T> {
  const result = schema.safeParse(plain, { reportInput: true });
  if (result.success) return { value: result.data, problems: [] };
  const problems = result.error.issues.flatMap((issue) => wordIssue(schema, plain, issue, root));
  return { problems: withoutEchoes(problems) };
}

/** A mistyped key leaves the right one missing: one slip, one problem. */
function withoutEchoes(problems: readonly Problem[]): readonly Problem[] {
  const meant = new Set(
    problems.flatMap(({ code, path, mend }) =>
      code === 'spec/unknown-key' && mend?.startsWith('write ') === true ? [[...path.slice(0, -1), mend.slice(6)].join('.')] : [],
    ),
  );
  return problems.filter(({ code, path }) => code !== 'spec/missing' || !meant.has(path.join('.')));
}
