import { expect, test } from 'vitest';
import { parseLength } from '../../src/units/index.ts';
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
