import { dayIn, type IssuedOffer, readEntries, ways } from '../../record/index.ts';
import { type Letter, type ReadReply, readReply } from '../../reply/index.ts';
import { pagesOf } from '../../spec/index.ts';
import { turningSigns, withoutHiddenSigns } from '../../units/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, dayOf, deciderOf, nameOf, oneOf, sayRefused } from '../record-desk.ts';
import type { Terminal } from '../terminal.ts';
import { refuseFileName } from '../words-or-file.ts';
import { recordAnswer } from './answer.ts';
import { understoodIn } from './confirmation.ts';
import { type Heard, heardFrom } from './given.ts';
import { isRefused, type Outcome, type Refused, report } from './outcome.ts';
import { letterOnPaper, readScan } from './paper.ts';
import { askBack, keepWords } from './plain-words.ts';
import { type MendFor, replyProblem, turnedWords } from './reply-problem.ts';
import { readSentences, wordsBeside } from './sentences.ts';

/** The id of the one who decides whose address this is. */
function personAt(desk: Desk, address: string | undefined): string | undefined {
  const people = Object.entries(desk.input.proposal.deciders.people);
  const found = people.filter(([, { email }]) => email !== undefined && email.toLowerCase() === address?.toLowerCase());
  return found.length === 1 ? found[0]?.[0] : undefined;
}

/** An address that is on file with nobody: with none of those who decide, nor with the maker or whoever a page is sent for. */
function strangerAt(desk: Desk, address: string | undefined): string | undefined {
  const { proposal, library } = desk.input;
  const known = [
    library.maker.email,
    ...Object.values(proposal.deciders.people).map(({ email }) => email),
    ...pagesOf(proposal).map(({ brand }) => brand?.email),
  ];
  return address === undefined || known.some((one) => one?.toLowerCase() === address.toLowerCase()) ? undefined : address;
}

/** The day on which something came: as said, else that of the mail, else today. */
function dayHeard(desk: Desk, given: Given, heard: Heard | undefined): string {
  const mailed = heard?.mail?.at === undefined ? undefined : dayIn(heard.mail.at, desk.zone);
  return given.values['on'] === undefined && mailed !== undefined && mailed <= desk.today ? mailed : dayOf(desk, given.values['on']);
}

/** What every way of hearing needs. */
interface Case {
  readonly desk: Desk;
  readonly given: Given;
  /** That of the newest revision. */
  readonly offer: IssuedOffer;
  /** Signs that turn the direction of reading, in what was handed over. */
  readonly signs: readonly string[];
  readonly who?: string;
}

const mendFor = ({ desk, offer }: Pick<Case, 'desk' | 'offer'>): MendFor => ({ slug: desk.slug, people: offer.people.map(({ id }) => id) });

function finish({ desk, signs }: Case, outcomes: readonly (Outcome | Refused)[]): ExitCode {
  const refused = outcomes.find(isRefused);
  const turned = turnedWords(desk.slug, signs);
  if (refused !== undefined) return sayRefused(desk, [...refused.problems, ...turned]);
  return report(
    desk,
    (outcomes as readonly Outcome[]).map((one, i) => (i === 0 ? { ...one, problems: [...one.problems, ...turned] } : one)),
  );
}

/** A signed scope: what the maker reads from it, and its scan. */
async function hearPaper(one: Case, file: string): Promise<ExitCode> {
  const { desk, given, who } = one;
  const refuse = (code: string, says: string): ExitCode => sayRefused(desk, [replyProblem(code, says, mendFor(one))]);
  const on = dayOf(desk, given.values['on']);
  const scan = readScan(file);
  if (scan === undefined) return refuse('reply/paper-unreadable', `${file} is neither PDF nor picture`);
  const letter = letterOnPaper(given, desk.offers, who ?? '', who === undefined ? '' : nameOf(desk, who), on);
  if (letter === undefined)
    return refuse('reply/unknown-revision', `the fingerprint on the paper is not that of ${given.values['revision']}`);
  const read = { letter, problems: [], by: 'paper', text: '', scan, ...(who === undefined ? {} : { who }) } as const;
  return finish(one, [await recordAnswer(desk, given.values['insist'], on, read)]);
}

/** Plain words, what was understood of them, or both. */
async function hearWords(one: Case, heard: Heard | undefined): Promise<ExitCode> {
  const { desk, given, offer, who } = one;
  const { values } = given;
  const from = heard?.mail?.from;
  const person = who ?? personAt(desk, from?.address) ?? (offer.people.length === 1 ? offer.people[0]?.id : undefined);
  const understood = values['understood'];
  const { people } = mendFor(one);
  if (understood !== undefined && person === undefined)
    throw new UsageFault('--understood needs --who: whom shall I ask?', `there are ${people.join(', ')}`);
  if (understood !== undefined && person !== undefined && !people.includes(person))
    throw new UsageFault(`${person} does not decide on ${offer.revision}`, `there are ${people.join(', ')}`);
  const chosen = understood === undefined || person === undefined ? undefined : understoodIn(understood, offer, person);
  if (heard !== undefined && person === undefined)
    throw new UsageFault(
      from === undefined ? 'whose words are these?' : `nobody who decides has the address ${from.address}`,
      `say it: --who ${people.join(' or --who ')}; what somebody else said is a note: leafwright note ${desk.slug} --file mail.txt --who "Their Name"`,
    );
  const outcomes: (Outcome | Refused)[] = [];
  if (heard !== undefined && person !== undefined) {
    const how = oneOf(ways, values['how'] ?? 'message', '--how');
    const sender = from === undefined ? nameOf(desk, person) : withoutHiddenSigns(`${from.name} <${from.address}>`).trim();
    const on = dayHeard(desk, given, heard);
    outcomes.push(await keepWords(desk, offer, { text: withoutHiddenSigns(heard.text), sender, on, how, person }));
  }
  if (chosen !== undefined && person !== undefined && !outcomes.some(isRefused))
    outcomes.push(await askBack(desk, offer, person, chosen, heard === undefined ? dayOf(desk, values['on']) : desk.today));
  return finish(one, outcomes);
}

/** Words of somebody else, set off line by line. */
const setOff = (words: string): readonly string[] => words.split('\n').map((line) => `  | ${line}`.trimEnd());

/** The code of a question that came back: only who has read the words around it can say that it is a yes. */
function sayUnread(one: Case, { letter, own }: ReadReply): ExitCode {
  const { desk } = one;
  const says = `this is the code of your question, entry ${letter?.after}: it comes back with any answer`;
  const unread = replyProblem('reply/unread', says, mendFor(one));
  if (desk.json) return sayRefused(desk, [own === '' ? unread : { ...unread, found: own }]);
  const lead = own === '' ? 'Nothing was found around the question: read the mail itself.' : 'What was written around the question:';
  for (const line of [lead, ...(own === '' ? [] : setOff(own)), '']) desk.terminal.warn(line);
  return sayRefused(desk, [unread]);
}

/** What was said in an answer and beside it; a note keeps open what is asked for in it. */
function sayWords({ desk }: Case, { verdict, remark, decider, after }: Letter, beside: string): readonly string[] {
  if (remark === '' && beside === '') return [];
  const { slug, offers } = desk;
  const who = offers.at(-1)?.people[decider ?? 0]?.id;
  const asker = who === undefined ? '' : ` --who ${who}`;
  return [
    ...(remark === '' ? [] : [verdict === 'no' ? 'because:' : 'with the remark:', ...setOff(remark)]),
    ...(beside === '' ? [] : ['beside the letter was written, and is for you to weigh:', ...setOff(beside)]),
    ...(verdict === 'yes' && after === undefined
      ? [`what is asked for there is kept open by: leafwright note ${slug} "what it is"${asker}`]
      : []),
  ];
}

/** A letter with its code, of the page or of a question. */
async function hearLetter(one: Case, heard: Heard, read: ReadReply): Promise<ExitCode> {
  const { desk, given, who } = one;
  const { letter, code, problems } = read;
  if (given.values['understood'] !== undefined)
    throw new UsageFault(
      'this text holds a reply code, so it says itself what is meant',
      'leave --understood out, or keep the text with --words',
    );
  if (letter === undefined)
    return sayRefused(
      desk,
      problems.map((problem) => replyProblem(problem.code, problem.says, mendFor(one))),
    );
  const isConfirmation = letter.after !== undefined;
  if (isConfirmation && !given.switches.has('yes')) return sayUnread(one, read);
  const beside = wordsBeside(desk, letter, read);
  const address = heard.mail?.from?.address;
  const [sender, stranger] = [personAt(desk, address), strangerAt(desk, address)];
  const sentences = readSentences(desk, letter, read);
  const outcome = await recordAnswer(desk, given.values['insist'], dayHeard(desk, given, heard), {
    letter,
    problems,
    by: isConfirmation ? 'confirmation' : heard.by,
    text: withoutHiddenSigns(heard.text),
    ...(code === undefined ? {} : { code }),
    ...(beside === '' ? {} : { own: beside }),
    ...(who === undefined ? {} : { who }),
    ...(sender === undefined ? {} : { sender }),
    ...(stranger === undefined ? {} : { stranger }),
    ...(sentences === undefined ? {} : { sentences }),
  });
  if (isRefused(outcome)) return finish(one, [outcome]);
  const [first = '', ...rest] = outcome.says;
  return finish(one, [{ ...outcome, says: [first, ...sayWords(one, letter, beside), ...rest] }]);
}

async function hear(desk: Desk, given: Given): Promise<ExitCode> {
  const { values, switches, words } = given;
  const newest = readEntries(desk.folder).findLast((entry) => entry.kind === 'issued');
  const offer = desk.offers.find(({ revision }) => revision === newest?.revision);
  if (offer === undefined) {
    const says =
      newest === undefined
        ? `nothing of ${desk.slug} is issued yet`
        : `${newest.revision} was issued before answers were held against an offer`;
    return sayRefused(desk, [replyProblem('reply/nothing-offered', says, { slug: desk.slug, people: [] })]);
  }
  if (values['insist']?.trim() === '') throw new UsageFault('--insist needs a reason', '--insist "they telephoned on the last day"');
  const of = { desk, given, offer, ...(values['who'] === undefined ? {} : { who: deciderOf(desk, values['who']) }) };
  if (values['paper'] !== undefined) {
    if (values['file'] !== undefined || words[1] !== undefined)
      throw new UsageFault('say it once: with --paper, or in words', 'leave one of them out');
    return hearPaper({ ...of, signs: [] }, values['paper']);
  }
  if (!switches.has('words')) refuseFileName(words[1], `leafwright record ${desk.slug}`);
  const heard = await heardFrom(values['file'], words[1]);
  if (heard === undefined && values['understood'] === undefined)
    throw new UsageFault(
      'there is nothing to record',
      `paste the answer, or name its file: leafwright record ${desk.slug} --file reply.eml`,
    );
  const one: Case = { ...of, signs: turningSigns(heard?.text ?? '') };
  const read = heard === undefined ? undefined : readReply(heard.text);
  const isPlain = switches.has('words') || read?.problems.some(({ code }) => code === 'reply/no-code') === true;
  return heard === undefined || read === undefined || isPlain ? hearWords(one, heard) : hearLetter(one, heard, read);
}

/** `record`: takes what somebody who decides has answered, in whatever form it came. */
export function runRecord(given: Given, terminal: Terminal): Promise<ExitCode> {
  return atDesk(given, terminal, (desk) => hear(desk, given));
}
