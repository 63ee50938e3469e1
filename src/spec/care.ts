import type { z } from 'zod';
import { choice, text } from './field.ts';
import { group, list, named } from './shape.ts';

/** The parts of a care note, in the order in which it is read. */
export const CARE_SECTIONS = [
  'spill-water',
  'spill-wine',
  'spill-oil',
  'spill-ink',
  'spill-wax',
  'spill-heat',
  'first-days',
  'daily',
  'never',
  'heat',
  'sun',
  'humidity',
  'joints',
  'moving',
  'level',
  'tighten',
  'steady',
  'glass',
  'children',
  'repair',
  'refresh',
  'food',
  'rags',
] as const;

/** What a rule may tell to use, or never to use: what is put on the table or done to it. */
export const CARE_THINGS = [
  'soft-cloth',
  'damp-cloth',
  'kitchen-paper',
  'mild-soap',
  'oil-soap',
  'soap-flakes',
  'detergent',
  'linseed-soap',
  'alkaline-cleaner',
  'ammonia',
  'bleach',
  'acid',
  'solvent',
  'mineral-spirits',
  'alcohol',
  'thinner',
  'silicone-polish',
  'scented-oil',
  'paste-wax',
  'candle-wax',
  'upkeep-oil',
  'fine-paper',
  'abrasive',
  'scouring-pad',
  'scouring-milk',
  'steel-wool',
  'knife',
  'plastic-card',
  'ice-bag',
  'steam',
  'iron',
  'hair-dryer',
  'standing-water',
  'wet-metal',
  'hot-dish',
  'trivet',
  'coaster',
  'soft-plastic',
  'tablecloth',
  'direct-sun',
  'cutting-on-top',
  'humidifier',
  'lift-by-top',
  'drag',
  'fixed-screw',
  'forced-bolt',
  'standing-on-it',
] as const;

/** Facts of the construction, the place and the dates on which a rule may depend. */
export const CARE_FACTS = [
  'glued',
  'moving-fixings',
  'breadboard',
  'drawer',
  'leaf',
  'knock-down',
  'bolts',
  'glass',
  'levellers',
  'castors',
  'steel',
  'other-base-finish',
  'product-named',
  'movement-known',
  'sun',
  'stove',
  'underfloor-heating',
  'soft-floor',
  'children',
  'food',
  'daily-spills',
  'dry-months',
  'damp-months',
  'southern',
  'ready-at-delivery',
  'cured-at-delivery',
  'light',
  'heavy',
] as const;

export type CareSectionId = (typeof CARE_SECTIONS)[number];
export type CareThing = (typeof CARE_THINGS)[number];
export type CareFact = (typeof CARE_FACTS)[number];

const ids = (noun: string, more: string) => list(noun, text('an id'), { more, least: 1 }).optional();

const whenSchema = () =>
  group(
    'when a rule holds',
    {
      surface: ids('what is touched', 'Classes or families of the outermost layer of the top: any of them.'),
      layers: ids('what the top is finished with', 'Classes or families of any layer of the top: any of them.'),
      anywhere: ids('what the table is finished with', 'Classes or families of any layer of top or base: any of them.'),
      wood: ids('the woods', 'Ids or families of woods, `hardwood`, `softwood`, or how a wood ages (`darkens-soon`): any of them.'),
      with: list('facts that must hold', choice('a fact', CARE_FACTS), { more: 'All of them.', least: 1 }).optional(),
      without: list('facts that must not hold', choice('a fact', CARE_FACTS), { more: 'None of them.', least: 1 }).optional(),
    },
    { more: 'Always, where it is left out.' },
  );

const ruleSchema = () =>
  group(
    'a rule of care',
    {
      section: choice('the part of the note', CARE_SECTIONS),
      as: choice('what the line is', ['line', 'step', 'stop', 'spilt'], {
        more: 'Spills alone: a step, or when to stop and call. First days alone: `spilt`, at the head of the spills.',
      }).prefault('line'),
      when: whenSchema().optional(),
      says: text('what it says', { more: 'A short sentence or two with `{names}` to be filled in, or a key of the texts.' }),
      use: list('what it tells to use', choice('a thing', CARE_THINGS)).prefault([]),
      never: list('what it tells never to use', choice('a thing', CARE_THINGS)).prefault([]),
      source: text('where the rule comes from', { more: 'A source, or `common practice`.' }),
    },
    {
      example:
        'rules:\n  daily-dust: null\n  my-tablet:\n    section: never\n    says: "No tablet left charging on the wood."\n    source: common practice',
    },
  );

/** templates/care.yaml. */
export const careSchema = () =>
  group('the rules of care', {
    families: named('families of finish classes and of woods', list('a family', text('an id'), { least: 1 }), {
      more: 'A name for several ids, used in `when`.',
    }).prefault({}),
    rules: named('the rules', ruleSchema(), { more: 'By id; null silences one. In a section they stand in the order written.' }),
  });

/** The rules by which a care note is put together. */
export type CareBook = z.infer<ReturnType<typeof careSchema>>;
/** One rule: where it stands, when it holds, what it says, what it tells to use and never to use. */
export type CareRule = CareBook['rules'][string];
