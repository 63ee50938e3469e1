import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import type { StockBoardSpec, TableSpec } from '../../src/spec/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { length, percent } from '../fixtures.ts';
import { spec } from './rates.ts';
import { boxPart, plain } from './tables.ts';

const board = (lengthMm: number, widthMm: number, thicknessMm: number, more: Partial<StockBoardSpec> = {}): StockBoardSpec => ({
  wood: 'ash-white',
  length: length(lengthMm),
  width: length(widthMm),
  thickness: length(thicknessMm),
  count: 1,
  owned: true,
  ...more,
});

/** The storm ash of the desk: an invented tree, its figures from the maker's own hand check. */
const ash: TableSpec['stock'] = {
  s1: board(2300, 260, 40, { usableLength: length(1920), moisture: percent(9.5), faults: 'end check 380' }),
  s2: board(2250, 230, 40, { usableWidth: length(200), moisture: percent(9.5), faults: 'sapwood 30' }),
  s3: board(1950, 240, 40, { moisture: percent(9.5) }),
  s4: board(2100, 190, 40, { moisture: percent(9.5), faults: 'sound knot at 900 to 980' }),
  s5: board(1600, 210, 34, { moisture: percent(9.5) }),
  s6: board(1250, 160, 65, { moisture: percent(14) }),
};

const desk: Table = {
  ...plain,
  parts: [
    boxPart('top', 'top', [1750, 750, 28], [0, 0, 707], [1750, 750, 28], { boards: 4, wood: 'ash-white' }),
    ...[1, 2, 3, 4].map((i) => boxPart(`leg-${i}`, 'leg', [55, 55, 707], [0, 0, 0], [707, 55, 55], { wood: 'ash-white' })),
  ],
  joints: [],
};

describe('own boards', () => {
  test('the clear boards give 670 of the 765 mm that the top needs; the wet one does not count', () => {
    const taken = takeOff(spec({ wood: 'ash-white', stock: ash }), desk);
    const short = taken.problems.find((p) => p.code === 'takeoff/top-short-of-boards');
    expect(short?.severity).toBe('warning');
    expect(short?.found).toContain('670');
    expect(short?.allowed).toContain('765');
    expect(short?.mend).toContain('s4');
    expect(taken.problems.find((p) => p.code === 'takeoff/board-not-ready')?.path).toEqual(['table', 'stock', 's6', 'moisture']);
    const [forTop, forLegs] = taken.timber;
    expect((forTop?.ownedM3 ?? 0) / (forTop?.grossM3 ?? 1)).toBeCloseTo(670 / 765, 9);
    expect(forLegs).toMatchObject({ timber: 'ash-65', ownedM3: 0 });
  });

  test('dried and with the knot on show, they make the top and two of the four legs', () => {
    const { s4, s6 } = ash;
    if (s4 === undefined || s6 === undefined) throw new Error('the stock is incomplete');
    const ready = { ...ash, s4: { ...s4, usableWidth: length(190) }, s6: { ...s6, moisture: percent(10) } };
    const taken = takeOff(spec({ wood: 'ash-white', stock: ready }), desk);
    expect(taken.problems.filter((p) => p.path[1] === 'stock')).toEqual([]);
    const [forTop, forLegs] = taken.timber;
    expect(forTop?.toBuyM3).toBe(0);
    // 160 mm holds two strips of 65 with a cut of 3 between; 1250 mm one length of 747.
    expect(forLegs?.ownedM3).toBeCloseTo((forLegs?.grossM3 ?? 0) / 2, 12);
  });

  test('bought boards cover nothing of the price, boards of another wood, too thin, too short or far too thick neither', () => {
    const { s3 } = ash;
    if (s3 === undefined) throw new Error('the stock is incomplete');
    for (const other of [
      { ...s3, owned: false },
      { ...s3, wood: 'oak-european' },
      { ...s3, thickness: length(32) },
      { ...s3, length: length(1700) },
      { ...s3, thickness: length(55) },
    ]) {
      const taken = takeOff(spec({ wood: 'ash-white', stock: { other } }), desk);
      expect(taken.timber.every((t) => t.ownedM3 === 0 && t.toBuyM3 === t.grossM3)).toBe(true);
    }
  });

  test('what is cut from a board is gone, the rest of it is used again', () => {
    const legs = { ...desk, parts: desk.parts.slice(1) };
    const cover = (lengthMm: number, widthMm: number, count = 1) => {
      const taken = takeOff(spec({ wood: 'ash-white', stock: { one: board(lengthMm, widthMm, 65, { count }) } }), legs);
      const [line] = taken.timber;
      return Math.round((4 * (line?.ownedM3 ?? 0)) / (line?.grossM3 ?? 1));
    };
    // A leg is 747 x 65 rough, the kerf 3 mm.
    expect(cover(747, 65)).toBe(1);
    expect(cover(746, 65)).toBe(0);
    expect(cover(1496, 65)).toBe(1);
    expect(cover(1497, 65)).toBe(2);
    expect(cover(747, 132)).toBe(1);
    expect(cover(747, 133)).toBe(2);
    expect(cover(1497, 133)).toBe(4);
    expect(cover(3000, 400)).toBe(4);
    expect(cover(747, 65, 3)).toBe(3);
  });
});
