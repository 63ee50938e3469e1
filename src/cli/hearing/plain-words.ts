import type { Problem } from '../../problem/index.ts';
import {
  type AnyEntry,
  addEntry,
  canonicalJson,
  type EntryOf,
  type IssuedOffer,
  type Json,
  openSeal,
  readEntries,
  type Way,
} from '../../record/index.ts';
import { type Desk, saltOf } from '../record-desk.ts';
import { understoodIn, writeQuestion } from './confirmation.ts';
import type { Outcome, Refused } from './outcome.ts';
import { choiceWords } from './standing-words.ts';

type Evidence = EntryOf<'evidence'>;

/** Plain words, as they came. */
export interface Words {
  readonly text: string;
  readonly person?: string;
  readonly sender: string;
  readonly on: string;
  readonly how: Way;
}

/** Words on record of a person, or of nobody named, said of a revision. */
function evidenceIn(entries: readonly AnyEntry[], { revision }: IssuedOffer, person: string | undefined): readonly Evidence[] {
  return entries.filter((entry): entry is Evidence => entry.kind === 'evidence' && entry.person === person && entry.revision === revision);
}

/** Keeps plain words; nothing is approved by them. The same words of the same person are kept once. */
export async function keepWords(desk: Desk, offer: IssuedOffer, words: Words): Promise<Outcome | Refused> {
  const { folder, shown, at, zone, slug } = desk;
  const { person, text, on, sender, how } = words;
  let known: Evidence | undefined;
  const { entry, problems } = await addEntry({ folder, shown, at, zone }, (entries) => {
    known = evidenceIn(entries, offer, person).find((one) => {
      const sealed = one.sealed === undefined ? 'gone' : openSeal(folder, one.sealed);
      return typeof sealed !== 'string' && sealed.data['words'] === text;
    });
    if (known !== undefined) return { problems: [] };
    return {
      body: { kind: 'evidence', on, how, revision: offer.revision, ...(person === undefined ? {} : { person }) },
      sealed: { data: { ...(person === undefined ? {} : { person }), who: sender, words: text }, random: saltOf() },
    };
  });
  const kept = known ?? (entry as Evidence | undefined);
  if (kept === undefined) return { problems };
  const from = person === undefined ? '' : ` of ${person}`;
  const lead = known === undefined ? `entry ${kept.n}` : `on record already as entry ${kept.n}, so nothing was written`;
  return {
    entries: known === undefined ? [kept] : [],
    isOnRecord: known !== undefined,
    says: [`${lead}: the words${from} are kept as they are; they approve nothing`],
    problems,
    next: `ask what is meant: leafwright record ${slug} --who ${person ?? 'ID'} --understood "${offer.designs[0]?.id ?? 'A'}"`,
  };
}

/** Asks whether what was understood is meant: the same question is asked once, its draft written anew. */
export async function askBack(desk: Desk, offer: IssuedOffer, person: string, said: string, on: string): Promise<Outcome | Refused> {
  const { folder, shown, at, zone, slug, today } = desk;
  const chosen = understoodIn(said, offer, person);
  const before = readEntries(folder);
  const asks = before.filter((entry): entry is EntryOf<'asked'> => entry.kind === 'asked' && entry.n > offer.n && entry.person === person);
  const same = asks.findLast((entry) => canonicalJson(entry.chosen as Json) === canonicalJson(chosen as Json));
  const isOpen = same !== undefined && !before.some((entry) => entry.kind === 'answer' && entry.person === person && entry.n > same.n);
  const words = evidenceIn(before, offer, person).at(-1);
  let asked = isOpen ? same : undefined;
  let problems: readonly Problem[] = [];
  if (asked === undefined) {
    const added = await addEntry({ folder, shown, at, zone }, () => ({
      body: { kind: 'asked', on, person, chosen, ...(words === undefined ? {} : { evidence: words.n }) },
    }));
    problems = added.problems;
    asked = added.entry as EntryOf<'asked'> | undefined;
  }
  if (asked === undefined) return { problems };
  const late =
    today > offer.validUntil ? [`The offer could be accepted until ${offer.validUntil}: a yes will have to be insisted on.`] : [];
  const { paths } = await writeQuestion(desk, asked, offer, words?.on);
  return {
    entries: isOpen ? [] : [asked],
    isOnRecord: isOpen,
    says: [
      `entry ${asked.n}: ${isOpen ? 'asked already; the draft is written anew' : 'a confirmation is drafted'} of what you understood: ${choiceWords(chosen)}`,
      ...paths.map((path) => `  ${path}`),
      ...late,
    ],
    problems,
    drafted: paths,
    next: `send it; when it comes back: leafwright record ${slug} --file reply.eml`,
  };
}
