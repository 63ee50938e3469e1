import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
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

/** Whoever keeps a later page can tell whether the entries before it were changed or cut off. */
test('each later page prints the digest of the entry before it', () => {
  const folder = join(root, 'proposals/tollefsen-quill');
  const entries = readFileSync(join(folder, 'decisions.jsonl'), 'utf8').trimEnd().split('\n');
  const digest = createHash('sha256')
    .update(entries[0] ?? '')
    .digest('hex');
  const shown = digest.slice(0, 20).replaceAll(/(.{5})(?=.)/g, '$1 ');
  expect(readFileSync(join(folder, 'issued/r2/out/index.html'), 'utf8')).toContain(`It follows entry 1 of my record, ${shown}.`);
  expect(readFileSync(join(folder, 'issued/r1/out/index.html'), 'utf8')).toContain('It is the first entry of my record of this proposal.');
});
