/** Where a top is measured across its boards: at the path that its table has, whose size is the one that moves with the seasons. */
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { agreedSize, measurablePaths, topAcrossBuilt, topAcrossPath } from '../../src/cli/handing/as-built.ts';
import { computeProposal } from '../../src/compute.ts';
import { readProposal } from '../../src/read/index.ts';
import { openFonts } from '../../src/write/index.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Farrant's tops are round, one low table's is oval with its boards along its length. */
test.each([
  ['farrant', 'round', 'top.diameter'],
  ['marl-ockley', 'oval', 'top.width'],
  ['tollefsen-quill', 'rectangle', 'top.width'],
])('%s: %s, %s', (slug, shape, path) => {
  const { input } = readProposal(root, slug);
  if (input === undefined) throw new Error(`${slug} can not be read`);
  const { computed } = computeProposal(input, { measure: openFonts().measure });
  const designs = (computed?.variants ?? []).map(({ standard }) => standard).filter(({ table }) => table.top.shape === shape);
  expect(designs.length).toBeGreaterThan(0);
  for (const { table, spec } of designs) {
    expect(topAcrossPath(table)).toBe(path);
    expect(measurablePaths(spec.table)).toContain(path);
    expect(agreedSize(spec.table, path)?.mm).toBeCloseTo(table.top.acrossGrainMm, 6);
    const turned = { top: { ...table.top, grainAlong: 'y' as const } };
    expect(topAcrossPath(turned)).toBe(shape === 'round' ? 'top.diameter' : 'top.length');
    const built = { what: path, agreed: 700, built: 701, tolerance: 3, unit: 'mm' as const };
    expect(topAcrossBuilt(table, { asBuilt: [built] })).toBe(701);
  }
});
