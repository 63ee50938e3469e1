import { describe, expect, test } from 'vitest';
import { clientView } from '../../src/client/index.ts';
import { computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { readDemo } from '../demos/load.ts';

const { input } = readDemo('farrant', 'r1');
if (input === undefined) throw new Error('the demo can not be read');
const { computed } = computeProposal(input, { measure: openFonts().measure });
if (computed === undefined) throw new Error('the demo can not be computed');
const cross = clientView(computed, figuresOf(computed)).designs.find(({ id }) => id === 'B');
const plain = (text = ''): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

describe('what is not of wood', () => {
  test('parts of one name, material and size stand in one row, weighed together', () => {
    const pads = cross?.materials.filter(({ part }) => part === 'Steel pad') ?? [];
    expect(pads.map(({ count, wood }) => [count, wood])).toEqual([['4', 'Mild steel']]);
    // Four discs of 3/4 inch of steel, 0.2836 lb a cubic inch (7850 kg/m3, EN 1991-1-1, table A.4, from memory): 0.38 lb, rounded up.
    expect(Math.ceil(4 * (Math.PI / 4) * 0.75 ** 3 * 0.2836)).toBe(1);
    expect(plain(pads[0]?.amount)).toBe('1 lb');
  });

  test('steel by weight is a part, and no number of pieces among the fittings', () => {
    const plate = cross?.materials.find(({ part }) => part === 'Steel plate');
    // A disc of 16 1/2 by 1/2 inch: 30.3 lb, rounded up.
    expect(plain(plate?.amount)).toBe(`${Math.ceil((Math.PI / 4) * 16.5 ** 2 * 0.5 * 0.2836)} lb`);
    expect(cross?.hardware.map(plain)).toEqual(['8 × Screw and washer in a slot', '18 × Screw']);
  });
});
