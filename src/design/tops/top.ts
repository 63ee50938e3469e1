import type { Problem } from '../../problem/index.ts';
import type { Outline, Vec2 } from '../../solid/index.ts';
import { AT_ORIGIN, disc, plate } from '../../solid/index.ts';
import type { EffectiveSpec, TopSpec } from '../../spec/index.ts';
import type { PartDraft } from '../draft.ts';
import { boardsAcross } from '../part.ts';
import { amountsFor, refuse } from '../refuse.ts';
import type { Table } from '../table.ts';

/** Length along x and width along y of a top, mm. */
export function planMm(top: TopSpec): { readonly lengthMm: number; readonly widthMm: number } {
  if (top.kind === 'round') return { lengthMm: top.diameter.mm, widthMm: top.diameter.mm };
  return { lengthMm: top.length.mm, widthMm: top.width.mm };
}

/** The top's outline in plan, centred on the origin. */
export function topOutline(top: TopSpec): Outline {
  const { lengthMm, widthMm } = planMm(top);
  if (top.kind !== 'rectangle') return { kind: 'ellipse', rxMm: lengthMm / 2, ryMm: widthMm / 2 };
  const [x, y] = [lengthMm / 2, widthMm / 2];
  const points: Vec2[] = [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ];
  return { kind: 'polygon', points };
}

/** The top as a part: a rectangular, round or oval plate with its underside at overall height less thickness. */
export function topPart(spec: EffectiveSpec): PartDraft {
  const { top, wood, height } = spec.table;
  const { lengthMm, widthMm } = planMm(top);
  const chamfer = top.underChamfer && { inMm: top.underChamfer.in.mm, upMm: top.underChamfer.up.mm };
  const shape = top.kind === 'rectangle' ? plate : disc;
  const alongX = top.grain === 'length';
  return {
    id: 'top',
    role: 'top',
    name: 'part.top',
    stuff: top.wood ?? wood,
    solid: shape(lengthMm, widthMm, top.thickness.mm, chamfer),
    placement: { ...AT_ORIGIN, originMm: [0, 0, height.mm - top.thickness.mm] },
    grainAlong: alongX ? [1, 0, 0] : [0, 1, 0],
    across: alongX ? [0, 1, 0] : [1, 0, 0],
    sawn: top.sawn,
    boardWidthMm: top.boardWidth?.mm,
    features: [...(top.kind === 'rectangle' ? [] : (['round'] as const)), ...(chamfer === undefined ? [] : (['chamfered'] as const))],
    from: ['table', 'top'],
  };
}

/** What the other rooms ask of the top. */
export function topFacts(spec: EffectiveSpec): Table['top'] {
  const { top, height } = spec.table;
  const { lengthMm, widthMm } = planMm(top);
  const across = top.grain === 'length' ? widthMm : lengthMm;
  return {
    partId: 'top',
    shape: top.kind,
    outline: topOutline(top),
    thicknessMm: top.thickness.mm,
    heightMm: height.mm,
    acrossGrainMm: across,
    grainAlong: top.grain === 'length' ? 'x' : 'y',
    boardWidthMm: across / boardsAcross(across, top.boardWidth?.mm),
    ...(top.underChamfer === undefined ? {} : { underChamfer: { inMm: top.underChamfer.in.mm, upMm: top.underChamfer.up.mm } }),
  };
}

/** A chamfer must leave an edge and an underside; the top must be lower than the table. */
export function checkTop(spec: EffectiveSpec): readonly Problem[] {
  const { top, height } = spec.table;
  const { length } = amountsFor(spec);
  const { lengthMm, widthMm } = planMm(top);
  const problems: Problem[] = [];
  if (top.thickness.mm >= height.mm) {
    problems.push(
      refuse('design/no-height-left', 'the top is as thick as the table is high', ['table', 'top', 'thickness'], {
        found: top.thickness.written,
        allowed: `less than the overall height, ${height.written}`,
      }),
    );
  }
  if (top.underChamfer === undefined) return problems;
  const half = Math.min(lengthMm, widthMm) / 2;
  if (top.underChamfer.up.mm >= top.thickness.mm) {
    problems.push(
      refuse('design/chamfer-too-large', 'the chamfer under the edge leaves no edge', ['table', 'top', 'underChamfer', 'up'], {
        found: top.underChamfer.up.written,
        allowed: `less than the thickness, ${top.thickness.written}`,
        mend: `write up: ${length(top.thickness.mm / 2)} to leave half of the edge`,
      }),
    );
  }
  if (top.underChamfer.in.mm >= half) {
    problems.push(
      refuse('design/chamfer-too-large', 'the chamfer under the edge leaves no underside', ['table', 'top', 'underChamfer', 'in'], {
        found: top.underChamfer.in.written,
        allowed: `less than half of the top, ${length(half)}`,
      }),
    );
  }
  return problems;
}
