import type { Assessment } from '../assess/index.ts';
import type { Table } from '../design/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { formatSizes } from '../units/index.ts';
import type { Drawings, MeasureText, Sheet } from './display-list.ts';
import { lengthLettering } from './lettering.ts';
import type { PictureFrame } from './picture.ts';
import { drawPicture } from './picture.ts';
import { shapeOf } from './shape.ts';
import { drawSheets, drawSmall } from './sheet.ts';
import { drawSingleViews } from './single-views.ts';
import type { ViewName } from './view.ts';
import { viewOf } from './view.ts';
import type { Drawing } from './view-block.ts';
import { viewTitle } from './view-block.ts';
import type { DrawingWord } from './words.ts';
import { wordOf } from './words.ts';

/** Chord error of round parts in drawings, mm of the world: a thirtieth of a millimetre at 1:15. */
const CHORD_MM = 0.5;

/**
 * Everything that is drawn of one table: the picture in the shared frame, the full sheet, each view by itself, and the
 * drawing for a telephone. Sheet mm. The assessment is not drawn yet; it keeps its place for what will be.
 */
export function drawTable(spec: EffectiveSpec, table: Table, _assessment: Assessment, frame: PictureFrame, measure: MeasureText): Drawings {
  const shapes = table.parts.map((part) => shapeOf(part, CHORD_MM));
  const view = (name: ViewName) => viewOf(shapes, name);
  const shown = lengthLettering(spec.proposal.show, spec.proposal.language);
  const views = { front: view('front'), side: view('side'), plan: view('plan'), underside: view('underside') };
  const drawing: Drawing = { spec, table, views, shown, measure };
  const { length, width, height } = table.overallMm;
  const sizes = formatSizes([length, width, height], shown);
  const words = (key: DrawingWord, name = wordOf(spec, key)): Pick<Sheet, 'title' | 'description'> => ({
    title: `${spec.variant.id} ${spec.variant.name}: ${name}`,
    description: `${name}. ${spec.variant.name}, ${sizes}.`,
  });
  return {
    picture: drawPicture(table, spec.library, frame, words('draw.picture')),
    ...drawSheets(drawing, words('draw.sheet')),
    ...drawSingleViews(drawing, (name) => words(`draw.${name}`, viewTitle(drawing, name))),
    small: drawSmall(drawing, words('draw.small')),
  };
}
