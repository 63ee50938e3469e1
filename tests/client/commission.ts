import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { type ComputedProposal, computeProposal } from '../../src/compute.ts';
import type {
  LoadCaseSpec,
  OperationSpec,
  OptionSpec,
  ProposalInput,
  ProposalSpec,
  TableSpec,
  VariantSpec,
  WoodSpec,
} from '../../src/spec/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { date, decimal, force, length, library, percent, proposal, reedTable, temperature } from '../fixtures.ts';

/**
 * A whole commission built in code, with private values planted that may never reach a client.
 * People, prices and places are invented.
 */

/** Texts as a page gets them: British English, with another language's laid over it. */
export function textsOf(language: 'en-GB' | 'en-US'): Readonly<Record<string, string>> {
  const read = (name: string): Record<string, string> =>
    parse(readFileSync(new URL(`../../templates/texts/${name}.yaml`, import.meta.url), 'utf8')) as Record<string, string>;
  return language === 'en-GB' ? read('en-GB') : { ...read('en-GB'), ...read('en-US') };
}

/** Words and figures that stay in the workshop. Percents are odd on purpose, so that no honest ratio of prices equals 1 + one of them. */
export const planted = {
  words: [
    'Wedgewort Sawmill',
    'quiet-discount-line',
    'oak-wedgewort-40',
    'Zirconium jigging',
    'private-wish-note',
    'stair-gossip',
    'knot-by-the-heart',
    'Unoffered Griffin',
    'rates-of-the-bench',
    'template-source-note',
  ],
  /** Mark-ups, contingency and least margin in percent. */
  percents: [23.7, 31.3, 17.9, 8.3, 6.9, 14.7],
  /** Cost of an hour, timber per cubic metre, finish per litre, a button. */
  rates: [61.37, 3417.19, 3923.71, 46.53, 0.87],
  ownHours: 73.25,
} as const;

const operation = (says: string, per: OperationSpec['per'], mid: number, finishing = false): OperationSpec => ({
  says,
  per,
  low: mid * 0.8,
  mid,
  high: mid * 1.3,
  finishing,
});

const leaning: LoadCaseSpec = {
  says: 'A grown person leans on the edge',
  kind: 'vertical',
  load: force(400),
  inset: length(50),
  at: 'worst',
  wanted: 1.5,
  least: 1,
  uses: ['dining'],
  source: 'template-source-note',
};

const option = (says: string, over: Partial<OptionSpec> = {}): OptionSpec => ({ says, default: false, excludes: [], ...over });

const offered = (id: string, name: string, over: Partial<VariantSpec> = {}): VariantSpec => ({
  id,
  name,
  why: 'Slender legs, set well in: a chair finds its place at each end. The rail is **shallow**, so arms pass under it.',
  answers: { w4: { result: 'enough', says: 'You see through it everywhere.' } },
  hours: planted.ownHours,
  options: {},
  offered: true,
  notes: ['The sample lies with you.'],
  ...over,
});

const slabTable: TableSpec = {
  ...reedTable,
  base: {
    kind: 'slab-ends',
    slabs: { width: length(600), thickness: length(40), endOverhang: length(300) },
    stretcher: { height: length(100), thickness: length(35), at: length(180) },
  },
};

const thick: TableSpec = { ...reedTable, top: { ...reedTable.top, thickness: length(32) } };

const commissioned: ProposalSpec = {
  ...proposal,
  title: 'A dining table for the garden room',
  client: { name: 'Maren Tollefsen and Idris Quill', address: '9 Mole End, Tarrowby' },
  endClient: undefined,
  deciders: { rule: 'all', people: { maren: { name: 'Maren Tollefsen' }, idris: { name: 'Idris Quill' } } },
  understood:
    'Six of you eat at it daily, eight on Sundays. It is to be *light*, and not a school table.\n\n- Arms of chairs pass under.\n- Feet are free.',
  wishes: {
    w1: {
      says: 'Six daily, with no leg in a place',
      measure: { kind: 'places', width: length(600), kneeHeight: length(600), ends: 1, straddled: false, atLeast: 6 },
      note: 'private-wish-note',
    },
    w2: { says: 'Arms of 665 pass under the rail', measure: { kind: 'clear-height', atLeast: length(665) } },
    w3: {
      says: 'Our son hoists himself onto the end',
      measure: { kind: 'tipping-load', at: 'ends', inset: length(50), atLeast: force(1000) },
    },
    w4: { says: 'We want to see the floor', measure: { kind: 'judgement' } },
    w5: { says: 'No more than 6,000 with tax, delivered', measure: { kind: 'price', of: 'total', atMost: decimal('6000.00') } },
    w6: { says: 'The garden side stays clear', measure: { kind: 'clearance', side: 'back', atLeast: length(900) } },
  },
  room: {
    ...proposal.room,
    temperature: temperature(20),
    stands: { back: length(930) },
    access: [{ kind: 'door', says: 'The flat door', width: length(760), height: length(2020) }],
    notes: ['stair-gossip'],
  },
  revision: { ...proposal.revision, changes: 'The feet moved out by 40 mm, because the ends tipped too soon.' },
  rates: 'rates-of-the-bench',
  lines: {
    quiet: {
      says: 'quiet-discount-line',
      each: decimal('37.00'),
      quantity: 1,
      certainty: 'fixed',
      shown: false,
      tax: 'home',
      provisional: false,
    },
    delivery: {
      says: 'Delivery to the second floor',
      each: decimal('140.00'),
      quantity: 1,
      certainty: 'fixed',
      shown: true,
      tax: 'home',
      provisional: false,
    },
    coasters: {
      says: 'Coasters from the off-cuts',
      each: decimal('9.50'),
      quantity: 8,
      certainty: 'fixed',
      shown: true,
      tax: 'home',
      provisional: false,
    },
    floor: {
      says: 'Levelling the floor',
      each: decimal('180.00'),
      quantity: 1,
      certainty: 'estimate',
      shown: true,
      tax: 'home',
      provisional: true,
    },
  },
  supplied: [{ says: 'The way through the flat, cleared', by: date(2026, 5, 1) }],
  exclusions: ['Taking the old table away'],
  assumptions: ['The floor is out of level by no more than 6 mm'],
  choices: [{ says: 'Oil or oil with ceramic', lastStage: 'glued', lastDay: date(2026, 4, 10) }],
  instalments: [
    { percent: percent(40), when: 'when you say yes' },
    { percent: percent(60), when: 'at delivery' },
  ],
  sample: { id: 'S-041', says: 'oiled oak, half kept by each of us' },
};

const oak: WoodSpec = {
  ...(library.woods['oak-european'] as WoodSpec),
  origin: 'the forests above Tarrowby',
  ageing: 'ageing.mellows',
  source: 'template-source-note',
};

/** Nothing of it is read from a file but the texts. */
export function plantedInput(over: Partial<ProposalSpec> = {}): ProposalInput {
  const { rates } = library;
  const spec: ProposalSpec = { ...commissioned, ...over };
  return {
    slug: 'garden-room',
    proposal: spec,
    library: {
      ...library,
      woods: { ...library.woods, 'oak-european': oak },
      loadCases: { lean: leaning },
      rates: {
        ...rates,
        hour: decimal('61.37'),
        markUp: { timber: percent(23.7), hardware: percent(31.3), finish: percent(17.9), labour: percent(8.3) },
        contingency: percent(6.9),
        leastMargin: percent(14.7),
        timber: {
          'oak-wedgewort-40': { ...(rates.timber['oak-40'] as (typeof rates.timber)[string]), price: decimal('3417.19') },
          'oak-65': { ...(rates.timber['oak-65'] as (typeof rates.timber)[string]), price: decimal('3923.71') },
        },
        hardware: { ...rates.hardware, buttons: { says: 'Wooden button with screw', price: decimal('0.87') } },
        operations: { ...rates.operations, 'glue-up': operation('Zirconium jigging', 'panel', 1.5) },
      },
      finishes: {
        'hardwax-oil': {
          ...(library.finishes['hardwax-oil'] as (typeof library.finishes)[string]),
          pricePerLitre: decimal('46.53'),
          source: 'template-source-note',
        },
      },
      texts: textsOf(spec.language === 'en-US' ? 'en-US' : 'en-GB'),
    },
    variants: [
      {
        variant: offered('A', 'Reed', {
          options: {
            ceramic: option('Ceramic over the oil', { price: decimal('240.00'), why: 'For hot pans.' }),
            stout: option('A top of 32 mm'),
          },
        }),
        combinations: [
          { choice: [], isDefault: true, table: reedTable },
          { choice: ['ceramic'], isDefault: false, table: reedTable },
          { choice: ['ceramic', 'stout'], isDefault: false, table: thick },
          { choice: ['stout'], isDefault: false, table: thick },
        ],
      },
      {
        variant: offered('B', 'Slab ends', {
          priceGroups: [
            { says: 'Top', percent: percent(60) },
            { says: 'Base', percent: percent(40) },
          ],
        }),
        combinations: [{ choice: [], isDefault: true, table: slabTable }],
      },
      { variant: offered('C', 'Unoffered Griffin', { offered: false }), combinations: [{ choice: [], isDefault: true, table: thick }] },
    ],
    files: [{ path: 'proposals/garden-room/proposal.yaml', text: 'knot-by-the-heart' }],
    warnings: [],
  };
}

const measure = openFonts().measure;

/** Runs the whole flow; throws where the commission has an error, so that a test can not pass on nothing. */
export function computed(over: Partial<ProposalSpec> = {}): ComputedProposal {
  const result = computeProposal(plantedInput(over), { measure });
  const errors = result.problems.filter((problem) => problem.severity === 'error');
  if (result.computed === undefined) throw new Error(errors.map((problem) => `${problem.code}: ${problem.title}`).join('\n'));
  return result.computed;
}
