import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Hull } from '../../src/assess/convex.ts';
import { hullOf } from '../../src/assess/convex.ts';
import { insetMm } from '../../src/assess/inset.ts';
import { answerCase } from '../../src/assess/load-case.ts';
import { innerRim, outerRim } from '../../src/assess/rim.ts';
import { depthMm } from '../../src/assess/round-seats.ts';
import type { Stance } from '../../src/assess/tip.ts';
import { holdingArmMm, leastPush, reachRatio, standsByItself, tiltDeg, tippingLoadN, worstLoad } from '../../src/assess/tip.ts';
import type { Contact, Vec2 } from '../../src/solid/index.ts';
import type { LoadCaseSpec } from '../../src/spec/index.ts';
import { parseForce, STANDARD_GRAVITY } from '../../src/units/index.ts';
import { force, length } from '../fixtures.ts';
import { carriesWithoutLimit, mostByReactions, random } from './reactions.ts';

type Row = {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, number & number[] & number[][]>>;
  readonly expected: number;
  readonly tolerance_rel: number;
  readonly source: string;
};
const rows = JSON.parse(readFileSync(new URL('../published/statics.json', import.meta.url), 'utf8')) as Row[];
const row = (id: string): Row => {
  const found = rows.find((r) => r.id === id);
  if (found === undefined) throw new Error(`no row ${id}`);
  return found;
};
const agrees = (value: number | null, { expected, tolerance_rel }: Row): void => {
  expect(value).not.toBeNull();
  expect(Math.abs((value ?? 0) - expected)).toBeLessThanOrEqual(expected * tolerance_rel);
};

const polygon = (points: readonly Vec2[]): Contact => ({ kind: 'polygon', points });
const circle = (radius: number, centreMm: Vec2 = [0, 0]): Contact => ({ kind: 'ellipse', centreMm, rxMm: radius, ryMm: radius });
const rectangle = (lengthMm: number, widthMm: number): Hull => {
  const [x, y] = [lengthMm / 2, widthMm / 2];
  return hullOf([
    polygon([
      [-x, -y],
      [x, -y],
      [x, y],
      [-x, y],
    ]),
  ]);
};
const stanceOn = (contacts: readonly Contact[], massKg: number, gravityMm: Vec2 = [0, 0]): Stance => ({
  weightN: massKg * STANDARD_GRAVITY,
  gravityMm,
  hull: hullOf(contacts),
});
const feetOnCircle = (count: number, radius: number): Contact[] =>
  Array.from({ length: count }, (_, i) => {
    const a = (2 * Math.PI * i) / count + Math.PI / 2;
    return polygon([[radius * Math.cos(a), radius * Math.sin(a)]]);
  });

describe('tipping against rows computed by edge moments and by linear programming (tests/published/statics.json)', () => {
  test.each(
    rows.filter(
      (r) =>
        r.id.startsWith('tip-') &&
        r.inputs.load_point_mm !== undefined &&
        r.inputs.push_N === undefined &&
        r.inputs.height_mm === undefined,
    ),
  )('$id: $quantity', (r) => {
    const { inputs } = r;
    const stance = stanceOn(
      [polygon(inputs.contact_points_mm as unknown as Vec2[])],
      inputs.mass_kg as number,
      (inputs.cg_mm ?? [0, 0]) as unknown as Vec2,
    );
    const load = tippingLoadN(stance, inputs.load_point_mm as unknown as Vec2);
    agrees(inputs.person_kg === undefined ? load : (load ?? 0) / (inputs.person_kg * STANDARD_GRAVITY), r);
  });

  test('worst place on the inner parallel curve, pedestals and feet on a circle', () => {
    const c = stanceOn([circle(325)], 45);
    agrees(worstLoad(c, innerRim(hullOf([circle(600)]), 50))?.loadN ?? null, row('tip-C-vert'));
    agrees(leastPush(c, 740).forceN, row('tip-C-push'));
    agrees(tiltDeg(c, 480), row('tip-N-tilt'));
    const d = stanceOn(feetOnCircle(3, 330), 22);
    agrees(worstLoad(d, innerRim(hullOf([circle(450)]), 50))?.loadN ?? null, row('tip-D-between'));
    agrees(leastPush(d, 450).forceN, row('tip-D-push'));
    const e = stanceOn(feetOnCircle(4, 350), 38);
    agrees(worstLoad(e, innerRim(hullOf([circle(550)]), 50))?.loadN ?? null, row('tip-E-cross'));
  });

  test('worst place on rectangles lies at the end, 50 mm inside', () => {
    const a = stanceOn([polygon(row('tip-A-end').inputs.contact_points_mm as unknown as Vec2[])], 62);
    const worst = worstLoad(a, innerRim(rectangle(2000, 950), 50));
    agrees(worst?.loadN ?? null, row('tip-A-end'));
    expect(Math.abs(worst?.atMm[0] ?? 0)).toBeCloseTo(950, 9);
    expect(worst?.atMm[1]).toBeCloseTo(0, 9);
  });

  test('console: push, factor, and the friction above which it tips before it slides', () => {
    const i = stanceOn(
      [
        polygon([
          [-600, -140],
          [600, -140],
          [600, 140],
          [-600, 140],
        ]),
      ],
      28,
    );
    agrees(leastPush(i, 850).forceN, row('tip-I-push'));
    const shove = loadCase({ kind: 'push', push: force(100) });
    agrees(answerCase('shove', shove, [i], outerRim(rectangle(1400, 320)), 850).safetyFactor, row('tip-I-fos'));
    agrees(holdingArmMm(i, [0, 1]) / 850, row('tip-O-slide'));
  });

  test('load and push together', () => {
    const r = row('tip-J-combined');
    const j = stanceOn([polygon(r.inputs.contact_points_mm as unknown as Vec2[])], 35);
    const rim = innerRim(rectangle(1500, 700), 50);
    const both = (pushN: number) =>
      answerCase('both', loadCase({ kind: 'both', load: force(100), push: force(pushN) }), [j], rim, 735).safetyFactor;
    agrees(both(30), r);
    expect(both(row('tip-J-pushlimit').expected)).toBeCloseTo(1, 4);
  });

  test('foot radius found from the factor asked for', () => {
    const p = row('tip-P-footradius');
    const stance = stanceOn([circle(p.expected)], 45);
    const load = worstLoad(stance, innerRim(hullOf([circle(600)]), 50))?.loadN ?? 0;
    expect(load / 400).toBeCloseTo(1.5, 3);
  });
});

test('constants: standard gravity, pounds-force, 50 mm inside the edge', () => {
  expect(STANDARD_GRAVITY).toBe(row('std-gravity').expected);
  const shown = parseForce('125 lbf');
  agrees(shown.ok ? shown.value.n : null, row('conv-lbf'));
  const inset = row('stab-iso7172-inset').expected;
  expect(innerRim(rectangle(2000, 950), inset).farthest([1, 0])[0]).toBe(1000 - inset);
});

function loadCase(over: Partial<LoadCaseSpec>): LoadCaseSpec {
  return { says: 'test', kind: 'vertical', inset: length(50), at: 'worst', wanted: 1.5, least: 1, uses: ['test'], source: 'test', ...over };
}

describe('tipping against a linear programme of foot reactions', () => {
  test('two hundred random sets of feet, weights and loads', () => {
    const next = random(7);
    let tipped = 0;
    for (let k = 0; k < 200; k++) {
      const feet = Array.from({ length: 3 + Math.floor(next() * 6) }, (): Vec2 => [next() * 1600 - 800, next() * 900 - 450]);
      const gravity: Vec2 = feet.reduce<Vec2>((sum, f) => [sum[0] + f[0] / feet.length, sum[1] + f[1] / feet.length], [0, 0]);
      const at: Vec2 = [next() * 3000 - 1500, next() * 2000 - 1000];
      const byReactions = carriesWithoutLimit(feet, at) ? null : mostByReactions(feet, gravity, 400, at);
      const load = tippingLoadN({ weightN: 400, gravityMm: gravity, hull: hullOf(feet.map((f) => polygon([f]))) }, at);
      if (byReactions === null) expect(load).toBeNull();
      else {
        tipped++;
        expect(load).not.toBeNull();
        expect(Math.abs((load ?? 0) / byReactions - 1)).toBeLessThan(1e-9);
      }
    }
    expect(tipped).toBeGreaterThan(100);
  });

  test('round feet of several sizes: sixty points round each foot give the same, a little less', () => {
    const contacts = [
      circle(60, [-500, -200]),
      circle(35, [480, -260]),
      circle(90, [430, 240]),
      polygon([
        [-520, 180],
        [-440, 180],
        [-440, 260],
        [-520, 260],
      ]),
    ];
    const ring = (c: Contact): Vec2[] =>
      c.kind === 'polygon'
        ? [...c.points]
        : Array.from(
            { length: 360 },
            (_, i): Vec2 => [c.centreMm[0] + c.rxMm * Math.cos((i * Math.PI) / 30), c.centreMm[1] + c.ryMm * Math.sin((i * Math.PI) / 30)],
          );
    const feet = contacts.flatMap(ring);
    const stance = stanceOn(contacts, 40, [-10, 20]);
    for (let i = 0; i < 12; i++) {
      const at: Vec2 = [900 * Math.cos((i * Math.PI) / 6), 600 * Math.sin((i * Math.PI) / 6)];
      const coarse = mostByReactions(feet, stance.gravityMm, stance.weightN, at) ?? 0;
      const exact = tippingLoadN(stance, at) ?? 0;
      expect(exact / coarse).toBeGreaterThan(1 - 1e-9);
      expect(exact / coarse).toBeLessThan(1.002);
    }
  });

  test('worst place on an oval top over four round feet: no place of 20,000 is worse, one is as bad', () => {
    const contacts = [circle(30, [-600, -250]), circle(30, [600, -250]), circle(30, [600, 250]), circle(30, [-600, 250])];
    const stance = stanceOn(contacts, 52, [14, -6]);
    const oval = hullOf([{ kind: 'ellipse', centreMm: [0, 0], rxMm: 1050, ryMm: 520 }]);
    const worst = worstLoad(stance, outerRim(oval))?.loadN ?? 0;
    let sampled = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 20000; i++) {
      const a = (i * Math.PI) / 10000;
      sampled = Math.min(sampled, tippingLoadN(stance, [1050 * Math.cos(a), 520 * Math.sin(a)]) ?? Number.POSITIVE_INFINITY);
    }
    expect(worst).toBeLessThanOrEqual(sampled * (1 + 1e-9));
    expect(worst).toBeGreaterThan(sampled * (1 - 1e-6));
  });

  test('worst place over an oval foot off the centre: no place of 20,000 is worse, one is as bad', () => {
    const stance = stanceOn([{ kind: 'ellipse', centreMm: [30, 0], rxMm: 400, ryMm: 260 }], 52, [0, 25]);
    const oval = hullOf([{ kind: 'ellipse', centreMm: [0, 0], rxMm: 800, ryMm: 450 }]);
    const inner = innerRim(oval, 50);
    for (const rim of [outerRim(oval), inner]) {
      const worst = worstLoad(stance, rim)?.loadN ?? 0;
      let sampled = Number.POSITIVE_INFINITY;
      for (let i = 0; i < 20000; i++) {
        const a = (i * Math.PI) / 10000;
        sampled = Math.min(sampled, tippingLoadN(stance, rim.farthest([Math.cos(a), Math.sin(a)])) ?? Number.POSITIVE_INFINITY);
      }
      expect(worst).toBeLessThanOrEqual(sampled * (1 + 1e-9));
      expect(worst).toBeGreaterThan(sampled * (1 - 1e-6));
    }
  });
});

describe('hull of unlike round and square feet', () => {
  test('its pieces give the same ratio as 20,000 directions of the support function', () => {
    const next = random(23);
    for (let k = 0; k < 12; k++) {
      const contacts: Contact[] = Array.from({ length: 4 }, (_, i) => {
        const centreMm: Vec2 = [(i % 2 === 0 ? -1 : 1) * (300 + 200 * next()), (i < 2 ? -1 : 1) * (200 + 100 * next())];
        return i === 3
          ? polygon([centreMm, [centreMm[0] + 60, centreMm[1]], [centreMm[0] + 60, centreMm[1] + 40]])
          : { kind: 'ellipse', centreMm, rxMm: 20 + 100 * next(), ryMm: 20 + 100 * next() };
      });
      const stance = stanceOn(contacts, 40, [10, -5]);
      const at: Vec2 = [1200 * (next() - 0.5), 900 * (next() - 0.5)];
      let sampled = 0;
      for (let i = 0; i < 20000; i++) {
        const n: Vec2 = [Math.cos((i * Math.PI) / 10000), Math.sin((i * Math.PI) / 10000)];
        sampled = Math.max(sampled, ((at[0] - 10) * n[0] + (at[1] + 5) * n[1]) / holdingArmMm(stance, n));
      }
      expect(reachRatio(stance, at)).toBeGreaterThanOrEqual(sampled - 1e-12);
      expect(reachRatio(stance, at)).toBeLessThan(sampled * (1 + 1e-3));
    }
  });
});

describe('laws', () => {
  const contacts = [
    circle(40, [-500, -220]),
    circle(40, [510, -240]),
    polygon([
      [400, 200],
      [520, 210],
      [470, 280],
    ]),
    circle(55, [-450, 250]),
  ];
  const outline: Contact = polygon([
    [-800, -400],
    [800, -400],
    [800, 400],
    [-800, 400],
  ]);
  const base = stanceOn(contacts, 50, [12, -9]);

  test('turning everything by 37 degrees changes no load', () => {
    const a = (37 * Math.PI) / 180;
    const turn = ([x, y]: Vec2): Vec2 => [x * Math.cos(a) - y * Math.sin(a), x * Math.sin(a) + y * Math.cos(a)];
    const turned = contacts.map(
      (c): Contact => (c.kind === 'polygon' ? polygon(c.points.map(turn)) : { ...c, centreMm: turn(c.centreMm) }),
    );
    const stance = stanceOn(turned, 50, turn([12, -9]));
    const top = polygon(outline.kind === 'polygon' ? outline.points.map(turn) : []);
    expect(worstLoad(stance, outerRim(hullOf([top])))?.loadN).toBeCloseTo(worstLoad(base, outerRim(hullOf([outline])))?.loadN ?? 0, 6);
    expect(worstLoad(stance, innerRim(hullOf([top]), 50))?.loadN).toBeCloseTo(
      worstLoad(base, innerRim(hullOf([outline]), 50))?.loadN ?? 0,
      6,
    );
    expect(leastPush(stance, 740).forceN).toBeCloseTo(leastPush(base, 740).forceN, 6);
  });

  test('mirroring changes no load; doubling every length changes none; doubling the mass doubles it', () => {
    const worst = worstLoad(base, outerRim(hullOf([outline])))?.loadN ?? 0;
    const mirrored = contacts.map(
      (c): Contact =>
        c.kind === 'polygon' ? polygon(c.points.map(([x, y]) => [-x, y])) : { ...c, centreMm: [-c.centreMm[0], c.centreMm[1]] },
    );
    expect(worstLoad(stanceOn(mirrored, 50, [-12, -9]), outerRim(hullOf([outline])))?.loadN).toBeCloseTo(worst, 8);
    const doubled = contacts.map(
      (c): Contact =>
        c.kind === 'polygon'
          ? polygon(c.points.map(([x, y]) => [2 * x, 2 * y]))
          : { ...c, centreMm: [2 * c.centreMm[0], 2 * c.centreMm[1]], rxMm: 2 * c.rxMm, ryMm: 2 * c.ryMm },
    );
    expect(worstLoad(stanceOn(doubled, 50, [24, -18]), outerRim(rectangle(3200, 1600)))?.loadN).toBeCloseTo(worst, 8);
    expect(worstLoad(stanceOn(contacts, 100, [12, -9]), outerRim(hullOf([outline])))?.loadN).toBeCloseTo(2 * worst, 8);
  });

  test('no load over the feet tips; a weight outside the feet falls by itself', () => {
    expect(tippingLoadN(base, [0, 0])).toBeNull();
    expect(worstLoad(stanceOn([circle(500)], 30), outerRim(hullOf([circle(450)])))).toBeNull();
    expect(standsByItself(base)).toBe(true);
    expect(standsByItself(stanceOn(contacts, 50, [700, 0]))).toBe(false);
    expect(standsByItself(stanceOn([polygon([[0, 0]])], 50))).toBe(false);
    expect(
      standsByItself(
        stanceOn(
          [
            polygon([
              [-100, 0],
              [100, 0],
            ]),
          ],
          50,
        ),
      ),
    ).toBe(false);
  });

  test('hull of a circle inside a polygon is the polygon; of a polygon inside a circle, the circle', () => {
    expect(
      hullOf([
        circle(10),
        polygon([
          [-50, -50],
          [50, -50],
          [50, 50],
          [-50, 50],
        ]),
      ]).pieces.map((p) => p.kind),
    ).toEqual(['edge', 'edge', 'edge', 'edge']);
    expect(
      hullOf([
        circle(100),
        polygon([
          [-50, -50],
          [50, -50],
          [50, 50],
          [-50, 50],
        ]),
      ]).pieces.map((p) => p.kind),
    ).toEqual(['arc']);
  });

  test('inner parallel curve of a slim oval: every point has the distance asked for from the outline, or lies farther in', () => {
    const [a, b, inset] = [600, 120, 50];
    const rim = innerRim(hullOf([{ kind: 'ellipse', centreMm: [0, 0], rxMm: a, ryMm: b }]), inset);
    for (let i = 0; i < 360; i++) {
      const t = (i * Math.PI) / 180;
      const [x, y] = rim.farthest([Math.cos(t), Math.sin(t)]);
      let nearest = Number.POSITIVE_INFINITY;
      for (let k = 0; k < 20000; k++) {
        const s = (k * Math.PI) / 10000;
        nearest = Math.min(nearest, Math.hypot(a * Math.cos(s) - x, b * Math.sin(s) - y));
      }
      expect(nearest).toBeGreaterThan(inset - 1e-3);
      expect(nearest).toBeLessThan(inset + 1e-3);
    }
  });

  test('a top narrower than twice the inset is taken at the most it holds', () => {
    const rim = innerRim(rectangle(1400, 280), 150);
    expect(Math.max(...rim.corners.map((c) => Math.abs(c[1])))).toBeLessThan(1e-6);
    expect(Math.max(...rim.corners.map((c) => c[0]))).toBeCloseTo(560, 6);
  });
});

describe('depth under an elliptic rim', () => {
  test('is the least distance to 40,000 points of the rim', () => {
    for (const [a, b] of [
      [900, 500],
      [500, 900],
      [600, 600],
    ] as const) {
      for (const [x, y] of [
        [0, 0],
        [300, 0],
        [0, 200],
        [-450, 120],
        [130, -410],
        [470, 30],
      ] as const) {
        let nearest = Number.POSITIVE_INFINITY;
        for (let k = 0; k < 40000; k++) {
          const t = (k * Math.PI) / 20000;
          nearest = Math.min(nearest, Math.hypot(a * Math.cos(t) - x, b * Math.sin(t) - y));
        }
        expect(depthMm(a, b, [x, y])).toBeCloseTo(nearest, 3);
        const outline = hullOf([{ kind: 'ellipse', centreMm: [0, 0], rxMm: a, ryMm: b }]);
        expect(insetMm(outline, hullOf([polygon([[x, y]])]))).toBeCloseTo(nearest, 3);
      }
    }
  });
});
