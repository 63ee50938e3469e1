import { join } from 'node:path';
import { clientView, offerOf } from '../client/index.ts';
import { figuresOf } from '../figures/index.ts';
import { formatProblems } from '../problem/index.ts';
import {
  canonicalJson,
  isRevisionId,
  issueRevision,
  type Json,
  type NamedBytes,
  sha256Hex,
  shortFingerprint,
  tokenBytes,
} from '../record/index.ts';
import { instantOf } from './clock.ts';
import { type ExitCode, type Given, UsageFault } from './command.ts';
import { evaluateProposal, gatheredProblems } from './evaluate.ts';
import { sheetsFile } from './frozen-view.ts';
import { makeClientFiles, openTools } from './produce.ts';
import { programVersion } from './program.ts';
import type { Terminal } from './terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from './workspace.ts';

const isSheet = (value: unknown): value is Json => typeof value === 'object' && value !== null && 'marks' in value && 'widthMm' in value;

/**
 * A computed value as canonical JSON. A drawing is held by the digest of its marks alone: so the fingerprint covers it, and
 * the drawing itself stands among what was made.
 */
function dataFile(path: string, value: object): NamedBytes {
  const text = JSON.stringify(value, (_key, field: unknown) => (isSheet(field) ? { sha256: sha256Hex(canonicalJson(field)) } : field));
  return { path, bytes: Buffer.from(canonicalJson(JSON.parse(text) as Json), 'utf8') };
}

/** `issue`: freezes the draft as a revision and gives it its link. */
export async function runIssue({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const slug = namedProposals(workspace, words)[0] ?? '';
  const wanted = values['revision'];
  if (wanted !== undefined && !isRevisionId(wanted)) throw new UsageFault(`--revision ${wanted} is none`, 'write r1, r2 and so on');
  const at = instantOf(values['as-of']);
  const refuse = (problems: Parameters<typeof formatProblems>[0]): 1 => {
    if (switches.has('json')) terminal.say(JSON.stringify({ schema: 'leafwright/issued/1', problems }, undefined, 2));
    else terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, 'Nothing was issued.').trimEnd());
    return 1;
  };

  terminal.progress(`computing ${slug}`);
  const tools = openTools();
  const { computed, problems } = evaluateProposal(workspace, slug, { measure: tools.fonts.measure }, at.slice(0, 10));
  if (computed === undefined) return refuse(problems);
  const { input } = computed;
  const revision = input.proposal.revision.id;
  if (wanted !== undefined && wanted !== revision)
    throw new UsageFault(
      `the draft of ${slug} is ${revision}, not ${wanted}`,
      `change revision.id in proposals/${slug}/proposal.yaml, or issue ${revision}`,
    );

  const figures = figuresOf(computed);
  const outcome = await issueRevision({
    folder: proposalFolder(workspace, slug),
    shown: `proposals/${slug}`,
    proposal: slug,
    revision,
    at,
    zone: input.library.maker.timeZone,
    random: crypto.getRandomValues(new Uint8Array(tokenBytes)),
    program: `leafwright ${programVersion}`,
    inputs: input.files.map(({ path, text }) => ({ path, bytes: Buffer.from(text, 'utf8') })),
    data: [
      dataFile('figures.json', figures),
      dataFile('client.json', clientView(computed, figures)),
      dataFile('offer.json', offerOf(computed, figures)),
      sheetsFile(clientView(computed, figures)),
    ],
    make: (fingerprint, after) => {
      terminal.progress(`making pages and documents of ${slug} ${revision}`);
      return makeClientFiles(clientView(computed, figures, { fingerprint, after }), tools);
    },
  });
  if (outcome.issued === undefined) return refuse(outcome.problems);
  const { issued } = outcome;
  if (switches.has('json')) {
    terminal.say(JSON.stringify({ schema: 'leafwright/issued/1', proposal: slug, ...issued, problems }, undefined, 2));
    return 0;
  }
  if (problems.length > 0) terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }));
  terminal.say(
    `${slug} ${revision} is issued and frozen: ${join('proposals', slug, 'issued', revision)}, ${issued.made} files for the client`,
  );
  terminal.say(`  fingerprint   ${terminal.accent(shortFingerprint(issued.fingerprint))}`);
  terminal.say(`  link          ${terminal.accent(`${issued.token}/`)}  (a key: whoever knows it sees the page)`);
  terminal.say('\nNext: leafwright build, then upload dist/client');
  return 0;
}
