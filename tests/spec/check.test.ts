import { describe, expect, test } from 'vitest';
import { checkSpec, completeProposal, SCHEMAS } from '../../src/spec/index.ts';

const shortTable = {
  wood: 'oak',
  height: '745',
  top: { kind: 'rectangle', length: '2100', width: '820', thickness: '28' },
  base: { kind: 'legs', legs: { size: '62', endOverhang: '320', sideOverhang: '70' } },
  finish: 'oil',
};

const shortProposal = {
  title: 'A table',
  client: { name: 'Ines Harbour', email: 'ines@harbour.example.invalid' },
  currency: 'EUR',
  use: 'dining',
  understood: 'Six of you.',
  room: { length: '5150', width: '2680', humidity: { low: '34 %', high: '58 %' } },
  revision: { id: 'r1', date: '2027-02-14', validUntil: '2027-03-16' },
  leadTime: 'ten weeks',
  terms: 'plain',
  rates: 'bench',
  tax: 'home',
  lines: { old: { says: 'Old table', each: '60' }, crate: { says: 'Crate', each: '-20.50', tax: 'none' } },
  instalments: [{ percent: '100 %', when: 'on delivery' }],
};

describe('a short file is enough', () => {
  test('table: what stands where the maker is silent', () => {
    const { value, problems } = checkSpec(SCHEMAS.table.mm, shortTable, ['table']);
    expect(problems).toEqual([]);
    expect(value).toMatchObject({
      height: { mm: 745, written: '745' },
      top: { sawn: 'flat', grain: 'length' },
      base: { legs: { shape: 'square', taper: 'inside' } },
      fixing: { kind: 'slotted-screws' },
      parts: {},
      joints: {},
      states: {},
      hardware: {},
      stock: {},
      work: {},
    });
    expect(value?.top).not.toHaveProperty('wood');
  });

  test('bare numbers follow the unit of the file, and values built in code are read too', () => {
    const inches = { ...shortTable, height: '29 5/16', top: { kind: 'round', diameter: 48, thickness: 1.25 }, base: { kind: 'parts' } };
    const { value } = checkSpec(SCHEMAS.table.in, inches, ['table']);
    expect(value?.height.mm).toBeCloseTo(29.3125 * 25.4, 9);
    expect(value?.top).toMatchObject({ diameter: { mm: 1219.2, written: '48' }, thickness: { mm: 31.75 } });
  });

  test('proposal: what one key takes from another', () => {
    const { value, problems } = checkSpec(SCHEMAS.proposal.mm, shortProposal, ['proposal']);
    expect(problems).toEqual([]);
    const proposal = value === undefined ? undefined : completeProposal(value);
    expect(proposal).toMatchObject({
      units: 'mm',
      show: 'mm',
      paper: 'a4',
      language: 'en-GB',
      quantity: 1,
      invented: false,
      deciders: { rule: 'all', people: { client: { name: 'Ines Harbour', email: 'ines@harbour.example.invalid' } } },
      lines: {
        old: { tax: 'home', certainty: 'fixed', shown: true, provisional: false, quantity: 1, each: '60' },
        crate: { tax: 'none', each: '-20.50' },
      },
      room: { temperature: { celsius: 20 }, underfloorHeating: false, stands: {}, access: [] },
      revision: { level: 'full', audience: 'payer', date: { year: 2027, month: 2, day: 14 } },
    });
    const other =
      value === undefined
        ? undefined
        : completeProposal({ ...value, units: 'in', deciders: { rule: 'any', people: { bo: { name: 'Bo' } } } });
    expect(other).toMatchObject({ show: 'in', paper: 'letter', deciders: { people: { bo: { name: 'Bo' } } } });
  });
});

describe('what is refused', () => {
  test('all at once, each with its path under the root', () => {
    const { value, problems } = checkSpec(
      SCHEMAS.table.mm,
      { ...shortTable, height: '74.5', top: { ...shortTable.top, thickness: '27,5' }, colour: 'red' },
      ['table'],
    );
    expect(value).toBeUndefined();
    expect(problems.map(({ code, path }) => `${code} ${path.join('.')}`)).toEqual([
      'spec/out-of-range table.height',
      'spec/not-a-quantity table.top.thickness',
      'spec/unknown-key table.colour',
    ]);
  });

  test('the bounds themselves are inside', () => {
    for (const [thickness, ok] of [
      ['12', true],
      ['80', true],
      ['11.999', false],
      ['80.001', false],
      ['-28', false],
    ] as const) {
      const { value } = checkSpec(SCHEMAS.table.mm, { ...shortTable, top: { ...shortTable.top, thickness } }, []);
      expect(value !== undefined, thickness).toBe(ok);
    }
  });

  test('numbers that no table has, wherever a quantity is wanted', () => {
    for (const height of [
      '.inf',
      'NaN',
      '1e3',
      '0x2e9',
      '',
      'null',
      'true',
      '1_000',
      Number.NaN,
      Number.POSITIVE_INFINITY,
      true,
      {},
      [],
      null,
    ]) {
      const { problems } = checkSpec(SCHEMAS.table.mm, { ...shortTable, height }, []);
      expect(
        problems.map(({ path }) => path.join('.')),
        String(height),
      ).toEqual(['height']);
    }
  });

  test('names that could reach into objects', () => {
    for (const id of ['constructor', 'a b', 'A', '-a', 'a-', 'x'.repeat(41), 'toString']) {
      const parts = Object.fromEntries([[id, { kind: 'box', size: ['1', '1', '1'], at: ['0', '0', '0'] }]]);
      const { value, problems } = checkSpec(SCHEMAS.table.mm, { ...shortTable, parts }, []);
      if (id === 'constructor') expect(Object.keys(value?.parts ?? {})).toEqual(['constructor']);
      else
        expect(
          problems.map(({ code }) => code),
          id,
        ).toEqual(['spec/bad-id']);
    }
  });
});
