/** Tables with legs at random sizes: never an exception, wood counted once, only refusals that fit. */
import { expect, test } from 'vitest';
import { designTable, partVolume } from '../../src/design/index.ts';
import type { ApronsSpec, LegsSpec, StretchersSpec, TopSpec } from '../../src/spec/index.ts';
import { length, specOf } from '../fixtures.ts';
import { manifold, placedBody } from '../solid/oracle.ts';
import { runOfNumbers } from '../solid/samples.ts';

const EXPECTED = ['design/leg-outside-top', 'design/legs-collide', 'design/apron-beside-leg'];

test('forty tables', () => {
  const next = runOfNumbers(97);
  const whole = (from: number, to: number): number => Math.round(from + (to - from) * next());
  const oneOf = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  let built = 0;
  for (let k = 0; k < 40; k++) {
    const [size, thick] = [whole(35, 90), whole(18, 40)];
    const [end, side] = [whole(80, 400), whole(60, 200)];
    const common = { thickness: length(thick), sawn: 'flat', grain: oneOf(['length', 'width'] as const) } as const;
    const top: TopSpec = oneOf([
      { ...common, kind: 'rectangle', length: length(whole(1200, 2600)), width: length(whole(700, 1200)) },
      { ...common, kind: 'oval', length: length(whole(1700, 2600)), width: length(whole(900, 1200)) },
    ] as const);
    const legs: LegsSpec = {
      shape: oneOf(['square', 'square', 'round']),
      size: length(size),
      taper: oneOf(['inside', 'all']),
      endOverhang: length(end),
      sideOverhang: length(side),
      ...(next() < 0.6 ? { footSize: length(whole(25, 95)) } : {}),
      ...(next() < 0.4 ? { straightFor: length(whole(40, 200)) } : {}),
      ...(next() < 0.4 ? { footEndOverhang: length(whole(end - 100, end + 60)) } : {}),
      ...(next() < 0.3 ? { footSideOverhang: length(whole(side - 60, side + 40)) } : {}),
    };
    const thickness = whole(18, 28);
    const aprons: ApronsSpec = {
      height: length(whole(30, 130)),
      thickness: length(thickness),
      setBack: length(whole(0, Math.max(0, size / 2 - thickness))),
      sides: oneOf(['both', 'long', 'ends']),
      below: length(next() < 0.2 ? whole(1, 30) : 0),
    };
    const stretchers: StretchersSpec = {
      height: length(whole(20, 60)),
      thickness: length(whole(15, 30)),
      at: length(whole(60, 400)),
      plan: oneOf(['box', 'ends', 'h']),
    };
    const base = { kind: 'legs', legs, ...(next() < 0.8 ? { aprons } : {}), ...(next() < 0.5 ? { stretchers } : {}) } as const;
    const { table, problems } = designTable(specOf({ top, base }));
    for (const p of problems) expect(EXPECTED, `${p.title} (${p.found}) with ${JSON.stringify(base)}`).toContain(p.code);
    if (table === undefined) continue;
    built++;
    const union = manifold.Manifold.union(table.parts.map((p) => placedBody(p.solid, p.placement, 0.012))).volume();
    const sum = table.parts.reduce((s, p) => s + partVolume(p).volumeMm3, 0);
    expect(Math.abs(sum / union - 1)).toBeLessThan(3e-4);
  }
  expect(built).toBeGreaterThan(20);
});
