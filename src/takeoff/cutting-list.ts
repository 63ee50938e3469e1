import type { Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { formatSizes } from '../units/index.ts';
import type { CuttingLine } from './take-off.ts';
import { chooseTimber } from './timber-choice.ts';

/**
 * How much wider than finished a panel is glued, before it is cut to size.
 *
 * @source common practice: 10 to 20 mm on a top.
 */
export const PANEL_OVER_WIDTH_MM = 15;

const MM3_PER_M3 = 1e9;

/**
 * The wooden parts by type in the order of the table, with finished and rough sizes in mm and the timber that each comes from.
 * Rough length and width carry the shop's allowances, the length its tenons too; rough thickness is that of the sawn timber; the boards of a panel share its width
 * and the over-width for cutting it to size. A laminated part counts every layer at full rough size.
 * Problems: `takeoff/no-timber` (error), `takeoff/laminated` (warning).
 */
export function listCuts(
  spec: EffectiveSpec,
  table: Table,
): { readonly cuttingList: readonly CuttingLine[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const cuttingList: CuttingLine[] = [];
  const woodless = new Set<string>();
  for (const parts of byType(table.parts)) {
    const [first] = parts;
    if (first?.wood === undefined) continue;
    const line = cut(spec, first, first.wood, parts, longestTenonsMm(table, parts));
    cuttingList.push(line);
    if (line.timber === undefined && !woodless.has(first.wood)) {
      woodless.add(first.wood);
      problems.push(noTimber(spec, first, first.wood));
    }
    if (line.layers > 1) problems.push(laminated(spec, first, line));
  }
  return { cuttingList, problems };
}

/** Volume in m3 of one rough piece: one board of a panel, all layers of a lamination. */
export function roughPieceM3(line: CuttingLine): number {
  return (line.roughMm.length * line.roughMm.width * line.roughMm.thickness * line.layers) / MM3_PER_M3;
}

function byType(parts: readonly Part[]): readonly (readonly Part[])[] {
  const types = new Map<string, Part[]>();
  for (const part of parts) {
    const same = types.get(part.type);
    if (same === undefined) types.set(part.type, [part]);
    else same.push(part);
  }
  return [...types.values()];
}

/** Most tenon length that any part of a type carries: a joint with a tenon has it on its part `a`. */
function longestTenonsMm(table: Table, parts: readonly Part[]): number {
  const each = parts.map(({ id }) => table.joints.reduce((sum, joint) => sum + (joint.a === id ? (joint.tenonMm ?? 0) : 0), 0));
  return Math.max(...each);
}

function cut(spec: EffectiveSpec, part: Part, wood: string, parts: readonly Part[], tenonsMm: number): CuttingLine {
  const { rates } = spec.library;
  const { sizeMm, boards } = part;
  const choice = chooseTimber(rates.timber, wood, sizeMm.length + tenonsMm, sizeMm.thickness);
  const glued = boards > 1 ? PANEL_OVER_WIDTH_MM : 0;
  const line = {
    type: part.type,
    name: part.name,
    partIds: parts.map((p) => p.id),
    wood,
    count: parts.length,
    finishedMm: sizeMm,
    tenonsMm,
    boards,
    roughMm: {
      length: sizeMm.length + tenonsMm + rates.allowances.length.mm,
      width: (sizeMm.width + glued) / boards + rates.allowances.width.mm,
      thickness: choice?.timber.thickness.mm ?? sizeMm.thickness + rates.allowances.thickness.mm,
    },
    timber: choice?.key,
    layers: choice?.layers ?? 1,
    netM3: 0,
  };
  return { ...line, netM3: roughPieceM3(line) * boards * parts.length };
}

function noTimber(spec: EffectiveSpec, part: Part, wood: string): Problem {
  const woods = [...new Set(Object.values(spec.library.rates.timber).map((t) => t.wood))].sort();
  return {
    code: 'takeoff/no-timber',
    severity: 'error',
    title: `the shop rates list no sawn timber of ${wood}, so this table can not be priced`,
    path: part.from,
    found: wood,
    allowed: woods.length === 0 ? undefined : woods.join(', '),
    mend: `add a timber with wood: ${wood} to the shop rates, or choose another wood`,
  };
}

function laminated(spec: EffectiveSpec, part: Part, line: CuttingLine): Problem {
  const { length, width, thickness } = line.finishedMm;
  return {
    code: 'takeoff/laminated',
    severity: 'warning',
    title: `${spec.library.texts[line.name] ?? line.name} is thicker than any sawn board yields, so it is counted as ${line.layers} layers glued face to face`,
    path: part.from,
    found: formatSizes([length, width, thickness], { style: spec.proposal.show, locale: spec.proposal.language }),
    mend: 'show the glue lines in the scope, or add a thicker timber to the shop rates',
  };
}
