import { dayIn, type IssuedOffer, readEntries, ways } from '../record/index.ts';
import { readReply } from '../reply/index.ts';
import { type ExitCode, type Given, UsageFault } from './command.ts';
import { recordAnswer } from './hearing/answer.ts';
import { type Heard, heardFrom } from './hearing/given.ts';
import { isRefused, type Outcome, report } from './hearing/outcome.ts';
import { letterOnPaper, readScan } from './hearing/paper.ts';
import { askBack, keepWords } from './hearing/plain-words.ts';
import { replyProblem } from './hearing/reply-problem.ts';
import { atDesk, type Desk, dayOf, deciderOf, nameOf, oneOf, sayRefused } from './record-desk.ts';
import type { Terminal } from './terminal.ts';

/** The id of the one who decides whose address this is. */
function personAt(desk: Desk, address: string | undefined): string | undefined {
  const people = Object.entries(desk.input.proposal.deciders.people);
  const found = people.filter(([, { email }]) => email !== undefined && email.toLowerCase() === address?.toLowerCase());
  return found.length === 1 ? found[0]?.[0] : undefined;
}

/** The day on which something came: as said, else that of the mail, else today. */
function dayHeard(desk: Desk, given: Given, heard: Heard | undefined): string {
  const mailed = heard?.mail?.at === undefined ? undefined : dayIn(heard.mail.at, desk.zone);
  return given.values['on'] === undefined && mailed !== undefined && mailed <= desk.today ? mailed : dayOf(desk, given.values['on']);
}

/** The offer that can be answered: that of the newest revision. */
function newestOffer({ folder, offers }: Desk): IssuedOffer | undefined {
  const newest = readEntries(folder).findLast((entry) => entry.kind === 'issued');
  return offers.find(({ revision }) => revision === newest?.revision);
}

/** Lines of words, set off as what somebody else wrote. */
const setOff = (words: string): readonly string[] => words.split('\n').map((line) => `  | ${line}`.trimEnd());

async function hear(desk: Desk, given: Given): Promise<ExitCode> {
  const { slug, terminal } = desk;
  const { values, switches, words } = given;
  const offer = newestOffer(desk);
  const of = { slug, people: offer?.people.map(({ id }) => id) ?? [] };
  const refuse = (code: string, says: string): ExitCode => sayRefused(desk, [replyProblem(code, says, of)]);
  if (offer === undefined) return refuse('reply/nothing-offered', `there is no issued revision of ${slug} that can be answered`);
  if (values['insist']?.trim() === '') throw new UsageFault('--insist needs a reason', '--insist "they telephoned on the last day"');
  const who = values['who'] === undefined ? undefined : deciderOf(desk, values['who']);

  if (values['paper'] !== undefined) {
    const on = dayOf(desk, values['on']);
    const scan = readScan(values['paper']);
    if (scan === undefined) return refuse('reply/paper-unreadable', `${values['paper']} is neither PDF nor picture`);
    const letter = letterOnPaper(given, desk.offers, who ?? '', who === undefined ? '' : nameOf(desk, who), on);
    if (letter === undefined) return refuse('reply/unknown-revision', `the fingerprint on the paper is not that of ${values['revision']}`);
    const outcome = await recordAnswer(desk, values['insist'], on, {
      letter,
      problems: [],
      by: 'paper',
      text: '',
      scan,
      ...(who === undefined ? {} : { who }),
    });
    return isRefused(outcome) ? sayRefused(desk, outcome.problems) : report(desk, [outcome]);
  }

  const heard = await heardFrom(values['file'], words[1]);
  const on = dayHeard(desk, given, heard);
  const sender = personAt(desk, heard?.mail?.from?.address);
  const person = who ?? sender ?? (offer.people.length === 1 ? offer.people[0]?.id : undefined);
  const read = heard === undefined ? undefined : readReply(heard.text);
  const isPlain = switches.has('words') || read?.problems.some(({ code }) => code === 'reply/no-code') === true;
  if (heard === undefined && values['understood'] === undefined)
    throw new UsageFault('there is nothing to record', `paste the answer, or name its file: leafwright record ${slug} --file reply.eml`);
  if (values['understood'] !== undefined && person === undefined)
    throw new UsageFault('--understood needs --who: whom shall I ask?', `there are ${of.people.join(', ')}`);

  if (heard === undefined || read === undefined || isPlain) {
    const outcomes: Outcome[] = [];
    if (heard !== undefined) {
      const from = heard.mail?.from;
      const how = oneOf(ways, values['how'] ?? 'message', '--how');
      const name = from === undefined ? (person ?? '') : `${from.name} <${from.address}>`.trim();
      const kept = await keepWords(desk, offer, { text: heard.text, sender: name, on, how, ...(person === undefined ? {} : { person }) });
      if (isRefused(kept)) return sayRefused(desk, kept.problems);
      outcomes.push(kept);
    }
    if (values['understood'] !== undefined && person !== undefined) {
      const asked = await askBack(desk, offer, person, values['understood'], heard === undefined ? dayOf(desk, values['on']) : desk.today);
      if (isRefused(asked)) return sayRefused(desk, asked.problems);
      outcomes.push(asked);
    }
    return report(desk, outcomes);
  }

  const { letter } = read;
  if (letter === undefined)
    return sayRefused(
      desk,
      read.problems.map(({ code, says }) => replyProblem(code, says, of)),
    );
  const isConfirmation = letter.after !== undefined;
  if (isConfirmation && !switches.has('yes')) {
    if (!desk.json) {
      terminal.warn(
        read.own === '' ? 'Nothing was found above the quotation: read the mail itself.' : 'What was written around the question:',
      );
      for (const line of read.own === '' ? [] : setOff(read.own)) terminal.warn(line);
      terminal.warn('');
    }
    const found = read.own === '' ? {} : { found: read.own };
    const unread = replyProblem(
      'reply/unread',
      `this is the code of your question, entry ${letter.after}: it comes back with any answer`,
      of,
    );
    return sayRefused(desk, [desk.json ? { ...unread, ...found } : unread]);
  }
  const outcome = await recordAnswer(desk, values['insist'], on, {
    letter,
    ...(read.code === undefined ? {} : { code: read.code }),
    problems: read.problems,
    by: isConfirmation ? 'confirmation' : heard.by,
    text: heard.text,
    ...(isConfirmation ? { own: read.own } : {}),
    ...(who === undefined ? {} : { who }),
    ...(sender === undefined ? {} : { sender }),
  });
  return isRefused(outcome) ? sayRefused(desk, outcome.problems) : report(desk, [outcome]);
}

/** `record`: takes what somebody who decides has answered, in whatever form it came. */
export function runRecord(given: Given, terminal: Terminal): Promise<ExitCode> {
  return atDesk(given, terminal, (desk) => hear(desk, given));
}
