import type { z } from 'zod';
import type { BareUnit, LengthStyle } from '../units/index.ts';
import { choice, currency, day, decimal, nameOf, number, patterned, percent, text, yesNo } from './field.ts';
import { AUDIENCES, EMAIL, LEVELS, levelsSay, pageSchema } from './page.ts';
import { chairSchema, roomSchema } from './room.ts';
import { group, list, named } from './shape.ts';
import { STAGES } from './stage.ts';
import { wishSchema } from './wish.ts';

const CERTAINTIES = ['fixed', 'allowance', 'estimate'] as const;
/** How certain a price is. */
export type Certainty = (typeof CERTAINTIES)[number];

const email = (noun: string) => patterned(noun, EMAIL, 'an e-mail address', { examples: ['name@example.invalid'] });

function freeLine() {
  return group(
    'a line of the price beyond the table',
    {
      says: text('what the line is for'),
      each: decimal('the net price of one', { signed: true }),
      quantity: number('how many there are', { from: 0, to: 10_000 }).prefault('1'),
      certainty: choice('how certain the price is', CERTAINTIES).prefault('fixed'),
      shown: yesNo('whether the client sees the line by its words', {
        more: '`false`: its price is kept inside the price of the table.',
      }).prefault('true'),
      tax: nameOf('the tax of the line', { more: 'A tax of the shop rates, or none.', examples: ['none'] }).optional(),
      provisional: yesNo('whether it is a provisional sum', {
        more: 'Held for something not yet known; settled by the real cost.',
      }).prefault('false'),
      variants: list('the variants that have the line', patterned('a variant', /^[A-Z0-9-]{1,40}$/, 'the letter of a variant, such as A'), {
        more: 'All where silent.',
      }).optional(),
    },
    { example: 'lines:\n  old-table: { says: Old table taken away, each: "60.00" }' },
  );
}

function party(noun: string) {
  return group(noun, {
    name: text('the name'),
    address: text('the address').optional(),
    email: email('the e-mail address').optional(),
    telephone: text('the telephone number').optional(),
  });
}

const decider = () =>
  group('a person who decides', {
    name: text('the name'),
    email: email('the e-mail address').optional(),
    page: nameOf('the page that they are shown', { more: 'One of `pages`; the first where silent.', examples: ['viewer'] }).optional(),
  });

function orderChange() {
  return group(
    'the change to an order',
    {
      of: patterned('the ordered revision', /^r[1-9]\d{0,2}$/, 'the revision that was ordered, such as r3', { examples: ['r3'] }),
      design: patterned('the design on offer', /^[A-Z0-9-]{1,40}$/, 'the letter of a variant, such as A', { examples: ['A'] }),
      options: list('its options, all of which are fixed', nameOf('an option')).prefault([]),
      stage: choice('the stage from which it was priced', STAGES, { examples: ['glued'] }),
      weeks: number('the weeks that it adds', { from: 0, to: 520, whole: true }),
      again: choice('the stage to which the work goes back', ['ordered', 'glued'], {
        more: '`ordered`: parts are made anew, from the buying of their timber; `glued`: what stays is finished anew. Silent where no work that is done is done again.',
      }).optional(),
      because: text('why it was priced though it breaks a wish', { more: 'For you alone.' }).optional(),
    },
    {
      more: 'Written by `leafwright change`. The revision then offers this design with these options alone, and is issued only while the stage stands.',
      example: 'revision:\n  change: { of: r3, design: A, options: [ceramic], stage: glued, weeks: 3, again: ordered }',
    },
  );
}

function revision() {
  return group('the revision', {
    id: patterned('the revision', /^r[1-9]\d{0,2}$/, 'r1, r2 and so on', {
      more: 'The revision that these files are the draft of.',
      examples: ['r1'],
    }),
    date: day('the day of the revision'),
    validUntil: day('the last day on which it can be accepted'),
    changes: text('what changed since the last revision, and why', { long: true, more: 'Markdown.' }).optional(),
    level: choice('how much is shown', LEVELS, { more: levelsSay }).prefault('full'),
    audience: choice('who it is for', AUDIENCES, { more: '`no-price`: a page without any price.' }).prefault('payer'),
    change: orderChange().optional(),
  });
}

/** proposal.yaml. `bare`: the unit of bare numbers. */
export function proposalSchema(bare: BareUnit) {
  return group('the proposal', {
    format: choice('the format of the file', ['leafwright/proposal/1']).prefault('leafwright/proposal/1'),
    title: text('the title of the proposal'),
    basedOn: patterned('what the proposal began from', /^[a-z0-9-]{1,40}@r[1-9]\d{0,2}$/, 'a proposal and its revision, such as oak@r2', {
      more: 'For you alone; written by `new --from`.',
      examples: ['oak@r2'],
    }).optional(),
    invented: yesNo('whether people, prices and places are invented', { more: '`true` is said on every page.' }).prefault('false'),
    client: party('the client'),
    endClient: party('the person for whom a designer orders').optional(),
    deciders: group(
      'who decides',
      {
        rule: choice('whose yes is needed', ['all', 'any']).prefault('all'),
        people: named('the people who decide', decider(), { more: 'By id. The client alone where silent.' }).prefault({}),
      },
      { example: 'deciders:\n  rule: all\n  people:\n    maren: { name: Maren Tollefsen }' },
    ).prefault({}),
    pages: named('the pages of the revision, each with a link of its own', pageSchema(), {
      more: 'By id, at most six. One, as `revision.audience` and `revision.level` say, where silent.',
      example:
        'pages:\n  payer: { audience: payer }\n  viewer:\n    audience: no-price\n    level: agreed\n    brand: { name: Petra Lindqvaar, email: name@example.invalid }\n    for: Tobiah Wren',
    }).prefault({}),
    language: patterned('the language', /^[a-z]{2,3}(?:-[A-Z][a-z]{3})?(?:-(?:[A-Z]{2}|\d{3}))?$/, 'a language tag such as en-GB', {
      more: 'Its texts are in templates/texts/.',
      examples: ['en-GB', 'en-US'],
    }).prefault('en-GB'),
    units: choice('the unit of bare numbers', ['mm', 'in'], { more: 'Holds for all files of the proposal.' }).prefault('mm'),
    show: choice('how lengths are shown', ['mm', 'in', 'mm+in'], { more: 'As `units` where silent.' }).optional(),
    paper: choice('the size of paper', ['a4', 'letter'], { more: 'Letter for inches, else A4, where silent.' }).optional(),
    currency: currency('the currency'),
    use: nameOf('what the table is used for', { more: 'Chooses the load cases.', examples: ['dining', 'desk'] }),
    understood: text('what you understood so far', { long: true, more: 'Markdown, to the client.' }),
    wishes: named('the wishes', wishSchema(bare), { more: 'By id.' }).prefault({}),
    room: roomSchema(bare),
    chairs: chairSchema(bare).optional(),
    household: group(
      'who lives with the table',
      {
        children: yesNo('whether children use it').prefault('false'),
        dailySpills: yesNo('whether something is spilt on it every day').prefault('false'),
        food: yesNo('whether food lies on the bare top', { more: 'Dough, bread, fruit: without a plate or a board.' }).prefault('false'),
      },
      { more: 'For its care.', example: 'household: { children: true, dailySpills: true }' },
    ).prefault({}),
    revision: revision(),
    rounds: group(
      'the rounds of revision',
      {
        included: number('how many are included in the price', { from: 0, to: 20, whole: true }),
        fee: decimal('the net price of each one more'),
      },
      {
        more: 'A round is one revision after the first; changes to an order are not counted.',
        example: 'rounds: { included: 2, fee: "180.00" }',
      },
    ).optional(),
    leadTime: text('the time until the table is ready'),
    terms: nameOf('the terms', { more: 'A file of templates/terms/.', examples: ['standard-eu'] }),
    rates: nameOf('the shop rates', { more: 'A file of templates/rates/.' }),
    tax: nameOf('the tax on the table', { more: 'A tax of the shop rates, or none.' }),
    quantity: number('how many tables are made', { from: 1, to: 100, whole: true }).prefault('1'),
    lines: named('lines of the price beyond the table', freeLine(), { more: 'By id.' }).prefault({}),
    supplied: list(
      'what the client supplies',
      group('something supplied', { says: text('what it is'), by: day('the day by which it is needed').optional() }),
    ).prefault([]),
    exclusions: list('what is not included', text('an exclusion')).prefault([]),
    assumptions: list('what is assumed', text('an assumption')).prefault([]),
    choices: list(
      'choices still open',
      group('an open choice', {
        says: text('what is to be chosen'),
        lastStage: text('the stage up to which it can be chosen', {
          more: 'In your words, or one of the stages of the record, such as `cut`: then said in the language of the proposal.',
          examples: ['timber-bought'],
        }),
        lastDay: day('the last day on which it can be chosen').optional(),
      }),
    ).prefault([]),
    instalments: list(
      'the instalments',
      group('an instalment', {
        percent: percent('the share of the total', { from: 0, to: 100, above: true }),
        when: text('when it is paid'),
      }),
      {
        least: 1,
        most: 20,
        more: 'They add up to 100 %.',
        example: 'instalments:\n  - { percent: 40 %, when: with your yes }\n  - { percent: 60 %, when: on delivery }',
      },
    ),
    sample: group('the sample', { id: text('the mark on the sample'), says: text('what it is') }).optional(),
    compare: list('the facts compared under the pictures', text('a fact'), {
      more: 'The ones that differ most where silent.',
    }).optional(),
  });
}

/** proposal.yaml, checked key by key. */
export type ProposalFile = z.infer<ReturnType<typeof proposalSchema>>;

/** proposal.yaml, checked, with what it left to the rest of the file filled in. */
export type ProposalSpec = Omit<ProposalFile, 'show' | 'paper' | 'lines'> & {
  readonly show: LengthStyle;
  readonly paper: 'a4' | 'letter';
  readonly lines: Readonly<Record<string, FreeLineSpec>>;
};

/** A line of the price beyond the table itself. */
export type FreeLineSpec = Omit<ProposalFile['lines'][string], 'tax'> & { readonly tax: string };
/** A person whose answer counts. */
export type DeciderSpec = z.infer<ReturnType<typeof decider>>;
/** What a change to an order is priced from. */
export type OrderChangeSpec = NonNullable<ProposalFile['revision']['change']>;
/** A client, or the person for whom a designer orders. */
export type PartySpec = z.infer<ReturnType<typeof party>>;

/** Fills in what a key takes from another key: how lengths are shown, the paper, the tax of lines, the client as the one who decides. */
export function completeProposal(file: ProposalFile): ProposalSpec {
  const { name, email: address } = file.client;
  const alone: DeciderSpec = address === undefined ? { name } : { name, email: address };
  const people = Object.keys(file.deciders.people).length === 0 ? { client: alone } : file.deciders.people;
  const lines = Object.entries(file.lines).map(([id, line]) => [id, { ...line, tax: line.tax ?? file.tax }] as const);
  return {
    ...file,
    show: file.show ?? file.units,
    paper: file.paper ?? (file.units === 'in' ? 'letter' : 'a4'),
    deciders: { ...file.deciders, people },
    lines: Object.fromEntries(lines),
  };
}
