import type { ClientOptions, ShownDesign, ShownFigures } from './client-source.ts';
import type { DesignView } from './client-view.ts';
import { factOf } from './facts.ts';
import { fitWords } from './fit-words.ts';
import { keepFigures } from './keep-figures.ts';
import { priceView } from './price-view.ts';
import { readyText } from './ready.ts';
import { richText } from './rich-text.ts';
import type { Shown } from './shown.ts';
import { steadiness } from './steadiness.ts';
import { careWords, materialRows, movementWords } from './wood-words.ts';
import type { Words } from './words.ts';

type Limits = Required<Pick<ClientOptions, 'audience' | 'level'>>;

/** How figures are shown: in full, briefly under a picture, and the price in large type (from minor units). */
export interface Readers {
  readonly shown: Shown;
  readonly brief: Shown;
  readonly headline: (minor: number) => string;
}

/** The drawings that a level may see. A sketch has the picture and the overall sizes; fixings are for the full one. */
function drawingsFor(design: ShownDesign, level: Limits['level']): Pick<DesignView, 'front' | 'side' | 'plan' | 'underside' | 'sheet'> {
  const { front, side, plan, underside, sheet, mainSheet, mainFront, mainSide, mainPlan } = design.drawings;
  if (level === 'sketch') return {};
  return level === 'agreed'
    ? { front: mainFront, side: mainSide, plan: mainPlan, sheet: mainSheet }
    : { front, side, plan, underside, sheet };
}

/** `2,100 × 820 × 745 mm`, or `Ø1,200 × 745 mm` for a round top that nothing reaches beyond. */
export function overallSizes({ overallMm, top }: ShownFigures, shown: Shown): string {
  return top.shape === 'round' && overallMm.length === overallMm.width
    ? `Ø${shown.sizes([overallMm.length, overallMm.height])}`
    : shown.sizes([overallMm.length, overallMm.width, overallMm.height]);
}

/** What is bought beside the parts: steel or glass by weight is a part, told by its name and size. */
function fittings({ hardware, parts }: ShownFigures): ShownFigures['hardware'] {
  return hardware.filter(({ id, kind }) => id !== kind || !parts.some(({ material }) => material === kind));
}

/** One design for the page: its words, its drawings and, for an audience that pays, its price. */
export function designView(design: ShownDesign, facts: readonly string[], limits: Limits, readers: Readers, words: Words): DesignView {
  const { shown, brief, headline } = readers;
  const { variant, proposal } = design.spec;
  return {
    id: design.id,
    name: variant.name,
    why: richText(variant.why),
    picture: design.drawings.picture,
    small: design.drawings.small,
    ...drawingsFor(design, limits.level),
    sizes: overallSizes(design.figures, shown),
    mass: words.say('mass.about', { mass: shown.mass(design.figures.massKg, 'near') }),
    facts: facts.map((id) => factOf(design, id, brief, words)),
    ...(limits.audience === 'no-price' ? {} : { price: priceView(design, shown, headline, words) }),
    materials: materialRows(design, limits.level, shown, words),
    hardware:
      limits.level !== 'full'
        ? []
        : fittings(design.figures).map((line) => words.say('material.hardware', { count: shown.number(line.count), says: line.says })),
    steadiness: steadiness(design, shown, words),
    movement: movementWords(design, limits.level, shown, words),
    fit: fitWords(design, shown, words),
    care: careWords(design, words),
    ready: readyText(variant.ready ?? proposal.leadTime, proposal, words),
    notes: variant.notes.map(keepFigures),
  };
}
