import type { Figures } from '../figures/index.ts';
import { isReached, type ProposalSpec, pagesOf, STAGES } from '../spec/index.ts';
import {
  compareDates,
  type DecimalText,
  exactDecimal,
  exactOfNumber,
  isoDate,
  minorDigits,
  percentOf,
  roundMinor,
} from '../units/index.ts';
import { changedView } from './changed.ts';
import { type ClientOptions, type ClientSource, type ShownDesign, shownDesigns } from './client-source.ts';
import type { ClientView } from './client-view.ts';
import { consentView } from './consent.ts';
import { designView, type Readers } from './design-view.ts';
import { sharedFacts } from './facts.ts';
import { keepFigures } from './keep-figures.ts';
import { letterView } from './letter.ts';
import { lastStageText, readyText } from './ready.ts';
import { richText } from './rich-text.ts';
import { type Shown, shownIn } from './shown.ts';
import { termsView } from './terms-view.ts';
import { wishView } from './wish-view.ts';
import { type Words, wordsOf } from './words.ts';

/** Digits of the fingerprint that are shown, and how many stand together. */
const SHOWN_DIGITS = 20;
const DIGIT_GROUP = 5;

/** `3f9a0 b12c4 ...`: the first 20 hex digits in fives. */
export function shownFingerprint(sha256Hex: string): string {
  const digits = sha256Hex.slice(0, SHOWN_DIGITS);
  return (digits.match(new RegExp(`.{1,${DIGIT_GROUP}}`, 'g')) ?? []).join(' ');
}

function ordinal(revisionId: string, words: Words): string {
  const key = `ordinal.${revisionId}`;
  return words.has(key) ? words.say(key) : words.say('ordinal.other', { revision: revisionId });
}

function deciders(proposal: ProposalSpec, words: Words): ClientView['deciders'] {
  const { rule, people } = proposal.deciders;
  const names = Object.values(people).map((person) => person.name);
  const type = rule === 'all' ? 'conjunction' : 'disjunction';
  const joined = new Intl.ListFormat(words.language, { type }).format(names);
  const key = names.length === 1 ? 'deciders.one' : `deciders.${rule}`;
  return { rule, names, sentence: words.say(key, { names: joined }) };
}

/** Who the page is for: somebody named alone, or the client and who stands behind them. The address is for the one who pays. */
function parties(
  { client, endClient }: ProposalSpec,
  seesPrice: boolean,
  reader: string | undefined,
): Pick<ClientView, 'client' | 'endClient'> {
  if (reader !== undefined) return { client: { name: reader } };
  return {
    client: { name: client.name, ...(client.address === undefined || !seesPrice ? {} : { address: client.address }) },
    ...(endClient === undefined ? {} : { endClient: { name: endClient.name } }),
  };
}

/** On a change to an order a choice is no longer offered whose last stage the work has reached, or whose last day is over. */
const isStillOpen =
  ({ revision: { change, date } }: ProposalSpec) =>
  ({ lastStage, lastDay }: ProposalSpec['choices'][number]): boolean => {
    if (change === undefined) return true;
    const stage = STAGES.find((one) => one === lastStage);
    const isPast = stage !== undefined && isReached(stage, change.stage);
    return !isPast && (lastDay === undefined || compareDates(lastDay, date) >= 0);
  };

function choiceText(choice: ProposalSpec['choices'][number], shown: Shown, words: Words): string {
  const stage = lastStageText(choice.lastStage, words);
  return choice.lastDay === undefined
    ? words.say('choice.until-stage', { says: choice.says, stage })
    : words.say('choice.until-day', { says: choice.says, stage, day: shown.date(choice.lastDay) });
}

function suppliedText(item: ProposalSpec['supplied'][number], shown: Shown, words: Words): string {
  return item.by === undefined ? item.says : words.say('supplied.by', { says: item.says, day: shown.date(item.by) });
}

/** Wishes in the order of the proposal. One about money is not there at all for an audience that sees no price. */
function wishes(
  proposal: ProposalSpec,
  designs: readonly ShownDesign[],
  seesPrice: boolean,
  shown: Shown,
  words: Words,
): ClientView['wishes'] {
  return Object.entries(proposal.wishes)
    .filter(([, wish]) => seesPrice || wish.measure.kind !== 'price')
    .map(([id, wish]) => ({
      id,
      says: keepFigures(wish.says),
      answers: Object.fromEntries(
        designs.map((design) => [
          design.id,
          wishView(
            design.figures.wishes.find((answer) => answer.id === id),
            wish,
            seesPrice,
            shown,
            words,
          ),
        ]),
      ),
    }));
}

/**
 * How the large figures under the pictures are shown: prices all with cents or all without, so that they compare at a glance,
 * and facts in one unit where sizes elsewhere have two.
 */
function headlines(designs: readonly ShownDesign[], shown: Shown, { language, show, currency }: ProposalSpec): Omit<Readers, 'shown'> {
  const amounts = designs.flatMap(({ price }) => [price.totalMinor, price.netMinor]);
  const isWhole = amounts.every((minor) => minor % 10 ** minorDigits(currency) === 0);
  return {
    headline: isWhole ? shown.wholeMoney : shown.money,
    brief: show === 'mm+in' ? shownIn(language, 'mm', currency) : shown,
  };
}

/** Anchors the record: who keeps this page can tell whether entries before it were changed or cut off. */
function follows({ n, digest }: NonNullable<ClientOptions['after']>, words: Words): string {
  return n === 0 ? words.say('page.follows-none') : words.say('page.follows', { n: String(n), digest: shownFingerprint(digest) });
}

function revisionView(
  proposal: ProposalSpec,
  options: ClientOptions,
  seesPrice: boolean,
  shown: Shown,
  words: Words,
): ClientView['revision'] {
  const { revision } = proposal;
  return {
    id: revision.id,
    ordinal: ordinal(revision.id, words),
    date: shown.date(revision.date),
    validUntil: shown.date(revision.validUntil),
    dateIso: isoDate(revision.date),
    validUntilIso: isoDate(revision.validUntil),
    ...(options.fingerprint === undefined ? {} : { fingerprint: shownFingerprint(options.fingerprint) }),
    ...(options.after === undefined ? {} : { follows: follows(options.after, words) }),
    ...(revision.changes === undefined ? {} : { changes: richText(revision.changes) }),
    ...(revision.change === undefined
      ? {}
      : { orderStands: words.say(seesPrice ? 'change.stands' : 'change.stands-no-price', { of: revision.change.of }) }),
  };
}

/**
 * What a round more costs, with the tax of the proposal first, as every other price.
 *
 * @source EN 16931, BR-CO-17: tax = base x rate, rounded to the minor unit.
 */
function feeText(fee: DecimalText, { proposal, library }: ClientSource['input'], shown: Shown, words: Words): string {
  const net = roundMinor(exactDecimal(fee), proposal.currency);
  const tax = percentOf(net, exactOfNumber(library.rates.taxes[proposal.tax]?.percent.percent ?? 0));
  const total = shown.money(net.minor + tax.minor);
  return tax.minor === 0 ? words.say('rounds.fee-untaxed', { total }) : words.say('rounds.fee', { total, net: shown.money(net.minor) });
}

/** Rounds of revision: how many the price includes, which one this is, what the next one costs. */
function rounds(
  input: ClientSource['input'],
  previous: ClientOptions['previous'],
  seesPrice: boolean,
  shown: Shown,
  words: Words,
): Pick<ClientView, 'rounds'> {
  const { rounds: agreed } = input.proposal;
  if (agreed === undefined || !seesPrice || (previous !== undefined && previous.round === undefined)) return {};
  const { included } = agreed;
  const n = previous?.round ?? 0;
  const fee = feeText(agreed.fee, input, shown, words);
  if (n === 0) return { rounds: { sentence: words.count('rounds.first', included, { fee }) } };
  const key = n < included ? 'rounds.within' : n === included ? 'rounds.last' : 'rounds.beyond';
  return { rounds: { sentence: words.say(key, { n, included, fee }) } };
}

/**
 * What a client may see of a proposal, in words of its language.
 *
 * @param source words, drawings and choices of the proposal
 * @param figures what was computed of the same source
 * @param options fingerprint of the frozen revision; another audience or level than the first page's
 * Throws where there is no design on offer: checked on reading.
 */
export function clientView(source: ClientSource, figures: Figures, options: ClientOptions = {}): ClientView {
  const { proposal, library, slug } = source.input;
  const designs = shownDesigns(source, figures);
  const [first] = designs;
  if (first === undefined) throw new Error(`proposal ${slug} offers no design`);
  const [page] = pagesOf(proposal);
  const { audience = page.audience, level = page.level } = options;
  const reader = options.for ?? (options.audience === undefined ? page.for : undefined);
  const seesPrice = audience === 'payer';
  const words = wordsOf(proposal.language, library.texts);
  const shown = shownIn(proposal.language, proposal.show, proposal.currency);
  const facts = sharedFacts(designs, proposal.compare);
  const readers = { shown, ...headlines(designs, shown, proposal) };
  const { maker } = library;
  const asked = wishes(proposal, designs, seesPrice, shown, words);
  return {
    format: 'leafwright/client/1',
    proposal: slug,
    title: proposal.title,
    invented: proposal.invented || maker.invented,
    language: proposal.language,
    paper: proposal.paper,
    audience,
    level,
    maker: { name: maker.name, trade: maker.trade, address: maker.address, email: maker.email, telephone: maker.telephone },
    ...(options.isUnderBrand === true ? { voice: words.say('page.voice', { name: maker.name }) } : {}),
    ...parties(proposal, seesPrice, reader),
    deciders: deciders(proposal, words),
    revision: revisionView(proposal, options, seesPrice, shown, words),
    understood: richText(proposal.understood),
    designs: designs.map((design) => designView(design, facts, { audience, level }, readers, words)),
    wishes: asked,
    supplied: proposal.supplied.map((item) => keepFigures(suppliedText(item, shown, words))),
    exclusions: proposal.exclusions.map(keepFigures),
    assumptions: proposal.assumptions.map(keepFigures),
    choices: proposal.choices.filter(isStillOpen(proposal)).map((choice) => keepFigures(choiceText(choice, shown, words))),
    ...(proposal.sample === undefined
      ? {}
      : { sample: words.say('sample.says', { id: proposal.sample.id, says: keepFigures(proposal.sample.says) }) }),
    leadTime: readyText(proposal.leadTime, proposal, words),
    consent: consentView(source.input, asked, seesPrice, shown, words),
    ...rounds(source.input, options.previous, seesPrice, shown, words),
    ...(options.previous === undefined
      ? {}
      : {
          changed: changedView(designs, {
            previous: options.previous,
            proposal,
            limits: { audience, level },
            readers,
            words,
            ordinalOf: ordinal,
          }),
        }),
    letter: letterView(source.input, designs, { audience, fingerprint: options.fingerprint }, shown),
    terms: termsView(first, seesPrice),
    cautions: ['caution.calculated', 'caution.local'].map((key) => words.say(key)),
    texts: library.texts,
  };
}
