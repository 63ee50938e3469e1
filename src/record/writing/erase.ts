import { lstatSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { issuedEntries, readChain } from '../chain/chain.ts';
import type { AnyEntry, EntryOf } from '../chain/entries.ts';
import { isErasable, removeErased } from '../chain/erased.ts';
import { filesOf, paperOf } from '../chain/named-files.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { openSeal } from '../chain/seal.ts';
import type { Json } from '../disk/canonical.ts';
import { editionFolder, editionFolders, handedOverName } from '../disk/edition.ts';
import { revisionFolder } from '../disk/revision.ts';
import { type Added, addUnderLock, type RecordPlace, underLock } from './add.ts';

/** Whose data is erased. */
export interface Erasure {
  /** Id in the proposal. */
  readonly person: string;
  /** What the person is called, as it may stand in sealed words: whole name, first name and so on. */
  readonly names: readonly string[];
  /** The day on which it was asked for. */
  readonly on: string;
}

export interface ErasedRecords extends Added {
  /** Files and folders that are gone, by path below the proposal's folder; a folder ends in a stroke. */
  readonly files: readonly string[];
  /** Entries whose sealed words are another's and call the person by name: they stay, and the maker decides. */
  readonly mentions: readonly number[];
}

const folded = (text: string): string => text.normalize('NFC').toLowerCase().trim();
const texts = (value: Json | undefined): readonly string[] =>
  typeof value === 'string' ? [value] : typeof value === 'object' && value !== null ? Object.values(value).flatMap(texts) : [];

/**
 * Whose an entry's sealed words are: the person's, another's who mentions the person, or none of these. The maker's own words go
 * with the person whom they call by name; the reason for issuing goes with what was issued.
 */
function sealedWords(folder: string, entry: AnyEntry, { person, names }: Erasure): 'own' | 'mention' | 'other' | 'gone' {
  if (entry.sealed === undefined) return 'other';
  const opened = openSeal(folder, entry.sealed);
  if (opened === 'gone') return 'gone';
  if (entry.kind === 'issued') return 'own';
  if (opened === 'changed') return 'person' in entry && entry.person === person ? 'own' : 'other';
  const { data } = opened;
  const called = names.map(folded).filter((name) => name !== '');
  const isCalled = (value: Json | undefined): boolean => typeof value === 'string' && called.includes(folded(value));
  if (data['person'] === person || ('person' in entry && entry.person === person) || isCalled(data['who']) || isCalled(data['name']))
    return 'own';
  const all = folded(texts(data).join('\n'));
  const isMakers = data['person'] === undefined && data['who'] === undefined && data['name'] === undefined;
  if (!called.some((name) => all.includes(name))) return 'other';
  return isMakers && !('person' in entry && entry.person !== undefined) ? 'own' : 'mention';
}

/** Who opened a claim, of whichever of its entries. */
function claimantOf(entries: readonly AnyEntry[], entry: EntryOf<'claim'>): string | undefined {
  const opened = entry.event === 'opened' ? entry : entries.find(({ n }) => n === entry.of);
  return opened?.kind === 'claim' ? opened.person : undefined;
}

/**
 * Files beside the record that show or name the person: what was attached for or to the person's entries, every scope, and the
 * paper of a delivery that the person, or nobody in particular, signed for; of a claim also the photographs, which show where the person
 * lives. Other photographs of the table stay.
 */
function filesOfPerson(entries: readonly AnyEntry[], person: string): readonly string[] {
  const isPersons = (n: number): boolean => entries.some((entry) => entry.n === n && 'person' in entry && entry.person === person);
  return entries.flatMap((entry) => {
    if (entry.kind === 'hand-over') return (entry.person ?? person) === person ? paperOf(entry).map(({ path }) => path) : [];
    if (entry.kind === 'claim') return (claimantOf(entries, entry) ?? person) === person ? filesOf(entry).map(({ path }) => path) : [];
    const isOne =
      entry.kind === 'scope' ||
      (entry.kind === 'attached' && (entry.person === person || (entry.person === undefined && isPersons(entry.to))));
    return isOne ? filesOf(entry).map(({ path }) => path) : [];
  });
}

/** What of an issued revision holds what people are called. */
function frozenFiles(proposalFolder: string, revision: string): readonly string[] {
  const folder = revisionFolder(proposalFolder, revision);
  const names = (at: string): readonly string[] =>
    lstatSync(at, { throwIfNoEntry: false })?.isDirectory() === true ? readdirSync(at).sort() : [];
  const all = [
    ...names(join(folder, 'data')).map((name) => `data/${name}`),
    ...names(join(folder, 'in')).map((name) => `in/${name}/`),
    ...names(folder).map((name) => `${name}/`),
  ];
  return all.map((path) => `issued/${revision}/${path}`).filter(isErasable);
}

/** The client's papers of every edition of what was handed over. */
function clientPapers(proposalFolder: string): readonly string[] {
  return editionFolders(proposalFolder).flatMap((edition) =>
    readdirSync(editionFolder(proposalFolder, edition))
      .sort()
      .map((name) => `${handedOverName}/${edition}/${name}/`)
      .filter(isErasable),
  );
}

/** What erasing a person's data takes away and what it leaves for the maker to decide. */
export type ErasurePlan = Pick<ErasedRecords, 'files' | 'mentions'>;

/** What `eraseRecords` would take away, from the entries as they stand. Reads only. */
export function planErasure(folder: string, entries: readonly AnyEntry[], erasure: Erasure): ErasurePlan {
  const words = entries.map((entry) => ({ entry, whose: sealedWords(folder, entry, erasure) }));
  const mentions = words.filter(({ whose }) => whose === 'mention').map(({ entry }) => entry.n);
  const seals = words.flatMap(({ entry, whose }) => (whose === 'own' && entry.sealed !== undefined ? [entry.sealed.file] : []));
  const attached = filesOfPerson(entries, erasure.person).filter(
    (path) => lstatSync(join(folder, path), { throwIfNoEntry: false }) !== undefined,
  );
  const frozen = issuedEntries(readChain(folder)).flatMap(({ revision }) => frozenFiles(folder, revision));
  return { files: [...new Set([...seals, ...attached, ...frozen, ...clientPapers(folder)])].sort(), mentions };
}

/**
 * Erases a person's data from the records: the person's sealed words and attached files, the scopes, and of every issued
 * revision what the maker wrote and the client got, since prose does not tell whom it is about, and the client's papers of the table. What was offered, the figures,
 * the lists of digests and the chain stay, so that the rest still proves; ids and the proposal's name stay in them.
 *
 * The entry `erased` comes first, with all that is to go, and then the files go: a run that is killed between leaves an entry
 * that the next run finishes, and never a file that is gone without a word.
 * Codes: `record/nothing-to-erase locked cannot-write` and those of a broken chain.
 */
export async function eraseRecords(place: RecordPlace, erasure: Erasure): Promise<ErasedRecords> {
  const { folder, shown } = place;
  let files: readonly string[] = [];
  let mentions: readonly number[] = [];
  const done = await underLock(place, async () => {
    const added = addUnderLock(place, (entries) => {
      ({ files, mentions } = planErasure(folder, entries, erasure));
      return files.length === 0
        ? {
            problems: [
              recordProblem('nothing-to-erase', `the records of ${shown} hold nothing more of ${erasure.person}`, {
                mend: 'check the id with status; proposal.yaml and what stands in your mail are yours to clear',
              }),
            ],
          }
        : { body: { kind: 'erased', on: erasure.on, person: erasure.person, files } };
    });
    if (added.entry !== undefined)
      removeErased(
        folder,
        readChain(folder).lines.flatMap(({ entry }) => entry ?? []),
      );
    return added;
  });
  return 'entry' in done ? { ...done, files, mentions } : { ...done, files: [], mentions };
}
