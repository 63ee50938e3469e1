import type { ComputedProposal } from '../../compute.ts';
import type { Problem } from '../../problem/index.ts';
import { type AnyEntry, type EntryOf, openSeal } from '../../record/index.ts';
import { pageOfDecider } from '../../spec/index.ts';
import { addDays, type CalendarDate, compareDates, formatDate, parseDate } from '../../units/index.ts';
import { type DraftPage, pageLeaks } from './issue-pages.ts';
import { hasInventedRates, placeholdersLeft } from './placeholders.ts';
import { unprintedSigns } from './unprinted-signs.ts';
import { isTodo } from './what-was-said.ts';

/** Codes that a maker may insist against, with a reason. */
export const insistable = ['cli/price-below-floor', 'cli/quotation-out', 'cli/account-open'] as const;

/** What is looked at before a draft is frozen. */
export interface IssueCase {
  readonly computed: ComputedProposal;
  /** The proposal's folder on disk. */
  readonly folder: string;
  readonly entries: readonly AnyEntry[];
  readonly pages: readonly DraftPage[];
  /** Today, as `2027-02-14`. */
  readonly day: string;
  /** Whether papers can be set in a sign. */
  readonly hasSign: (sign: string) => boolean;
}

const refusal = (code: string, title: string, path: Problem['path'], rest: Partial<Problem> = {}): Problem => ({
  code: `cli/${code}`,
  severity: 'error',
  title,
  path,
  ...rest,
});

const offered = ({ variants }: ComputedProposal) => variants.filter(({ standard }) => standard.spec.variant.offered);

function unanswered({ computed }: IssueCase): readonly Problem[] {
  const wishes = Object.entries(computed.input.proposal.wishes).filter(([, { measure }]) => measure.kind === 'judgement');
  return offered(computed).flatMap(({ id, standard }) =>
    wishes
      .filter(([wish]) => standard.spec.variant.answers[wish] === undefined)
      .map(([wish, { says }]) =>
        refusal('wish-unanswered', `wish ${wish} is not answered, and nothing measures it`, ['variant', 'answers'], {
          variant: id,
          found: `“${says}”`,
          mend: `write answers: { ${wish}: { result: enough, says: ... } } into the design; result is enough, limit or not-enough`,
        }),
      ),
  );
}

function openNotes({ entries, folder, computed }: IssueCase): readonly Problem[] {
  const settled = new Set(entries.flatMap((entry) => (entry.kind === 'note-settled' ? [entry.note] : [])));
  const open = entries.filter((entry): entry is EntryOf<'note'> => entry.kind === 'note' && !settled.has(entry.n));
  return open.map((note) => {
    const sealed = note.sealed === undefined ? 'gone' : openSeal(folder, note.sealed);
    const words = typeof sealed === 'string' ? undefined : sealed.data['words'];
    const at = note.wish !== undefined ? ` about wish ${note.wish}` : note.design !== undefined ? ` about design ${note.design}` : '';
    return refusal('note-open', `note ${note.n} of ${note.on}${at} is open`, [], {
      ...(typeof words === 'string' ? { found: `“${words.length > 120 ? `${words.slice(0, 119)}…` : words}”` } : {}),
      mend: `deal with it, then: leafwright note ${computed.input.slug} --settle ${note.n} --as answered "what you answered"; or --as wish, draft or dropped`,
    });
  });
}

/** The combination of each design that leaves least, where that is less than the floor. */
function belowFloor({ computed }: IssueCase): readonly Problem[] {
  return offered(computed).flatMap(({ id, combinations }) => {
    const low = combinations
      .flatMap(({ choice, price }) =>
        price.problems.filter(({ code }) => code === 'price/margin-low').map((problem) => ({ choice, price, problem })),
      )
      .toSorted((a, b) => a.price.marginPercent - b.price.marginPercent)[0];
    if (low === undefined) return [];
    const options = low.choice.length === 0 ? '' : ` with ${low.choice.join(' and ')}`;
    const { path, found, allowed, mend } = low.problem;
    return [
      refusal('price-below-floor', `the price${options} leaves less margin than your floor`, path, {
        variant: id,
        ...(found === undefined ? {} : { found }),
        ...(allowed === undefined ? {} : { allowed }),
        mend: `${mend ?? 'ask more'}; or insist: leafwright issue ${computed.input.slug} --insist "why"`,
      }),
    ];
  });
}

/** Quotations of timber that a design has to be bought from. The days of an invented commission are its own. */
function runOut({ computed, day }: IssueCase): readonly Problem[] {
  const { proposal, library } = computed.input;
  const today = proposal.invented ? proposal.revision.date : parseDate(day);
  if (today === undefined || (!proposal.invented && hasInventedRates(computed.input))) return [];
  const { rates } = library;
  const bought = offered(computed).flatMap(({ combinations }) =>
    combinations.flatMap(({ takeOff }) => takeOff.timber.filter(({ toBuyM3 }) => toBuyM3 > 0).map(({ timber }) => timber)),
  );
  const shown = (date: CalendarDate): string => formatDate(date, proposal.language);
  return [...new Set(bought)].sort().flatMap((id) => {
    const timber = rates.timber[id];
    if (timber === undefined) return [];
    const last = addDays(timber.quotedOn, rates.quoteDays);
    if (compareDates(last, today) >= 0) return [];
    return [
      refusal('quotation-out', `the quotation of ${id} has run out`, ['library', 'rates', 'timber', id, 'quotedOn'], {
        found: `of ${shown(timber.quotedOn)}, held ${rates.quoteDays} days, until ${shown(last)}`,
        allowed: `good on ${shown(today)}`,
        mend: `ask your merchant anew, write price and quotedOn; or insist: leafwright issue ${computed.input.slug} --insist "why"`,
      }),
    ];
  });
}

/** Words that `revise` put there for the maker to rewrite. */
function toRewrite({ computed }: Pick<IssueCase, 'computed'>): readonly Problem[] {
  const { revision } = computed.input.proposal;
  const mend = 'say it in your own words, to the client, and take the TODO out';
  return [
    ...(isTodo(revision.changes)
      ? [refusal('changes-todo', 'what changed is not yet in your own words', ['proposal', 'revision', 'changes'], { mend })]
      : []),
    ...offered(computed)
      .filter(({ standard }) => isTodo(standard.spec.variant.why))
      .map(({ id }) =>
        refusal('changes-todo', `why design ${id} is offered is not yet in your own words`, ['variant', 'why'], { variant: id, mend }),
      ),
  ];
}

function ofTheWhole({ computed, day }: IssueCase): readonly Problem[] {
  const { proposal, library, slug } = computed.input;
  const problems: Problem[] = [];
  if (proposal.exclusions.length === 0)
    problems.push(
      refusal('no-exclusions', 'nothing is said to be excluded', ['proposal', 'exclusions'], {
        mend: 'write what a client might take to be included: exclusions: ["Chairs.", "Work on floor or walls."]',
      }),
    );
  if (library.terms.sections.length === 0)
    problems.push(
      refusal('no-terms', 'the terms have no section', ['library', 'terms', 'sections'], {
        mend: `write sections into templates/terms/${proposal.terms}.yaml, or name other terms: terms: standard-eu`,
      }),
    );
  problems.push(...toRewrite({ computed }));
  const people = Object.keys(proposal.deciders.people);
  if (!people.some((person) => pageOfDecider(proposal, person).audience === 'payer'))
    problems.push(
      refusal('nobody-decides', 'nobody who decides is shown a price, so nobody could order', ['proposal', 'deciders'], {
        found: people.join(', '),
        mend: 'give one of them a page with audience: payer',
      }),
    );
  const today = parseDate(day);
  if (!proposal.invented && today !== undefined && compareDates(proposal.revision.validUntil, today) < 0)
    problems.push(
      refusal('offer-over', 'the last day of this offer has passed', ['proposal', 'revision', 'validUntil'], {
        mend: 'set a later validUntil before you issue it',
      }),
    );
  if (proposal.sample === undefined)
    problems.push({
      ...refusal('no-sample', 'there is no sample, so the scope says "subject to sample"', [], {
        mend: `make one, write sample: { id: ..., says: ... }, and record the yes: leafwright sample ${slug} ID --who PERSON --yes`,
      }),
      severity: 'warning',
    });
  return problems;
}

/** Warnings of reading that say the same as a refusal. */
export const alsoRefused: ReadonlySet<string> = new Set(['price/margin-low', 'cli/offer-over', 'cli/placeholder']);

/**
 * All that stands in the way of issuing a draft, and what is worth a warning, in one list.
 * Codes: `cli/wish-unanswered note-open price-below-floor quotation-out no-exclusions no-terms nobody-decides changes-todo
 * offer-over no-sample unprinted-sign page-tells placeholder`.
 */
export function readyProblems(given: IssueCase): readonly Problem[] {
  return [
    ...unanswered(given),
    ...openNotes(given),
    ...belowFloor(given),
    ...runOut(given),
    ...placeholdersLeft(given.computed),
    ...ofTheWhole(given),
    ...unprintedSigns(given.computed, given.hasSign),
    ...pageLeaks(given.pages, given.computed),
  ];
}
