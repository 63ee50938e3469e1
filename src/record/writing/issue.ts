import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { clearAdding, writeAdding } from '../chain/adding.ts';
import { appendEntry, type Chain, issuedEntries, readChain } from '../chain/chain.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { makeSeal, writeRecordFile } from '../chain/seal.ts';
import { sha256Hex } from '../disk/canonical.ts';
import { commitFolder, type NamedBytes, removeTree, writeTree } from '../disk/durable.ts';
import {
  type Content,
  digestsOf,
  isRevisionId,
  issuedFolder,
  type Link,
  type MadeFiles,
  makingPrefix,
  onlyPage,
  pageFolder,
  recordBytes,
  revisionFolder,
  revisionNumber,
} from '../disk/revision.ts';
import { linkToken } from '../disk/token.ts';
import { entryFor } from '../proof/check-revision.ts';
import { nextInstant, soundChain, underLock } from './add.ts';

/** A page beside the first: paths that `make` gives are below its own folder. */
export interface OtherPage {
  readonly page: string;
  readonly random: Uint8Array;
  readonly make: IssueRequest['make'];
}

export interface IssueRequest {
  /** The proposal's folder on disk, and as the maker sees it. */
  readonly folder: string;
  readonly shown: string;
  readonly proposal: string;
  readonly revision: string;
  /** The clock: an instant in UTC, whole seconds, RFC 3339; and the maker's time zone. */
  readonly at: string;
  readonly zone: string;
  /** Chance: 16 bytes. */
  readonly random: Uint8Array;
  /** Id of the first page; needed where there are others. */
  readonly page?: string;
  /** Pages beside the first, each with a link and files of its own. */
  readonly others?: readonly OtherPage[];
  /** Codes that the maker insisted against, and why: the reason is sealed, with 16 random bytes. */
  readonly insisted?: { readonly codes: readonly string[]; readonly because: string; readonly random: Uint8Array };
  readonly program: string;
  /** Every file that was read, by its path in the workspace. */
  readonly inputs: readonly NamedBytes[];
  /** What was computed from them. */
  readonly data: readonly NamedBytes[];
  /** Makes what the client gets on the first page, printing the fingerprint and the end of the chain before it: paths below `out/`. */
  readonly make: (fingerprint: string, after: Chain['head']) => Promise<readonly NamedBytes[]>;
}

export interface Issued {
  readonly revision: string;
  readonly fingerprint: string;
  /** Link of the first page. */
  readonly token: string;
  /** Files made for the client, of all pages. */
  readonly made: number;
  readonly pages: readonly { readonly page: string; readonly token: string; readonly made: number }[];
}

function refusal(request: IssueRequest, latest: string | undefined): Problem | undefined {
  const { revision } = request;
  if (!isRevisionId(revision))
    return recordProblem('not-a-revision', `${revision} is no revision`, {
      allowed: 'r1, r2, r3 and so on',
      mend: 'write revision.id: r1',
    });
  if (latest === undefined || revisionNumber(revision) > revisionNumber(latest)) return undefined;
  const next = `r${revisionNumber(latest) + 1}`;
  return recordProblem('already-issued', `${revision} can not be issued: ${latest} stands and is frozen`, {
    found: revision,
    allowed: `${next} or later`,
    mend: `leafwright revise ${request.proposal} begins it; say in revision.changes what is new`,
  });
}

/**
 * Freezes a revision: inputs and data, their list and its fingerprint, what is made from them, the link, the line in the
 * chain. Written beside, forced to the disk, then moved to its name as one step; a sealed reason is there before it.
 * Codes: `record/not-a-revision already-issued locked unfinished cannot-write`, the warning `clock-back`, and those of a
 * broken chain.
 */
export async function issueRevision(request: IssueRequest): Promise<{ readonly issued?: Issued; readonly problems: readonly Problem[] }> {
  return underLock(request, () => issueUnderLock(request));
}

async function issueUnderLock(request: IssueRequest): Promise<{ readonly issued?: Issued; readonly problems: readonly Problem[] }> {
  const { folder, shown, revision } = request;
  const { chain, problems: unsound } = soundChain(folder, shown);
  if (unsound.length > 0) return { problems: unsound };
  const latest = issuedEntries(chain).at(-1)?.revision;
  const refused = refusal(request, latest);
  if (refused !== undefined) return { problems: [refused] };

  const { others = [] } = request;
  const pages = [{ page: request.page ?? onlyPage, random: request.random, make: request.make }, ...others];
  if (new Set(pages.map(({ page }) => page)).size !== pages.length) throw new RangeError('two pages of a revision have one id');
  const { at, problems } = nextInstant(chain, request.at);
  const { insisted } = request;
  const seal = insisted === undefined ? undefined : makeSeal(chain.head.n + 1, { reason: insisted.because }, insisted.random);
  const content: Content = {
    format: 'leafwright/content/1',
    proposal: request.proposal,
    revision,
    at,
    zone: request.zone,
    program: request.program,
    after: chain.head,
    ...(others.length === 0 ? {} : { pages: pages.map(({ page }) => page) }),
    ...(insisted === undefined ? {} : { insisted: insisted.codes }),
    ...(seal === undefined ? {} : { sealed: { file: seal.file, digest: seal.digest } }),
    files: [...digestsOf('data', request.data), ...digestsOf('in', request.inputs)],
  };
  const contentBytes = recordBytes(content);
  const fingerprint = sha256Hex(contentBytes);
  const outs: { readonly page: string; readonly token: string; readonly folder: string; readonly files: readonly NamedBytes[] }[] = [];
  for (const [i, { page, random, make }] of pages.entries())
    outs.push({ page, token: linkToken(random), folder: pageFolder(page, i === 0), files: await make(fingerprint, chain.head) });
  const made: MadeFiles = {
    format: 'leafwright/files/1',
    fingerprint,
    files: outs.flatMap(({ folder: out, files }) => digestsOf(out, files)).sort((a, b) => (a.path < b.path ? -1 : 1)),
  };
  const madeBytes = recordBytes(made);
  const [first] = outs;
  if (first === undefined) throw new Error('a revision has a page');
  const link: Link =
    others.length === 0
      ? { format: 'leafwright/link/1', token: first.token, made: at }
      : { format: 'leafwright/link/2', tokens: Object.fromEntries(outs.map(({ page, token }) => [page, token])), made: at };

  const making = join(issuedFolder(folder), `${makingPrefix}${revision}`);
  const below = (name: string, files: readonly NamedBytes[]): NamedBytes[] =>
    files.map(({ path, bytes }) => ({ path: `${name}/${path}`, bytes }));
  removeTree(making);
  try {
    writeTree(making, [
      ...below('in', request.inputs),
      ...below('data', request.data),
      ...outs.flatMap(({ folder: out, files }) => below(out, files)),
      { path: 'content.json', bytes: contentBytes },
      { path: 'files.json', bytes: madeBytes },
      { path: 'link.json', bytes: recordBytes(link) },
    ]);
  } catch (error) {
    removeTree(making);
    throw error;
  }
  try {
    if (seal !== undefined) {
      writeAdding(folder, [seal.file]);
      writeRecordFile(folder, seal.file, seal.bytes);
    }
    commitFolder(making, revisionFolder(folder, revision));
    appendEntry(folder, entryFor(content, fingerprint, sha256Hex(madeBytes)));
  } catch (error) {
    removeTree(making);
    if (readChain(folder).head.n === chain.head.n) removeTree(revisionFolder(folder, revision));
    throw error;
  } finally {
    if (seal !== undefined) clearAdding(folder, readChain(folder));
  }
  const sums = outs.map(({ page, token, files }) => ({ page, token, made: files.length }));
  const sum = sums.reduce((all, one) => all + one.made, 0);
  return { issued: { revision, fingerprint, token: first.token, made: sum, pages: sums }, problems };
}
