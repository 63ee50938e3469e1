import type { Problem } from '../../problem/index.ts';
import type { ChainEntry } from '../chain/chain.ts';
import { type AnyEntry, type Chosen, type EntryKind, type EntryOf, entryBodies } from '../chain/entries.ts';
import { isErasable } from '../chain/erased.ts';
import { entriesOf } from '../chain/read-entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { claimFault, handOverFault, isBeyond, maySayYes, serviceFault } from '../standing/hand-over.ts';
import type { IssuedOffer } from '../standing/offer.ts';

/** What an entry says is held against the entries before it and what was offered. */
interface Before {
  readonly entries: ReadonlyMap<number, AnyEntry>;
  readonly offers: readonly IssuedOffer[];
}

/** Words for a kind of entry, as a sentence says it. */
const called: Partial<Record<EntryKind, string>> = {
  note: 'a note',
  evidence: 'plain words',
  asked: 'a confirmation that was asked for',
  answer: 'an answer',
  confirmed: 'a confirmation',
  'hand-over': 'a hand-over',
  claim: 'a claim',
};

/** Numbers of earlier entries that an entry names, and the kind that they must have; any kind where none is said. */
function pointers(entry: AnyEntry): readonly (readonly [n: number, kind?: EntryKind])[] {
  switch (entry.kind) {
    case 'note-settled':
      return [[entry.note, 'note']];
    case 'asked':
      return entry.evidence === undefined ? [] : [[entry.evidence, 'evidence']];
    case 'answer':
      return entry.after === undefined ? [] : [[entry.after, 'asked']];
    case 'confirmed':
      return [
        ...entry.answers.map((n) => [n, 'answer'] as const),
        ...(entry.replaces === undefined ? [] : [[entry.replaces, 'confirmed'] as const]),
      ];
    case 'scope':
      return entry.answers.map((n) => [n, 'answer'] as const);
    case 'attached':
      return [[entry.to]];
    case 'care':
      return [[entry.of]];
    case 'service':
      return entry.of === undefined ? [] : [[entry.of, 'hand-over']];
    case 'claim':
      return [[entry.of, entry.event === 'opened' ? 'hand-over' : 'claim']];
    case 'hand-over':
      return [...entry.asBuilt, ...(entry.otherFinish ?? [])].flatMap(({ yes }) => (yes === undefined ? [] : [[yes] as const]));
    default:
      return [];
  }
}

function isAstray(entry: AnyEntry, { entries }: Before): string | undefined {
  for (const [n, kind] of pointers(entry)) {
    const to = n < entry.n ? entries.get(n) : undefined;
    if (to === undefined) return `points to entry ${n}, which does not come before it`;
    if (kind !== undefined && to.kind !== kind) return `points to entry ${n}, which is not ${called[kind] ?? kind}`;
  }
  return undefined;
}

/** Laws across the fields of an entry, and of an entry with one that it names. */
function isImpossible(entry: AnyEntry, { entries }: Before): string | undefined {
  if (entry.kind === 'hand-over') {
    const unagreed = entry.asBuilt.find((one) => isBeyond(one) && one.yes === undefined);
    const other = (entry.otherFinish ?? []).map(({ on, yes }) => ({ what: `the finish of the ${on}`, yes }));
    const unsaid = [...entry.asBuilt, ...other].find(({ yes }) => yes !== undefined && !maySayYes(entries.get(yes)));
    const unagreedFinish = other.find(({ yes }) => yes === undefined);
    return (
      handOverFault(entry) ??
      (unagreed === undefined ? undefined : `holds ${unagreed.what} beyond its tolerance without anybody's yes`) ??
      (unagreedFinish === undefined ? undefined : `holds ${unagreedFinish.what} otherwise than ordered without anybody's yes`) ??
      (unsaid === undefined ? undefined : `takes entry ${unsaid.yes} for a yes to ${unsaid.what}, and nobody says yes there`)
    );
  }
  if (entry.kind === 'care') return isMisplacedEdition(entry, entries);
  if (entry.kind === 'claim') return claimFault(entry) ?? isMisplacedClaim(entry, entries);
  if (entry.kind !== 'service') return undefined;
  const of = entry.of === undefined ? undefined : entries.get(entry.of);
  const listed = of?.kind === 'hand-over' ? (of.acceptance?.defects.length ?? 0) : 0;
  const unlisted = entry.defects?.find((defect) => defect > listed);
  return (
    serviceFault(entry) ?? (unlisted === undefined ? undefined : `puts defect ${unlisted} right, and entry ${entry.of} lists ${listed}`)
  );
}

/** A claim is of a table that was delivered, and is gone on with from the entry that opened it until it is settled. */
function isMisplacedClaim({ n, on, of, event }: EntryOf<'claim'>, entries: Before['entries']): string | undefined {
  const ground = entries.get(of);
  if (event === 'opened') {
    if (ground?.kind !== 'hand-over' || ground.failed !== undefined) return `is a claim of entry ${of}, where nothing was handed over`;
    return on < ground.on ? `is a claim of ${on}, before the hand-over on ${ground.on}` : undefined;
  }
  if (ground?.kind !== 'claim' || ground.event !== 'opened') return `goes on with entry ${of}, which opens no claim`;
  if (on < ground.on) return `goes on with a claim on ${on}, before it was opened on ${ground.on}`;
  const settled = [...entries.values()].find((one) => one.kind === 'claim' && one.event === 'settled' && one.of === of && one.n < n);
  return settled === undefined ? undefined : `goes on with the claim in entry ${of}, which entry ${settled.n} settled`;
}

/** Editions are numbered without a gap, each after the hand-over or service that it is of. */
function isMisplacedEdition({ n, of, edition }: EntryOf<'care'>, entries: Before['entries']): string | undefined {
  const before = [...entries.values()].filter((one) => one.kind === 'care' && one.n < n).length;
  const ground = entries.get(of)?.kind;
  if (ground !== 'hand-over' && ground !== 'service') return `is of entry ${of}, which is no hand-over and no service`;
  return edition === before + 1 ? undefined : `is edition ${edition}, and ${before} were made before it`;
}

/** Where a revision was issued before an entry, with that fingerprint. */
function issuedAs(revision: string, fingerprint: string | undefined, n: number, { entries }: Before): boolean {
  return [...entries.values()].some(
    (one) => one.kind === 'issued' && one.n < n && one.revision === revision && (fingerprint ?? one.fingerprint) === one.fingerprint,
  );
}

function isNotOffered(chosen: Chosen, isInsisted: boolean, n: number, before: Before): string | undefined {
  if (!issuedAs(chosen.revision, chosen.fingerprint, n, before))
    return `names ${chosen.revision} by a fingerprint that was not issued before it`;
  const offer = before.offers.find(({ revision }) => revision === chosen.revision);
  if (offer === undefined || isInsisted) return undefined;
  const design = offer.designs.find(({ id }) => id === chosen.design);
  if (design === undefined) return `names design ${chosen.design}, which ${chosen.revision} does not offer`;
  const combination = design.combinations.find(({ options }) => options.join() === chosen.options.join());
  if (combination === undefined)
    return `names design ${chosen.design} with ${chosen.options.join(' and ') || 'no option'}, which ${chosen.revision} does not offer`;
  const isTotal =
    chosen.totalMinor === undefined ||
    offer.change !== undefined ||
    (chosen.totalMinor === combination.totalMinor && chosen.currency === offer.currency);
  return isTotal
    ? undefined
    : `names a total of ${chosen.totalMinor}, and ${chosen.revision} offers it at ${combination.totalMinor} (in minor units)`;
}

function isMisanswered(entry: EntryOf<'answer'>, before: Before): string | undefined {
  if (!issuedAs(entry.revision, entry.fingerprint, entry.n, before))
    return `answers ${entry.revision} by a fingerprint that was not issued before it`;
  const isInsisted = (entry.insisted?.length ?? 0) > 0;
  if (entry.chosen !== undefined)
    return entry.chosen.fingerprint === entry.fingerprint
      ? isNotOffered(entry.chosen, isInsisted, entry.n, before)
      : 'answers one revision and chooses from another';
  const offer = before.offers.find(({ revision }) => revision === entry.revision);
  const unknown = [entry.design, entry.base].find((id) => id !== undefined && offer?.designs.every((design) => design.id !== id) === true);
  return unknown === undefined || isInsisted ? undefined : `names design ${unknown}, which ${entry.revision} does not offer`;
}

function isUnoffered(entry: AnyEntry, before: Before): string | undefined {
  if (entry.kind === 'answer') return isMisanswered(entry, before);
  if (entry.kind === 'asked') return isNotOffered(entry.chosen, false, entry.n, before);
  if (entry.kind === 'confirmed') return isNotOffered(entry.chosen, (entry.insisted?.length ?? 0) > 0, entry.n, before);
  if (entry.kind === 'evidence' || entry.kind === 'scope')
    return issuedAs(entry.revision, undefined, entry.n, before) ? undefined : `names ${entry.revision}, which was not issued before it`;
  return undefined;
}

/** An answer on paper of which no scan, or other file, is beside the record: a run ended between the two entries. */
function checkPaper(entry: AnyEntry, place: string, { entries }: Before): readonly Problem[] {
  if (entry.kind !== 'answer' || entry.by !== 'paper') return [];
  if ([...entries.values()].some((one) => one.kind === 'attached' && one.to === entry.n)) return [];
  return [
    recordProblem('scan-missing', `${place} is an answer on paper, and no scan of the paper is attached to it`, {
      severity: 'warning',
      mend: `run the same record --paper again, which adds the scan alone, or attach it: --to ${entry.n} --what paper-signature`,
    }),
  ];
}

function checkForm(entry: ChainEntry, place: string): Problem | undefined {
  if (!Object.hasOwn(entryBodies, entry.kind))
    return recordProblem('kind-unknown', `${place} is of the kind ${JSON.stringify(entry.kind)}, which this program does not know`, {
      mend: 'a newer version wrote it: use that version or a later one',
    });
  const { n: _n, prev: _prev, at: _at, zone: _zone, sealed, ...body } = entry;
  const read = entryBodies[entry.kind as EntryKind].safeParse(body);
  const field = read.success ? undefined : (read.error.issues[0]?.path.join('.') ?? '');
  const isSeal = sealed === undefined || (typeof sealed.file === 'string' && /^[0-9a-f]{64}$/.test(sealed.digest));
  if (field === undefined && isSeal) return undefined;
  return recordProblem('entry-invalid', `${place} does not hold what belongs to the kind ${entry.kind}`, {
    found: field === undefined || field === '' ? 'a field too many or too few' : `${field} is missing, or not what it may be`,
    mend: 'take decisions.jsonl back from your copy or from git; entries are only ever written by this program',
  });
}

/**
 * Each entry by itself and against those before it: its kind and fields, the entries and choices that it names.
 * `shown` is decisions.jsonl as the maker sees it. Codes: `record/kind-unknown entry-invalid entry-astray not-offered`,
 * the warning `scan-missing`.
 */
export function checkEntries(all: readonly ChainEntry[], offers: readonly IssuedOffer[], shown: string): readonly Problem[] {
  const before: Before = { entries: new Map(entriesOf(all).map((entry) => [entry.n, entry])), offers };
  return all.flatMap((line): readonly Problem[] => {
    const place = `${shown}:${line.n}`;
    const malformed = checkForm(line, place);
    if (malformed !== undefined) return [malformed];
    const entry = before.entries.get(line.n);
    if (entry === undefined) return [];
    const mend = 'take decisions.jsonl back from your copy or from git';
    const astray = isAstray(entry, before);
    const unoffered = isUnoffered(entry, before);
    const impossible = astray === undefined ? isImpossible(entry, before) : undefined;
    const unerasable = entry.kind === 'erased' ? entry.files.find((path) => !isErasable(path)) : undefined;
    return [
      ...(astray === undefined ? [] : [recordProblem('entry-astray', `${place} ${astray}`, { mend })]),
      ...(impossible === undefined ? [] : [recordProblem('entry-invalid', `${place} ${impossible}`, { mend })]),
      ...(unoffered === undefined ? [] : [recordProblem('not-offered', `${place} ${unoffered}`, { mend })]),
      ...(unerasable === undefined
        ? []
        : [recordProblem('entry-invalid', `${place} erases ${unerasable}, which the proof needs`, { mend })]),
      ...checkPaper(entry, place, before),
    ];
  });
}
