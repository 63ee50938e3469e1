import type { ClientView } from '../../client/index.ts';
import { formatProblems, type Problem } from '../../problem/index.ts';
import { readMaker, readTexts } from '../../read/index.ts';
import {
  type AnyEntry,
  canonicalJson,
  dayIn,
  issuedOffers,
  type Json,
  notBefore,
  readEntries,
  type Standing,
  sha256Hex,
  standingOf,
} from '../../record/index.ts';
import { instantOf } from '../clock.ts';
import type { Given } from '../command.ts';
import { gatheredProblems } from '../draft/evaluate.ts';
import { frozenPage } from '../draft/frozen-view.ts';
import type { Desk } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';

/** How a command that makes a paper tells of problems. `ending` says what was left undone. */
export function answering(schema: string, ending: string, switches: Given['switches'], terminal: Terminal) {
  const refuse = (problems: readonly Problem[]): 1 => {
    if (switches.has('json')) terminal.say(JSON.stringify({ schema, problems }, undefined, 2));
    else terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, ending).trimEnd());
    return 1;
  };
  const warn = (problems: readonly Problem[]): void => {
    if (problems.length > 0 && !switches.has('json'))
      terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }).trimEnd());
  };
  return { refuse, warn };
}

/** One proposal with its record, as a paper is made from it: the working files are not read, so that a draft with errors keeps no paper back. */
export interface PaperDesk extends Pick<Desk, 'workspace' | 'slug' | 'folder' | 'shown' | 'at' | 'today' | 'zone' | 'offers'> {
  readonly payment: readonly string[];
  readonly maker: string;
  readonly entries: readonly AnyEntry[];
  readonly standing: Standing;
}

/** Nobody was shown a page of this kind, so there are no words to make a paper for its reader from. */
export function noPage({ slug }: Pick<PaperDesk, 'slug'>, revision: string, which: 'with prices' | 'without prices'): Problem {
  return refusal('no-such-page', `${slug} ${revision} has no page ${which}`, {
    mend: which === 'with prices' ? 'issue a revision that has a page for the one who pays' : `leafwright scope ${slug}`,
  });
}

/** What was frozen for the first page of an audience, as a paper is made of it: texts of today lie beneath its own, for what it has no words for. Nothing where no page was for it. */
export function paperPage(
  { workspace, folder }: Pick<PaperDesk, 'workspace' | 'folder'>,
  { revision, fingerprint }: { readonly revision: string; readonly fingerprint: string },
  audience: ClientView['audience'],
): ClientView | undefined {
  const view = frozenPage(folder, revision, fingerprint, audience);
  return view === undefined ? undefined : { ...view, texts: { ...readTexts(workspace, view.language), ...view.texts } };
}

/** Opens the record of the proposal that is named; problems where the maker's file has errors. */
export function openPaperDesk({ words, values }: Given): { readonly desk?: PaperDesk; readonly problems: readonly Problem[] } {
  const workspace = findWorkspace(values['workspace']);
  const slug = namedProposals(workspace, words)[0] ?? '';
  const folder = proposalFolder(workspace, slug);
  const at = instantOf(values['as-of'], workspace);
  const { maker, problems } = readMaker(workspace);
  if (maker === undefined) return { problems };
  const entries = readEntries(folder);
  const today = dayIn(notBefore(at, entries.at(-1)?.at), maker.timeZone);
  const offers = issuedOffers(folder);
  const desk: PaperDesk = {
    ...{
      workspace,
      slug,
      folder,
      shown: `proposals/${slug}`,
      at,
      today,
      zone: maker.timeZone,
      payment: maker.payment ?? [],
      maker: maker.name,
    },
    entries,
    offers,
    standing: standingOf(entries, offers, today),
  };
  return { desk, problems };
}

/** SHA-256 of an entry's line in the record. */
export const entryDigest = (entry: AnyEntry): string => sha256Hex(canonicalJson(entry as unknown as Json));
