/** Tables reckoned by hand: plain formulas of mensuration, written out. Demo sizes are invented. */
import { describe, expect, test } from 'vitest';
import type { Part, Table } from '../../src/design/index.ts';
import { designTable, partMassKg, partVolume } from '../../src/design/index.ts';
import { floorContact } from '../../src/solid/index.ts';
import type { EffectiveSpec } from '../../src/spec/index.ts';
import { length, reedAprons, reedLegs, specOf } from '../fixtures.ts';
import { tables } from './tables.ts';

const GRAVITY = 9.80665;
const OAK = 670e-9;

function tableOf(spec: EffectiveSpec): Table {
  const { table, problems } = designTable(spec);
  if (table === undefined) throw new Error(problems.map((p) => p.title).join('; '));
  return table;
}

const part = (table: Table, id: string): Part => {
  const found = table.parts.find((p) => p.id === id);
  if (found === undefined) throw new Error(id);
  return found;
};
const kg = (table: Table): number => table.parts.reduce((sum, p) => sum + partMassKg(p), 0);

describe('Reed, first revision', () => {
  const table = tableOf(specOf());

  test('top, legs and aprons by formula', () => {
    expect(partMassKg(part(table, 'top'))).toBeCloseTo(2100 * 820 * 28 * OAK, 9);
    // Pyramid frustum: h (A + a + sqrt(A a)) / 3 with squares of 62 and 42.
    expect(partMassKg(part(table, 'base/leg-front-left'))).toBeCloseTo(((717 * (62 * 62 + 42 * 42 + 62 * 42)) / 3) * OAK, 9);
    // Shoulders follow the tapered faces: 20 mm in 717, so an apron is longer below; its mean length is at half its height.
    const between = 2100 - 2 * 320 - 2 * 62;
    const mean = between + (2 * 20 * 30) / 717;
    expect(partMassKg(part(table, 'base/apron-front'))).toBeCloseTo(mean * 60 * 24 * OAK, 9);
    expect(part(table, 'base/apron-front').sizeMm.length).toBeCloseTo(between + (2 * 20 * 60) / 717, 9);
  });

  test('about 41 kg, end tipping load 50 mm inside about 1,093 N', () => {
    const feet = table.parts.flatMap((p) => floorContact(p.solid, p.placement));
    const reach = Math.max(...feet.flatMap((f) => (f.kind === 'polygon' ? f.points.map((p) => p[0]) : [])));
    expect(reach).toBeCloseTo(1050 - 320, 9);
    expect(kg(table)).toBeGreaterThan(41);
    expect(kg(table)).toBeLessThan(41.5);
    expect((kg(table) * GRAVITY * reach) / (1000 - reach)).toBeCloseTo(1093, 0);
  });

  test('outer faces of the legs stay plane; overhangs run to them at head and foot', () => {
    const leg = part(table, 'base/leg-back-right');
    if (leg.solid.kind !== 'polyhedron') throw new Error('a square leg has plane faces');
    const xs = leg.solid.vertices.map((v) => v[0] + leg.placement.originMm[0]);
    const ys = leg.solid.vertices.map((v) => v[1] + leg.placement.originMm[1]);
    expect(Math.max(...xs)).toBeCloseTo(1050 - 320, 9);
    expect(Math.max(...ys)).toBeCloseTo(410 - 70, 9);
    expect([...new Set(xs.map((x) => x.toFixed(6)))]).toHaveLength(3);
  });

  test('types: legs one line of the cutting list, aprons two; boards; features', () => {
    expect([...new Set(table.parts.map((p) => p.type))]).toEqual(['top', 'leg', 'apron', 'apron-2']);
    // 820 / 150 usual: six boards of 137.
    expect(part(table, 'top').boards).toBe(6);
    expect(table.top.boardWidthMm).toBeCloseTo(820 / 6, 9);
    expect(part(table, 'base/leg-front-left').features).toEqual(['tapered']);
  });

  test('eight mortise-and-tenons, shoulders of a slant: height x thickness over the cosine', () => {
    expect(table.joints).toHaveLength(8);
    for (const joint of table.joints) {
      expect(joint.kind).toBe('mortise-and-tenon');
      // Clipped on a grid of 0.001 mm along 84 mm and 24 mm of edge.
      expect(Math.abs(joint.contactAreaMm2 - (60 * 24 * Math.hypot(717, 20)) / 717)).toBeLessThan(0.1);
      expect(joint.tenonMm).toBeGreaterThan(20);
    }
  });

  test('fixings along the aprons, at most 300 mm apart, slots across the grain, fast by the middle line', () => {
    const front = table.fixing.pointsMm.filter((p) => p.yMm < -300).map((p) => p.xMm);
    for (let k = 1; k < front.length; k++) expect((front[k] ?? 0) - (front[k - 1] ?? 0)).toBeLessThanOrEqual(300);
    for (const p of table.fixing.pointsMm) expect(p.slotAlong).toBe(Math.abs(p.yMm) < 20 ? 'none' : 'y');
  });

  test('grain: top along x with T across; legs and aprons along themselves', () => {
    expect(part(table, 'top').grain).toEqual({ L: [1, 0, 0], R: [0, 0, 1], T: [0, -1, 0] });
    expect(part(table, 'base/apron-left').grain?.L).toEqual([0, 1, 0]);
    const { L } = part(table, 'base/leg-front-left').grain ?? { L: [0, 0, 0] };
    expect(L).toEqual([0, 0, 1]);
  });
});

describe('splayed legs', () => {
  const spec = specOf({
    base: {
      kind: 'legs',
      legs: { ...reedLegs, endOverhang: length(380), footEndOverhang: length(310), footSideOverhang: length(50) },
      aprons: { ...reedAprons, height: length(40), thickness: length(28) },
    },
  });
  const table = tableOf(spec);

  test('a sheared leg has the volume of the upright one (Cavalieri) and stands flat at the overhang of the foot', () => {
    const leg = part(table, 'base/leg-front-right');
    expect(partVolume(leg).volumeMm3).toBeCloseTo((717 * (62 * 62 + 42 * 42 + 62 * 42)) / 3, 4);
    const [foot] = floorContact(leg.solid, leg.placement);
    const points = foot?.kind === 'polygon' ? foot.points : [];
    expect(Math.max(...points.map((p) => p[0]))).toBeCloseTo(1050 - 310, 9);
    expect(Math.min(...points.map((p) => p[1]))).toBeCloseTo(-(410 - 50), 9);
    expect(leg.features).toEqual(['tapered', 'splayed']);
  });

  test('grain follows the outer edge: 70 mm along and 20 mm across in 717', () => {
    const { L } = part(table, 'base/leg-back-right').grain ?? { L: [0, 0, 0] };
    const size = Math.hypot(70, 20, 717);
    expect(L[0]).toBeCloseTo(-70 / size, 9);
    expect(L[1]).toBeCloseTo(-20 / size, 9);
  });
});

describe('slab ends', () => {
  // Demo figures: 600 x 40 slabs set in 300 under 2100 x 820 x 28, stretcher 100 x 30.
  const table = tableOf(
    specOf({
      base: {
        kind: 'slab-ends',
        slabs: { width: length(600), thickness: length(40), endOverhang: length(300), boardWidth: length(120) },
        stretcher: { height: length(100), thickness: length(30), at: length(480) },
      },
    }),
  );

  test('mass, grain upright, five boards of 120', () => {
    const hand = (2100 * 820 * 28 + 2 * 600 * 40 * 717 + (2100 - 600 - 80) * 100 * 30) * OAK;
    expect(kg(table)).toBeCloseTo(hand, 9);
    const slab = part(table, 'base/slab-left');
    expect(slab.grain?.L).toEqual([0, 0, 1]);
    expect(slab.boards).toBe(5);
    expect(slab.sizeMm).toEqual({ length: 717, width: 600, thickness: 40 });
    expect(slab.features).toEqual(['glued-up']);
  });

  test('the stretcher meets both slabs with its whole end; fixings stand on the slabs', () => {
    expect(table.joints.map((j) => j.contactAreaMm2)).toEqual([3000, 3000]);
    for (const p of table.fixing.pointsMm) expect(Math.abs(p.xMm)).toBeCloseTo(730, 6);
  });
});

describe('pedestals', () => {
  test('octagonal post on a disc: 2 (sqrt 2 - 1) w^2 and cones', () => {
    const table = tableOf(tables['octagonal post on a disc'] as EffectiveSpec);
    const frustum = (h: number, a: number, b: number): number => (h * (a + b + Math.sqrt(a * b))) / 3;
    const octagon = (w: number): number => 2 * (Math.SQRT2 - 1) * w * w;
    const disc = (d: number): number => (Math.PI * d * d) / 4;
    const post = 737 - 31.75 - 44.45 - 50;
    expect(partVolume(part(table, 'base/post')).volumeMm3).toBeCloseTo(frustum(post, octagon(110), octagon(150)), 3);
    expect(partVolume(part(table, 'base/foot')).volumeMm3).toBeCloseTo(frustum(44.45, disc(762), disc(740)), 3);
    const top = frustum(19.05, disc(1219.2 - 120), disc(1219.2)) + disc(1219.2) * (31.75 - 19.05);
    expect(partVolume(part(table, 'top')).volumeMm3).toBeCloseTo(top, 2);
    // Two bearers 790 x 76 x 50 halved across each other.
    const bearers = ['base/bearer', 'base/bearer-2'].map((id) => partVolume(part(table, id)).volumeMm3);
    expect(bearers[0]).toBeCloseTo(790 * 76 * 50 - 76 * 76 * 25, 6);
    expect((bearers[0] ?? 0) + (bearers[1] ?? 0)).toBeCloseTo(2 * 790 * 76 * 50 - 76 * 76 * 50, 6);
  });

  test('steel let into a cross foot: its weight is added, the wood that it replaces taken off, the height kept', () => {
    const spec = tables['round post on a cross foot with steel'] as EffectiveSpec;
    const { base } = spec.table;
    if (base.kind !== 'pedestal') throw new Error('a pedestal');
    const bare = { ...base };
    delete (bare as { ballast?: unknown }).ballast;
    const without = tableOf({ ...spec, table: { ...spec.table, base: bare } });
    const table = tableOf(spec);
    const steel = Math.PI * 150 * 150 * 10;
    // Both arms within the plate: a cross of two strips 90 wide across a circle of radius 150, by exact areas.
    const strip = 2 * (45 * Math.sqrt(150 ** 2 - 45 ** 2) + 150 ** 2 * Math.asin(45 / 150));
    const wood = (2 * strip - 90 * 90) * 10;
    // Chords of the plate's polygon lie within 0.02 mm.
    expect(kg(table) - kg(without)).toBeCloseTo(steel * 7850e-9 - wood * OAK, 2);
    expect(table.overallMm.height).toBeCloseTo(737, 9);
    expect(table.joints.filter((j) => j.kind === 'screws')).toHaveLength(2);
  });
});

describe('a free lap counts its wood once', () => {
  test('half from each beam', () => {
    const table = tableOf(tables['free parts: crossed beams let into each other, standing on a drum'] as EffectiveSpec);
    const [x, y] = [part(table, 'parts/beam-x'), part(table, 'parts/beam-y')];
    expect(partVolume(x).volumeMm3).toBeCloseTo(1100 * 60 * 70 - 30 * 60 * 70, 6);
    expect(partVolume(y).volumeMm3).toBeCloseTo(620 * 60 * 70 - 30 * 60 * 70, 6);
    expect(table.joints.map((j) => j.id)).toEqual(['cross', 'seat', 'seat-2']);
  });
});
