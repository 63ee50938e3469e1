import type { Figures } from '../figures/index.ts';
import { sha256Text } from '../reply/index.ts';
import { type ProposalSpec, pageOfDecider, pagesOf } from '../spec/index.ts';
import { byCodeUnit, isoDate } from '../units/index.ts';
import { type ClientSource, type ShownDesign, shownDesigns } from './client-source.ts';
import type { ClientView, RichText } from './client-view.ts';
import { termsView } from './terms-view.ts';

type Audience = ClientView['audience'];

/** What a revision offers and who may answer, without names: frozen as data/offer.json. Amounts in minor units with tax. */
export interface Offer {
  readonly format: 'leafwright/offer/1';
  readonly proposal: string;
  readonly revision: string;
  readonly language: string;
  readonly currency: string;
  /** Days, `2027-02-14`. */
  readonly date: string;
  readonly validUntil: string;
  readonly level: ClientView['level'];
  readonly rule: 'all' | 'any';
  /** Sorted by code unit of their ids. */
  readonly people: readonly { readonly id: string; readonly audience: Audience }[];
  /** SHA-256 of `termsText` as each audience was shown it. */
  readonly terms: { readonly [who in Audience]?: string };
  readonly sample?: string;
  readonly designs: readonly {
    readonly id: string;
    readonly name: string;
    /** Here and in combinations sorted by code unit. */
    readonly options: readonly string[];
    readonly combinations: readonly {
      readonly options: readonly string[];
      readonly netMinor: number;
      readonly totalMinor: number;
      readonly instalmentsMinor: readonly number[];
    }[];
  }[];
  readonly instalments: readonly { readonly percent: number; readonly when: string }[];
  readonly change?: OfferedChange;
}

/** Of a change to an order: the confirmed revision and design that it changes, the stage from which it was priced, and the one to which the work goes back. */
export interface OfferedChange {
  readonly of: string;
  readonly design: string;
  readonly stage: string;
  readonly again?: 'ordered' | 'glued';
}

/** Those who decide, sorted by code unit of their ids: a reply code names one by the place in this order. */
export function decidersInOrder({ deciders }: ProposalSpec): readonly string[] {
  return Object.keys(deciders.people).toSorted(byCodeUnit);
}

function richLines(text: RichText): readonly string[] {
  const line = (runs: readonly { readonly text: string }[]): string => runs.map((run) => run.text).join('');
  return text.flatMap((block) => (block.kind === 'paragraph' ? [line(block.runs)] : block.items.map((item) => `- ${line(item)}`)));
}

/** The terms as plain text, a line for each paragraph or row: an answer names them by the digest of this. */
export function termsText({ sections, changes, cancellation, tolerances }: ClientView['terms']): string {
  const staged = (rows: ClientView['terms']['changes']): readonly string[] => rows.map(({ stage, says }) => `${stage}: ${says}`);
  const blocks = [
    ...sections.map(({ title, body }) => [title, ...richLines(body)]),
    staged(changes),
    staged(cancellation),
    tolerances.map(({ says, value }) => `${says}: ${value}`),
  ];
  return blocks
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

/** SHA-256 of the terms as an audience is shown them. */
export const termsDigest = (terms: ClientView['terms']): string => sha256Text(termsText(terms));

function offeredDesign({ id, spec, price }: ShownDesign): Offer['designs'][number] {
  return {
    id,
    name: spec.variant.name,
    options: price.options.map((option) => option.id).toSorted(byCodeUnit),
    combinations: price.combinations.map(({ options, netMinor, totalMinor, instalmentsMinor = [] }) => ({
      options: options.toSorted(byCodeUnit),
      netMinor,
      totalMinor,
      instalmentsMinor,
    })),
  };
}

/**
 * What the draft of a revision offers.
 *
 * @param figures what was computed of the same source
 * Throws where there is no design on offer: checked on reading.
 */
export function offerOf(source: ClientSource, figures: Figures): Offer {
  const { proposal, slug } = source.input;
  const { revision } = proposal;
  const { change } = revision;
  const designs = shownDesigns(source, figures);
  const [first] = designs;
  if (first === undefined) throw new Error(`proposal ${slug} offers no design`);
  const pages = pagesOf(proposal);
  const people = decidersInOrder(proposal).map((id) => ({ id, audience: pageOfDecider(proposal, id).audience }));
  const audiences = (['no-price', 'payer'] as const).filter((one) => pages.some(({ audience }) => audience === one));
  return {
    format: 'leafwright/offer/1',
    proposal: slug,
    revision: revision.id,
    language: proposal.language,
    currency: proposal.currency,
    date: isoDate(revision.date),
    validUntil: isoDate(revision.validUntil),
    level: pages[0].level,
    rule: proposal.deciders.rule,
    people,
    terms: Object.fromEntries(audiences.map((audience) => [audience, termsDigest(termsView(first, audience === 'payer'))])),
    ...(proposal.sample === undefined ? {} : { sample: proposal.sample.id }),
    designs: designs.map(offeredDesign),
    instalments: proposal.instalments.map(({ percent, when }) => ({ percent: percent.percent, when })),
    ...(change === undefined
      ? {}
      : {
          change: {
            of: change.of,
            design: change.design,
            stage: change.stage,
            ...(change.again === undefined ? {} : { again: change.again }),
          },
        }),
  };
}
