import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { sha256Hex, verifyWorkspace } from '../../src/record/index.ts';
import { storyOf } from '../demos/play.ts';
import { stories } from '../demos/story.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const slugs = Object.keys(stories).sort();

/** Also shows that git brings frozen files as they were: a line end converted would break every digest. */
test('the revisions of the demos are issued, and nothing in them has changed', () => {
  for (const verified of verifyWorkspace(root, slugs)) {
    expect(verified.problems).toEqual([]);
    const issued = storyOf(verified.proposal).flatMap(({ run }) => ('issue' in run ? [run.issue] : []));
    expect(verified.revisions.map(({ revision }) => revision)).toEqual(issued);
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

/** An answer's entry names the fingerprint; so it names the very words of consent, and their version, that its page showed. */
test('the words of consent that each page shows are under the fingerprint', () => {
  const pages = verifyWorkspace(root, slugs).flatMap(({ proposal, revisions }) =>
    revisions.flatMap(({ revision, fingerprint }) => {
      const folder = join(root, 'proposals', proposal, 'issued', revision);
      const bytes = readFileSync(join(folder, 'content.json'));
      expect(sha256Hex(bytes)).toBe(fingerprint);
      const { pages: named = ['client'], files } = JSON.parse(bytes.toString('utf8')) as {
        readonly pages?: readonly string[];
        readonly files: readonly { readonly path: string; readonly sha256: string }[];
      };
      return named.map((page, i) => ({ page, folder, files, isFirst: i === 0 }));
    }),
  );
  expect(pages.length).toBeGreaterThan(5);
  for (const { page, folder, files, isFirst } of pages) {
    const path = isFirst ? 'data/client.json' : `data/client-${page}.json`;
    const bytes = readFileSync(join(folder, path));
    expect(files.find((file) => file.path === path)?.sha256).toBe(sha256Hex(bytes));
    const { consent } = JSON.parse(bytes.toString('utf8')) as {
      readonly consent: { readonly version: string; readonly sentence: string; readonly note: string };
    };
    expect(consent.version).toMatch(/^[1-9]\d*$/);
    expect(consent.note).toContain(`version ${consent.version}.`);
    const shown = readFileSync(join(folder, isFirst ? 'out' : `out-${page}`, 'index.html'), 'utf8');
    for (const words of [consent.sentence, consent.note]) expect(shown, path).toContain(words);
  }
});
