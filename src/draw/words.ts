import type { EffectiveSpec } from '../spec/index.ts';

/** Words on drawings in English; a proposal's own texts (`draw.front` and so on) stand before them. */
export const drawingWords = {
  'draw.front': 'Front',
  'draw.side': 'End',
  'draw.plan': 'Plan',
  'draw.underside': 'Underside',
  'draw.picture': 'Picture',
  'draw.sheet': 'Drawing',
  'draw.small': 'Overall sizes',
  'draw.scale': 'Scale',
  'draw.maker': 'Maker',
  'draw.revision': 'Revision',
  'draw.size': 'Sheet',
  'draw.first-angle': 'First angle',
  'draw.third-angle': 'Third angle',
  'draw.units-mm': 'Sizes in mm',
  'draw.units-in': 'Sizes in inches',
  'draw.units-both': 'Sizes in mm, inches below',
  'draw.invented': 'Invented for demonstration',
  'draw.buttons': 'buttons',
  'draw.slotted-screws': 'slotted screws',
  'draw.figure-eights': 'figure-eights',
  'draw.slotted-plates': 'slotted plates',
  'draw.rigid': 'rigid fixings',
  'draw.loose': 'points of rest',
} as const;

export type DrawingWord = keyof typeof drawingWords;

/** A word of the drawing in the proposal's language. */
export const wordOf = (spec: EffectiveSpec, key: DrawingWord): string => spec.library.texts[key] ?? drawingWords[key];

/** Name of a part: a text by its key, or the maker's own words. */
export const partNameOf = (spec: EffectiveSpec, name: string): string =>
  spec.library.texts[name] ?? name.replace(/^part\./, '').replaceAll('-', ' ');
