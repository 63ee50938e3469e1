/** Impossible tables are refused with the reason and the amount, at the maker's own line. */
import { describe, expect, test } from 'vitest';
import { designTable } from '../../src/design/index.ts';
import type { Problem } from '../../src/problem/index.ts';
import { CATALOGUE } from '../../src/problem/index.ts';
import type { EffectiveSpec, PedestalBase, TableSpec } from '../../src/spec/index.ts';
import { angle, freePart, joint, length, length2, length3, proposal, reedAprons, reedLegs, reedTable, specOf } from '../fixtures.ts';
import { tables } from './tables.ts';

const problemsOf = (patch: Partial<TableSpec>): readonly Problem[] => {
  const { table, problems } = designTable(specOf(patch));
  expect(table === undefined).toBe(problems.some((p) => p.severity === 'error'));
  for (const p of problems) {
    expect(CATALOGUE[p.code], p.code).toBeDefined();
    expect(p.title).not.toMatch(/\.$/);
  }
  return problems;
};

const only = (patch: Partial<TableSpec>): Problem => {
  const problems = problemsOf(patch);
  expect(problems.map((p) => p.code)).toHaveLength(1);
  return problems[0] as Problem;
};

const legs = (patch: Partial<typeof reedLegs>, aprons: Partial<typeof reedAprons> = {}) =>
  ({ kind: 'legs', legs: { ...reedLegs, ...patch }, aprons: { ...reedAprons, ...aprons } }) as const;

const drum = freePart({ kind: 'round', diameter: length(400), height: length(717), at: length3(0, 0, 0), grain: 'z', role: 'post' });
const onDrum = (parts: TableSpec['parts'], joints: TableSpec['joints'] = {}): Partial<TableSpec> => ({
  base: { kind: 'parts' },
  parts: { drum, ...parts },
  joints,
});
const block = (at: readonly [number, number, number], size: readonly [number, number, number] = [100, 100, 50]) =>
  freePart({ kind: 'box', size: length3(...size), at: length3(...at) });

describe('base', () => {
  test('leg outside the top', () => {
    const p = only({ base: legs({ endOverhang: length(-12.5) }) });
    expect(p).toMatchObject({ code: 'design/leg-outside-top', path: ['table', 'base', 'legs', 'endOverhang'] });
    expect(p.title).toContain('12.5 mm');
  });

  test('leg outside a round top: by the curve, not the rectangle around it', () => {
    const top = { kind: 'round', diameter: length(1200), thickness: length(28), sawn: 'flat', grain: 'length' } as const;
    const p = only({ top, base: legs({ endOverhang: length(100), sideOverhang: length(100) }) });
    // Outer corner at 500, 500: 707.1 from the middle, 107.1 outside.
    expect(p).toMatchObject({ code: 'design/leg-outside-top' });
    expect(p.title).toContain('107.11 mm');
  });

  test('legs collide; aprons have no space; aprons behind the legs', () => {
    expect(problemsOf({ base: legs({ sideOverhang: length(360) }) }).map((p) => [p.code, p.title])).toContainEqual([
      'design/legs-collide',
      'the legs of one end run into each other by 24 mm',
    ]);
    const noSpace = problemsOf({ base: legs({ sideOverhang: length(348), footSize: length(62) }) });
    expect(noSpace.map((p) => p.code)).toContain('design/rail-has-no-space');
    expect(only({ base: legs({}, { setBack: length(45) }) })).toMatchObject({
      code: 'design/apron-beside-leg',
      allowed: 'at most 38 mm with legs of 62 mm and aprons of 24 mm',
    });
    // Round legs: 31 (1 + 1 / sqrt 2) - 24 = 28.92 where the legs are straight.
    const round = only({ base: legs({ shape: 'round', footSize: length(62) }, { setBack: length(30) }) });
    expect(round).toMatchObject({ code: 'design/apron-beside-leg', allowed: 'at most 28.92 mm with aprons of 24 mm' });
  });

  test('aprons through the floor, stretcher in the top, straight part too long', () => {
    expect(only({ base: legs({}, { height: length(720) }) })).toMatchObject({ code: 'design/no-height-left', allowed: 'at most 717 mm' });
    const stretchers = { height: length(40), thickness: length(20), at: length(700), plan: 'ends' } as const;
    expect(only({ base: { ...legs({}), stretchers } }).title).toBe('the stretchers reach 23 mm into the top');
    expect(only({ base: legs({ straightFor: length(717) }) }).code).toBe('design/no-height-left');
  });

  test('slab ends: outside, colliding, wider than the top, stretcher in the top', () => {
    const slabs = { width: length(600), thickness: length(40), endOverhang: length(300) };
    expect(only({ base: { kind: 'slab-ends', slabs: { ...slabs, endOverhang: length(-3) } } }).title).toContain('3 mm outside');
    expect(only({ base: { kind: 'slab-ends', slabs: { ...slabs, endOverhang: length(1015) } } }).title).toContain('by 10 mm');
    expect(only({ base: { kind: 'slab-ends', slabs: { ...slabs, width: length(830) } } }).title).toContain('10 mm wider');
    const stretcher = { height: length(100), thickness: length(30), at: length(650) };
    expect(only({ base: { kind: 'slab-ends', slabs, stretcher } }).title).toContain('33 mm into the top');
  });

  test('pedestal: no height, head beyond the top, arms, tips, steel, post', () => {
    const spec = tables['round post on a cross foot with steel'] as EffectiveSpec;
    const base = spec.table.base as PedestalBase;
    const found = (patch: Partial<PedestalBase>): readonly string[] =>
      designTable({ ...spec, table: { ...spec.table, base: { ...base, ...patch } } }).problems.map((p) => p.code);
    expect(found({ head: { kind: 'disc', diameter: length(400), thickness: length(640) } })).toEqual(['design/no-height-left']);
    expect(found({ head: { kind: 'cross', span: length(1300), width: length(70), height: length(50) } })).toEqual([
      'design/leg-outside-top',
    ]);
    expect(found({ head: { kind: 'cross', span: length(70), width: length(70), height: length(50) } })).toEqual([
      'design/cross-has-no-arms',
    ]);
    if (base.foot.kind !== 'cross' || base.ballast === undefined) throw new Error('a cross foot with steel');
    expect(found({ foot: { ...base.foot, width: length(820) } })).toEqual(['design/cross-has-no-arms']);
    expect(found({ foot: { ...base.foot, tipHeight: length(90) } })).toEqual(['design/tip-too-high']);
    expect(found({ ballast: { ...base.ballast, thickness: length(80) } })).toEqual(['design/ballast-too-thick']);
    expect(found({ ballast: { ...base.ballast, material: 'steal' } })).toEqual(['design/unknown-material']);
    expect(found({ post: { ...base.post, footSize: length(830) } })).toEqual(['design/post-wider-than-foot']);
    const disc = { kind: 'disc', diameter: length(300), thickness: length(40) } as const;
    expect(found({ foot: disc })).toEqual(['design/ballast-too-wide']);
  });

  test('chamfer: no edge left, no underside left; top as thick as the table is high', () => {
    const { top } = reedTable;
    const chamfer = (inMm: number, upMm: number) => only({ top: { ...top, underChamfer: { in: length(inMm), up: length(upMm) } } });
    expect(chamfer(20, 28)).toMatchObject({ code: 'design/chamfer-too-large', mend: 'write up: 14 mm to leave half of the edge' });
    expect(chamfer(410, 10)).toMatchObject({ code: 'design/chamfer-too-large', allowed: 'less than half of the top, 410 mm' });
    expect(problemsOf({ top: { ...top, thickness: length(745) } }).map((p) => p.code)).toContain('design/no-height-left');
  });
});

describe('free parts', () => {
  test('base ends below the top, by the gap', () => {
    const p = only({ base: { kind: 'parts' }, parts: { drum: { ...drum, height: length(700) } as typeof drum } });
    expect(p).toMatchObject({ code: 'design/top-not-carried', path: ['table', 'parts', 'drum'], mend: 'raise or lengthen it by 17 mm' });
    expect(p.found).toBe('parts/drum, the highest part, ends 17 mm below it');
  });

  test('base reaches into the top, by the excess', () => {
    const p = only({ base: { kind: 'parts' }, parts: { drum: { ...drum, height: length(722) } as typeof drum } });
    expect(p).toMatchObject({ code: 'design/reaches-into-top', mend: 'shorten or lower it by 5 mm' });
    expect(p.title).toBe('parts/drum reaches 5 mm above the underside of the top');
    // pi 200^2 x 5 = 628.3 cm3, shown to a whole one.
    expect(p.found).toBe('628 cm3 in the same place');
  });

  test('above the floor, below the floor', () => {
    const raised = { ...drum, height: length(714), at: length3(0, 0, 3) } as typeof drum;
    expect(only({ base: { kind: 'parts' }, parts: { drum: raised } })).toMatchObject({
      code: 'design/not-on-floor',
      mend: 'lengthen or lower the base by 3 mm',
    });
    const sunk = { ...drum, height: length(719), at: length3(0, 0, -2) } as typeof drum;
    expect(only({ base: { kind: 'parts' }, parts: { drum: sunk } }).title).toBe('parts/drum reaches 2 mm below the floor');
  });

  test('nothing under the top', () => {
    expect(problemsOf({ base: { kind: 'parts' } }).map((p) => p.code)).toEqual(['design/not-on-floor', 'design/top-not-carried']);
  });

  test('overlap without a joint, by volume and with both parts; with one it is let in', () => {
    const p = only(onDrum({ cube: block([230, 0, 300]) }));
    expect(p).toMatchObject({ code: 'design/parts-overlap', severity: 'error', path: ['table', 'parts', 'cube'] });
    // Box x 180..280, y +-50, z 50 against the circle r = 200: (integral of sqrt(r^2 - y^2) - 180) x 50.
    const area = 50 * Math.sqrt(40000 - 2500) + 40000 * Math.asin(0.25) - 180 * 100;
    expect(p.found).toBe(`${((area * 50) / 1000).toFixed(0)} cm3 shared`);
    expect(p.also?.[0]?.path).toEqual(['table', 'parts', 'drum']);
    expect(p.mend).toContain('a: parts/cube, b: parts/drum');
    expect(problemsOf(onDrum({ cube: block([230, 0, 300]) }, { in: joint('housing', 'parts/cube', 'parts/drum') }))).toEqual([]);
  });

  test('a grain of sawdust is no overlap', () => {
    // 0.9 mm3 shared: two boxes of 30 x 30 that pass 0.001 mm.
    const found = problemsOf({
      base: { kind: 'parts' },
      parts: { drum, a: block([400, 0, 0], [30, 30, 40]), b: block([400, 0, 39.999], [30, 30, 40]) },
    });
    expect(found.map((p) => p.code)).toEqual(['design/touch-without-joint']);
  });

  test('touching without a joint warns, resting silences', () => {
    const parts = { tray: block([400, 0, 0], [300, 200, 40]), cup: block([400, 0, 40]) };
    expect(only(onDrum(parts))).toMatchObject({ code: 'design/touch-without-joint', severity: 'warning' });
    expect(problemsOf(onDrum(parts, { rest: joint('rests', 'parts/cup', 'parts/tray') }))).toEqual([]);
  });

  test('hanging in the air, by the distance to the nearest part that stands', () => {
    const p = only(onDrum({ shelf: block([300, 0, 300]) }));
    expect(p).toMatchObject({ code: 'design/hangs-in-air', path: ['table', 'parts', 'shelf'] });
    expect(p.title).toContain('parts/shelf hangs in the air');
    expect(p.found).toBe('50 mm from parts/drum, the nearest part that stands');
  });

  test('what only hangs under the top does not carry it', () => {
    const found = problemsOf({
      base: { kind: 'parts' },
      parts: { drum: { ...drum, height: length(700) } as typeof drum, cleat: block([600, 0, 667]) },
    });
    expect(found.map((p) => [p.code, p.path.join('.')])).toEqual([['design/top-not-carried', 'table.parts.drum']]);
  });

  test('one leg of four is short: a warning with the amount, said once for mirror images', () => {
    const leg = freePart({ kind: 'box', size: length3(60, 60, 714), at: length3(700, 300, 3), grain: 'z', role: 'leg' });
    const p = only(onDrum({ leg }));
    expect(p).toMatchObject({ code: 'design/foot-above-floor', severity: 'warning' });
    expect(p.title).toBe('parts/leg ends 3 mm above the floor');
    expect(only(onDrum({ leg: { ...leg, mirror: ['x', 'y'] } as typeof leg })).code).toBe('design/foot-above-floor');
    // On a pad of 3 mm it stands.
    const pad = freePart({ kind: 'round', diameter: length(40), height: length(3), at: length3(700, 300, 0) });
    expect(problemsOf(onDrum({ leg, pad }, { pad: joint('screws', 'parts/pad', 'parts/leg') }))).toEqual([]);
  });

  test('a lipping on the edge of the top needs its joint; what lies under the top does not', () => {
    const lipping = block([1055, 0, 720], [10, 800, 20]);
    expect(only(onDrum({ lipping }))).toMatchObject({ code: 'design/touch-without-joint', path: ['table', 'top'] });
    expect(problemsOf(onDrum({ lipping }, { glue: joint('edge-glue', 'parts/lipping', 'top') }))).toEqual([]);
  });

  test('a joint without contact, by the distance', () => {
    const found = problemsOf(onDrum({ block: block([300, 0, 0]) }, { glue: joint('dowels', 'parts/block', 'parts/drum') }));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({
      code: 'design/joint-without-contact',
      path: ['table', 'joints', 'glue'],
      found: 'they are 50 mm apart',
    });
    const round = problemsOf(onDrum({ block: block([250, 0, 0]) }, { glue: joint('dowels', 'parts/block', 'parts/drum') }));
    expect(round[0]?.found).toBe('they meet along an edge or a round only');
  });

  test('unknown names: nearest part; * keeps its star; nothing near', () => {
    const at = (a: string) => only(onDrum({ block: block([300, 0, 0]) }, { glue: joint('dowels', a, 'parts/drum') }));
    expect(at('parts/blok')).toMatchObject({ code: 'design/unknown-part', path: ['table', 'joints', 'glue', 'a'] });
    expect(at('parts/blok').mend).toBe('if parts/block was meant, write parts/block');
    expect(at('parts/blok*').mend).toBe('if parts/block was meant, write parts/block*');
    expect(at('zebra').mend).toBeUndefined();
    const states = { out: { says: 'leaf out', move: { 'parts/drumm': length3(0, 0, 0) }, without: ['leaf'] } };
    expect(problemsOf({ ...onDrum({}), states }).map((p) => [p.code, ...p.path])).toEqual([
      ['design/unknown-part', 'table', 'states', 'out', 'move'],
      ['design/unknown-part', 'table', 'states', 'out', 'without'],
    ]);
  });

  test('a star joins only what meets', () => {
    const parts = { 'peg-a': block([250, 0, 0]), 'peg-b': block([230, 0, 300]) };
    const { table } = designTable(specOf(onDrum(parts, { pegs: joint('housing', 'parts/peg-*', 'parts/drum') })));
    expect(table?.joints.map((j) => [j.a, j.b])).toEqual([['parts/peg-b', 'parts/drum']]);
  });

  test('an outline that crosses itself, a hole outside, a mirror image whose name is taken', () => {
    const shape = (outline: readonly (readonly [number, number])[], holes: readonly (readonly (readonly [number, number])[])[] = []) =>
      freePart({
        kind: 'extruded',
        outline: outline.map((p) => length2(p[0], p[1])),
        holes: holes.map((h) => h.map((p) => length2(p[0], p[1]))),
        height: length(20),
        at: length3(500, 0, 0),
      });
    const square = (x: number) =>
      [
        [x, 0],
        [x + 50, 0],
        [x + 50, 50],
        [x, 50],
      ] as const;
    const crossing = only(
      onDrum({
        bow: shape([
          [0, 0],
          [100, 80],
          [100, 0],
          [0, 80],
        ]),
      }),
    );
    expect(crossing).toMatchObject({ code: 'design/outline-crosses-itself', path: ['table', 'parts', 'bow', 'outline'] });
    expect(only(onDrum({ plate: shape(square(0), [square(20)]) })).code).toBe('design/outline-crosses-itself');
    expect(only(onDrum({ plate: shape(square(0), [square(200)]) })).code).toBe('design/outline-crosses-itself');
    // A spike that runs back on itself; a hole that touches the outline; two holes that touch.
    expect(
      only(
        onDrum({
          spike: shape([
            [0, 0],
            [100, 0],
            [50, 0],
            [50, 80],
          ]),
        }),
      ).code,
    ).toBe('design/outline-crosses-itself');
    expect(
      only(
        onDrum({
          plate: shape(
            [
              [0, 0],
              [90, 0],
              [90, 90],
              [0, 90],
            ],
            [
              [
                [0, 10],
                [20, 10],
                [20, 30],
                [0, 30],
              ],
            ],
          ),
        }),
      ).code,
    ).toBe('design/outline-crosses-itself');
    const two = [
      [
        [10, 10],
        [30, 10],
        [30, 30],
        [10, 30],
      ],
      [
        [30, 10],
        [50, 10],
        [50, 30],
        [30, 30],
      ],
    ] as const;
    expect(
      only(
        onDrum({
          plate: shape(
            [
              [0, 0],
              [90, 0],
              [90, 90],
              [0, 90],
            ],
            two,
          ),
        }),
      ).code,
    ).toBe('design/outline-crosses-itself');
    // The first corner again at the end is no fault.
    expect(problemsOf(onDrum({ plate: shape([...square(0), [0, 0]]) }))).toEqual([]);
    const foot = { ...block([400, 0, 0]), mirror: ['x'] } as ReturnType<typeof block>;
    expect(only(onDrum({ foot, 'foot-2': block([0, 500, 0]) }))).toMatchObject({
      code: 'design/id-taken',
      also: [{ path: ['table', 'parts', 'foot-2'] }],
    });
  });

  test('a leaning box stands on an edge: a warning', () => {
    const lean = freePart({
      kind: 'box',
      size: length3(50, 50, 300),
      at: length3(500, 0, 25 * Math.sin(Math.PI / 18)),
      turn: [{ about: 'y', by: angle(10) }],
      grain: 'z',
    });
    expect(only(onDrum({ lean }))).toMatchObject({ code: 'design/foot-not-flat', severity: 'warning' });
  });

  test('woods and materials by nearest name', () => {
    expect(only({ wood: 'oak-europen' })).toMatchObject({
      code: 'design/unknown-wood',
      mend: 'if oak-european was meant, write oak-european',
    });
    expect(only(onDrum({ slab: { ...block([400, 0, 0]), material: 'steeel' } as ReturnType<typeof block> })).code).toBe(
      'design/unknown-material',
    );
  });

  test('amounts in inches where the files are in inches', () => {
    const spec = specOf({ base: { kind: 'parts' }, parts: { drum: { ...drum, height: length(717 - 12.7) } as typeof drum } });
    const { problems } = designTable({ ...spec, proposal: { ...proposal, units: 'in' } });
    expect(problems[0]?.mend).toBe('raise or lengthen it by 0.5 in');
  });
});

describe('fixing', () => {
  test('as many as asked, on real contact; loose has none; rigid has no slots', () => {
    for (const count of [1, 2, 5, 8, 14]) {
      const { table, problems } = designTable(specOf({ fixing: { kind: 'buttons', count } }));
      expect(problems).toEqual([]);
      expect(table?.fixing.pointsMm).toHaveLength(count);
    }
    expect(designTable(specOf({ fixing: { kind: 'loose' } })).table?.fixing.pointsMm).toEqual([]);
    const rigid = designTable(specOf({ fixing: { kind: 'rigid' } })).table?.fixing.pointsMm ?? [];
    expect(rigid.length).toBeGreaterThan(0);
    expect(rigid.every((p) => p.slotAlong === 'none')).toBe(true);
  });

  test('aprons kept away from the top: the legs alone carry and hold it', () => {
    const { table } = designTable(specOf({ base: legs({}, { below: length(20) }) }));
    expect(table?.fixing.pointsMm).toHaveLength(4);
  });
});

describe('states', () => {
  test('standing first; moved and gone parts by name and by star', () => {
    const states = {
      open: { says: 'drawer open', move: { 'parts/draw*': length3(0, -400, 0) }, without: ['top'] },
    };
    const parts = { 'draw-front': block([400, 0, 0]), 'draw-back': block([400, 300, 0]) };
    const { table } = designTable(specOf({ ...onDrum(parts), states }));
    expect(table?.states[0]).toMatchObject({ id: 'standing', moved: {}, without: [] });
    expect(table?.states[1]).toEqual({
      id: 'open',
      says: 'drawer open',
      moved: { 'parts/draw-back': [0, -400, 0], 'parts/draw-front': [0, -400, 0] },
      without: ['top'],
    });
  });
});
