import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { readProposal } from '../../src/read/index.ts';

/** Tables as a maker writes them, against figures computed elsewhere: `how` in tests/published/elsewhere.json says how. */
interface Elsewhere {
  readonly how: string;
  readonly toleranceRel: number;
  readonly tables: readonly {
    readonly id: string;
    readonly says: string;
    readonly proposal: Readonly<Record<string, string>>;
    readonly humidity: { readonly low: string; readonly high: string };
    readonly table: unknown;
    readonly expected: {
      readonly massKg: number;
      readonly centreOfGravityMm: readonly number[];
      readonly pushN: number;
      readonly edgeN: number | null;
      readonly inside50N: number | null;
      readonly cornersN?: readonly (number | null)[];
      readonly finishAreaM2: number;
      readonly undersideM2: number;
      readonly openFront: number;
      readonly openSide: number;
      readonly topMovesMm: number;
      readonly states?: Readonly<
        Record<string, { readonly pushN: number; readonly edgeN: number | null; readonly inside50N: number | null }>
      >;
    };
  }[];
}

const { tables, toleranceRel } = JSON.parse(readFileSync(new URL('../published/elsewhere.json', import.meta.url), 'utf8')) as Elsewhere;

const root = mkdtempSync(join(tmpdir(), 'elsewhere-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** JSON is YAML: what was computed elsewhere is handed over as it stands. */
function figuresFor({ id, proposal: words, humidity, table }: Elsewhere['tables'][number]) {
  const folder = join(root, 'proposals', id);
  mkdirSync(join(folder, 'variants'), { recursive: true });
  const proposal = {
    format: 'leafwright/proposal/1',
    title: 'Trial',
    invented: true,
    client: { name: 'Nobody' },
    ...words,
    use: 'dining',
    understood: 'A trial.',
    room: { length: '12000 mm', width: '9000 mm', humidity, temperature: '20 C' },
    revision: { id: 'r1', date: '2026-03-01', validUntil: '2026-04-01' },
    leadTime: 'weeks',
    instalments: [{ percent: '100 %', when: 'at the end' }],
  };
  writeFileSync(join(folder, 'proposal.yaml'), JSON.stringify(proposal, undefined, 1));
  writeFileSync(join(folder, 'table.yaml'), JSON.stringify(table, undefined, 1));
  writeFileSync(join(folder, 'variants', 'a.yaml'), 'name: A\nwhy: trial\noffered: false\ntable: {}\n');
  const { input, problems } = readProposal(root, id);
  if (input === undefined) throw new Error(problems.map((p) => p.title).join('; '));
  const result = computeProposal(input, { measure: (text, sizeMm) => text.length * sizeMm * 0.5 });
  if (result.computed === undefined) throw new Error(result.problems.map((p) => p.title).join('; '));
  const figures = figuresOf(result.computed).variants['A'];
  if (figures === undefined) throw new Error('no design A');
  return figures;
}

describe.each(tables)('$id, $says', (one) => {
  const figures = figuresFor(one);
  const { expected } = one;
  const near = (found: number | null | undefined, wanted: number | null): void => {
    if (wanted === null) expect(found).toBeNull();
    else expect(Math.abs((found ?? Number.NaN) - wanted) / Math.abs(wanted)).toBeLessThan(toleranceRel);
  };
  const standing = figures.tipping['standing'];

  test('mass and centre of gravity', () => {
    near(figures.massKg, expected.massKg);
    const { x, y, z } = figures.centreOfGravityMm;
    for (const [i, found] of [x, y, z].entries()) {
      const wanted = expected.centreOfGravityMm[i] ?? Number.NaN;
      expect(Math.abs(found - wanted)).toBeLessThan(toleranceRel * figures.overallMm.height);
    }
  });

  test('loads that begin to tip it', () => {
    near(standing?.edge?.loadN ?? null, expected.edgeN);
    near(standing?.inside50?.loadN ?? null, expected.inside50N);
    near(standing?.push.forceN, expected.pushN);
    for (const [i, wanted] of (expected.cornersN ?? []).entries()) near(standing?.corners[i]?.loadN ?? null, wanted);
  });

  test.each(Object.entries(expected.states ?? {}))('the same, %s', (state, wanted) => {
    const found = figures.tipping[state];
    near(found?.edge?.loadN ?? null, wanted.edgeN);
    near(found?.inside50?.loadN ?? null, wanted.inside50N);
    near(found?.push.forceN, wanted.pushN);
  });

  test('surfaces', () => {
    near(figures.takeoff.finishAreaM2, expected.finishAreaM2);
    near(figures.takeoff.undersideAreaM2, expected.undersideM2);
  });

  test('openness and movement', () => {
    near(figures.open.front, expected.openFront);
    near(figures.open.side, expected.openSide);
    near(figures.movement.find(({ partId }) => partId === 'top')?.changeMm, expected.topMovesMm);
  });
});
