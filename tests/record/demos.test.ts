import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { verifyWorkspace } from '../../src/record/index.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Also shows that git brings frozen files as they were: a line end converted would break every digest. */
test('the revisions of the demos are issued, and nothing in them has changed', () => {
  const revisions = join(root, 'tests/demos/revisions');
  const slugs = readdirSync(revisions).sort();
  for (const verified of verifyWorkspace(root, slugs)) {
    expect(verified.problems).toEqual([]);
    const older = readdirSync(join(revisions, verified.proposal)).sort();
    /** The dining table's third is issued as it lies in proposals/. */
    expect(verified.revisions.map(({ revision }) => revision)).toEqual(verified.proposal === 'tollefsen-quill' ? [...older, 'r3'] : older);
  }
});

/** Whoever keeps a page can tell whether the entries before it were changed or cut off. */
test('each page prints the digest of the entry before it', () => {
  const folder = join(root, 'proposals/tollefsen-quill');
  const lines = readFileSync(join(folder, 'decisions.jsonl'), 'utf8').trimEnd().split('\n');
  const issued = lines.flatMap((line, i) => {
    const { kind, revision } = JSON.parse(line) as { readonly kind: string; readonly revision?: string };
    return kind === 'issued' && revision !== undefined ? [{ revision, before: i }] : [];
  });
  expect(issued.map(({ revision }) => revision)).toEqual(['r1', 'r2', 'r3']);
  for (const { revision, before } of issued) {
    const digest = createHash('sha256')
      .update(lines[before - 1] ?? '')
      .digest('hex');
    const shown = digest.slice(0, 20).replaceAll(/(.{5})(?=.)/g, '$1 ');
    const page = readFileSync(join(folder, 'issued', revision, 'out/index.html'), 'utf8');
    expect(page).toContain(`It follows entry ${before} of my record, ${shown}.`);
  }
  /** The desk's record begins with its first revision. */
  const first = readFileSync(join(root, 'proposals/lindqvaar-wren/issued/r1/out/index.html'), 'utf8');
  expect(first).toContain('It is the first entry of my record of this proposal.');
});
