import { describe, expect, test } from 'vitest';
import { assessTable } from '../../src/assess/index.ts';
import type { Table } from '../../src/design/index.ts';
import { cone } from '../../src/solid/index.ts';
import type { EffectiveSpec, MeasureSpec } from '../../src/spec/index.ts';
import { decimal, force, length, library, percent, proposal, specOf, variant } from '../fixtures.ts';
import { block, fourLegs, joint, part, round, tableOf } from './by-hand.ts';

const top = { lengthMm: 2000, widthMm: 950, thicknessMm: 30, heightMm: 740 };
const g = 9.80665;

const asks = (measure: MeasureSpec, over: Partial<EffectiveSpec> = {}): EffectiveSpec =>
  specOf({}, { proposal: { ...proposal, wishes: { w1: { says: 'as asked', measure } } }, ...over });
const answer = (measure: MeasureSpec, table: Table) => {
  const [found] = assessTable(asks(measure), table).wishes;
  if (found === undefined) throw new Error('no answer');
  return found;
};

describe('weight and support', () => {
  const table = tableOf(top, fourLegs(top, 60, 240, 90));
  const assessment = assessTable(specOf(), table);
  test('mass and centre of gravity by hand: plate and four posts', () => {
    const plate = 2 * 0.95 * 0.03 * 670;
    const legs = 4 * 0.06 * 0.06 * 0.71 * 670;
    expect(assessment.massKg).toBeCloseTo(plate + legs, 9);
    expect(assessment.centreOfGravityMm[0]).toBeCloseTo(0, 9);
    expect(assessment.centreOfGravityMm[2]).toBeCloseTo((plate * 725 + legs * 355) / (plate + legs), 9);
  });
  test('support is the hull of whole foot sections, counter-clockwise', () => {
    expect(assessment.supportPolygonMm).toHaveLength(4);
    expect(Math.max(...assessment.supportPolygonMm.map((p) => p[0]))).toBe(760);
    expect(Math.max(...assessment.supportPolygonMm.map((p) => p[1]))).toBe(385);
    expect(assessment.supportArcs).toEqual([]);
  });
  test('end, side and corner by edge moments: F = W dg / df', () => {
    const weight = assessment.massKg * g;
    const tipping = assessment.tipping[0];
    const right = tipping?.places.find((p) => p.id === 'right');
    expect(right?.inside50?.loadN).toBeCloseTo((weight * 760) / (950 - 760), 6);
    expect(right?.edge?.loadN).toBeCloseTo((weight * 760) / (1000 - 760), 6);
    expect(tipping?.places.find((p) => p.id === 'front')?.inside50?.loadN).toBeCloseTo((weight * 385) / (425 - 385), 6);
    expect(tipping?.edge?.loadN).toBeCloseTo((weight * 760) / 240, 6);
    expect(tipping?.corners.map((c) => c.atMm)).toEqual([
      [-1000, -475],
      [1000, -475],
      [1000, 475],
      [-1000, 475],
    ]);
    for (const corner of tipping?.corners ?? []) expect(corner.loadN).toBeCloseTo((weight * 760) / 240, 6);
    expect(tipping?.push.forceN).toBeCloseTo((weight * 385) / 740, 6);
  });
  test('what is let into a part is taken off its mass where it lies', () => {
    const cut = { joint: 'j', volumeMm3: 200000, centroidMm: [100, 0, 725] as const };
    const parts = table.parts.map((p) => (p.id === 'top' ? { ...p, letIn: [cut] } : p));
    const lighter = assessTable(specOf(), { ...table, parts });
    expect(lighter.massKg).toBeCloseTo(assessment.massKg - 0.134, 9);
    expect(lighter.centreOfGravityMm[0]).toBeCloseTo((-100 * 0.134) / lighter.massKg, 9);
  });
});

describe('states', () => {
  const base = fourLegs(top, 60, 240, 90);
  const leaf = block('leaf', 'panel', [500, 950, 30], [0, 0, 600]);
  const table = tableOf(top, [...base, leaf], {
    states: [
      { id: 'standing', says: 'as it stands', moved: {}, without: [] },
      { id: 'leaf-out', says: 'leaf out', moved: { leaf: [1250, 0, 110] }, without: [] },
      { id: 'bare', says: 'without the leaf', moved: {}, without: ['leaf'] },
    ],
  });
  test('a leaf drawn out moves the weight and the place of the load', () => {
    const [standing, out, bare] = assessTable(specOf(), table).tipping;
    const plate = 2 * 0.95 * 0.03 * 670 + 4 * 0.06 * 0.06 * 0.71 * 670;
    const leafKg = 0.5 * 0.95 * 0.03 * 670;
    const gravity = (leafKg * 1250) / (plate + leafKg);
    expect(out?.edge?.loadN).toBeCloseTo(((plate + leafKg) * g * (760 - gravity)) / (1500 - 760), 6);
    expect(standing?.edge?.loadN).toBeCloseTo(((plate + leafKg) * g * 760) / 240, 6);
    expect(bare?.edge?.loadN).toBeCloseTo((plate * g * 760) / 240, 6);
  });
});

describe('a gate leg', () => {
  test('swung out it stands on the floor and carries; lifted off it, it does not', () => {
    const gate = block('gate', 'leg', [60, 60, 710], [0, 0, 0]);
    const state = (id: string, z: number) => ({ id, says: id, moved: { gate: [0, -430, z] as const }, without: [] });
    const table = tableOf(top, [...fourLegs(top, 60, 240, 90), gate], {
      states: [{ id: 'standing', says: 'as it stands', moved: {}, without: [] }, state('out', 0), state('lifted', 5)],
    });
    const [standing, out, lifted] = assessTable(specOf(), table).tipping;
    const front = (t: typeof standing) => t?.places.find((p) => p.id === 'front')?.edge?.loadN ?? 0;
    // The swung leg reaches 460 of the 475 mm: its weight moves the middle of gravity to the front as well.
    expect(front(out)).toBeGreaterThan(3 * front(standing));
    expect(front(lifted)).toBeLessThan(front(standing));
  });
});

describe('a loose top', () => {
  const loose = { fixing: { kind: 'loose', pointsMm: [], from: ['table', 'fixing'] } } as const;
  test('tips over its bearers with its own weight, long before the table', () => {
    const bearers = [-500, 500].map((x, i) => block(`bearer-${i}`, 'bearer', [60, 800, 90], [x, 0, 620]));
    const feet = [-500, 500].map((x, i) => block(`trestle-${i}`, 'leg', [400, 800, 620], [x, 0, 0]));
    const { tipping, problems } = assessTable(specOf(), tableOf(top, [...feet, ...bearers], loose));
    const weight = 2 * 0.95 * 0.03 * 670 * g;
    expect(tipping[0]?.edge?.loadN).toBeCloseTo((weight * 530) / (1000 - 530), 6);
    expect(tipping[0]?.places.find((p) => p.id === 'right')?.inside50?.loadN).toBeCloseTo((weight * 530) / (950 - 530), 6);
    expect(tipping[0]?.cases.find((c) => c.id === 'lean')?.safetyFactor).toBeCloseTo((weight * 530) / 420 / 400, 6);
    expect(problems.map((p) => p.code)).toContain('assess/loose-top');
    const fixed = assessTable(specOf(), tableOf(top, [...feet, ...bearers])).tipping[0];
    expect(fixed?.edge?.loadN ?? 0).toBeGreaterThan(3 * (tipping[0]?.edge?.loadN ?? 0));
  });
  test('falls by itself where its weight acts outside what carries it', () => {
    const base = [block('foot', 'other', [900, 900, 700], [0, 0, 0]), block('bearer', 'bearer', [100, 800, 10], [300, 0, 700])];
    const problem = assessTable(specOf(), tableOf(top, base, loose)).problems.find((p) => p.code === 'assess/falls-by-itself');
    expect(problem?.title).toMatch(/^the loose top falls off/);
  });
});

describe('what a table must not do', () => {
  test('a weight outside its feet is an error with the place', () => {
    const table = tableOf(top, [block('post', 'post', [100, 100, 710], [600, 0, 0])]);
    const problem = assessTable(specOf(), table).problems.find((p) => p.code === 'assess/falls-by-itself');
    expect(problem?.severity).toBe('error');
    expect(problem?.found).toMatch(/centre of gravity \d+/);
  });
  test('below the least factor: refused where offered, warned about where not', () => {
    const small = { lengthMm: 900, widthMm: 900, thicknessMm: 25, heightMm: 740, round: true };
    const table = tableOf(small, [round('post', 'post', 240, 715, [0, 0, 0])]);
    const offered = assessTable(specOf(), table).problems.find((p) => p.code === 'assess/below-least');
    expect(offered?.severity).toBe('error');
    const kept = assessTable(specOf({}, { variant: { ...variant, offered: false } }), table).problems.find(
      (p) => p.code === 'assess/below-least',
    );
    expect(kept?.severity).toBe('warning');
  });
  test('a table larger than its room is an error, with the amount', () => {
    const tight = {
      ...proposal,
      room: { ...proposal.room, width: length(1000), obstacles: { r: { says: 'radiator', side: 'back' as const, depth: length(110) } } },
    };
    const problems = assessTable(specOf({}, { proposal: tight }), tableOf(top, fourLegs(top, 60, 240, 90))).problems;
    const problem = problems.find((p) => p.code === 'assess/room-too-small');
    expect(problem?.severity).toBe('error');
    expect(problem?.found).toMatch(/85\smm too much at the back/);
  });
});

describe('open underneath', () => {
  test('four posts and nothing else, by hand', () => {
    const { open } = assessTable(specOf(), tableOf(top, fourLegs(top, 60, 240, 90)));
    expect(open.front).toBeCloseTo(1 - 120 / 2000, 6);
    expect(open.side).toBeCloseTo(1 - 120 / 950, 6);
  });
  test('a cone hides its trapezium; rails hide what the legs do not', () => {
    const cup = part('post', 'post', cone(300, 100, 710), [0, 0, 0]);
    expect(assessTable(specOf(), tableOf(top, [cup])).open.front).toBeCloseTo(1 - 200 / 2000, 4);
    const rail = block('rail', 'rail', [1400, 20, 60], [0, 300, 650]);
    const { open } = assessTable(specOf(), tableOf(top, [...fourLegs(top, 60, 240, 90), rail]));
    expect(open.front).toBeCloseTo(1 - (120 * 710 + 1400 * 60) / (2000 * 710), 6);
  });
  test('floor seen: ten thousand lines of sight agree', () => {
    const parts = fourLegs(top, 120, 240, 90);
    const table = tableOf(top, parts);
    const { floorSeen = 0 } = assessTable(specOf(), table).open;
    const eye = [0, -475 - 2500, 1600];
    const boxes = table.parts.map((p) => {
      const [w, d, h] = p.id === 'top' ? [2000, 950, 30] : [120, 120, 710];
      const [x, y, z] = p.placement.originMm;
      return [x - w / 2, x + w / 2, y - d / 2, y + d / 2, z, z + h] as const;
    });
    let seen = 0;
    for (let i = 0; i < 100; i++) {
      for (let j = 0; j < 100; j++) {
        const floor = [-1000 + 20 * i + 10, -475 + 9.5 * j + 4.75, 0];
        const hit = boxes.some((b) => {
          let [from, to] = [0, 1];
          for (const axis of [0, 1, 2]) {
            const [p, d] = [eye[axis] as number, (floor[axis] as number) - (eye[axis] as number)];
            const [lo, hi] = [b[2 * axis] as number, b[2 * axis + 1] as number];
            if (d === 0) {
              if (p <= lo || p >= hi) return false;
              continue;
            }
            const [t0, t1] = [(lo - p) / d, (hi - p) / d];
            from = Math.max(from, Math.min(t0, t1));
            to = Math.min(to, Math.max(t0, t1));
          }
          return to - from > 1e-9;
        });
        if (!hit) seen++;
      }
    }
    expect(floorSeen).toBeGreaterThan(0.05);
    expect(Math.abs(floorSeen - seen / 10000)).toBeLessThan(0.01);
  });
});

describe('places, knees, arms', () => {
  const table = tableOf(top, [
    ...fourLegs(top, 60, 240, 90),
    block('apron-front', 'apron', [1400, 20, 80], [0, -370, 630]),
    block('apron-back', 'apron', [1400, 20, 80], [0, 370, 630]),
  ]);
  test('whole places between the legs, straddled places, free width', () => {
    const places: MeasureSpec = { kind: 'places', width: length(600), kneeHeight: length(650), ends: 1, straddled: false, atLeast: 6 };
    const found = answer(places, table);
    expect(found.value).toBe(2 + 2 + 2);
    expect(found.result).toBe('enough');
    expect(found.why?.values).toMatchObject({ perSide: 2, freeMm: 2000 - 2 * (240 + 60) });
    expect(answer({ ...places, straddled: true, atLeast: 8 }, table).value).toBe(3 + 3 + 2);
    expect(answer({ ...places, width: length(701) }, table).value).toBe(1 + 1);
    expect(answer({ ...places, width: length(701) }, table).result).toBe('not-enough');
  });
  test('clear height under the long apron; a bearer across only parts the chairs', () => {
    expect(answer({ kind: 'clear-height', atLeast: length(665) }, table)).toMatchObject({
      value: 630,
      result: 'not-enough',
      why: { values: { id: 'apron-front' } },
    });
    const bearers = tableOf(top, [...fourLegs(top, 60, 240, 90), block('bearer', 'bearer', [60, 900, 80], [0, 0, 630])]);
    expect(answer({ kind: 'clear-height', atLeast: length(665) }, bearers).value).toBe(710);
  });
  test('a place is 24 in wide where nobody says otherwise (NKBA guideline 9, tests/published/statics.json)', () => {
    const run = (mm: number) =>
      assessTable(specOf(), tableOf({ ...top, lengthMm: mm + 600 }, fourLegs({ ...top, lengthMm: mm + 600 }, 60, 240, 90))).fit.places
        ?.perSide;
    expect([2 * 24 * 25.4 - 1, 2 * 24 * 25.4, 3 * 24 * 25.4].map(run)).toEqual([1, 2, 3]);
  });
  test('nobody sits where the table stands against a wall, and a rail there stops no arms', () => {
    const back = block('rail', 'rail', [1400, 20, 250], [0, 370, 460]);
    const table = tableOf(top, [...fourLegs(top, 60, 240, 90), back]);
    const measure: MeasureSpec = { kind: 'places', width: length(600), kneeHeight: length(650), ends: 0, straddled: false, atLeast: 2 };
    const against = { ...proposal, room: { ...proposal.room, stands: { back: length(60) } }, wishes: { w1: { says: 'two', measure } } };
    const { fit, wishes } = assessTable(specOf({}, { proposal: against }), table);
    expect(wishes[0]?.value).toBe(2);
    expect(fit.places?.perSide).toBe(2);
    expect(fit.clearHeightMm).toBe(710);
    expect(answer(measure, table).value).toBe(4);
    expect(assessTable(specOf(), table).fit.clearHeightMm).toBe(460);
  });
  test('round top: rim over place width, less what four legs near the rim take', () => {
    const disc = { lengthMm: 1219.2, widthMm: 1219.2, thicknessMm: 30, heightMm: 740, round: true };
    const pedestal = tableOf(disc, [round('post', 'post', 120, 710, [0, 0, 0])]);
    const places: MeasureSpec = { kind: 'places', width: length(609.6), kneeHeight: length(650), ends: 0, straddled: false, atLeast: 5 };
    expect(answer(places, pedestal).value).toBe(Math.floor((Math.PI * 48) / 24));
    const bistro = tableOf({ ...disc, lengthMm: 600, widthMm: 600 }, [round('post', 'post', 80, 710, [0, 0, 0])]);
    expect(answer(places, bistro).value).toBe(Math.floor((Math.PI * 600) / 609.6));
    const legs = [0, 1, 2, 3].map((i) =>
      round(`leg-${i}`, 'leg', 60, 710, [500 * Math.cos((i * Math.PI) / 2), 500 * Math.sin((i * Math.PI) / 2), 0]),
    );
    expect(answer(places, tableOf(disc, legs)).value).toBe(4);
    // Four legs of 60 mm at 500 mm from the middle: each takes 2 asin(30 / 500) of the rim.
    const free = (Math.PI * 1219.2 - 4 * 609.6 * 2 * Math.asin(30 / 500)) / 4;
    expect(answer(places, tableOf(disc, legs)).why?.values.freeMm).toBeCloseTo(free, 0);
    const bar = tableOf(disc, [round('post', 'post', 120, 650, [0, 0, 0]), block('bearer', 'bearer', [800, 60, 60], [0, 0, 650])]);
    expect(answer({ kind: 'clear-height', atLeast: length(600) }, bar).value).toBe(710);
    const ring = tableOf(disc, [round('post', 'post', 120, 650, [0, 0, 0]), round('plate', 'plate', 900, 60, [0, 0, 650])]);
    expect(answer({ kind: 'clear-height', atLeast: length(600) }, ring).value).toBe(650);
  });
  test('knee space: under a drawer, beside it where that is wide enough, nothing over a stretcher', () => {
    const drawer = block('drawer', 'drawer', [600, 400, 110], [-300, -200, 600]);
    const desk = tableOf(top, [...fourLegs(top, 60, 240, 90), drawer]);
    const knee = (wide: number) => answer({ kind: 'knee-space', wide: length(wide), deep: length(450), atLeast: length(620) }, desk);
    expect(knee(1000)).toMatchObject({ value: 600, result: 'not-enough', why: { values: { id: 'drawer' } } });
    expect(knee(650)).toMatchObject({ value: 710, result: 'enough' });
    const low = tableOf(top, [...fourLegs(top, 60, 240, 90), block('stretcher', 'stretcher', [1400, 20, 30], [0, -300, 0])]);
    expect(answer({ kind: 'knee-space', wide: length(1000), deep: length(450), atLeast: length(620) }, low).value).toBe(0);
  });
  test('insets from rim, ends and sides between two heights', () => {
    const inset = (over: Partial<Extract<MeasureSpec, { kind: 'inset' }>>) =>
      answer({ kind: 'inset', from: 'rim', above: length(0), atLeast: length(100), ...over }, table);
    expect(inset({}).value).toBeCloseTo(90, 6);
    expect(inset({ from: 'ends' }).value).toBeCloseTo(240, 6);
    expect(inset({ from: 'back', above: length(640) }).value).toBeCloseTo(90, 6);
    const disc = { lengthMm: 1219.2, widthMm: 1219.2, thicknessMm: 30, heightMm: 740, round: true };
    const pedestal = tableOf(disc, [part('foot', 'foot', cone(762, 662, 50), [0, 0, 0]), round('post', 'post', 120, 660, [0, 0, 50])]);
    const rim = (above: number) => answer({ kind: 'inset', from: 'rim', above: length(above), atLeast: length(228.6) }, pedestal);
    expect(rim(0)).toMatchObject({ result: 'limit' });
    expect(rim(0).value).toBeCloseTo(228.6, 6);
    expect(rim(25).value).toBeCloseTo(609.6 - 356, 6);
    expect(rim(50).value).toBeCloseTo(609.6 - 60, 6);
  });
});

describe('results', () => {
  const table = tableOf(top, fourLegs(top, 60, 240, 90));
  const load = 2000 * 950 * 30 * 670e-9 + 4 * 60 * 60 * 710 * 670e-9;
  const end = (load * g * 760) / 190;
  const asked = (share: number) =>
    answer({ kind: 'tipping-load', at: 'ends', inset: length(50), atLeast: force(end / share) }, table).result;
  test('loads: within 3 % on either side at the limit', () => {
    expect([1.031, 1.029, 1, 0.971, 0.969].map(asked)).toEqual(['enough', 'limit', 'limit', 'limit', 'not-enough']);
  });
  test('what is drawn exactly: at the limit from the target to 3 % better, short is short', () => {
    const clear = (mm: number) => answer({ kind: 'clear-height', atLeast: length(mm) }, table).result;
    expect([680, 700, 710, 711].map(clear)).toEqual(['enough', 'limit', 'limit', 'not-enough']);
    const size = (low: number, high: number) =>
      answer({ kind: 'size', of: 'length', atLeast: length(low), atMost: length(high) }, table).result;
    expect([size(2000, 2000), size(1900, 1999), size(2001, 2200)]).toEqual(['enough', 'not-enough', 'not-enough']);
  });
  test('open share, mass, push', () => {
    expect(answer({ kind: 'open', seenFrom: 'front', atLeast: percent(90) }, table).value).toBeCloseTo(94, 6);
    expect(answer({ kind: 'mass', atMost: { kg: 60, written: '60 kg' } }, table).result).toBe('enough');
    expect(answer({ kind: 'push', atLeast: force(100) }, table)).toMatchObject({
      result: 'enough',
      why: { key: 'wish.why.push-crossways' },
    });
  });
  test('price: at most the sum asked for, to the cent; unknown without a price', () => {
    const spec = asks({ kind: 'price', of: 'total', atMost: decimal('6000') });
    const priced = (minor: number) =>
      assessTable(spec, table, { net: { currency: 'EUR', minor: 1 }, total: { currency: 'EUR', minor } }).wishes[0];
    expect(priced(600000)).toMatchObject({ value: 600000, target: { atMost: 600000 }, result: 'limit' });
    expect(priced(600001)?.result).toBe('not-enough');
    expect(priced(588000)?.result).toBe('limit');
    expect(priced(500000)?.result).toBe('enough');
    expect(assessTable(spec, table).wishes[0]?.result).toBe('not-computed');
  });
  test("taste is the maker's answer", () => {
    const spec = asks({ kind: 'judgement' }, { variant: { ...variant, answers: { w1: { result: 'enough', says: 'light as a reed' } } } });
    expect(assessTable(spec, table).wishes[0]).toMatchObject({ result: 'enough', says: 'light as a reed' });
    expect(assessTable(asks({ kind: 'judgement' }), table).wishes[0]?.result).toBe('judgement');
  });
  test('a load that tips nothing is enough and has no value', () => {
    const wide = tableOf({ ...top, lengthMm: 800, widthMm: 400 }, [block('plinth', 'other', [900, 500, 710], [0, 0, 0])]);
    const found = answer({ kind: 'tipping-load', at: 'worst', inset: length(0), atLeast: force(9999) }, wide);
    expect(found).toMatchObject({ result: 'enough', why: { key: 'wish.why.never-tips' } });
    expect(found.value).toBeUndefined();
  });
});

describe('wood against its joints', () => {
  const legs = fourLegs(top, 60, 240, 90);
  const codes = (table: Table, spec = specOf()) => assessTable(spec, table).problems.map((p) => p.code);
  const points = [-385, 385].map((yMm) => ({ xMm: 0, yMm, slotAlong: 'none' as const }));
  test('a top screwed fast across its grain is warned about, one on buttons or along its grain is not', () => {
    expect(codes(tableOf(top, legs, { fixing: { kind: 'rigid', pointsMm: points, from: ['table', 'fixing'] } }))).toContain(
      'assess/top-held-fast',
    );
    expect(codes(tableOf(top, legs, { fixing: { kind: 'buttons', pointsMm: points, from: ['table', 'fixing'] } }))).not.toContain(
      'assess/top-held-fast',
    );
    const along = [-700, 700].map((xMm) => ({ xMm, yMm: 0, slotAlong: 'none' as const }));
    expect(codes(tableOf(top, legs, { fixing: { kind: 'rigid', pointsMm: along, from: ['table', 'fixing'] } }))).not.toContain(
      'assess/top-held-fast',
    );
  });
  test('slots: the farthest button from the middle, and 1 mm', () => {
    const table = tableOf(top, legs, { fixing: { kind: 'buttons', pointsMm: points, from: ['table', 'fixing'] } });
    const [movement] = assessTable(specOf(), table).movement;
    expect(movement?.slotMm).toBeCloseTo(((movement?.changeMm ?? 0) * 385) / 950 + 1, 9);
    expect(movement?.equation).toBe('Eq. 13-2');
    // 34 to 58 % at 20 C: 6.8 to 10.6 % moisture (Wood Handbook Eq. 4-5), C_T 0.00365.
    expect(movement?.changeMm).toBeCloseTo(950 * 0.00365 * ((movement?.moistureHighPercent ?? 0) - (movement?.moistureLowPercent ?? 0)), 9);
  });
  test('outside 6 to 14 % the shrinkage equation decides, and both are kept', () => {
    const dry = specOf({}, { proposal: { ...proposal, room: { ...proposal.room, humidity: { low: percent(22), high: percent(60) } } } });
    const [movement] = assessTable(dry, tableOf(top, legs)).movement;
    expect(movement?.equation).toBe('Eq. 13-3');
    expect(movement?.changeMm).toBe(movement?.byEquation.eq133Mm);
    expect(movement?.byEquation.eq132Mm).toBeDefined();
    const { shrinkTangentialPercent: _, ...bare } = library.woods['oak-european'] as NonNullable<(typeof library.woods)[string]>;
    const unknown = { ...dry, library: { ...library, woods: { ...library.woods, 'oak-european': bare } } };
    expect(codes(tableOf(top, legs), unknown)).toContain('assess/moisture-beyond-range');
  });
  test('cleats glued across a panel, end grain glued flat, a tenon right across a wide slab', () => {
    const square = (y0: number, y1: number, z: number) =>
      [
        [-20, y0, z],
        [20, y0, z],
        [20, y1, z],
        [-20, y1, z],
      ] as const;
    const cleat = block('cleat', 'bearer', [40, 800, 40], [0, 0, 670], { grain: { L: [0, 1, 0], R: [0, 0, 1], T: [1, 0, 0] } });
    const glued = (kind: 'face-glue' | 'rests' | 'slotted-screws') =>
      tableOf(top, [...legs, cleat], { joints: [joint(kind, 'top', 'cleat', [square(-400, 400, 710)])] });
    expect(codes(glued('face-glue'))).toContain('assess/top-held-fast');
    expect(codes(glued('slotted-screws'))).not.toContain('assess/top-held-fast');
    const onEnd = tableOf(top, legs, { joints: [joint('face-glue', 'top', 'leg-0', [square(-20, 20, 710)])] });
    expect(codes(onEnd)).toContain('assess/end-grain-glue');
    const tenon = tableOf(top, legs, { joints: [joint('mortise-and-tenon', 'top', 'leg-0', [square(-20, 20, 710)])] });
    expect(codes(tenon)).not.toContain('assess/end-grain-glue');
    const slab = block('slab', 'slab', [40, 600, 600], [500, 0, 0]);
    const bearer = block('bearer', 'bearer', [40, 600, 60], [500, 0, 600], { grain: { L: [0, 1, 0], R: [0, 0, 1], T: [1, 0, 0] } });
    const wide = (half: number) =>
      tableOf(top, [...legs, slab, bearer], { joints: [joint('mortise-and-tenon', 'slab', 'bearer', [square(-half, half, 600)])] });
    expect(codes(wide(300))).toContain('assess/cross-grain-joint');
    expect(codes(wide(40))).not.toContain('assess/cross-grain-joint');
  });
  test('a wide flat-sawn top over a heated floor', () => {
    const heated = specOf({}, { proposal: { ...proposal, room: { ...proposal.room, underfloorHeating: true } } });
    expect(codes(tableOf(top, legs), heated)).toContain('assess/flat-sawn-over-heating');
    expect(codes(tableOf(top, legs))).not.toContain('assess/flat-sawn-over-heating');
  });
});
