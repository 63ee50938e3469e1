import { formatProblems } from '../problem/index.ts';
import { shortFingerprint, type VerifiedProposal, verifyWorkspace } from '../record/index.ts';
import type { ExitCode, Given } from './command.ts';
import { aligned, type Terminal } from './terminal.ts';
import { findWorkspace, namedProposals } from './workspace.ts';

function sayProposal(verified: VerifiedProposal, terminal: Terminal): void {
  terminal.say(verified.proposal);
  const rows = verified.revisions.map(({ revision, fingerprint, files }) => [revision, `${files} files`, shortFingerprint(fingerprint)]);
  for (const row of aligned(rows)) terminal.say(row);
  terminal.say(
    verified.entries === 0
      ? '  nothing issued yet'
      : `  the record ends at entry ${verified.entries}, ${verified.head.slice(0, 20)}; nothing later is anchored`,
  );
}

/** `verify`: proves that nothing issued was changed, or says what was. Reads only. */
export async function runVerify({ words, values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const verified = verifyWorkspace(workspace, namedProposals(workspace, words));
  const problems = verified.flatMap((one) => one.problems);
  const isProven = !problems.some((problem) => problem.severity === 'error');
  if (switches.has('json')) {
    terminal.say(JSON.stringify({ schema: 'leafwright/verify/1', proven: isProven, proposals: verified }, undefined, 2));
    return isProven ? 0 : 1;
  }
  for (const one of verified) sayProposal(one, terminal);
  if (problems.length > 0) terminal.warn(`\n${formatProblems(problems, { colour: terminal.colour.err }).trimEnd()}`);
  if (isProven) terminal.say('\nNothing that was issued has changed.');
  return isProven ? 0 : 1;
}
