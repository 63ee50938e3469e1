import type { CareFinish, CareInput, CareWood } from '../../src/care/index.ts';
import { parseDate } from '../../src/units/index.ts';
import { book, finishes, texts, woods } from './read-rules.ts';

export const day = (text: string) => {
  const date = parseDate(text);
  if (date === undefined) throw new Error(`no day: ${text}`);
  return date;
};

export function finish(id: string, product?: string): CareFinish {
  const spec = finishes[id];
  if (spec === undefined) throw new Error(`no finish ${id}`);
  return { id, spec, ...(product === undefined ? {} : { product }) };
}

export function wood(id: string): CareWood {
  const spec = woods[id];
  if (spec === undefined) throw new Error(`no wood ${id}`);
  return { id, name: spec.name, hardness: spec.hardness, ...(spec.ageing === undefined ? {} : { ageing: spec.ageing }) };
}

/** A plain dining table, finished a week before it was delivered; `changes` make it another. */
export function input(changes: Partial<CareInput> = {}): CareInput {
  return {
    book,
    texts,
    language: 'en-GB',
    shown: { style: 'mm', locale: 'en-GB' },
    finish: finish('hardwax-oil'),
    woods: [wood('oak-european')],
    construction: ['glued', 'moving-fixings'],
    fixings: 'wooden buttons',
    place: { humidityLowPercent: 40, humidityHighPercent: 60, facts: [] },
    movement: [{ part: 'The top', isTop: true, acrossMm: 800, lowMm: 8.2, highMm: 12.4 }],
    carrying: { massKg: 39.2, longestMm: 2100, liftBy: 'the long rails under the top', pieces: [], apart: [] },
    steadiness: ['About 100 kg resting 50 mm inside an end begin to lift the other end.'],
    finishedOn: day('2027-05-03'),
    deliveredOn: day('2027-05-10'),
    ...changes,
  };
}
