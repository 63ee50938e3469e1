import type { Problem } from '../../problem/index.ts';
import { box, frustum, IDENTITY } from '../../solid/index.ts';
import type { EffectiveSpec, SlabEndsBase } from '../../spec/index.ts';
import { type BaseDraft, ownJoint, type PartDraft } from '../draft.ts';
import { amountsFor, refuse } from '../refuse.ts';
import { planMm } from '../tops/top.ts';
import { tenonMm } from './rails.ts';

/** Two upright boards across the table, grain up, from the floor to the underside of the top; a stretcher between them where asked. */
export function makeSlabEnds(spec: EffectiveSpec, base: SlabEndsBase): BaseDraft {
  const { slabs, stretcher } = base;
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const { lengthMm } = planMm(spec.table.top);
  const middle = lengthMm / 2 - slabs.endOverhang.mm - slabs.thickness.mm / 2;
  const footWidth = slabs.footWidth?.mm ?? slabs.width.mm;
  const ends = [
    ['base/slab-left', -1],
    ['base/slab-right', 1],
  ] as const;
  const parts = ends.map(
    ([id, side]): PartDraft => ({
      id,
      role: 'slab',
      name: 'part.slab',
      stuff: slabs.wood ?? spec.table.wood,
      solid: frustum([slabs.thickness.mm, footWidth], [slabs.thickness.mm, slabs.width.mm], undersideMm),
      placement: { originMm: [side * middle, 0, 0], axes: IDENTITY },
      grainAlong: [0, 0, 1],
      across: [0, 1, 0],
      sawn: 'flat',
      boardWidthMm: slabs.boardWidth?.mm,
      features: footWidth === slabs.width.mm ? [] : ['tapered'],
      from: ['table', 'base', 'slabs'],
    }),
  );
  if (stretcher === undefined) return { parts, joints: [] };
  const from = ['table', 'base', 'stretcher'];
  const rail: PartDraft = {
    id: 'base/stretcher',
    role: 'stretcher',
    name: 'part.stretcher',
    stuff: stretcher.wood ?? spec.table.wood,
    solid: box(2 * middle - slabs.thickness.mm, stretcher.thickness.mm, stretcher.height.mm),
    placement: { originMm: [0, 0, stretcher.at.mm], axes: IDENTITY },
    grainAlong: [1, 0, 0],
    across: stretcher.height.mm >= stretcher.thickness.mm ? [0, 0, 1] : [0, 1, 0],
    sawn: 'flat',
    features: [],
    from,
  };
  const joints = ends.map(([id]) => ownJoint('mortise-and-tenon', rail.id, id, from, tenonMm(slabs.thickness.mm)));
  return { parts: [...parts, rail], joints };
}

/** Slabs must stand under the top, apart from each other, and the stretcher between floor and top. */
export function checkSlabEnds(spec: EffectiveSpec, base: SlabEndsBase): readonly Problem[] {
  const { slabs, stretcher } = base;
  const { length } = amountsFor(spec);
  const { lengthMm, widthMm } = planMm(spec.table.top);
  const undersideMm = spec.table.height.mm - spec.table.top.thickness.mm;
  const problems: Problem[] = [];
  const between = lengthMm - 2 * (slabs.endOverhang.mm + slabs.thickness.mm);
  if (slabs.endOverhang.mm < 0) {
    problems.push(
      refuse(
        'design/leg-outside-top',
        `the slab ends stand ${length(-slabs.endOverhang.mm)} outside the top`,
        ['table', 'base', 'slabs', 'endOverhang'],
        {
          found: slabs.endOverhang.written,
          allowed: '0 or more',
        },
      ),
    );
  }
  if (between <= 0) {
    problems.push(
      refuse('design/legs-collide', `the slab ends run into each other by ${length(-between)}`, ['table', 'base', 'slabs', 'endOverhang'], {
        found: slabs.endOverhang.written,
        allowed: `less than ${length(lengthMm / 2 - slabs.thickness.mm)}`,
      }),
    );
  }
  if (slabs.width.mm > widthMm) {
    problems.push(
      refuse(
        'design/leg-outside-top',
        `the slab ends are ${length(slabs.width.mm - widthMm)} wider than the top`,
        ['table', 'base', 'slabs', 'width'],
        {
          found: slabs.width.written,
          allowed: `at most ${length(widthMm)}`,
        },
      ),
    );
  }
  if (stretcher !== undefined && stretcher.at.mm + stretcher.height.mm > undersideMm) {
    const over = stretcher.at.mm + stretcher.height.mm - undersideMm;
    problems.push(
      refuse('design/no-height-left', `the stretcher reaches ${length(over)} into the top`, ['table', 'base', 'stretcher', 'at'], {
        found: stretcher.at.written,
        allowed: `at most ${length(undersideMm - stretcher.height.mm)}`,
      }),
    );
  }
  return problems;
}
