import { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { choice, length, nameOf, number } from './field.ts';
import { group, kinds } from './shape.ts';

const SAWN = ['flat', 'quarter'] as const;

/** How boards were sawn: sets which of R and T lies across the face. */
export function sawn() {
  return choice('how the boards were sawn', SAWN, {
    more: 'Flat-sawn boards move about twice as much across their width as quarter-sawn ones.',
  });
}

/** The chamfer under the edge. `bare`: the unit of bare numbers. */
export function underChamfer(bare: BareUnit) {
  return group('a chamfer under the edge of the top', {
    in: length(
      bare,
      'how far the chamfer goes in from the edge',
      { from: 0, to: 400, above: true },
      { more: 'Under an oval the edge of the underside is an oval again, shorter and narrower by twice this.' },
    ),
    up: length(bare, 'how far the chamfer goes up from the underside', { from: 0, to: 79, above: true }),
  });
}

function common(bare: BareUnit) {
  return {
    thickness: length(bare, 'the thickness of the top', { from: 12, to: 80 }),
    wood: nameOf('the wood of the top', { more: "The table's wood where silent." }).optional(),
    sawn: sawn().prefault('flat'),
    grain: choice('the direction of the boards', ['length', 'width'], {
      more: '`length`: along the long side; `width`: across it.',
    }).prefault('length'),
    boardWidth: length(
      bare,
      'the usual width of a board in the top',
      { from: 30, to: 1200 },
      {
        more: 'The boards that are drawn and counted come from it.',
      },
    ).optional(),
    underChamfer: underChamfer(bare).optional(),
  };
}

/** The top, by its kind. `bare`: the unit of bare numbers. */
export function topSchema(bare: BareUnit) {
  const side = (noun: string) => length(bare, noun, { from: 200, to: 6000 });
  return kinds('the top', [
    group('a rectangular top', {
      kind: z.literal('rectangle'),
      length: side('the length of the top'),
      width: side('the width of the top'),
      ...common(bare),
    }),
    group('a round top', { kind: z.literal('round'), diameter: side('the diameter of the top'), ...common(bare) }),
    group(
      'an oval top',
      { kind: z.literal('oval'), length: side('the length of the top'), width: side('the width of the top'), ...common(bare) },
      { more: 'An ellipse in plan.' },
    ),
  ]);
}

/** How the top is held. */
export function fixingSchema() {
  return group(
    'how the top is held to the base',
    {
      kind: choice('the kind of fixing', ['buttons', 'slotted-screws', 'figure-eights', 'slotted-plates', 'rigid', 'loose'], {
        more: '`rigid` can not slide: the top will fight it. The others let the top move across its grain.',
      }),
      count: number(
        'how many fixings there are',
        { from: 1, to: 100, whole: true },
        { more: 'Counted from the base where silent.' },
      ).optional(),
    },
    { example: 'fixing: { kind: slotted-screws, count: 8 }' },
  );
}

/** How the boards were sawn: sets which of R and T lies across the face. */
export type Sawn = (typeof SAWN)[number];
/** Chamfer under the edge: `in` from the edge, `up` from the underside. */
export type UnderChamfer = z.infer<ReturnType<typeof underChamfer>>;
/** The top of the table. */
export type TopSpec = z.infer<ReturnType<typeof topSchema>>;
/** A top with four corners. */
export type RectangleTop = Extract<TopSpec, { kind: 'rectangle' }>;
/** A circle in plan. */
export type RoundTop = Extract<TopSpec, { kind: 'round' }>;
/** An ellipse in plan. */
export type OvalTop = Extract<TopSpec, { kind: 'oval' }>;
/** How the top is held to the base. `rigid` can not slide; the others let the top move across its grain. */
export type FixingSpec = z.infer<ReturnType<typeof fixingSchema>>;
