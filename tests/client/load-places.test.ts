import { describe, expect, test } from 'vitest';
import { clientView } from '../../src/client/index.ts';
import { computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { readDemo } from '../demos/load.ts';

const plain = (text: string | undefined): string => (text ?? '').replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
const { measure } = openFonts();

function rowsOf(slug: string, revision: string) {
  const { input } = readDemo(slug, revision);
  const { computed } = input === undefined ? {} : computeProposal(input, { measure });
  if (computed === undefined) throw new Error('the demo can not be computed');
  const figures = figuresOf(computed);
  return clientView(computed, figures, {}).designs.map(({ id, steadiness }) => ({
    rows: steadiness.rows.map(({ label, value, note }) => ({ label, value: plain(value), note: plain(note) })),
    cases: figures.variants[id]?.tipping.standing?.cases ?? [],
    inset: (one: string): number => computed.input.library.loadCases[one]?.inset.mm ?? Number.NaN,
    says: (one: string): string => computed.input.library.loadCases[one]?.says ?? '',
  }));
}

describe.each([
  ['tollefsen-quill', 'r2'],
  ['farrant', 'r1'],
] as const)('what presses on the table of %s', (slug, revision) => {
  test('is told with the place where it stands: the same weight at the very edge tips sooner', () => {
    for (const { rows, cases, inset, says } of rowsOf(slug, revision)) {
      expect(cases.length).toBeGreaterThan(3);
      for (const { id, loadN } of cases) {
        const row = rows.find(({ label }) => label === says(id));
        const where = /, ([\d,.]+) mm \(.*\) inside|, ([\d,.]+) mm inside|, (.+?)″ inside/.test(row?.note ?? '');
        expect([id, where]).toEqual([id, loadN > 0 && inset(id) > 0]);
      }
    }
  });
});

test('a corner is told as the very corner, and a weight near it with how far in it stands', () => {
  const [reed] = rowsOf('tollefsen-quill', 'r2');
  const corner = reed?.rows.find(({ label }) => label.startsWith('At a corner'));
  expect(corner?.label).toBe('At a corner, on the very edge');
  const near = reed?.rows.find(({ label }) => label === reed.says('s3-seat'));
  // 981 N / 9.80665 = 100.03 kg, and 150 mm: as templates/load-cases.yaml has them.
  expect(near?.note).toMatch(/^100 kg, 150 mm inside both edges of a corner: safety factor /);
});
