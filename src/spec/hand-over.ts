import type { z } from 'zod';
import type { BareUnit } from '../units/index.ts';
import { day, length, mass, nameOf, number, patterned, percent, text, yesNo } from './field.ts';
import { group, list, named } from './shape.ts';

/** What stands in a sheet where something is still to be written. */
export const TO_FILL_IN = 'TODO';

const PIECE = /^[A-Za-z0-9](?:[A-Za-z0-9./-]{0,38}[A-Za-z0-9])?$/;
/** A path of the table as ordered: `height`, `top.length`, `base.legs.footSize`; which of them there are is seen later. */
const PATH = /^[^\n]{1,80}$/;
/** A file below the proposal's folder. */
const FILE = /^(?!\.{0,2}\/)(?!.*(?:^|\/)\.\.(?:\/|$))[^\\:*?"<>|]{1,200}$/;

const yes = (noun: string) =>
  number(
    noun,
    { from: 1, to: 1_000_000, whole: true },
    { more: 'A number of the record: an answer, or a note of somebody who decides.', examples: ['31'] },
  ).optional();
const humidity = (noun: string) => percent(noun, { from: 1, to: 100 }, { more: 'Relative humidity of the air.', examples: ['48 %'] });

function appliedFinish(noun: string) {
  return group(noun, {
    is: nameOf(`the name of ${noun}`, { more: 'A key of the finishes.', examples: ['hardwax-oil'] }),
    product: text('the product', { more: 'Maker and name, as the tins say.' }).optional(),
    batch: text('the batch', { more: 'As the tins say; several with commas.' }).optional(),
    yes: yes('the entry of a yes to another finish than was ordered'),
  });
}

/** proposals/<slug>/hand-over.yaml. `bare`: the unit of bare numbers, that of the proposal. */
export function handOverSchema(bare: BareUnit) {
  return group('the hand-over', {
    piece: patterned('the piece number', PIECE, 'letters, digits, points, hyphens and strokes, at most 40, such as RS-2027-01', {
      more: 'What the label under the top says. One number for one table.',
      examples: ['RS-2027-01'],
    }),
    finished: day('the day of the last coat', { more: 'The finish cures from it.' }),
    delivered: day('the day of the delivery'),
    finish: appliedFinish('the finish that was put on'),
    baseFinish: appliedFinish('the finish that was put on the base').optional(),
    glueUp: group(
      'what was measured at glue-up',
      {
        moisture: list('the moisture of the boards', percent('the moisture of a board', { from: 1, to: 60 }), {
          most: 200,
          more: 'Of dry mass, one figure for each board that was measured.',
        }).optional(),
        humidity: humidity('the humidity at glue-up').optional(),
      },
      { more: 'What `measure` has recorded is taken where a key is silent.' },
    ).optional(),
    finishing: group('what was measured at finishing', { humidity: humidity('the humidity at finishing') }).optional(),
    delivery: group('what was measured at delivery', { humidity: humidity('the humidity at delivery') }).optional(),
    asBuilt: named(
      'sizes of the finished table',
      group('a size of the finished table', {
        built: length(bare, 'the size as measured', { from: -3000, to: 10_000 }),
        tolerance: length(
          bare,
          'the tolerance of the size',
          { from: 0, to: 200 },
          {
            more: 'As the agreed terms say where silent, or else by common practice.',
          },
        ).optional(),
        yes: yes('the entry of a yes to a difference beyond the tolerance'),
      }),
      {
        key: PATH,
        more: 'By their path in the table as it was ordered.',
        example: 'asBuilt:\n  top.length: { built: 2097 mm }\n  height: { built: 752 mm, yes: 31 }',
      },
    ).prefault({}),
    mass: mass('the mass of the whole table', {
      more: 'As weighed. Whoever lifts it is told by this one; where the key is silent, by the one that was reckoned.',
      examples: ['41.5 kg'],
    }).optional(),
    photographs: list('photographs before loading', patterned('a photograph', FILE, "a file below the proposal's folder"), {
      most: 60,
      more: 'Copied beside the record; what a camera writes into them of place and device is left out.',
    }).prefault([]),
    timber: list(
      'where the boards came from',
      group('boards', {
        wood: nameOf('the wood of the boards', { more: 'A key of the woods.', examples: ['oak-white'] }),
        origin: text('where they grew', { more: 'As it was stated to you.' }).optional(),
        says: text('the words of who sold or gave them').optional(),
        certificate: text('a certificate number', { more: 'As it was stated to you. The papers say that it is not yours.' }).optional(),
      }),
      {
        most: 40,
        more: "For the client's paper on materials and origin. Kept apart, so that it can be erased.",
        example: 'timber:\n  - { wood: oak-white, origin: "the upper valley", says: "felled in the winter of 2023" }',
      },
    ).prefault([]),
    glue: text('the glue', { more: 'Maker and name, as the bottle says. Kept apart with the timber.' }).optional(),
    acceptance: group('how the table was accepted', {
      inspected: yesNo('whether it was looked over'),
      signed: yesNo('whether somebody signed for it', { more: '`false`: left unsigned.' }),
      by: nameOf('who accepted it', { more: 'The id of somebody who decides.' }).optional(),
      name: text('the name of who accepted it', { more: 'Where it was somebody else. Kept apart, so that it can be erased.' }).optional(),
      paper: patterned('the signed paper', FILE, "a file below the proposal's folder", { more: 'A scan or photograph of it.' }).optional(),
      defects: list(
        'the defects that were found',
        group('a defect', { says: text('what is wrong'), by: day('the day by which it is put right') }),
        { most: 50, example: 'defects:\n  - { says: A scratch beside the left drawer, by: 2027-10-15 }' },
      ).prefault([]),
    }),
    storage: group('the time for which it was stored', {
      from: day('the first day of storage'),
      until: day('the last day of storage').optional(),
    }).optional(),
    words: text('what else is to be kept', { more: 'Kept apart, so that it can be erased.' }).optional(),
  });
}

/** What a maker writes down of a table that was brought. */
export type HandOverSpec = z.infer<ReturnType<typeof handOverSchema>>;
