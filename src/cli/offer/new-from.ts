import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { formatProblems, hasErrors, nearestName } from '../../problem/index.ts';
import { editYaml, readMaker, readProposal, type YamlEdit, YamlEditFault } from '../../read/index.ts';
import { dayIn, frozenInputs, type NamedBytes, readEntries } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { addDays, dayNumber, isoDate, parseDate } from '../../units/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { type OwnFile, writeBeside } from '../draft/own-files.ts';
import { programRoot } from '../program.ts';
import type { Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';

/** `oak@r2` as a proposal and one of its revisions; undefined for anything without an @. */
export function revisionNamed(from: string): { readonly proposal: string; readonly revision: string } | undefined {
  const at = from.lastIndexOf('@');
  return at === -1 ? undefined : { proposal: from.slice(0, at), revision: from.slice(at + 1) };
}

/** What is left of the frozen files of a revision; none where its folder is gone. */
function inputsOf(folder: string, revision: string): readonly NamedBytes[] {
  try {
    return frozenInputs(folder, revision);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    return [];
  }
}

/** What was frozen with a revision. Throws a UsageFault where it was not issued, or where files of it were erased. */
function frozenFiles(workspace: string, proposal: string, revision: string): readonly NamedBytes[] {
  const folder = proposalFolder(workspace, proposal);
  const issued = readEntries(folder).flatMap((entry) => (entry.kind === 'issued' ? [entry.revision] : []));
  if (!issued.includes(revision)) {
    const near = nearestName(revision, issued);
    throw new UsageFault(
      `${proposal} has no issued revision ${revision}${near === undefined ? '' : `; did you mean ${near}?`}`,
      issued.length === 0 ? `nothing of it was issued: leafwright issue ${proposal}` : `there are ${issued.join(', ')}`,
    );
  }
  const frozen = inputsOf(folder, revision);
  if (!frozen.some(({ path }) => path === `proposals/${proposal}/proposal.yaml`))
    throw new UsageFault(`files of ${proposal} ${revision} are gone`, `leafwright verify ${proposal} says which, and whether on purpose`);
  return frozen;
}

const textOf = ({ bytes }: NamedBytes): string => Buffer.from(bytes).toString('utf8');

/** Edits of proposal.yaml that make it the draft of a first revision again. */
function beginAgain(input: ProposalInput | undefined, text: string, basedOn: string, day: string): readonly YamlEdit[] {
  const from = parseDate(day);
  const revision = input?.proposal.revision;
  const days = revision === undefined ? 30 : Math.max(0, dayNumber(revision.validUntil) - dayNumber(revision.date));
  const has = (key: string): boolean => new RegExp(`^  ${key}:`, 'm').test(text);
  const gone = Object.keys(input?.proposal.lines ?? {}).filter((id) => /^round-\d+(?:-fee)?$/.test(id));
  return [
    { path: ['basedOn'], value: basedOn },
    { path: ['revision', 'id'], value: 'r1' },
    { path: ['revision', 'date'], value: day },
    { path: ['revision', 'validUntil'], value: from === undefined ? day : isoDate(addDays(from, days)) },
    ...(['changes', 'change'] as const).flatMap((key): readonly YamlEdit[] =>
      has(key) && (revision === undefined || revision[key] !== undefined) ? [{ path: ['revision', key], value: undefined }] : [],
    ),
    ...gone.map((id): YamlEdit => ({ path: ['lines', id], value: undefined })),
  ];
}

/** A file edited in place. Throws a UsageFault where the edit would touch something else as well. */
function edited(shown: string, text: string, edits: readonly YamlEdit[]): string {
  try {
    return editYaml(text, edits);
  } catch (fault) {
    if (!(fault instanceof YamlEditFault)) throw fault;
    throw new UsageFault(
      `${shown} of that revision can not be begun anew: ${fault.message}`,
      'copy its files by hand from issued/, and write revision.id: r1 and its dates',
    );
  }
}

/** A design of a first revision grew from none. */
const withoutOrigin = (shown: string, text: string): string =>
  /^from:/m.test(text) ? edited(shown, text, [{ path: ['from'], value: undefined }]) : text;

/** The maker's files of a frozen revision as a first draft. */
function draftFiles(
  frozen: readonly NamedBytes[],
  input: ProposalInput | undefined,
  proposal: string,
  revision: string,
  day: string,
): readonly OwnFile[] {
  const own = `proposals/${proposal}/`;
  return frozen
    .filter(({ path }) => path.startsWith(own))
    .map((file): OwnFile => {
      const [path, text] = [file.path.slice(own.length), textOf(file)];
      if (path.startsWith('variants/')) return { path, text: withoutOrigin(file.path, text) };
      if (path !== 'proposal.yaml') return { path, text };
      const basedOn = `${proposal}@${revision}`;
      const eol = text.includes('\r\n') ? '\r\n' : '\n';
      return { path, text: `# Begun from ${basedOn}.${eol}${edited(file.path, text, beginAgain(input, text, basedOn, day))}` };
    });
}

/** Templates that were frozen and are different, or gone, today: today's are used. */
function changedTemplates(
  workspace: string,
  frozen: readonly NamedBytes[],
): readonly { readonly path: string; readonly isGone: boolean }[] {
  return frozen.flatMap((file): readonly { readonly path: string; readonly isGone: boolean }[] => {
    const path = file.path.replace(/^program\//, '');
    if (!path.startsWith('templates/')) return [];
    const today = [workspace, programRoot]
      .map((root) => join(root, ...path.split('/')))
      .find((name) => statSync(name, { throwIfNoEntry: false })?.isFile());
    if (today === undefined) return [{ path, isGone: true }];
    return readFileSync(today, 'utf8') === textOf(file) ? [] : [{ path, isGone: false }];
  });
}

/** Days in a proposal that were meant for then. */
function oldDays({ proposal: { supplied, choices } }: ProposalInput): readonly string[] {
  return [
    ...(supplied.some(({ by }) => by !== undefined) ? ['supplied'] : []),
    ...(choices.some(({ lastDay }) => lastDay !== undefined) ? ['choices'] : []),
  ];
}

/** `new --from PROPOSAL@rN`: a proposal that begins from what was frozen with a revision; people are kept, records are not. */
export function runNewFrom(
  slug: string,
  from: { readonly proposal: string; readonly revision: string },
  { values }: Given,
  terminal: Terminal,
): ExitCode {
  const workspace = findWorkspace(values['workspace']);
  const proposal = namedProposals(workspace, [from.proposal])[0] ?? '';
  const { revision } = from;
  const frozen = frozenFiles(workspace, proposal, revision);
  const { input } = readProposal(join(proposalFolder(workspace, proposal), 'issued', revision, 'in'), proposal, { frozen: true });
  const folder = proposalFolder(workspace, slug);
  const taken = readdirSync(join(workspace, 'proposals')).find((name) => name.toLowerCase() === slug);
  if (taken !== undefined) throw new UsageFault(`there is a proposal ${taken} already`, 'choose another name, or edit that one');
  const day = dayIn(instantOf(values['as-of'], workspace), readMaker(workspace).maker?.timeZone ?? 'UTC');
  const files = draftFiles(frozen, input, proposal, revision, day);
  writeBeside(join(workspace, 'proposals', `.making-${slug}`), folder, files);
  const shown = (path: string): string => join(relative(process.cwd(), folder), path);
  for (const { path } of files) terminal.say(terminal.accent(shown(path)));
  terminal.say(`\nFrom ${proposal} ${revision}, as it was issued; people are kept, what was recorded is not.`);
  for (const { path, isGone } of changedTemplates(workspace, frozen))
    terminal.say(isGone ? `  ${path} is not there any more` : `  ${path} has changed since: today's is used`);
  const days = input === undefined ? [] : oldDays(input);
  if (days.length > 0) terminal.say(`  days under ${days.join(' and ')} are those of then`);
  const read = readProposal(workspace, slug);
  if (hasErrors(read.problems))
    terminal.warn(formatProblems(read.problems, { colour: terminal.colour.err }, 'It was written all the same: mend it there.').trimEnd());
  terminal.say(`\nNext: write what is different into ${shown('proposal.yaml')} and the designs, then: leafwright check ${slug}`);
  return 0;
}
