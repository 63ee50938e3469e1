import type { VariantFigures } from '../figures/index.ts';
import type { ProposalSpec } from '../spec/index.ts';
import { type PreviousRevision, type ShownDesign, type ShownFigures, type ShownPrice, shownFigures, shownPrice } from './client-source.ts';
import type { ChangedDesign, ChangedView, ClientView } from './client-view.ts';
import { overallSizes, type Readers } from './design-view.ts';
import { factValue } from './facts.ts';
import { keepFigures } from './keep-figures.ts';
import { type Shown, shownIn } from './shown.ts';
import { aboutLoad } from './steadiness.ts';
import { wishView } from './wish-view.ts';
import type { Words } from './words.ts';

type Row = ChangedDesign['rows'][number];

/** The design that one grew from, among those offered before: the one it names, else the one of its own letter. */
export function earlierDesign(id: string, from: string | undefined, before: Readonly<Record<string, VariantFigures>>): string | undefined {
  const name = from ?? id;
  return Object.hasOwn(before, name) && before[name]?.offered === true ? name : undefined;
}

/** What all of the telling needs. */
interface Telling {
  readonly previous: PreviousRevision;
  readonly proposal: ProposalSpec;
  readonly limits: Pick<ClientView, 'audience' | 'level'>;
  readonly readers: Readers;
  readonly words: Words;
  /** `First proposal` for `r1`. */
  readonly ordinalOf: (revision: string, words: Words) => string;
}

interface Sides {
  readonly before: ShownFigures;
  readonly now: ShownFigures;
}

/** Facts of the table that rows are made of, before and after the load on the very edge. */
const FACTS = ['thickness', 'mass'];
const AT_SIDES = ['tip-ends', 'tip-sides'];
const AT_RIM = ['tip-worst'];
const OPEN = ['open-front', 'open-side'];

/** A row, where the two are shown differently: what a reader could not see is no change. */
const rowOf = (label: string, before: string | undefined, now: string | undefined): readonly Row[] =>
  before === undefined || now === undefined || before === now ? [] : [{ label, before, now }];

function tipping(figures: ShownFigures, shown: Shown, words: Words): string | undefined {
  const { standing } = figures.tipping;
  if (standing === undefined) return undefined;
  return standing.edge === null ? words.say('steady.never') : aboutLoad(standing.edge.loadN, shown, words);
}

function tableRows({ before, now }: Sides, { readers: { shown, brief }, words }: Telling): readonly Row[] {
  const factRows = (ids: readonly string[]): readonly Row[] =>
    ids.flatMap((id) => rowOf(words.say(`fact.${id}`), factValue(id, before, brief, words), factValue(id, now, brief, words)));
  // The page tells tipping in one way; the load on the very edge where that shows no difference.
  const tipped = factRows(now.top.shape === 'rectangle' ? AT_SIDES : AT_RIM);
  return [
    ...rowOf(words.say('page.size'), overallSizes(before, shown), overallSizes(now, shown)),
    ...factRows(FACTS),
    ...(tipped.length > 0 ? tipped : rowOf(words.say('changed.tips'), tipping(before, brief, words), tipping(now, brief, words))),
    ...factRows(OPEN),
  ];
}

/** Options that are on unless the client says otherwise. */
function defaults(price: ShownPrice, words: Words): string {
  const on = price.options.filter((option) => option.isDefault).map((option) => option.says);
  return on.length === 0 ? words.say('changed.no-option') : on.join('; ');
}

function priceRows(before: ShownPrice, now: ShownPrice, { readers, proposal, words }: Telling): readonly Row[] {
  const then = before.currency === now.currency ? readers.headline : shownIn(proposal.language, proposal.show, before.currency).money;
  const isTaxed = now.taxes.some((tax) => tax.amountMinor !== 0);
  return [
    ...rowOf(words.say(isTaxed ? 'changed.price' : 'changed.price-untaxed'), then(before.totalMinor), readers.headline(now.totalMinor)),
    ...rowOf(words.say('changed.options'), defaults(before, words), defaults(now, words)),
  ];
}

/** A row of a wish, with the two values that its words end in. */
interface WishRow extends Row {
  readonly values: readonly (string | undefined)[];
}

/** Wishes that are answered otherwise than before; one that is asked anew has no answer to differ from. */
function wishRows({ before, now }: Sides, { proposal, limits, readers: { shown }, words }: Telling): readonly WishRow[] {
  const seesPrice = limits.audience === 'payer';
  return Object.entries(proposal.wishes).flatMap(([id, wish]) => {
    if (wish.measure.kind === 'price' && !seesPrice) return [];
    const [then, today] = [before.wishes.find((one) => one.id === id), now.wishes.find((one) => one.id === id)];
    if (then === undefined || today === undefined || then.kind !== today.kind || then.result === today.result) return [];
    const views = [then, today].map((answer) => wishView(answer, wish, seesPrice, shown, words));
    const told = views.map(({ resultText, value }) =>
      value === undefined ? resultText : words.say('changed.wish', { result: resultText, value }),
    );
    return rowOf(keepFigures(wish.says), told[0], told[1]).map((row) => ({ ...row, values: views.map(({ value }) => value) }));
  });
}

/** Whether a wish tells the very figures of a row, as `101 kg` within `101 kg (990 N)`: they need not be told twice. */
const isToldBy = ({ before, now }: Row, wishes: readonly WishRow[]): boolean =>
  wishes.some(({ values }) => [before, now].every((shown, i) => values[i] === shown || values[i]?.startsWith(`${shown} (`) === true));

function designChange(design: ShownDesign, earlier: string, then: VariantFigures, telling: Telling): ChangedDesign {
  const { previous, limits, words } = telling;
  const { name } = design.spec.variant;
  const sides: Sides = { before: shownFigures(then), now: design.figures };
  const wishes = wishRows(sides, telling);
  const rows = [
    ...(limits.audience === 'payer' ? priceRows(shownPrice(then.price), design.price, telling) : []),
    ...tableRows(sides, telling).filter((row) => !isToldBy(row, wishes)),
    ...wishes.map(({ values: _told, ...row }) => row),
  ];
  const over = limits.level === 'sketch' ? undefined : previous.overlays[design.id];
  const was = earlier !== design.id ? 'changed.was' : then.name !== name ? 'changed.renamed' : undefined;
  return {
    id: design.id,
    name,
    ...(was === undefined ? {} : { was: words.say(was, { id: earlier, name: then.name }) }),
    ...(rows.length === 0 && over === undefined
      ? { same: words.say(limits.audience === 'payer' ? 'changed.same' : 'changed.same-no-price') }
      : {}),
    rows,
    ...(over === undefined ? {} : { over }),
  };
}

/**
 * What changed since the revision before, from the figures of both: per design that goes on, only what is shown differently.
 * Of the older figures only those on offer then are looked at, and of those only what a client may see.
 */
export function changedView(designs: readonly ShownDesign[], telling: Telling): ChangedView {
  const { previous, proposal, words, ordinalOf } = telling;
  const then = previous.figures.variants;
  const pairs = designs.map((design) => ({ design, earlier: earlierDesign(design.id, design.spec.variant.from, then) }));
  const goneOn = new Set(pairs.map(({ earlier }) => earlier));
  const dropped = Object.entries(then).filter(([id, { offered }]) => offered && !goneOn.has(id));
  const changes = pairs.flatMap(({ design, earlier }) => {
    const figures = earlier === undefined ? undefined : then[earlier];
    return earlier === undefined || figures === undefined ? [] : [designChange(design, earlier, figures, telling)];
  });
  const isDrawn = changes.some(({ over }) => over !== undefined);
  return {
    sentence: [words.say('changed.sentence'), ...(isDrawn ? [words.say('changed.over')] : [])].join(' '),
    before: ordinalOf(previous.id, words),
    now: ordinalOf(proposal.revision.id, words),
    designs: changes,
    added: pairs
      .filter(({ earlier }) => earlier === undefined)
      .map(({ design: { id, spec } }) => words.say('changed.added', { id, name: spec.variant.name })),
    dropped: dropped.map(([id, { name }]) => words.say('changed.dropped', { id, name })),
  };
}
