import type { z } from 'zod';
import { choice, decimal, number, text } from './field.ts';
import { group, list } from './shape.ts';

/** An entry of templates/finishes.yaml. */
export function finishSchema() {
  return group('a finish', {
    name: text('the name of the finish'),
    classes: list('the classes of the finish', text('a class'), { more: 'One, or two for a layered system.', least: 1, most: 4 }),
    coats: number('the number of coats', { from: 1, to: 20, whole: true }),
    coverageM2PerLitre: number('the coverage, m2 per litre and coat', { from: 0.05, to: 200 }),
    lossPercent: number('the loss in application, %', { from: 0, to: 90 }),
    method: choice('how it is put on', ['wiped', 'sprayed', 'brushed']),
    pricePerLitre: decimal('the price of a litre'),
    betweenCoatsHours: number('the hours between coats', { from: 0, to: 400 }),
    lightUseHours: number('the hours until light use', { from: 0, to: 2000 }),
    fullCureDays: number('the days until it is cured', { from: 0, to: 400 }),
    refreshMonths: group('the months until it is refreshed', {
      low: number('the fewest months', { from: 0, to: 600 }),
      high: number('the most months', { from: 0, to: 600 }),
    }),
    sheen: text('its sheen'),
    resists: group(
      'what it resists',
      { water: text('how it resists water'), heat: text('how it resists heat'), alcohol: text('how it resists alcohol') },
      { more: 'Words, not test results.' },
    ),
    repair: text('how it is repaired'),
    care: group(
      'its care',
      {
        daily: text('the care of every day'),
        never: text('what is never done'),
        spills: text('what to do with spills'),
        refresh: text('how it is refreshed'),
      },
      { more: 'Markdown for the client page.' },
    ),
    cautions: list('cautions', text('a caution'), { more: 'Short sentences: self-heating rags, fumes.' }),
    source: text('where the figures come from'),
  });
}

/** A finish: what it needs, what it resists in words, how it is cared for. */
export type FinishSpec = z.infer<ReturnType<typeof finishSchema>>;
