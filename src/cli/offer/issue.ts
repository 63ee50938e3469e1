import { join } from 'node:path';
import { offerOf } from '../../client/index.ts';
import { figuresOf } from '../../figures/index.ts';
import { formatProblems, hasErrors, type Problem } from '../../problem/index.ts';
import {
  isRevisionId,
  issuedOffers,
  issuedRevisions,
  issueRevision,
  readEntries,
  shortFingerprint,
  standingOf,
  tokenBytes,
} from '../../record/index.ts';
import { changeProblems } from '../change/change-problems.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { computeOne, gatheredProblems, readOne } from '../draft/evaluate.ts';
import { choicesFile, dataFile, sheetsFile, viewName } from '../draft/frozen-view.ts';
import { type DraftPage, draftPages, type PageOptions } from '../draft/issue-pages.ts';
import { alsoRefused, insistable, readyProblems } from '../draft/issue-refusals.ts';
import { previousRevision } from '../draft/previous.ts';
import { makeClientFiles, openTools } from '../draft/produce.ts';
import { programVersion } from '../program.ts';
import { saltOf } from '../record-desk.ts';
import { folded, type Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';
import { type ReadyMessage, readyMessage, writeDraft } from './issue-message.ts';

/** What is insisted against, or the refusals that stand: those that no reason lifts, or all where there is none. */
function withReason(
  problems: readonly Problem[],
  because: string | undefined,
): { readonly stand: readonly Problem[]; readonly insisted: readonly string[] } {
  const isLifted = ({ code }: Problem): boolean => because !== undefined && (insistable as readonly string[]).includes(code);
  const insisted = [...new Set(problems.filter(isLifted).map(({ code }) => code))].sort();
  return { stand: problems.filter((problem) => !isLifted(problem)), insisted };
}

function reasonOf(said: string | undefined): string | undefined {
  const because = said?.normalize('NFC').trim();
  if (because === '') throw new UsageFault('--insist needs a reason', 'for example: --insist "a gift to an old client"');
  return because;
}

/** A page under another name is for its owner to send. */
function sayMessages(messages: readonly SentMessage[], maker: string, terminal: Terminal): void {
  for (const { to, from, subject, text, draft } of messages) {
    const names = to.map(({ name, address }) => (name === undefined ? address : `${name} <${address}>`)).join(', ');
    const sender = from.name === maker ? '' : ` for ${from.name} to send`;
    const whom = `Message${sender}${names === '' ? '' : ` to ${names}`}, with a picture of the designs:`;
    terminal.say('');
    for (const line of folded(whom, '', { hanging: '' })) terminal.say(line);
    terminal.say(`  ${terminal.accent(draft)}\n`);
    for (const line of [subject, '', ...text.trimEnd().split('\n')])
      for (const part of folded(line, '    ', { hanging: '' })) terminal.say(part.trimEnd());
  }
}

type SentMessage = ReadyMessage & { readonly draft: string };

/** `issue`: freezes the draft as a revision, gives each page its link and drafts the message that goes with it. */
export async function runIssue({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const slug = namedProposals(workspace, words)[0] ?? '';
  const wanted = values['revision'];
  if (wanted !== undefined && !isRevisionId(wanted)) throw new UsageFault(`--revision ${wanted} is none`, 'write r1, r2 and so on');
  const because = reasonOf(values['insist']);
  const at = instantOf(values['as-of'], workspace);
  const refuse = (problems: readonly Problem[]): 1 => {
    if (switches.has('json')) terminal.say(JSON.stringify({ schema: 'leafwright/issued/1', problems }, undefined, 2));
    else terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, 'Nothing was issued.').trimEnd());
    return 1;
  };

  terminal.progress(`computing ${slug}`);
  const tools = openTools();
  const kernels = { measure: tools.fonts.measure };
  const read = readOne(workspace, slug, at);
  const { computed, problems } = computeOne(read, kernels);
  const { day } = read;
  if (computed === undefined || day === undefined) return refuse(problems);
  const { input } = computed;
  const revision = input.proposal.revision.id;
  if (wanted !== undefined && wanted !== revision)
    throw new UsageFault(
      `the draft of ${slug} is ${revision}, not ${wanted}`,
      `change revision.id in proposals/${slug}/proposal.yaml, or issue ${revision}`,
    );

  const folder = proposalFolder(workspace, slug);
  const figures = figuresOf(computed);
  const previous = previousRevision(workspace, computed);
  const pages = draftPages(computed, figures, kernels, previous === undefined ? {} : { previous });
  const entries = readEntries(folder);
  const found = [
    ...readyProblems({ computed, folder, pages, entries, day, hasSign: tools.fonts.hasSign }),
    ...changeProblems(input.proposal, standingOf(entries, issuedOffers(folder), day), slug),
  ];
  const { stand, insisted } = withReason(read.place(found), because);
  const told = [...problems.filter(({ code }) => !alsoRefused.has(code)), ...stand];
  // Of a revision that is frozen already, that is all there is to say.
  if (hasErrors(stand) && !issuedRevisions(folder).some((one) => one.revision === revision)) return refuse(told);

  const making = ({ page, viewOf }: DraftPage) => ({
    page: page.id,
    random: crypto.getRandomValues(new Uint8Array(tokenBytes)),
    make: (fingerprint: string, after: NonNullable<PageOptions['after']>) => {
      terminal.progress(`making pages and documents of ${slug} ${revision}${pages.length > 1 ? ` (${page.id})` : ''}`);
      return makeClientFiles(viewOf({ fingerprint, after }), tools);
    },
  });
  const [first, ...others] = pages;
  const choices = pages.map((page) => page.choices());
  const outcome = await issueRevision({
    folder,
    shown: `proposals/${slug}`,
    proposal: slug,
    revision,
    at,
    zone: input.library.maker.timeZone,
    program: `leafwright ${programVersion}`,
    inputs: input.files.map(({ path, text }) => ({ path, bytes: Buffer.from(text, 'utf8') })),
    data: [
      dataFile('figures.json', figures),
      ...pages.map(({ page, viewOf }, i) => dataFile(viewName(page.id, i === 0), viewOf())),
      dataFile('offer.json', offerOf(computed, figures)),
      ...pages.map(({ page }, i) => choicesFile(page.id, i === 0, choices[i] ?? [])),
      sheetsFile([...pages.flatMap(({ viewOf }) => viewOf().designs), ...choices.flat().map(({ view }) => view)]),
    ],
    ...making(first),
    others: others.map(making),
    ...(because === undefined || insisted.length === 0 ? {} : { insisted: { codes: insisted, because, random: saltOf() } }),
  });
  if (outcome.issued === undefined) return refuse(outcome.problems);
  const { issued } = outcome;

  const messages: SentMessage[] = [];
  for (const [i, { page, viewOf }] of pages.entries()) {
    const view = viewOf();
    const message = readyMessage(view, page, issued.pages[i]?.token ?? '', input);
    messages.push({ ...message, draft: await writeDraft(workspace, view, message, at, tools.fonts) });
  }
  if (switches.has('json')) {
    terminal.say(
      JSON.stringify({ schema: 'leafwright/issued/1', proposal: slug, ...issued, insisted, messages, problems: told }, undefined, 2),
    );
    return 0;
  }
  if (told.length > 0) terminal.warn(formatProblems(gatheredProblems(told), { colour: terminal.colour.err }));
  terminal.say(
    `${slug} ${revision} is issued and frozen: ${join('proposals', slug, 'issued', revision)}, ${issued.made} files for the client`,
  );
  const links = issued.pages.map(({ page, token }) => [issued.pages.length === 1 ? 'link' : `link ${page}`, `${token}/`] as const);
  const rows = [['fingerprint', shortFingerprint(issued.fingerprint)] as const, ...links];
  const width = Math.max(...rows.map(([label]) => label.length));
  for (const [label, value] of rows)
    terminal.say(
      `  ${label.padEnd(width)}   ${terminal.accent(value)}${label.startsWith('link') ? '  (a key: whoever knows it sees the page)' : ''}`,
    );
  if (insisted.length > 0)
    terminal.say(`  insisted      ${insisted.join(', ')}; the reason is sealed in the record, in the workshop alone`);
  sayMessages(messages, input.library.maker.name, terminal);
  terminal.say('\nNext: leafwright build, then upload dist/client and send the message');
  return 0;
}
