import type { Problem } from '../../problem/index.ts';
import {
  type AnyEntry,
  type Body,
  canonicalJson,
  type EntryOf,
  type IssuedOffer,
  type Json,
  openSeal,
  standingOf,
} from '../../record/index.ts';
import { checkReply, firmCodes, type Letter, type Offered, type ReadReply, type SentencesRead } from '../../reply/index.ts';
import { type MendFor, replyProblem } from './reply-problem.ts';

type Answer = EntryOf<'answer'>;

/** An answer that was read, and what it is held against. */
export interface Hearing {
  readonly slug: string;
  /** The proposal's folder on disk. */
  readonly folder: string;
  readonly offers: readonly IssuedOffer[];
  /** Today, and the day on which it came: `2027-03-01`. */
  readonly today: string;
  readonly on: string;
  readonly letter: Letter;
  /** Kept with the words, so that the same letter is known again. */
  readonly code?: string;
  readonly problems: ReadReply['problems'];
  readonly by: Body<'answer'>['by'];
  /** Whose it is, where the maker says so. */
  readonly who?: string;
  /** Id of the one from whose address it came. */
  readonly sender?: string;
  /** Where the address from which it came is on file with nobody. */
  readonly stranger?: string;
  /** How its sentences differ from those of the page. */
  readonly sentences?: SentencesRead;
  /** What somebody is called, by id. */
  readonly nameOf: (person: string) => string;
  readonly insists: boolean;
}

/** What becomes of it. */
export type Judged =
  | { readonly body: Body<'answer'>; readonly warnings: readonly Problem[] }
  | { readonly known: Answer; readonly warnings: readonly Problem[] }
  | { readonly problems: readonly Problem[] };

const answersIn = (entries: readonly AnyEntry[]): readonly Answer[] => entries.filter((entry): entry is Answer => entry.kind === 'answer');

/** What an answer says, apart from when and how it came. */
function substance(answer: Body<'answer'>): string {
  const { verdict, person, revision, fingerprint, chosen, design, base, terms, after } = answer;
  return canonicalJson({ verdict, person, revision, fingerprint, chosen, design, base, terms, after } as Json);
}

interface Words {
  readonly code: string | undefined;
  readonly name: string;
  readonly remark: string;
}

/**
 * Whether an answer on record is this one: the same said with the same name and remark, or the same code and no words that the
 * record lacks. A letter whose code came alone before is another once its words come, until it is confirmed: then they are told
 * alone, for the confirmation names the entry. Erased words differ from none.
 */
function isSame(folder: string, recorded: Answer, body: Body<'answer'>, words: Words, isConfirmed: boolean): boolean {
  const sealed = recorded.sealed === undefined ? undefined : openSeal(folder, recorded.sealed);
  const data = sealed === undefined || typeof sealed === 'string' ? undefined : sealed.data;
  if (data === undefined) return substance(recorded) === substance(body);
  const isBare = (words.name === '' && words.remark === '') || (isConfirmed && data['name'] === '');
  const sameWords = data['name'] === words.name && data['remark'] === words.remark;
  return (words.code !== undefined && data['code'] === words.code && isBare) || (sameWords && substance(recorded) === substance(body));
}

function bodyOf(hearing: Hearing, revision: Offered, person: string, options: readonly string[]): Body<'answer'> {
  const { letter, by, on } = hearing;
  const { verdict, design, base, total, after } = letter;
  const audience = revision.people.find(({ id }) => id === person)?.audience ?? 'payer';
  const terms = revision.terms[audience];
  const agreed = letter.terms !== undefined && terms?.startsWith(letter.terms) === true ? terms : undefined;
  const of = { revision: revision.revision, fingerprint: revision.fingerprint };
  const chosen = { ...of, design, options, ...(total === undefined ? {} : { totalMinor: total.minor, currency: total.currency }) };
  return {
    kind: 'answer',
    on,
    person,
    verdict,
    ...of,
    ...(verdict === 'yes' ? { chosen } : design === '' ? {} : { design }),
    ...(base === undefined ? {} : { base }),
    ...(agreed === undefined ? {} : { terms: agreed }),
    by,
    ...(after === undefined ? {} : { after }),
  };
}

/** Whether a confirmation's code answers a question that was asked so. */
function isAsked(entries: readonly AnyEntry[], body: Body<'answer'>): boolean {
  if (body.after === undefined) return true;
  const asked = entries.find((entry): entry is EntryOf<'asked'> => entry.kind === 'asked' && entry.n === body.after);
  return asked !== undefined && asked.person === body.person && canonicalJson(asked.chosen as Json) === canonicalJson(body.chosen as Json);
}

/** What the record itself says against an answer: closed, confirmed, overtaken. */
function againstRecord(
  hearing: Hearing,
  entries: readonly AnyEntry[],
  body: Body<'answer'>,
  code: string | undefined,
): readonly [string, string][] {
  const found: [string, string][] = [];
  const { closed, confirmed } = standingOf(entries, hearing.offers, hearing.today);
  if (closed !== undefined) found.push(['reply/closed', `the proposal was closed on ${closed.on}: ${closed.kind}`]);
  const { chosen } = body;
  const saysOtherwise =
    confirmed !== undefined &&
    confirmed.chosen.revision === body.revision &&
    (chosen === undefined || chosen.design !== confirmed.chosen.design || chosen.options.join() !== confirmed.chosen.options.join());
  if (saysOtherwise)
    found.push([
      'reply/already-confirmed',
      `design ${confirmed.chosen.design} of ${body.revision} was confirmed on ${confirmed.on}, and this answer says otherwise`,
    ]);
  const own = answersIn(entries).filter(({ person }) => person === body.person);
  const earlier = own.slice(0, -1).find((one) => {
    const sealed = one.sealed === undefined ? 'gone' : openSeal(hearing.folder, one.sealed);
    return code !== undefined && typeof sealed !== 'string' && sealed.data['code'] === code;
  });
  const last = own.at(-1);
  if (earlier !== undefined && last !== undefined)
    found.push([
      'reply/overtaken',
      `this letter is on record as entry ${earlier.n}, and ${body.person} has answered since: entry ${last.n}`,
    ]);
  return found;
}

/** Letters alone: two ways to type one name are the same. */
const plainName = (name: string): string =>
  name
    .normalize('NFKD')
    .replaceAll(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();

/** Where the name typed under a letter is that of another who decides, as whoever answers for two would leave it. */
function nameOfAnother({ letter, nameOf }: Hearing, revision: Offered, person: string): readonly [string, string][] {
  const typed = plainName(letter.name);
  if (typed === '' || typed === plainName(nameOf(person))) return [];
  const other = revision.people.find(({ id }) => id !== person && plainName(nameOf(id)) === typed);
  if (other === undefined) return [];
  return [['reply/name-of-another', `the letter is ${person}’s, and the name typed under it is that of ${other.id}: ${nameOf(other.id)}`]];
}

function changedSentences({ sentences }: Hearing): readonly [string, string][] {
  return (sentences?.changed ?? []).map(({ found, wanted }) => [
    'reply/sentences-differ',
    `the letter says “${found}”, and its code was made for “${wanted}”`,
  ]);
}

/** What is worth a warning whatever becomes of the answer. */
function asides(hearing: Hearing, person: string): readonly [string, string][] {
  const { problems, sender, stranger, sentences, nameOf } = hearing;
  const bare = problems.find((one) => one.code === 'reply/words-missing');
  const said: [string, string][] = bare === undefined ? [] : [[bare.code, bare.says]];
  if (sender !== undefined && sender !== person)
    said.push(['reply/sender-differs', `the mail came from the address of ${sender}, and the answer is ${person}’s`]);
  if (stranger !== undefined)
    said.push([
      'reply/sender-unknown',
      `the mail came from ${stranger}, which is on file with nobody, and the answer is in the name of ${nameOf(person)} (${person})`,
    ]);
  /** A question is read over, and perhaps mended, by the maker before it is sent; and its answer is read by the maker as well. */
  if (hearing.letter.after !== undefined) said.push(...changedSentences(hearing));
  for (const words of sentences?.added ?? []) said.push(['reply/sentences-differ', `in the middle of the letter was written: “${words}”`]);
  for (const words of sentences?.missing ?? []) said.push(['reply/sentences-differ', `a sentence of the letter is not there: “${words}”`]);
  return said;
}

/**
 * Judges an answer against what was issued and what is on record. Codes: `reply/*`.
 *
 * @param entries the chain as it stands
 */
export function judge(hearing: Hearing, entries: readonly AnyEntry[]): Judged {
  const { letter, offers, slug } = hearing;
  const checked = checkReply(letter, offers, hearing.on, hearing.who);
  const of: MendFor = { slug, people: (checked.revision ?? offers.at(-1))?.people.map(({ id }) => id) ?? [] };
  const problem = (code: string, says: string, severity: Problem['severity']): Problem => replyProblem(code, says, of, { severity });
  const found: [string, string][] = checked.mismatches.map(({ code, says }) => [code, says]);
  const isFirm = (code: string): boolean => (firmCodes as readonly string[]).includes(code) || code === 'reply/unknown-question';
  const { revision, person } = checked;
  const firm = found.filter(([code]) => isFirm(code));
  if (revision === undefined || person === undefined || firm.length > 0)
    return { problems: found.map(([code, says]) => problem(code, says, 'error')) };

  const body = bodyOf(hearing, revision, person.id, checked.options ?? []);
  const { code } = hearing;
  const warnings = asides(hearing, person.id).map(([one, says]) => problem(one, says, 'warning'));
  const last = answersIn(entries).findLast((answer) => answer.person === person.id);
  const isConfirmed = entries.some((one) => one.kind === 'confirmed' && last !== undefined && one.answers.includes(last.n));
  if (last !== undefined && isSame(hearing.folder, last, body, { code, name: letter.name, remark: letter.remark }, isConfirmed))
    return { known: last, warnings };

  if (!isAsked(entries, body)) {
    const says = `the answer is to entry ${body.after}, and that entry does not ask ${person.id} for this`;
    return { problems: [problem('reply/unknown-question', says, 'error')] };
  }
  for (const one of hearing.problems) if (one.code === 'reply/words-differ') found.push([one.code, one.says]);
  if (letter.after === undefined) found.push(...changedSentences(hearing));
  const isOfPage = letter.after === undefined && !found.some(([one]) => one === 'reply/person-differs');
  if (isOfPage) found.push(...nameOfAnother(hearing, revision, person.id));
  found.push(...againstRecord(hearing, entries, body, code));
  if (found.length > 0 && !hearing.insists) return { problems: found.map(([one, says]) => problem(one, says, 'error')) };
  const insisted = [...new Set(found.map(([one]) => one))];
  const held = found.map(([one, says]) => replyProblem(one, says, of, { severity: 'warning', mend: 'recorded with your reason' }));
  return { body: { ...body, ...(insisted.length === 0 ? {} : { insisted }) }, warnings: [...warnings, ...held] };
}
