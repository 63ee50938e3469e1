import { figuresOf } from '../../figures/index.ts';
import { countProblems, formatProblems, hasErrors, type Problem } from '../../problem/index.ts';
import { issuedRevisions, readEntries } from '../../record/index.ts';
import { type Fonts, openFonts } from '../../write/index.ts';
import { instantOf } from '../clock.ts';
import type { ExitCode, Given } from '../command.ts';
import { computeOne, type Evaluated, gatheredProblems, readOne } from '../draft/evaluate.ts';
import { draftPages } from '../draft/issue-pages.ts';
import { readyProblems } from '../draft/issue-refusals.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';

function summary({ slug, input, problems }: Evaluated): readonly string[] {
  const designs = input === undefined ? '' : `${input.variants.length} ${input.variants.length === 1 ? 'design' : 'designs'}`;
  const draft = input === undefined ? '' : `${input.proposal.revision.id}`;
  return [slug, draft, designs, problems.length === 0 ? 'in order' : countProblems(gatheredProblems(problems)).replace(/ in .*|\.$/, '')];
}

/** One proposal, with what would stand in the way of issuing it as warnings; nothing of that once its revision is issued. */
function withAhead(workspace: string, slug: string, fonts: Fonts, at: string): Evaluated {
  const kernels = { measure: fonts.measure };
  const read = readOne(workspace, slug, at);
  const evaluated = computeOne(read, kernels);
  const { computed } = evaluated;
  const folder = proposalFolder(workspace, slug);
  const { day } = read;
  if (
    computed === undefined ||
    day === undefined ||
    issuedRevisions(folder).some(({ revision }) => revision === computed.input.proposal.revision.id)
  )
    return evaluated;
  const pages = draftPages(computed, figuresOf(computed), kernels);
  const ahead = readyProblems({ computed, folder, pages, entries: readEntries(folder), day, hasSign: fonts.hasSign }).filter(
    ({ code }) => !saidOnReading.has(code),
  );
  return {
    ...evaluated,
    problems: [...evaluated.problems, ...read.place(ahead.map((problem): Problem => ({ ...problem, severity: 'warning' })))],
  };
}

/** What reading and pricing warn of already. */
const saidOnReading: ReadonlySet<string> = new Set(['cli/offer-over', 'cli/price-below-floor', 'cli/placeholder']);

/** `check`: reads and computes, writes nothing. */
export async function runCheck({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const at = instantOf(values['as-of'], workspace);
  const fonts = openFonts();
  const evaluated = namedProposals(workspace, words).map((slug) => {
    terminal.progress(`checking ${slug}`);
    return withAhead(workspace, slug, fonts, at);
  });
  const problems = evaluated.flatMap((one) => one.problems);
  const isWell = !hasErrors(problems);
  if (switches.has('json')) {
    const proposals = evaluated.map((one) => ({ proposal: one.slug, problems: one.problems }));
    terminal.say(JSON.stringify({ schema: 'leafwright/problems/1', proposals }, undefined, 2));
    return isWell ? 0 : 1;
  }
  if (problems.length > 0) terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }));
  for (const row of aligned(evaluated.map(summary))) terminal.say(row);
  if (isWell)
    terminal.say(
      evaluated.length === 0 ? '\nNext: leafwright new my-first-table' : '\nNext: leafwright build, or leafwright preview to see it',
    );
  return isWell ? 0 : 1;
}
