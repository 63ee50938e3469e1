import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { verifyWorkspace } from '../../src/record/index.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Also shows that git brings frozen files as they were: a line end converted would break every digest. */
test('the older revisions of the demos are issued, and nothing in them has changed', () => {
  const revisions = join(root, 'tests/demos/revisions');
  const slugs = readdirSync(revisions).sort();
  for (const verified of verifyWorkspace(root, slugs)) {
    expect(verified.problems).toEqual([]);
    expect(verified.revisions.map(({ revision }) => revision)).toEqual(readdirSync(join(revisions, verified.proposal)).sort());
  }
});
