import type { Problem } from '../../problem/index.ts';
import { type Added, type Addition, addEntry, type Body, type EntryOf, readEntries, standingOf } from '../../record/index.ts';
import type { Letter, ReadReply, SentencesRead } from '../../reply/index.ts';
import { type Desk, nameOf, saltOf } from '../record-desk.ts';
import { type Hearing, judge } from './judge.ts';
import type { Outcome, Refused } from './outcome.ts';
import type { Scan } from './paper.ts';
import { answerWords, standsNow } from './standing-words.ts';

/** The answer of somebody as it was read, and what is sealed beside it. */
export interface Read {
  readonly letter: Letter;
  readonly code?: string;
  readonly problems: ReadReply['problems'];
  readonly by: Body<'answer'>['by'];
  readonly text: string;
  readonly own?: string;
  readonly who?: string;
  readonly sender?: string;
  readonly stranger?: string;
  readonly sentences?: SentencesRead;
  readonly scan?: Scan;
}

/** Records an answer that fits what was issued, or on which the maker insists; one that is on record is not recorded again. */
export async function recordAnswer(desk: Desk, insisted: string | undefined, on: string, read: Read): Promise<Outcome | Refused> {
  const { folder, shown, at, zone, slug, today, offers } = desk;
  const { letter, code, text, own, scan } = read;
  const reason = insisted?.trim();
  const hearing: Hearing = { ...read, slug, folder, offers, today, on, insists: reason !== undefined, nameOf: (id) => nameOf(desk, id) };
  let known: EntryOf<'answer'> | undefined;
  let warnings: readonly Problem[] = [];
  const { entry, problems } = await addEntry({ folder, shown, at, zone }, (entries): Addition | Refused => {
    const judged = judge(hearing, entries);
    if ('problems' in judged) return judged;
    warnings = judged.warnings;
    if ('known' in judged) {
      known = judged.known;
      return { problems: [] };
    }
    const { body } = judged;
    const data = {
      person: body.person,
      name: letter.name,
      remark: letter.remark,
      text,
      ...(own === undefined ? {} : { own }),
      ...(code === undefined ? {} : { code }),
      ...(body.insisted === undefined || reason === undefined ? {} : { reason }),
    };
    return { body, sealed: { data, random: saltOf() } };
  });
  const answer = known ?? (entry as EntryOf<'answer'> | undefined);
  if (answer === undefined) return { problems };
  const kept: Added = scan === undefined ? { problems: [] } : await attachScan(desk, on, answer, scan);
  const attached = kept.entry === undefined ? [] : [kept.entry];
  const entries = readEntries(folder);
  const { language } = desk.input.proposal;
  const stands = standsNow(
    slug,
    standingOf(entries, offers, today),
    offers.find(({ revision }) => revision === answer.revision),
    language,
  );
  const lead = known === undefined ? `entry ${answer.n}` : `on record already as entry ${answer.n}, so nothing was written`;
  return {
    entries: [...(entry === undefined ? [] : [entry]), ...attached],
    isOnRecord: known !== undefined,
    says: [
      `${lead}: ${answer.person} says ${answerWords(answer, language)}`,
      ...attached.map((one) => `entry ${one.n}: the scan is kept as ${scan?.path ?? ''}`),
      '',
      ...stands.says,
    ],
    problems: [...problems, ...warnings, ...kept.problems],
    ...(stands.next === undefined ? {} : { next: stands.next }),
  };
}

/** Lays a scan beside the answer that it shows, once. */
function attachScan(desk: Desk, on: string, answer: EntryOf<'answer'>, scan: Scan): Promise<Added> {
  const { folder, shown, at, zone } = desk;
  const { path, bytes, sha256 } = scan;
  return addEntry({ folder, shown, at, zone }, (entries) => {
    const isThere = entries.some((one) => one.kind === 'attached' && one.to === answer.n && one.file.sha256 === sha256);
    if (isThere) return { problems: [] };
    const file = { path, bytes: bytes.length, sha256 };
    return {
      body: { kind: 'attached', on, to: answer.n, what: 'paper-signature', person: answer.person, file },
      files: [{ path, bytes }],
    };
  });
}
