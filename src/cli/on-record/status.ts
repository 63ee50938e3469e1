import { formatProblems, type Problem } from '../../problem/index.ts';
import { chainProblems, dayIn, issuedOffers, readEntries, standingOf } from '../../record/index.ts';
import { formatMoney } from '../../units/index.ts';
import { instantOf } from '../clock.ts';
import type { ExitCode, Given } from '../command.ts';
import { sealedWords } from '../hearing/note.ts';
import { stageSays } from '../order/stage.ts';
import { readInput } from '../record-desk.ts';
import { aligned, folded, type Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';
import { type Overview, overviewOf } from './overview.ts';

/** Signs of a name in the table. */
const mostName = 20;

interface Listed extends Overview {
  readonly language: string;
}

/** How a proposal stands on the day of an instant. */
function lookAt(workspace: string, slug: string, at: string): Listed {
  const folder = proposalFolder(workspace, slug);
  const { input } = readInput(workspace, slug);
  const entries = readEntries(folder);
  const offers = issuedOffers(folder);
  const today = dayIn(at, input?.library.maker.timeZone ?? entries.at(-1)?.zone ?? 'UTC');
  const people = Object.entries(input?.proposal.deciders.people ?? {});
  const overview = overviewOf({
    proposal: slug,
    title: input?.proposal.title ?? slug,
    names: Object.fromEntries(people.map(([id, { name }]) => [id, name])),
    entries,
    standing: standingOf(entries, offers, today),
    today,
    words: (entry) => sealedWords(folder, entry).words,
  });
  return { ...overview, language: input?.proposal.language ?? 'en-GB' };
}

const shortName = (name: string): string => (name.length <= mostName ? name : `${name.slice(0, mostName - 1)}…`);

function row({ proposal, stage, validUntil, heldUntil, hasRunOut, currency, openMinor, openNotes, language }: Listed): readonly string[] {
  const money = currency === undefined || openMinor === 0 ? '' : formatMoney({ currency, minor: openMinor }, language);
  const last = heldUntil ?? validUntil;
  const until = last === undefined ? '' : hasRunOut ? `${last}, over` : last;
  return [shortName(proposal), stageSays(stage), until, money, openNotes.length === 0 ? '' : String(openNotes.length)];
}

function waiting({ waitingFor, next }: Listed): string {
  if (waitingFor.length === 0 || next.startsWith('wait for the answer')) return '';
  return `waits for ${waitingFor.map(({ person, since }) => `${person} since ${since}`).join(', ')}`;
}

/** What is still open of a table that was handed over or brought in vain, in one line; empty where nothing is. */
function delivery({ delivered, failedDeliveries, storedSince }: Listed): string {
  if (delivered === undefined) {
    if (failedDeliveries === undefined) return '';
    return `brought in vain on ${failedDeliveries.join(', ')}${storedSince === undefined ? '' : `; stored since ${storedSince}`}`;
  }
  const { piece, openDefects, openClaims, acceptedOn, hasPapers } = delivered;
  const late = openDefects.filter(({ isLate }) => isLate);
  const defects = openDefects.length === 1 ? '1 defect open' : `${openDefects.length} defects open`;
  const open = [
    ...(openDefects.length === 0 ? [] : [late.length === 0 ? defects : `${defects}, ${late.length} late`]),
    ...openClaims.map(({ on, about, isLookedAt }) => `claim of ${on} open (${about}${isLookedAt ? ', looked at' : ''})`),
    ...(acceptedOn === undefined ? ['left unsigned'] : []),
    ...(hasPapers ? [] : ['papers not made']),
  ];
  return open.length === 0 ? '' : `${piece}: ${open.join('; ')}`;
}

/** What the end of an order left due or to be returned; empty where the account is even. */
function leftOpen({ currency, openMinor, language }: Listed): string {
  if (currency === undefined || openMinor === 0) return '';
  const amount = formatMoney({ currency, minor: Math.abs(openMinor) }, language);
  return `; ${amount} ${openMinor < 0 ? 'to be returned' : 'open'}`;
}

function sayTable(all: readonly Listed[], terminal: Terminal): void {
  const running = all.filter(({ closed }) => closed === undefined);
  const closed = all.filter((one) => one.closed !== undefined);
  if (running.length > 0) {
    const [head = '', ...rows] = aligned([['proposal', 'stage', 'valid until', 'money open', 'notes'], ...running.map(row)]);
    terminal.say(head);
    for (const [i, line] of rows.entries()) {
      const one = running[i];
      if (one === undefined) continue;
      terminal.say(line);
      const wait = waiting(one);
      if (wait !== '') for (const part of folded(wait, '      ')) terminal.say(part);
      const brought = delivery(one);
      if (brought !== '') for (const part of folded(brought, '      ')) terminal.say(part);
      for (const part of folded(one.next === '' ? 'nothing to do' : `next: ${one.next}`, '      ')) terminal.say(part);
    }
  }
  for (const one of closed) {
    const { proposal, closed: end, next } = one;
    const reason = `${end?.reason === undefined ? '' : `; reason: ${end.reason}`}${leftOpen(one)}`;
    terminal.say(
      `${running.length > 0 || proposal !== closed[0]?.proposal ? '\n' : ''}  ${shortName(proposal)}   ${end?.kind} on ${end?.on}${reason}`,
    );
    if (end?.words !== undefined) for (const part of folded(`“${end.words.replaceAll('\n', ' ')}”`, '      ')) terminal.say(part);
    if (next !== '') terminal.say(`      next: ${next}`);
  }
}

/** `status`: who is waited for, what is open, what comes next; and where a record is broken, that none of it can be relied on. */
export async function runStatus({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const at = instantOf(values['as-of'], workspace);
  const all = namedProposals(workspace, words).map((slug) => lookAt(workspace, slug, at));
  const problems = all.flatMap(({ proposal }): readonly Problem[] =>
    chainProblems(proposalFolder(workspace, proposal), `proposals/${proposal}`),
  );
  const code: ExitCode = problems.length === 0 ? 0 : 1;
  if (switches.has('json')) {
    const proposals = all.map(({ language: _language, ...one }) => one);
    terminal.say(JSON.stringify({ schema: 'leafwright/status/1', proposals, problems }, undefined, 2));
    return code;
  }
  if (all.length === 0) terminal.say('there is no proposal yet; next: leafwright new my-first-table');
  sayTable(all, terminal);
  if (problems.length > 0)
    terminal.warn(formatProblems(problems, { colour: terminal.colour.err }, 'What is told above can not be relied on.'));
  return code;
}
