import { expect, test } from 'vitest';
import { parseLength, writeLength } from '../../src/units/index.ts';
import table from '../published/lengths.json' with { type: 'json' };

function read(text: string, bare: string) {
  return parseLength(text, bare === 'quarters' ? { bare: 'mm', quarters: true } : { bare: bare === 'in' ? 'in' : 'mm' });
}

test.each(table.accepted)('$text ($bare) is a length', ({ text, bare, mm }) => {
  const result = read(text, bare);
  expect(result).toEqual({ ok: true, value: { mm, written: text } });
});

test.each(table.refused)(
  '$text ($bare) is refused',
  ({ text, bare, why, type }: { text: string; bare: string; why: string; type?: string }) => {
    expect(read(text, bare)).toEqual(type === undefined ? { ok: false, why } : { ok: false, why, type });
  },
);

test('the text to type is itself accepted, in the same file', () => {
  for (const { text, bare, type } of table.refused as { text: string; bare: string; type?: string }[]) {
    for (const one of type?.split(' or ') ?? []) expect(read(one, bare), `${one} for ${text}`).toMatchObject({ ok: true });
  }
});

test('there are at least sixty ways, and both sides have their share', () => {
  expect(table.accepted.length).toBeGreaterThanOrEqual(40);
  expect(table.refused.length).toBeGreaterThanOrEqual(25);
});

test('a length written out is read back within half of its last step, in a file of either unit', () => {
  const lengths = [0, 0.04, 0.4, 1, 3, 25.4, 26.4, 419.95, 744.5, 745, 1179, 1219.2, 2100, 9999.9, -12.7, -300];
  for (const bare of ['mm', 'in'] as const)
    for (const mm of lengths) {
      // A tenth of a millimetre, or 25.4 / 64 = 0.397 mm.
      for (const [unit, step] of [
        ['mm', 0.1],
        ['in', 25.4 / 64],
      ] as const) {
        const text = writeLength(mm, unit);
        const back = parseLength(text, { bare });
        expect([text, back.ok && Math.abs(back.value.mm - mm) <= step / 2 + 1e-9]).toEqual([text, true]);
      }
    }
  // By hand: 745 / 25.4 x 64 = 1877.2, which is 29 x 64 + 21; 34.925 mm is 1 3/8 in.
  expect([745, 34.925, -12.7, 9.525].map((mm) => writeLength(mm, 'in'))).toEqual(['29 21/64 in', '1 3/8 in', '-1/2 in', '3/8 in']);
  expect([2100, 744.54].map((mm) => writeLength(mm, 'mm'))).toEqual(['2100 mm', '744.5 mm']);
});
