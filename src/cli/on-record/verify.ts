import { formatProblems } from '../../problem/index.ts';
import { shortFingerprint, type VerifiedProposal, verifyWorkspace } from '../../record/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals } from '../workspace.ts';

/** What stands on no page, what was erased on purpose, and what no digest holds. */
function sayLimits({ entries, anchoredTo, erased, unanchored }: VerifiedProposal, terminal: Terminal): void {
  const first = anchoredTo + 1;
  if (anchoredTo < entries)
    terminal.say(
      `  ${first === entries ? `entry ${entries} stands` : `entries ${first} to ${entries} stand`} on no page or scope: keep the digest above elsewhere to hold ${first === entries ? 'it' : 'them'}`,
    );
  for (const { path, n } of erased) terminal.say(`  ${path} was erased on purpose, by entry ${n}`);
  if (entries > 0 && unanchored.length > 0) terminal.say(`  held by no digest: ${unanchored.join(', ')}`);
}

function sayProposal(verified: VerifiedProposal, terminal: Terminal): void {
  terminal.say(verified.proposal);
  const rows = verified.revisions.map(({ revision, fingerprint, files }) => [revision, `${files} files`, shortFingerprint(fingerprint)]);
  for (const row of aligned(rows)) terminal.say(row);
  terminal.say(
    verified.entries === 0
      ? '  nothing issued yet'
      : `  the record ends at entry ${verified.entries}, ${verified.head.slice(0, 20)}; nothing later is anchored`,
  );
  sayLimits(verified, terminal);
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
  const isErased = verified.some(({ erased }) => erased.length > 0);
  if (isProven) terminal.say(`\nNothing that was issued has changed.${isErased ? ' What was erased is gone on purpose.' : ''}`);
  return isProven ? 0 : 1;
}
