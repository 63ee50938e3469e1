import { describe, expect, test } from 'vitest';
import { assessTable } from '../../src/assess/index.ts';
import { peopleFor } from '../../src/assess/pieces.ts';
import { cornerSpareMm } from '../../src/assess/way-in.ts';
import type { AccessSpec } from '../../src/spec/index.ts';
import { length, proposal, specOf } from '../fixtures.ts';
import { block, fourLegs, joint, tableOf } from './by-hand.ts';

describe('round a corner', () => {
  test('the ladder problem: (a^(2/3) + b^(2/3))^(3/2) just passes', () => {
    for (const [a, b] of [
      [920, 920],
      [780, 900],
      [1000, 3000],
    ] as const) {
      const longest = (a ** (2 / 3) + b ** (2 / 3)) ** 1.5;
      expect(cornerSpareMm(longest, 0, a, b)).toBeCloseTo(0, 6);
      expect(cornerSpareMm(longest * 1.01, 0, a, b)).toBeLessThan(0);
    }
  });
  test('a rectangle moved through in half degrees by brute force agrees', () => {
    // At each angle the plate lies with both ends on the outer walls; the nearest it comes to the inner corner is looked for along it.
    for (const [lengthMm, thick, a, b] of [
      [2100, 30, 920, 920],
      [1750, 60, 780, 900],
      [1200, 300, 900, 850],
    ] as const) {
      let spare = Number.POSITIVE_INFINITY;
      for (let k = 1; k < 1800; k++) {
        const t = (k * Math.PI) / 3600;
        const [p, q] = [
          [lengthMm * Math.cos(t), 0],
          [0, lengthMm * Math.sin(t)],
        ] as const;
        const along = [(q[0] - p[0]) / lengthMm, (q[1] - p[1]) / lengthMm] as const;
        const corner = [b, a] as const;
        const away = Math.abs((corner[0] - p[0]) * along[1] - (corner[1] - p[1]) * along[0]);
        const beyond = (corner[0] - p[0]) * along[1] - (corner[1] - p[1]) * along[0] >= 0;
        spare = Math.min(spare, (beyond ? away : -away) - thick);
      }
      const found = cornerSpareMm(lengthMm, thick, a, b);
      if (lengthMm > Math.max(a, b)) expect(found).toBeCloseTo(spare, 1);
    }
  });
  test('a short piece goes sideways without turning', () => {
    expect(cornerSpareMm(880, 850, 900, 900)).toBe(20);
  });
});

describe('pieces and the way in', () => {
  const top = { lengthMm: 2100, widthMm: 820, thicknessMm: 28, heightMm: 745 };
  const legs = fourLegs(top, 60, 300, 70);
  const rail = block('rail', 'rail', [1380, 24, 60], [0, 0, 657]);
  const joints = [...legs.map((leg) => joint('mortise-and-tenon', leg.id, 'rail'))];
  const door: AccessSpec = { kind: 'door', says: 'flat door', width: length(760), height: length(2020) };
  const fitOf = (access: readonly AccessSpec[], over = {}) =>
    assessTable(
      specOf({}, { proposal: { ...proposal, room: { ...proposal.room, access } } }),
      tableOf(top, [...legs, rail], { joints, ...over }),
    ).fit;

  test('the top comes off its buttons, the base stays whole', () => {
    const { pieces } = fitOf([]);
    expect(pieces.map((piece) => piece.parts.length)).toEqual([1, 5]);
    expect(pieces[0]?.boxMm).toEqual([2100, 820, 28]);
  });
  test('a rigid fixing makes one piece; knock-down joints make many', () => {
    expect(fitOf([], { fixing: { kind: 'rigid', pointsMm: [], from: ['table', 'fixing'] } }).pieces).toHaveLength(1);
    expect(fitOf([], { joints: joints.map((j) => ({ ...j, knockDown: true })) }).pieces).toHaveLength(6);
  });
  test('door: two smaller sizes, either way up', () => {
    expect(fitOf([door]).wayIn[0]?.result).toBe('passes');
    expect(fitOf([{ ...door, width: length(690) }]).wayIn[0]?.result).toBe('tight');
    expect(fitOf([{ ...door, width: length(600) }]).wayIn[0]?.result).toBe('not-proven');
    expect(fitOf([{ ...door, height: length(500), width: length(500) }]).wayIn[0]?.result).toBe('does-not-pass');
  });
  test("a plate tilted through a hatch: Carver's closed form says just the same", () => {
    // p x q fits a x b with p > a when ((a + b) / (p + q))^2 + ((a - b) / (p - q))^2 >= 2 (American Mathematical Monthly 64, 1957; from memory).
    for (const [a, b] of [
      [700, 600],
      [800, 640],
      [620, 610],
    ] as const) {
      for (let p = a + 20; p < Math.hypot(a, b); p += 20) {
        for (const q of [10, 40, 90]) {
          const fits = ((a + b) / (p + q)) ** 2 + ((a - b) / (p - q)) ** 2 >= 2;
          const plate = { lengthMm: 2000, widthMm: p, thicknessMm: q, heightMm: 740 };
          const hatch: AccessSpec = { kind: 'hatch', says: 'hatch', width: length(a), height: length(b) };
          const spec = specOf({}, { proposal: { ...proposal, room: { ...proposal.room, access: [hatch] } } });
          const { wayIn } = assessTable(spec, tableOf(plate, [])).fit;
          expect(wayIn[0]?.result === 'does-not-pass', `${p} x ${q} in ${a} x ${b}`).toBe(!fits);
        }
      }
    }
  });
  test('a winding stair is never proven for a long top', () => {
    const stair: AccessSpec = { kind: 'stair', says: 'winder', width: length(780), headroom: length(1960), winder: true };
    const [step] = fitOf([stair]).wayIn;
    expect(step?.result).toBe('not-proven');
    // The top on edge, 820 high and 2,100 long, can not turn in 780: the base neither, but the top is the farther off.
    expect(step?.why).toMatch(/^top, /);
    const short = { lengthMm: 700, widthMm: 400, thicknessMm: 28, heightMm: 500 };
    const low = assessTable(
      specOf({}, { proposal: { ...proposal, room: { ...proposal.room, access: [stair] } } }),
      tableOf(short, fourLegs(short, 40, 40, 40)),
    );
    expect(low.fit.wayIn[0]?.result).toBe('passes');
    // 700 on end, the 401 of its other sides over the rise of a stair of 42 degrees: 700 + 401 x 0.900 = 1,061 of 1,960.
    expect(low.fit.wayIn[0]?.why).toMatch(/to spare$/);
  });
  test('people by mass', () => {
    expect([24.9, 25, 25.1, 50, 50.1].map(peopleFor)).toEqual([1, 1, 2, 2, 3]);
  });
});
