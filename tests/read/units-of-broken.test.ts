import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { readProposal } from '../../src/read/index.ts';

const farrant = fileURLToPath(new URL('../../proposals/farrant', import.meta.url));

test('a tab in proposal.yaml of a table in inches is one fault: the other files are still read in inches', () => {
  const root = mkdtempSync(join(tmpdir(), 'leafwright-units-'));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  const folder = join(root, 'proposals', 'farrant');
  for (const name of ['proposal.yaml', 'table.yaml', 'variants']) cpSync(join(farrant, name), join(folder, name), { recursive: true });
  const path = join(folder, 'proposal.yaml');
  const text = readFileSync(path, 'utf8');
  expect(readProposal(root, 'farrant').problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  writeFileSync(path, text.replace(/^ {2}id: /m, '\tid: '));
  expect(
    readProposal(root, 'farrant')
      .problems.filter(({ severity }) => severity === 'error')
      .map(({ code }) => code),
  ).toEqual(['read/tab']);
});
