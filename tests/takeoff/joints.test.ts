/** What joints do to the take-off: tenons are cut from the rail, a pair meets once, what comes apart is counted once. */
import { expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { designTable } from '../../src/design/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { reedBase, specOf } from '../fixtures.ts';
import { rates, spec } from './rates.ts';
import { jointOf, plain } from './tables.ts';

test('a rail is cut longer by the tenons at its ends, and bought so', () => {
  const tenoned: Table = { ...plain, joints: plain.joints.map((j) => ({ ...j, tenonMm: 40 })) };
  const rail = takeOff(spec(), tenoned).cuttingList.find((c) => c.type === 'rail');
  expect(rail).toMatchObject({ tenonsMm: 80, finishedMm: { length: 1380 } });
  expect(rail?.roughMm.length).toBe(1380 + 80 + 40);
  expect(rail?.netM3).toBeCloseTo(2 * 1.5 * 0.09 * 0.04, 12);
  const legs = takeOff(spec(), tenoned).cuttingList.find((c) => c.type === 'leg');
  expect(legs?.tenonsMm).toBe(0);
});

test('the tenons of a designed table are those of its joints', () => {
  const { table } = designTable(specOf({ base: reedBase }));
  if (table === undefined) throw new Error('no table');
  const taken = takeOff(specOf({ base: reedBase }), table);
  const aprons = taken.cuttingList.filter((c) => c.partIds.some((id) => id.includes('apron')));
  expect(aprons.length).toBe(2);
  for (const line of aprons) {
    const tenons = table.joints.filter((j) => j.a === line.partIds[0]).map((j) => j.tenonMm ?? Number.NaN);
    expect(tenons.length).toBe(2);
    expect(line.tenonsMm).toBeCloseTo(
      tenons.reduce((a, b) => a + b, 0),
      9,
    );
    expect(line.tenonsMm).toBeGreaterThan(20);
  }
});

test('two parts that two joints hold together hide their contact once', () => {
  const twice: Table = { ...plain, joints: plain.joints.flatMap((j) => [j, { ...j, id: `${j.id}#2`, kind: 'dowels' as const }]) };
  expect(takeOff(spec(), twice).finishAreaM2).toBeCloseTo(takeOff(spec(), plain).finishAreaM2, 12);
});

test('a screwed contact inside a glued assembly is hidden, between assemblies it is not', () => {
  const bare = { ...plain, joints: [] };
  const free = takeOff(spec(), bare).finishAreaM2;
  const screws = jointOf('screws', 'rail-1', 'leg-1', 2000);
  expect(takeOff(spec(), { ...plain, joints: [screws] }).finishAreaM2).toBeCloseTo(free, 12);
  const around = [jointOf('dowels', 'rail-1', 'leg-2', 2000), jointOf('dowels', 'leg-1', 'leg-2', 0), screws];
  expect(takeOff(spec(), { ...plain, joints: around }).finishAreaM2).toBeCloseTo(free - (4 * 2000) / 1e6, 12);
});

test('a screwed joint that comes apart is counted with those that come apart, not twice', () => {
  const operation = { says: '', per: 'joint' as const, low: 1, mid: 1, high: 1, finishing: false };
  const joints = [
    jointOf('screws', 'rail-1', 'leg-1', 100),
    jointOf('slotted-screws', 'rail-1', 'leg-2', 100, { knockDown: true }),
    jointOf('bolts', 'rail-2', 'leg-3', 100),
  ];
  const hardware = { ...rates.hardware, 'slotted-screws': { says: 'Screw', price: rates.hour } };
  const taken = takeOff(spec({}, { hardware, operations: { 'screwed-joint': operation, 'knock-down': operation } }), { ...plain, joints });
  expect(taken.operations.map((o) => [o.id, o.quantity])).toEqual([
    ['screwed-joint', 1],
    ['knock-down', 2],
  ]);
});
