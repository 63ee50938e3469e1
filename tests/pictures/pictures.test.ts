import { describe, expect, test } from 'vitest';
import { sheetToSvg } from '../../src/write/index.ts';
import { draw, specShown } from '../draw/drawn.ts';
import { legTable, roundTable, slabTable } from '../draw/tables.ts';

/** Numbers with one decimal: a picture changes when an eye could see it, not with the last bit of a sine. */
const normal = (svg: string): string => svg.replace(/-?\d*\.\d+/g, (n) => (Math.round(Number(n) * 10) / 10 || 0).toString());

const cases = {
  legs: draw(legTable()),
  splayed: draw(legTable(2100, 800, 745, 60), specShown('mm+in')),
  round: draw(roundTable(), specShown('in', 'letter')),
  slabs: draw(slabTable()),
};

describe.each(Object.entries(cases))('%s', (name, drawings) => {
  test.each(['picture', 'sheet', 'small'] as const)('%s is drawn as it was', async (kind) => {
    await expect(normal(sheetToSvg(drawings[kind], { idPrefix: name, mode: 'file', paper: true }))).toMatchFileSnapshot(`${name}-${kind}.svg`);
  });
});
