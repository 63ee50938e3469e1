import { join } from 'node:path';
import { hasErrors, type Problem } from '../../problem/index.ts';
import {
  dayIn,
  finishInterrupted,
  type IssuedRevision,
  issuedRevisions,
  type Json,
  type NamedBytes,
  readEntries,
  verifyProposal,
  withLock,
} from '../../record/index.ts';
import { programDigest } from '../../site/index.ts';
import type { ProposalLine, RatesShown } from '../../site/workshop/index.ts';
import { computeOne, type Evaluated, gatheredProblems, type ReadOne, readOne } from '../draft/evaluate.ts';
import { previousRevision } from '../draft/previous.ts';
import { makeIndexFiles, makeWorkshopFiles, openTools, proposalLine, type Tools } from '../draft/produce.ts';
import { type RecordShown, recordShown } from '../on-record/workshop-record.ts';
import type { Terminal } from '../terminal.ts';
import { namedProposals, proposalFolder } from '../workspace.ts';
import { type AfterOrder, afterOrder, ratesShown } from './after-order.ts';
import { type Cache, openCache } from './cache.ts';
import { headerRecipeText } from './headers.ts';
import { replaceOutput } from './output.ts';
import { type PublishedCare, publishEdition } from './papers.ts';
import { publishRevisions } from './publish.ts';

export interface BuiltProposal {
  readonly slug: string;
  /** Revision that the working files are the draft of. */
  readonly draft: string;
  readonly issued: readonly IssuedRevision[];
  /** The care of the table, where it was handed over. */
  readonly care?: PublishedCare;
  /** Nothing had to be made. */
  readonly isCached: boolean;
}

/** What a build made, or why it made nothing. */
export interface Build {
  readonly problems: readonly Problem[];
  /** Absent where nothing was written. */
  readonly files?: readonly NamedBytes[];
  readonly proposals: readonly BuiltProposal[];
}

const below = (folder: string, files: readonly NamedBytes[]): readonly NamedBytes[] =>
  files.map(({ path, bytes }) => ({ path: `${folder}/${path}`, bytes }));
const plainData = (value: unknown): Json => JSON.parse(JSON.stringify(value)) as Json;
const jsonFile = (path: string, value: unknown): NamedBytes => ({ path, bytes: Buffer.from(JSON.stringify(value), 'utf8') });

/** What is kept of a draft beside its files: for the index of all proposals and the report of a run. */
interface Kept {
  readonly line: ProposalLine;
  readonly problems: readonly Problem[];
  readonly spoken?: AfterOrder['spoken'];
}

/** Files of a draft, its line in the list of all, and what its hours say of rates. */
interface MadeDraft {
  readonly files: readonly NamedBytes[];
  readonly line: ProposalLine;
  readonly spoken?: AfterOrder['spoken'];
}

/** A draft that is there already, or has still to be made. */
interface Draft {
  readonly read: ReadOne;
  readonly issued: readonly IssuedRevision[];
  /** Absent where the proposal could not be read. */
  readonly shown?: RecordShown;
  readonly key: Json;
  readonly problems: readonly Problem[];
  readonly kept?: MadeDraft;
  readonly evaluated?: Evaluated;
}

const keptName = 'kept.json';

function openDraft(workspace: string, read: ReadOne, instant: string, cache: Cache, open: () => Tools): Draft {
  const folder = proposalFolder(workspace, read.slug);
  const { input } = read;
  const shown = input === undefined ? undefined : recordShown(folder, input, instant);
  const issued = issuedRevisions(folder, dayIn(instant, input?.library.maker.timeZone ?? 'UTC'));
  // What was measured and worked stands in no text of the record's list, and is on the pages too.
  const key = plainData([read.slug, input?.files ?? [], issued, read.problems, shown ?? null, readEntries(folder)]);
  const base = { read, issued, key, ...(shown === undefined ? {} : { shown }) };
  if (input === undefined) return { ...base, problems: read.problems };
  const files = cache.get('drafts', key);
  const found = files?.find(({ path }) => path === keptName);
  if (files !== undefined && found !== undefined) {
    const { line, problems, spoken } = JSON.parse(Buffer.from(found.bytes).toString('utf8')) as Kept;
    return {
      ...base,
      problems,
      kept: { files: files.filter((file) => file !== found), line, ...(spoken === undefined ? {} : { spoken }) },
    };
  }
  const { fonts } = open();
  const evaluated = computeOne(read, { measure: fonts.measure });
  return { ...base, problems: evaluated.problems, evaluated };
}

async function makeDraft(workspace: string, draft: Draft, today: string, cache: Cache, open: () => Tools): Promise<MadeDraft> {
  if (draft.kept !== undefined) return draft.kept;
  const computed = draft.evaluated?.computed;
  const { shown } = draft;
  if (computed === undefined || shown === undefined) throw new Error(`${draft.read.slug} was not computed`);
  const problems = gatheredProblems(draft.problems);
  const line = proposalLine(computed, problems, draft.issued, shown.line);
  const { spoken, ...told } = afterOrder(proposalFolder(workspace, draft.read.slug), computed.input, today, open());
  const said = { record: shown.record, ...told };
  const files = await makeWorkshopFiles(computed, problems, draft.issued, said, open(), previousRevision(workspace, computed));
  const ofRates = spoken === undefined ? {} : { spoken };
  cache.put('drafts', draft.key, [...files, jsonFile(keptName, { line, problems: draft.problems, ...ofRates } satisfies Kept)]);
  return { files, line, ...ofRates };
}

async function makeIndex(
  drafts: readonly Draft[],
  lines: readonly ProposalLine[],
  rates: readonly RatesShown[],
  cache: Cache,
  open: () => Tools,
): Promise<readonly NamedBytes[]> {
  const first = drafts[0]?.read.input;
  const [maker, language] = [first?.library.maker.name ?? '', first?.proposal.language ?? 'en-GB'];
  const key = plainData([maker, language, lines, rates]);
  const kept = cache.get('index', key);
  if (kept !== undefined) return kept;
  const files = await makeIndexFiles(lines, maker, language, rates, open());
  cache.put('index', key, files);
  return files;
}

/** What the hours of each proposal say of rates, with what it was read from. */
const spokenBy = (drafts: readonly Draft[], made: readonly MadeDraft[]) =>
  made.flatMap(({ spoken }, i) => {
    const input = drafts[i]?.read.input;
    return spoken === undefined || input === undefined ? [] : [{ input, spoken }];
  });

/** Ends what a crash interrupted in any proposal's records; what it can not end is a problem. */
async function finishAll(workspace: string, slugs: readonly string[]): Promise<readonly Problem[]> {
  const problems: Problem[] = [];
  for (const slug of slugs) {
    const folder = proposalFolder(workspace, slug);
    const done = await withLock(folder, 'the records of this proposal', async () => finishInterrupted(folder, `proposals/${slug}`));
    problems.push(...('problem' in done ? [done.problem] : done.value.problems));
  }
  return problems;
}

/** What was touched since it was issued or recorded: it is not sent out under a fingerprint that it no longer has. */
const touched = (workspace: string, slugs: readonly string[]): readonly Problem[] =>
  slugs.flatMap((slug) =>
    verifyProposal(proposalFolder(workspace, slug), `proposals/${slug}`, slug).problems.filter(({ severity }) => severity === 'error'),
  );

async function build(workspace: string, instant: string, terminal: Terminal): Promise<Build> {
  const slugs = namedProposals(workspace, []);
  const interrupted = await finishAll(workspace, slugs);
  const changed = touched(workspace, slugs);
  if (changed.length > 0) return { problems: [...changed, ...interrupted], proposals: [] };
  const cache = openCache(join(workspace, '.cache'), programDigest());
  let opened: Tools | undefined;
  const open = (): Tools => {
    opened ??= openTools();
    return opened;
  };

  const drafts: Draft[] = [];
  for (const [i, slug] of slugs.entries()) {
    terminal.progress(`computing ${slug} (${i + 1} of ${slugs.length})`);
    drafts.push(openDraft(workspace, readOne(workspace, slug, instant), instant, cache, open));
  }
  const problems = [...drafts.flatMap((draft) => draft.problems), ...interrupted];
  if (hasErrors(problems)) return { problems, proposals: [] };

  const files: NamedBytes[] = [];
  const all: MadeDraft[] = [];
  const cares: (PublishedCare | undefined)[] = [];
  for (const [i, draft] of drafts.entries()) {
    const { slug } = draft.read;
    terminal.progress(`making pages and documents of ${slug} (${i + 1} of ${slugs.length})`);
    const today = dayIn(instant, draft.read.input?.library.maker.timeZone ?? 'UTC');
    const made = await makeDraft(workspace, draft, today, cache, open);
    all.push(made);
    const edition = publishEdition(proposalFolder(workspace, slug), slug);
    cares.push(edition.care);
    files.push(
      ...publishRevisions(proposalFolder(workspace, slug), draft.issued, draft.read.input?.library.texts ?? {}),
      ...edition.files,
      ...below(`workshop/${slug}`, made.files),
    );
  }
  const lines = all.map(({ line }) => line);
  files.push(...below('workshop', await makeIndex(drafts, lines, ratesShown(spokenBy(drafts, all)), cache, open)));
  files.push({ path: 'headers.txt', bytes: Buffer.from(headerRecipeText(), 'utf8') });
  terminal.progress('writing dist/');
  replaceOutput(workspace, files);
  cache.sweep();
  const proposals = drafts.map(({ read, issued, kept }, i) => {
    const care = cares[i];
    return {
      slug: read.slug,
      draft: read.input?.proposal.revision.id ?? '',
      issued,
      ...(care === undefined ? {} : { care }),
      isCached: kept !== undefined,
    };
  });
  return { problems, files, proposals };
}

/**
 * Builds the whole output of a workspace: `dist/client` from what is frozen, `dist/workshop` from the drafts. Every
 * proposal is read and computed first; one error and nothing is written. `instant` is now, RFC 3339 in UTC.
 */
export async function buildWorkspace(workspace: string, instant: string, terminal: Terminal): Promise<Build> {
  const locked = await withLock(workspace, 'the output of this workspace', () => build(workspace, instant, terminal));
  return 'problem' in locked ? { problems: [locked.problem], proposals: [] } : locked.value;
}
