import { describe, expect, test } from 'vitest';
import { assessTable } from '../../src/assess/index.ts';
import type { Table } from '../../src/design/index.ts';
import { CATALOGUE, formatProblem } from '../../src/problem/index.ts';
import type { AccessSpec, EffectiveSpec } from '../../src/spec/index.ts';
import { force, length, library, percent, proposal, specOf, variant } from '../fixtures.ts';
import { block, fourLegs, joint, round, tableOf } from './by-hand.ts';

const top = { lengthMm: 2000, widthMm: 950, thicknessMm: 30, heightMm: 740 };
const legs = fourLegs(top, 60, 240, 90);
const plain = tableOf(top, legs);
const post = tableOf({ ...top, lengthMm: 900, widthMm: 900, round: true }, [round('post', 'post', 240, 710, [0, 0, 0])]);
const square = (half: number, z: number) =>
  [
    [-20, -half, z],
    [20, -half, z],
    [20, half, z],
    [-20, half, z],
  ] as const;
const roomWith = (over: Partial<EffectiveSpec['proposal']['room']>): EffectiveSpec =>
  specOf({}, { proposal: { ...proposal, room: { ...proposal.room, ...over } } });
const door = (width: number, height: number): AccessSpec => ({
  kind: 'door',
  says: 'flat door',
  width: length(width),
  height: length(height),
});
const alongY = { grain: { L: [0, 1, 0], R: [0, 0, 1], T: [1, 0, 0] } } as const;
const slab = block('slab', 'slab', [40, 600, 600], [500, 0, 0]);
const bearer = block('bearer', 'bearer', [40, 600, 60], [500, 0, 600], alongY);
const { shrinkTangentialPercent: _, ...unshrunk } = library.woods['oak-european'] as NonNullable<(typeof library.woods)[string]>;
const dry = roomWith({ humidity: { low: percent(20), high: percent(60) } });

/**
 * What must be said, as printed without colours. By hand: 4.76 kg of 42.95 kg stand 600 mm off the middle, so the weight acts 66 mm off it;
 * 34.3 kg on a post of 240 mm under a top of 900 mm: 336 N x 120 / (400 - 120) = 144 N of 400 N; 950 - 900 = 50 mm, half of it on a side.
 */
const cases: readonly { readonly code: string; readonly spec?: EffectiveSpec; readonly table: Table; readonly text: string }[] = [
  {
    code: 'assess/falls-by-itself',
    table: tableOf(top, [block('post', 'post', [100, 100, 710], [600, 0, 0])]),
    text: 'centre of gravity 66\u202fmm along and 0\u202fmm across from the middle of the top',
  },
  {
    code: 'assess/below-least',
    table: post,
    text: 'safety factor 0.36 for "A grown person leans on the edge" (400\u202fN down, state standing)',
  },
  {
    code: 'assess/below-wanted',
    spec: specOf(
      {},
      {
        library: {
          ...library,
          loadCases: { seat: { ...(library.loadCases.lean as NonNullable<typeof library.loadCases.lean>), load: force(1300) } },
        },
      },
    ),
    table: plain,
    text: '1.5 wanted',
  },
  {
    code: 'assess/loose-top',
    table: tableOf(top, legs, { fixing: { kind: 'loose', pointsMm: [], from: ['table', 'fixing'] } }),
    text: 'kind: loose',
  },
  {
    code: 'assess/top-held-fast',
    table: tableOf(top, legs, {
      fixing: {
        kind: 'rigid',
        pointsMm: [-385, 385].map((yMm) => ({ xMm: 0, yMm, slotAlong: 'none' as const })),
        from: ['table', 'fixing'],
      },
    }),
    text: 'rigid over 770\u202fmm across the grain, which moves 10.7\u202fmm in a year',
  },
  {
    code: 'assess/cross-grain-joint',
    table: tableOf(top, [...legs, slab, bearer], { joints: [joint('mortise-and-tenon', 'slab', 'bearer', [square(300, 600)])] }),
    text: 'mortise-and-tenon of slab to bearer, 600\u202fmm across the grain, which moves 8.4\u202fmm in a year',
  },
  {
    code: 'assess/end-grain-glue',
    table: tableOf(top, legs, { joints: [joint('end-grain-glue', 'leg-0', 'top')] }),
    text: 'end-grain-glue between leg-0 and top',
  },
  {
    code: 'assess/flat-sawn-over-heating',
    spec: roomWith({ underfloorHeating: true }),
    table: plain,
    text: 'flat-sawn, 950\u202fmm across the grain',
  },
  {
    code: 'assess/moisture-beyond-range',
    spec: { ...dry, library: { ...library, woods: { ...library.woods, 'oak-european': unshrunk } } },
    table: plain,
    text: '4.5 to 11.0 % moisture in the wood',
  },
  {
    code: 'assess/stands-twice',
    spec: roomWith({ stands: { front: length(900), back: length(900) } }),
    table: plain,
    text: '70\u202fmm more than the room',
  },
  { code: 'assess/room-too-small', spec: roomWith({ width: length(900) }), table: plain, text: '25\u202fmm too much at the back' },
  {
    code: 'assess/way-in-blocked',
    spec: roomWith({ access: [door(600, 700)] }),
    table: plain,
    text: 'top, 2,000\u00a0× 950\u00a0× 30\u202fmm, 38\u202fkg: carried end on and tilted through the opening, 41\u202fmm short',
  },
  {
    code: 'assess/way-in-not-proven',
    spec: roomWith({ access: [door(600, 2000)] }),
    table: tableOf(top, legs, { joints: legs.slice(1).map((leg) => joint('dowels', 'leg-0', leg.id)) }),
    text: 'leg-0 and 3 more, 1,520\u00a0× 770\u00a0× 710\u202fmm, 7\u202fkg: carried end on through the opening, 110\u202fmm short: carry a template through first',
  },
  {
    code: 'assess/heavy-piece',
    table: tableOf({ ...top, thicknessMm: 60 }, fourLegs({ ...top, thicknessMm: 60 }, 60, 240, 90)),
    text: 'top: 76\u202fkg',
  },
];

describe('problems of assess', () => {
  test.each(cases)('$code', ({ code, spec = specOf({}, { variant: { ...variant, offered: true } }), table, text }) => {
    const problem = assessTable(spec, table).problems.find((p) => p.code === code);
    expect(problem, code).toBeDefined();
    if (problem === undefined) return;
    const printed = formatProblem(problem, { colour: false });
    expect(printed).toContain(text);
    expect(printed).toContain(problem.title);
    expect(problem.mend).toBeDefined();
  });
  test('every published code of the room is raised above', () => {
    const published = Object.keys(CATALOGUE).filter((code) => code.startsWith('assess/'));
    expect(cases.map((one) => one.code).sort()).toEqual(published.sort());
  });
  test('a sound table raises none', () => {
    expect(assessTable(specOf(), plain).problems).toEqual([]);
  });
});
