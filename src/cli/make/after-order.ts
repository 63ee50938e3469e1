import { claimSheet } from '../../client/index.ts';
import { type AnyEntry, type EntryOf, issuedOffers, readEntries, type Standing, standingOf } from '../../record/index.ts';
import type { RatesShown, WorkshopBench, WorkshopClaim } from '../../site/workshop/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import type { OperationDone } from '../../takeoff/index.ts';
import type { Tools } from '../draft/produce.ts';
import { claimSource } from '../handing/claim-source.ts';
import { type OrderedTable, orderedTable } from '../handing/ordered-table.ts';
import { daysTold, operationsTold, planOf, ratesFrom, ratesTold, speaksOfRates, stockYaml, timberTold } from '../handing/plan-done.ts';
import { sealedWords } from '../hearing/note.ts';

/** What the workshop's pages say of an ordered table beside its record: what it took, and its claims. */
export interface AfterOrder {
  readonly bench?: WorkshopBench;
  readonly claims: readonly WorkshopClaim[];
  /** Set where its hours speak for rates: the file of its rates, and what each operation took. */
  readonly spoken?: { readonly rates: string; readonly operations: readonly OperationDone[] };
}

const NOTHING: AfterOrder = { claims: [] };

function benchOf(folder: string, slug: string, ordered: OrderedTable, standing: Standing, entries: readonly AnyEntry[], language: string) {
  const { worked, used } = standing;
  const lessons = entries.filter((entry): entry is EntryOf<'lesson'> => entry.kind === 'lesson');
  if (worked.length + used.length + lessons.length === 0) return undefined;
  const plan = planOf(ordered, standing);
  const stock = stockYaml(slug, used);
  return {
    operations: operationsTold(plan, language),
    timber: timberTold(plan, language),
    days: daysTold(worked),
    lessons: lessons.map((entry) => ({ on: entry.on, words: sealedWords(folder, entry).words })),
    ...(stock === '' ? {} : { stock }),
  };
}

/** Name of the page of a claim, beside the proposal's. */
const claimPage = (n: number): string => `claim-${n}.html`;

function claimsOf(
  folder: string,
  { proposal, library }: ProposalInput,
  ordered: OrderedTable,
  standing: Standing,
  entries: readonly AnyEntry[],
): readonly WorkshopClaim[] {
  const { delivered } = standing;
  if (delivered === undefined) return [];
  const finishes = { ...ordered.care.spec.library.finishes, ...library.finishes };
  const people = Object.entries(proposal.deciders.people).map(([id, { name }]) => ({ id, name }));
  const page = { language: proposal.language, texts: library.texts, level: 'full', title: proposal.title } as const;
  return standing.claims.map((claim) => {
    const source = claimSource({ folder, entries, standing, handOver: delivered, ordered, finishes }, claim);
    const { opened, lookedAt, settled } = claim;
    return {
      entry: opened.n,
      on: opened.on,
      about: opened.about ?? 'other',
      state: settled === undefined ? (lookedAt.length === 0 ? 'open' : 'open, looked at') : (settled.outcome ?? '').replaceAll('-', ' '),
      isOpen: settled === undefined,
      href: claimPage(opened.n),
      sheet: claimSheet(source, { page, people, show: proposal.show, isCopy: false }),
    };
  });
}

/**
 * What is told of a table once it is ordered; nothing where it is no order, nothing was written down of it, or what was frozen with it
 * is not there any more.
 *
 * @param today `2027-02-14`
 */
export function afterOrder(folder: string, input: ProposalInput, today: string, { fonts }: Pick<Tools, 'fonts'>): AfterOrder {
  const { slug, proposal } = input;
  const entries = readEntries(folder);
  const standing = standingOf(entries, issuedOffers(folder), today);
  const { order, worked, used, claims } = standing;
  const hasAny = worked.length + used.length + claims.length > 0 || entries.some(({ kind }) => kind === 'lesson');
  if (order === undefined || !hasAny) return NOTHING;
  const ordered = orderedTable(folder, slug, order.confirmed, { measure: fonts.measure });
  if ('problems' in ordered) return NOTHING;
  const bench = benchOf(folder, slug, ordered, standing, entries, proposal.language);
  return {
    ...(bench === undefined ? {} : { bench }),
    claims: claimsOf(folder, input, ordered, standing, entries),
    ...(speaksOfRates(standing) ? { spoken: { rates: proposal.rates, operations: planOf(ordered, standing).operations } } : {}),
  };
}

/**
 * Rates that enough tables of a workspace speak for, by the file that they were priced with.
 *
 * @param tables the proposals of the workspace whose hours say something of rates
 */
export function ratesShown(
  tables: readonly { readonly input: ProposalInput; readonly spoken: NonNullable<AfterOrder['spoken']> }[],
): readonly RatesShown[] {
  const names = [...new Set(tables.map(({ spoken }) => spoken.rates))].sort();
  return names.flatMap((name): readonly RatesShown[] => {
    const of = tables.filter(({ spoken }) => spoken.rates === name);
    const input = of[0]?.input;
    if (input === undefined) return [];
    const spokenFor = ratesFrom(
      of.map(({ spoken }) => spoken.operations),
      input.library.rates.operations,
    );
    const told = ratesTold(spokenFor, input.proposal.language);
    const command = `leafwright lessons ${input.slug} --write`;
    return told.rates.length === 0 ? [] : [{ file: `templates/rates/${name}.yaml`, ...told, command }];
  });
}
