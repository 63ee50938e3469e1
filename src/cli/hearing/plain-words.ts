import {
  type AnyEntry,
  addEntry,
  type Chosen,
  canonicalJson,
  type EntryOf,
  type IssuedOffer,
  type Json,
  openSeal,
  type Way,
} from '../../record/index.ts';
import { type Desk, saltOf } from '../record-desk.ts';
import { writeQuestion } from './confirmation.ts';
import type { Outcome, Refused } from './outcome.ts';
import { choiceWords } from './standing-words.ts';

type Evidence = EntryOf<'evidence'>;
type Asked = EntryOf<'asked'>;

/** Plain words, as they came. */
export interface Words {
  readonly text: string;
  readonly person: string;
  readonly sender: string;
  readonly on: string;
  readonly how: Way;
}

/** Words on record of a person, said of a revision. */
function evidenceIn(entries: readonly AnyEntry[], { revision }: IssuedOffer, person: string): readonly Evidence[] {
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
      body: { kind: 'evidence', on, how, revision: offer.revision, person },
      sealed: { data: { person, who: sender, words: text }, random: saltOf() },
    };
  });
  const kept = known ?? (entry as Evidence | undefined);
  if (kept === undefined) return { problems };
  const lead = known === undefined ? `entry ${kept.n}` : `on record already as entry ${kept.n}, so nothing was written`;
  return {
    entries: known === undefined ? [kept] : [],
    isOnRecord: known !== undefined,
    says: [`${lead}: the words of ${person} are kept as they are; they approve nothing`],
    problems,
    next: `ask what is meant: leafwright record ${slug} --who ${person} --understood "${offer.designs[0]?.id ?? 'A'}"`,
  };
}

/** Asks whether what was understood is meant: the same question is asked once, its draft written anew. */
export async function askBack(desk: Desk, offer: IssuedOffer, person: string, chosen: Chosen, on: string): Promise<Outcome | Refused> {
  const { folder, shown, at, zone, slug, today } = desk;
  let open: Asked | undefined;
  let heardOn: string | undefined;
  const { entry, problems } = await addEntry({ folder, shown, at, zone }, (entries) => {
    const own = entries.filter((one) => one.n > offer.n && 'person' in one && one.person === person);
    const last = own.findLast(
      (one): one is Asked => one.kind === 'asked' && canonicalJson(one.chosen as Json) === canonicalJson(chosen as Json),
    );
    const isAnswered = own.some((one) => one.kind === 'answer' && one.n > (last?.n ?? 0));
    const words = evidenceIn(entries, offer, person).at(-1);
    heardOn = words?.on;
    open = isAnswered ? undefined : last;
    if (open !== undefined) return { problems: [] };
    return { body: { kind: 'asked', on, person, chosen, ...(words === undefined ? {} : { evidence: words.n }) } };
  });
  const asked = open ?? (entry as Asked | undefined);
  if (asked === undefined) return { problems };
  const { paths } = await writeQuestion(desk, asked, offer, heardOn);
  const lead = open === undefined ? 'a confirmation is drafted' : 'asked already; the draft is written anew';
  const late = `The offer could be accepted until ${offer.validUntil}: a yes will have to be insisted on.`;
  return {
    entries: open === undefined ? [asked] : [],
    isOnRecord: open !== undefined,
    says: [
      `entry ${asked.n}: ${lead} of what you understood: ${choiceWords(chosen, desk.input.proposal.language)}`,
      ...paths.map((path) => `  ${path}`),
      ...(today > offer.validUntil ? [late] : []),
    ],
    problems,
    drafted: paths,
    next: `send it; when it comes back: leafwright record ${slug} --file reply.eml`,
  };
}
