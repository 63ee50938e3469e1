import type { Table } from '../design/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import type { Block } from './block.ts';
import { reachOfMarks } from './block.ts';
import { drawRows } from './dimension.ts';
import type { DimensionExtent } from './dimension-plan.ts';
import { dimensionRows } from './dimension-plan.ts';
import type { Mark, MeasureText } from './display-list.ts';
import type { LengthLettering } from './lettering.ts';
import { LETTERING_MM } from './lettering.ts';
import { drawNotes } from './note.ts';
import { occupiedBy } from './occupied.ts';
import type { View, ViewName, ViewPlace } from './view.ts';
import { drawView, smallLineClasses } from './view.ts';
import { wordOf } from './words.ts';

/** All that drawing a table's views needs, found once. */
export interface Drawing {
  readonly spec: EffectiveSpec;
  readonly table: Table;
  readonly views: Readonly<Record<ViewName, View>>;
  readonly shown: LengthLettering;
  readonly measure: MeasureText;
}

export interface ViewBlockLook {
  readonly scale: number;
  readonly extent: DimensionExtent;
  readonly letteringMm?: number;
}

/** Name of a view; the underside also says how the top is held. */
export function viewTitle({ spec, table }: Drawing, name: ViewName): string {
  const title = wordOf(spec, `draw.${name}`);
  const count = table.fixing.pointsMm.length;
  return name === 'underside' && count > 0 ? `${title} · ${count} ${wordOf(spec, `draw.${table.fixing.kind}`)}` : title;
}

/** A view with its dimensions and notes, its own zero point at the sheet's. */
export function viewBlock(drawing: Drawing, name: ViewName, look: ViewBlockLook): Block {
  const { spec, table, views, shown, measure } = drawing;
  const view = views[name];
  const place: ViewPlace = { atMm: [0, 0], scale: look.scale };
  const small = look.extent === 'overall';
  const marks: Mark[] = drawView(view, place, table, spec.library, small ? smallLineClasses : undefined);
  const occupied = occupiedBy(marks);
  const rows = dimensionRows({ table, shapes: view.stage.shapes, view, place }, look.extent);
  marks.push(...drawRows(rows, { shown, measure, sizeMm: look.letteringMm ?? LETTERING_MM }, occupied));
  if (look.extent === 'full' || look.extent === 'single') marks.push(...drawNotes(view, place, { spec, shown, measure }, occupied));
  return { marks, box: reachOfMarks(marks) };
}
