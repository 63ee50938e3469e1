import { countProblems, formatProblems, hasErrors } from '../problem/index.ts';
import { openFonts } from '../write/index.ts';
import { instantOf } from './clock.ts';
import type { ExitCode, Given } from './command.ts';
import { type Evaluated, evaluateProposal, gatheredProblems } from './evaluate.ts';
import { aligned, type Terminal } from './terminal.ts';
import { findWorkspace, namedProposals } from './workspace.ts';

function summary({ slug, input, problems }: Evaluated): readonly string[] {
  const designs = input === undefined ? '' : `${input.variants.length} ${input.variants.length === 1 ? 'design' : 'designs'}`;
  const draft = input === undefined ? '' : `${input.proposal.revision.id}`;
  return [slug, draft, designs, problems.length === 0 ? 'in order' : countProblems(gatheredProblems(problems)).replace(/ in .*|\.$/, '')];
}

/** `check`: reads and computes, writes nothing. */
export async function runCheck({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const day = instantOf(values['as-of']).slice(0, 10);
  const { measure } = openFonts();
  const evaluated = namedProposals(workspace, words).map((slug) => {
    terminal.progress(`checking ${slug}`);
    return evaluateProposal(workspace, slug, { measure }, day);
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
