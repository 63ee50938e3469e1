/** Finish areas against the skin of the glued base as one body of a general-purpose solid kernel (manifold-3d). */
import { expect, test } from 'vitest';
import { designTable } from '../../src/design/index.ts';
import type { TableSpec } from '../../src/spec/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';
import { freePart, joint, length, length2, length3, reedAprons, reedBase, reedLegs, specOf } from '../fixtures.ts';
import { manifold, placedBody } from '../solid/oracle.ts';

const pedestal: Partial<TableSpec> = {
  top: {
    kind: 'round',
    diameter: length(1200),
    thickness: length(30),
    sawn: 'flat',
    grain: 'length',
    underChamfer: { in: length(18), up: length(18) },
  },
  base: {
    kind: 'pedestal',
    post: { shape: 'octagon', size: length(115), footSize: length(140) },
    foot: { kind: 'cross', span: length(900), width: length(90), height: length(60), turned: false },
    head: { kind: 'cross', span: length(780), width: length(75), height: length(50) },
  },
  fixing: { kind: 'slotted-screws' },
};

const splayed: Partial<TableSpec> = {
  base: {
    kind: 'legs',
    legs: { ...reedLegs, taper: 'all', endOverhang: length(380), footEndOverhang: length(310), footSideOverhang: length(45) },
    aprons: { ...reedAprons, height: length(40) },
  },
};

/** Two posts into which a rail goes 40 mm, and an angled block let 10 mm into the rail. */
const trestle: Partial<TableSpec> = {
  base: { kind: 'parts' },
  parts: {
    post: freePart({ kind: 'box', size: length3(60, 140, 717), at: length3(600, 0, 0), mirror: ['x'], grain: 'z', role: 'post' }),
    rail: freePart({ kind: 'box', size: length3(1220, 30, 70), at: length3(0, 0, 300), role: 'rail' }),
    peg: freePart({
      kind: 'extruded',
      outline: [length2(-60, -20), length2(60, -20), length2(60, 20), length2(20, 20), length2(20, 60), length2(-60, 60)],
      holes: [],
      height: length(20),
      at: length3(0, 0, 360),
      grain: 'x',
    }),
  },
  joints: {
    rail: joint('mortise-and-tenon', 'parts/rail', 'parts/post*'),
    peg: joint('housing', 'parts/peg', 'parts/rail'),
  },
};

test.each([
  ['upright tapered legs', { base: reedBase }],
  ['splayed legs', splayed],
  ['a pedestal with crossed feet and bearers', pedestal],
  ['parts let into each other', trestle],
])('%s', (_, patch) => {
  const spec = specOf(patch);
  const { table, problems } = designTable(spec);
  expect(problems.filter((p) => p.severity === 'error')).toEqual([]);
  if (table === undefined) throw new Error('no table');
  const body = (ids: readonly (typeof table.parts)[number][]) => manifold.Manifold.union(ids.map((p) => placedBody(p.solid, p.placement)));
  const top = table.parts.filter((p) => p.id === table.top.partId);
  const base = body(table.parts.filter((p) => p.id !== table.top.partId));
  const floorMm2 = base.slice(1e-3).area();
  const expected = body(top).surfaceArea() + base.surfaceArea() - floorMm2;
  const taken = takeOff(spec, table);
  expect((taken.finishAreaM2 * 1e6) / expected).toBeCloseTo(1, 5);
  expect(taken.undersideAreaM2 * 1e6).toBeCloseTo(
    body(top)
      .slice(table.top.heightMm - table.top.thicknessMm + 1e-4)
      .area(),
    -3,
  );
});
