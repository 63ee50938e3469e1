import { formatProblems } from '../../problem/index.ts';
import { withLock } from '../../record/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import type { Terminal } from '../terminal.ts';
import { findWorkspace, namedProposals, proposalFolder } from '../workspace.ts';
import { runMix } from './mix.ts';
import { type Begun, beginRevision, type Revising, sayPlan } from './next-revision.ts';

async function revise({ workspace, slug, asked }: Revising, json: boolean, terminal: Terminal): Promise<ExitCode> {
  const locked = await withLock(proposalFolder(workspace, slug), 'the records of this proposal', async () =>
    beginRevision({ workspace, slug, asked }),
  );
  const done: Begun = 'problem' in locked ? { problems: [locked.problem] } : locked.value;
  if ('problems' in done) {
    if (json) terminal.say(JSON.stringify({ schema: 'leafwright/revised/1', proposal: slug, problems: done.problems }, undefined, 2));
    else terminal.warn(formatProblems(done.problems, { colour: terminal.colour.err }, 'Nothing was written.').trimEnd());
    return 1;
  }
  const { input, next } = done;
  const { edits: _edits, ...told } = next;
  if (json) terminal.say(JSON.stringify({ schema: 'leafwright/revised/1', proposal: slug, ...told, problems: [] }, undefined, 2));
  else sayPlan(input, next, asked.free, terminal);
  return 0;
}

/** `revise`: begins the next revision from the working files, or builds a mix of the designs. */
export async function runRevise(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values, switches } = given;
  const workspace = findWorkspace(values['workspace']);
  const slug = namedProposals(workspace, words)[0] ?? '';
  if (values['mix'] !== undefined) return runMix(workspace, slug, given, terminal);
  for (const only of ['as', 'name']) if (values[only] !== undefined) throw new UsageFault(`--${only} goes with --mix`);
  const asked = { at: instantOf(values['as-of'], workspace), valid: values['valid'], free: values['free'] };
  return revise({ workspace, slug, asked }, switches.has('json'), terminal);
}
