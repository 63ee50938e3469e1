import { z } from 'zod';
import { SCHEMAS } from './schemas.ts';
import { unwrapped } from './walk.ts';

function has(schema: z.core.$ZodType, key: string): boolean {
  const inner = unwrapped(schema);
  return inner instanceof z.ZodObject && Object.hasOwn(inner.def.shape, key);
}

/**
 * Where a key of the uppermost level belongs that was written into another file of the proposal; `undefined` for one that is known
 * nowhere. `root` is the file it was written into, as in a `SpecPath`.
 */
export function homeOfKey(root: string, key: string): string | undefined {
  const isTables = has(SCHEMAS.table.mm, key);
  const isProposals = has(SCHEMAS.proposal.mm, key);
  if (root === 'variant' && isTables) return `indent it under table:, where a variant says what differs`;
  if (root === 'proposal' && isTables) return 'write it in table.yaml';
  if ((root === 'variant' || root === 'table') && isProposals) return 'write it in proposal.yaml, where it holds for all designs';
  return root === 'table' && has(SCHEMAS.variant, key) ? 'write it in a file of variants/' : undefined;
}
