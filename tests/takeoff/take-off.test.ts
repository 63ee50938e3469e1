import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { cone, volumeMm3 } from '../../src/solid/index.ts';
import { boardFeetOfM3, perimeterMm, takeOff } from '../../src/takeoff/index.ts';
import { decimal, library, variant } from '../fixtures.ts';
import { rates, spec } from './rates.ts';
import { boxPart, jointOf, plain, withParts } from './tables.ts';

const codes = (taken: { readonly problems: readonly { readonly code: string }[] }) => taken.problems.map((p) => p.code);

describe('cutting list and timber of a plain table', () => {
  const taken = takeOff(spec(), plain);

  test('one line for each type, with rough sizes reckoned by hand', () => {
    expect(taken.cuttingList.map(({ type, count, timber, boards, layers }) => ({ type, count, timber, boards, layers }))).toEqual([
      { type: 'top', count: 1, timber: 'oak-40', boards: 6, layers: 1 },
      { type: 'leg', count: 4, timber: 'oak-65', boards: 1, layers: 1 },
      { type: 'rail', count: 2, timber: 'oak-40', boards: 1, layers: 1 },
    ]);
    const [top, leg, rail] = taken.cuttingList;
    // Six boards share 800 + 15 mm and carry 10 mm each.
    expect(top?.roughMm).toEqual({ length: 1640, width: 815 / 6 + 10, thickness: 40 });
    expect(top?.netM3).toBeCloseTo(1.64 * 0.875 * 0.04, 12);
    expect(leg?.netM3).toBeCloseTo(4 * 0.76 * 0.07 * 0.065, 12);
    expect(rail?.netM3).toBeCloseTo(2 * 1.42 * 0.09 * 0.04, 12);
  });

  test('timber: net, gross with the addition on the net, m3 and board feet', () => {
    const [oak40, oak65] = taken.timber;
    const net40 = 1.64 * 0.875 * 0.04 + 2 * 1.42 * 0.09 * 0.04;
    expect(oak40).toMatchObject({ timber: 'oak-40', thicknessMm: 40, additionPercent: 35, ownedM3: 0 });
    expect(oak40?.netM3).toBeCloseTo(net40, 12);
    expect(oak40?.toBuyM3).toBeCloseTo(net40 * 1.35, 12);
    expect(oak40?.toBuyBoardFeet).toBeCloseTo((net40 * 1.35) / (144 * 0.0254 ** 3), 9);
    expect(oak65?.grossM3).toBeCloseTo(4 * 0.76 * 0.07 * 0.065 * 1.35, 12);
    expect(taken.timber.reduce((sum, t) => sum + t.netM3, 0)).toBeCloseTo(
      taken.cuttingList.reduce((sum, c) => sum + c.netM3, 0),
      12,
    );
  });

  test('a thick post is laminated, said so, and every layer is bought', () => {
    const post = boxPart('post', 'post', [100, 120, 700], [0, 0, 0], [700, 120, 100]);
    const thick = takeOff(spec(), withParts(post));
    const line = thick.cuttingList.find((c) => c.type === 'post');
    // Three layers of 40 mm (120) are a thinner stack than two of 65 mm (130).
    expect(line).toMatchObject({ timber: 'oak-40', layers: 3 });
    expect(line?.netM3).toBeCloseTo(3 * 0.74 * 0.13 * 0.04, 12);
    expect(codes(thick)).toContain('takeoff/laminated');
    expect(thick.operations.find((o) => o.id === 'glue-up')?.quantity).toBe(2);
  });

  test('a wood without timber in the rates is an error', () => {
    const walnut = boxPart('shelf', 'panel', [300, 200, 20], [0, 0, 100], [300, 200, 20], { wood: 'walnut-black' });
    const taken2 = takeOff(spec(), withParts(walnut));
    expect(taken2.problems.find((p) => p.code === 'takeoff/no-timber')).toMatchObject({ severity: 'error', found: 'walnut-black' });
  });
});

describe('surfaces', () => {
  // Top 2 x 1.6 x 0.8 + edges; legs 4 sides and two ends; rails 4 sides and two ends.
  const topMm2 = 2 * 1600 * 800 + 2 * (1600 + 800) * 30;
  const baseMm2 = 4 * (4 * 60 * 720 + 2 * 60 * 60) + 2 * (2 * 1380 * (80 + 25) + 2 * 80 * 25);
  const gluedMm2 = 4 * 2 * 2000;
  const floorMm2 = 4 * 60 * 60;

  test('skin less glued contact on both parts less floor contact', () => {
    const taken = takeOff(spec(), plain);
    expect(taken.finishAreaM2).toBeCloseTo((topMm2 + baseMm2 - gluedMm2 - floorMm2) / 1e6, 12);
    expect(taken.undersideAreaM2).toBeCloseTo(1.28, 12);
    expect(taken.finish.map((f) => [f.surface, Number(f.areaM2.toFixed(9))])).toEqual([
      ['top', (topMm2 - 1600 * 800) / 1e6],
      ['underside', 1.28],
      ['base', Number(((baseMm2 - gluedMm2 - floorMm2) / 1e6).toFixed(9))],
    ]);
    // 2 coats, 24 m2 a litre, 10 % lost.
    expect(taken.finish[1]?.litres).toBeCloseTo(((1.28 * 2) / 24) * 1.1, 12);
  });

  test('a joint that comes apart or is screwed hides nothing from the finish', () => {
    const whole = (topMm2 + baseMm2 - floorMm2) / 1e6;
    const loose: Table = { ...plain, joints: plain.joints.map((j) => ({ ...j, knockDown: true })) };
    const screwed: Table = { ...plain, joints: plain.joints.map((j) => ({ ...j, kind: 'screws' as const })) };
    expect(takeOff(spec(), loose).finishAreaM2).toBeCloseTo(whole, 12);
    expect(takeOff(spec(), screwed).finishAreaM2).toBeCloseTo(whole, 12);
  });

  test('turning the table about the upright axis changes no surface', () => {
    const turned: Table = {
      ...plain,
      parts: plain.parts.map((part) => {
        const [x, y, z] = part.placement.originMm;
        const [c, s] = [0.6, 0.8];
        return {
          ...part,
          placement: {
            originMm: [c * x - s * y, s * x + c * y, z],
            axes: [
              [c, -s, 0],
              [s, c, 0],
              [0, 0, 1],
            ],
          },
        };
      }),
    };
    const [a, b] = [takeOff(spec(), plain), takeOff(spec(), turned)];
    expect(b.finishAreaM2).toBeCloseTo(a.finishAreaM2, 9);
    expect(b.undersideAreaM2).toBeCloseTo(a.undersideAreaM2, 9);
  });

  test('twice the size is four times the area and eight times the finished volume', () => {
    const twice: Table = {
      ...plain,
      joints: plain.joints.map((j) => ({ ...j, contactAreaMm2: j.contactAreaMm2 * 4 })),
      parts: plain.parts.map((p) => {
        const solid =
          p.solid.kind === 'polyhedron'
            ? { ...p.solid, vertices: p.solid.vertices.map(([x, y, z]) => [2 * x, 2 * y, 2 * z] as const) }
            : p.solid;
        const [x, y, z] = p.placement.originMm;
        return { ...p, solid, placement: { ...p.placement, originMm: [2 * x, 2 * y, 2 * z] } };
      }),
    };
    expect(takeOff(spec(), twice).finishAreaM2).toBeCloseTo(4 * takeOff(spec(), plain).finishAreaM2, 9);
  });

  test('another finish for the base, and an unknown one', () => {
    const wax = { ...library.finishes['hardwax-oil'], coats: 3 } as (typeof library.finishes)[string];
    const base = spec({ baseFinish: 'wax' });
    const taken = takeOff({ ...base, library: { ...base.library, finishes: { ...base.library.finishes, wax } } }, plain);
    expect(taken.finish.map((f) => [f.surface, f.finish, f.coats])).toEqual([
      ['top', 'hardwax-oil', 2],
      ['underside', 'hardwax-oil', 2],
      ['base', 'wax', 3],
    ]);
    expect(codes(takeOff(spec({ finish: 'varnsh' }), plain))).toContain('takeoff/unknown-finish');
  });
});

describe('hours', () => {
  test('each operation is counted from what it is done to', () => {
    const taken = takeOff(spec(), plain);
    const quantity = Object.fromEntries(taken.operations.map((o) => [o.id, o.quantity]));
    expect(quantity).toMatchObject({
      design: 1,
      'glue-up': 1,
      'panel-trim': 1,
      'mortise-and-tenon': 4,
      'square-leg': 4,
      assembly: 1,
      delivery: 1,
    });
    expect(quantity['edge-joint']).toBeCloseTo(5 * 1.6, 12);
    expect(quantity.flattening).toBeCloseTo(2 * 1.28, 12);
    expect(quantity['edge-shaping']).toBeCloseTo(4.8, 12);
    expect(quantity.arris).toBeCloseTo(4 * (4 * 0.72 + 2 * 1.38), 12);
    // Four long faces of every piece.
    expect(quantity.milling).toBeCloseTo(2 * 1.6 * 0.83 + 4 * 2 * 0.72 * 0.12 + 2 * 2 * 1.38 * 0.105, 12);
    expect(quantity.sanding).toBeCloseTo(taken.finishAreaM2, 12);
    expect(quantity['wiped-coat']).toBeCloseTo(2 * taken.finishAreaM2, 12);
    expect(quantity['between-coats']).toBeCloseTo(taken.finishAreaM2, 12);
    expect(taken.operations.find((o) => o.id === 'mortise-and-tenon')?.driver).toBe('4 mortises and tenons');
    expect(taken.hours.mid).toBeCloseTo(
      taken.operations.reduce((sum, o) => sum + o.quantity * (rates.operations[o.id]?.mid ?? 0), 0),
      12,
    );
    expect(taken.hours).toMatchObject({ low: taken.hours.mid / 2, high: taken.hours.mid * 2 });
    const finishing = taken.finishAreaM2 * (0.9 + 0.4 + 0.15) + 2.56 * 1.5;
    expect(taken.finishingShare).toBeCloseTo(finishing / taken.hours.mid, 12);
  });

  test('extra work keeps its hours; work without an operation is a warning', () => {
    const lap = { ...plain, joints: [...plain.joints, jointOf('lap', 'rail-1', 'rail-2', 100)] };
    const taken = takeOff(spec({ work: { inlay: { says: 'Inlay', hours: { low: 2, mid: 3, high: 5 } } } }), lap);
    expect(taken.operations.at(-1)).toMatchObject({ id: 'own-work/inlay', per: 'own', hours: { low: 2, mid: 3, high: 5 } });
    expect(taken.problems.find((p) => p.code === 'takeoff/uncounted-work')).toMatchObject({
      severity: 'warning',
      found: 'no operation lap',
    });
  });

  test('an operation that nothing counts or in another unit is an error', () => {
    const { milling } = rates.operations;
    if (milling === undefined) throw new Error('the test rates have no milling');
    const taken = takeOff(spec({}, { operations: { milling: { ...milling, per: 'table' }, juggling: milling } }), plain);
    expect(taken.problems.filter((p) => p.severity === 'error').map((p) => p.code)).toEqual([
      'takeoff/operation-unit',
      'takeoff/unknown-operation',
    ]);
  });

  test('hours far from the maker’s estimate, and an unusual share of finishing, are said', () => {
    const base = spec();
    const { mid } = takeOff(base, plain).hours;
    const estimated = (hours: number) => codes(takeOff({ ...base, variant: { ...variant, hours } }, plain));
    expect(estimated(mid / 1.19)).not.toContain('takeoff/hours-differ');
    expect(estimated(mid / 1.21)).toContain('takeoff/hours-differ');
    expect(estimated(mid / 0.79)).toContain('takeoff/hours-differ');
    const { sanding, design } = rates.operations;
    if (sanding === undefined || design === undefined) throw new Error('the test rates are incomplete');
    expect(codes(takeOff(spec({}, { operations: { sanding } }), plain))).toContain('takeoff/finishing-share');
    expect(codes(takeOff(spec({}, { operations: { design } }), plain))).toContain('takeoff/finishing-share');
    expect(takeOff(base, plain).finishingShare).toBeGreaterThan(0.2);
    expect(codes(takeOff(base, plain))).not.toContain('takeoff/finishing-share');
  });

  test('legs by shape, round parts, drawers by groups', () => {
    const drawer = ['front', 'side', 'other'].map((n) => boxPart(`drawer/${n}`, 'drawer', [300, 10, 80], [0, 0, 500], [300, 80, 10]));
    const table: Table = {
      ...withParts(
        ...drawer,
        boxPart('parts/pull', 'other', [20, 20, 20], [0, 0, 500], [20, 20, 20], { features: ['round'] }),
        boxPart('parts/turned', 'leg', [40, 40, 500], [0, 0, 0], [500, 40, 40], { features: ['round'] }),
        boxPart('parts/tapered', 'post', [40, 40, 500], [0, 0, 0], [500, 40, 40], { features: ['tapered'] }),
      ),
      joints: [...plain.joints, jointOf('glued-joint' as never, 'drawer/front', 'drawer/side', 10)],
    };
    const all = Object.fromEntries(
      (['shaped-leg', 'turned-leg', 'shaped-part', 'drawer'] as const).map((id) => [
        id,
        {
          says: id,
          per: id === 'drawer' ? ('drawer' as const) : id === 'shaped-part' ? ('part' as const) : ('leg' as const),
          low: 1,
          mid: 1,
          high: 1,
          finishing: false,
        },
      ]),
    );
    const counted = Object.fromEntries(takeOff(spec({}, { operations: all }), table).operations.map((o) => [o.id, o.quantity]));
    // `other` is joined to nothing, so it is a drawer of its own.
    expect(counted).toEqual({ 'shaped-leg': 1, 'turned-leg': 1, 'shaped-part': 1, drawer: 2 });
  });

  test('the length around an oval agrees with a fine polygon', () => {
    const [rx, ry] = [1100, 550];
    const n = 200000;
    const points = Array.from(
      { length: n },
      (_, i) => [rx * Math.cos((2 * Math.PI * i) / n), ry * Math.sin((2 * Math.PI * i) / n)] as const,
    );
    const fine = perimeterMm({ kind: 'polygon', points });
    expect(perimeterMm({ kind: 'ellipse', rxMm: rx, ryMm: ry }) / fine).toBeCloseTo(1, 6);
    expect(perimeterMm({ kind: 'ellipse', rxMm: 500, ryMm: 500 })).toBeCloseTo(1000 * Math.PI, 9);
  });
});

describe('hardware', () => {
  const counts = (taken: ReturnType<typeof takeOff>) => Object.fromEntries(taken.hardware.map((h) => [h.kind, h.count]));

  test('fixings by their points, bolts by the length of the joint, steel by its mass', () => {
    const plate = boxPart('plate', 'plate', [380, 380, 6], [0, 0, 0], [380, 380, 6], {
      wood: undefined,
      material: 'steel',
      densityKgM3: 7850,
      solid: cone(380, 380, 6),
    });
    const bolted = jointOf('bolts', 'rail-1', 'leg-1', 2000, { knockDown: true });
    const long: typeof bolted = {
      ...bolted,
      contact: [
        [
          [0, 0, 0],
          [140, 0, 0],
          [140, 0, 25],
          [0, 0, 25],
        ],
      ],
    };
    const table = { ...withParts(plate), joints: [bolted, long] };
    const massKg = volumeMm3(plate.solid) * 7850e-9;
    expect(massKg).toBeCloseTo(Math.PI * 0.19 ** 2 * 0.006 * 7850, 9);
    expect(counts(takeOff(spec(), table))).toEqual({ buttons: 8, 'knock-down-bolts': 1 + 2, steel: 6 });
    expect(takeOff(spec(), table).finishAreaM2).toBeCloseTo(takeOff(spec(), { ...plain, joints: table.joints }).finishAreaM2, 12);
  });

  test('the maker’s own entry of a kind replaces the count, and brings its own price', () => {
    const taken = takeOff(
      spec({ hardware: { mine: { kind: 'buttons', count: 10 }, knob: { kind: 'Brass knob', count: 1, price: decimal('14.00') } } }),
      plain,
    );
    expect(taken.hardware).toEqual([
      { kind: 'buttons', says: 'Wooden button with screw', count: 10, from: 'rates', id: 'buttons' },
      { kind: 'Brass knob', says: 'Brass knob', count: 1, from: 'table', id: 'knob' },
    ]);
  });

  test('a kind without a price is an error that says how to mend it', () => {
    const eights: Table = { ...plain, fixing: { ...plain.fixing, kind: 'figure-eights' } };
    expect(takeOff(spec(), eights).problems.find((p) => p.code === 'takeoff/no-hardware-price')).toMatchObject({
      severity: 'error',
      found: 'figure-eights',
      path: ['table', 'fixing'],
    });
  });
});

test('board feet and cubic metres say the same', () => {
  for (const line of takeOff(spec(), plain).timber) expect(line.grossBoardFeet).toBeCloseTo(boardFeetOfM3(line.grossM3), 9);
});
