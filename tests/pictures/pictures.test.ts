import { describe, expect, test } from 'vitest';
import { sheetToSvg } from '../../src/write/index.ts';
import { draw, specShown } from '../draw/drawn.ts';
import { legTable, roundTable, slabTable } from '../draw/tables.ts';

const rounded = (value: number): number => Math.round(value * 10) / 10 || 0;

/** Path data with every point from the origin of the sheet, so that rounding a point moves none after it. */
function absolute(data: string): string {
  let [x, y] = [0, 0];
  return data.replaceAll(/([A-Za-z])([^A-Za-z]*)/g, (_all, letter: string, rest: string) => {
    const numbers = (rest.match(/-?\d*\.?\d+/g) ?? []).map(Number);
    const isRelative = letter === 'l';
    const out = numbers.map((value, i) => {
      if (!isRelative) return rounded(value);
      if (i % 2 === 0) x += value;
      else y += value;
      return rounded(i % 2 === 0 ? x : y);
    });
    if (!isRelative && numbers.length > 1) [x, y] = [numbers.at(-2) ?? x, numbers.at(-1) ?? y];
    return `${isRelative ? 'L' : letter}${out.join(' ')}`;
  });
}

/** Numbers with one decimal: a picture changes when an eye could see it, not with the last bit of a sine. */
const normal = (svg: string): string =>
  svg
    .replaceAll(/ d="([^"]*)"/g, (_all, data: string) => ` d="${absolute(data)}"`)
    .replaceAll(/-?\d*\.\d+/g, (n) => rounded(Number(n)).toString());

const cases = {
  legs: draw(legTable()),
  splayed: draw(legTable(2100, 800, 745, 60), specShown('mm+in')),
  round: draw(roundTable(), specShown('in', 'letter')),
  slabs: draw(slabTable()),
};

describe.each(Object.entries(cases))('%s', (name, drawings) => {
  test.each(['picture', 'sheet', 'small'] as const)('%s is drawn as it was', async (kind) => {
    await expect(normal(sheetToSvg(drawings[kind], { idPrefix: name, mode: 'file', paper: true }))).toMatchFileSnapshot(
      `${name}-${kind}.svg`,
    );
  });
});
