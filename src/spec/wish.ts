import { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { choice, decimal, force, length, mass, number, percent, text, yesNo } from './field.ts';
import { side } from './room.ts';
import { group, kinds } from './shape.ts';

const REACH = { from: 0, to: 10_000 };

/**
 * What is measured for a wish. `judgement` is taste: the maker answers it per variant.
 * "enough", "at the limit" (within 3 % of the target) and "not enough" are decided by the assessment.
 */
export function measureSchema(bare: BareUnit) {
  const atLeast = length(bare, 'the least length wished for', REACH);
  return kinds('what is measured for a wish', [
    group(
      'places to sit',
      {
        kind: z.literal('places'),
        width: length(bare, 'the width of a place', { from: 300, to: 2000 }),
        kneeHeight: length(bare, 'the height up to which no leg may be in a place', { from: 100, to: 1200 }),
        ends: number('the places at the ends', { from: 0, to: 10, whole: true }).prefault('0'),
        straddled: yesNo('whether places with a leg between the knees count').prefault('false'),
        atLeast: number('the fewest places wished for', { from: 1, to: 100, whole: true }),
      },
      {
        more: 'Places along the sides and ends with no leg in them up to the knee.',
        example: 'measure: { kind: places, width: 600, kneeHeight: 600, ends: 2, atLeast: 6 }',
      },
    ),
    group(
      'free floor',
      { kind: z.literal('clearance'), side: side('the side of the table'), atLeast },
      { more: "From the table's edge to the wall or an obstacle." },
    ),
    group(
      'clear height',
      { kind: z.literal('clear-height'), atLeast },
      { more: 'Lowest underside of rails, aprons and top where chairs go in.' },
    ),
    group(
      'room for feet and sticks',
      {
        kind: z.literal('inset'),
        from: choice('where the way in is measured from', ['rim', 'ends', 'sides', 'front', 'back', 'left', 'right']),
        above: length(bare, 'the height above which parts count', REACH),
        below: length(bare, 'the height below which parts count', REACH, { more: 'Up to the top where silent.' }).optional(),
        atLeast,
      },
      { more: 'Shortest way in plan, inward from the named edges of the top, to any part of the base between two heights.' },
    ),
    group(
      'knee space',
      {
        kind: z.literal('knee-space'),
        wide: length(bare, 'the width of the knee space', REACH),
        deep: length(bare, 'the depth of the knee space', REACH),
        atLeast,
      },
      { more: 'Height of a free box of this width and depth, its front at the front edge of the top.' },
    ),
    group(
      'load that tips',
      {
        kind: z.literal('tipping-load'),
        at: choice('where the load stands', ['worst', 'ends', 'sides', 'corners']),
        inset: length(bare, 'how far inside the edge the load stands', REACH).prefault('50 mm'),
        atLeast: force('the least load wished for'),
      },
      {
        more: 'Lowest vertical load that begins to tip the table.',
        example: 'measure: { kind: tipping-load, at: ends, inset: 50, atLeast: 1000 N }',
      },
    ),
    group(
      'push that tips',
      { kind: z.literal('push'), atLeast: force('the least push wished for') },
      { more: 'Lowest push at overall height.' },
    ),
    group('open underneath', {
      kind: z.literal('open'),
      seenFrom: choice('where it is seen from', ['front', 'side']),
      atLeast: percent('the least share left open', { from: 0, to: 100 }),
    }),
    group('a size', {
      kind: z.literal('size'),
      of: choice('the size that is wished for', ['length', 'width', 'height', 'thickness']),
      atLeast: length(bare, 'the least size', REACH).optional(),
      atMost: length(bare, 'the greatest size', REACH).optional(),
    }),
    group('mass', { kind: z.literal('mass'), atMost: mass('the greatest mass') }),
    group('the way in', { kind: z.literal('way-in') }, { more: 'The largest piece after taking apart goes through the way in.' }),
    group('the price', {
      kind: z.literal('price'),
      of: choice('which price', ['net', 'total'], { more: '`net`: before tax; `total`: with tax and delivery.' }),
      atMost: decimal('the highest price'),
    }),
    group('a matter of judgement', { kind: z.literal('judgement') }, { more: 'Taste: each variant answers it in your words.' }),
  ]);
}

/** A wish of the client. `bare`: the unit of bare numbers. */
export function wishSchema(bare: BareUnit) {
  return group(
    'a wish',
    {
      says: text("the wish in the client's own words"),
      measure: measureSchema(bare).prefault({ kind: 'judgement' }),
      note: text('why it matters, or what was measured').optional(),
    },
    { example: 'wishes:\n  w4: { says: Our arms go under, measure: { kind: clear-height, atLeast: 665 } }' },
  );
}

/** The maker's answer to a wish, in a variant. */
export function answerSchema() {
  return group('an answer to a wish', {
    result: choice('the result', ['enough', 'limit', 'not-enough'], {
      more: 'For a wish that is a matter of judgement; computed for the others.',
    }).optional(),
    says: text('what you say about it'),
  });
}

/** What is measured for a wish, and its target. */
export type MeasureSpec = z.infer<ReturnType<typeof measureSchema>>;
/** A wish: the client's words, and what is measured where it can be. */
export type WishSpec = z.infer<ReturnType<typeof wishSchema>>;
/** The maker's answer to a wish that is a matter of judgement, or a remark beside a computed one. */
export type AnswerSpec = z.infer<ReturnType<typeof answerSchema>>;
