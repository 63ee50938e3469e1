import { join, relative } from 'node:path';
import { formatProblems } from '../../problem/index.ts';
import { instantOf } from '../clock.ts';
import type { ExitCode, Given } from '../command.ts';
import { gatheredProblems } from '../draft/evaluate.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { findWorkspace } from '../workspace.ts';
import { type BuiltProposal, buildWorkspace } from './build-run.ts';
import { shownBytes, totalOf } from './output.ts';

function rowsOf({ slug, draft, issued, care, isCached }: BuiltProposal): readonly (readonly string[])[] {
  const made = isCached ? 'unchanged' : 'made anew';
  return [
    [slug, `draft of ${draft}`, made, `workshop/${slug}/`],
    ...issued.flatMap(({ revision, state, pages }) =>
      pages.map(({ page, token }, i) => ['', i === 0 ? revision : `${revision} ${page}`, state.kind, `client/${token}/`]),
    ),
    ...(care === undefined ? [] : [['', `care of ${care.piece}`, `edition ${care.edition}`, `client/${care.token}/`]]),
  ];
}

/** `build`: everything for the client and the workshop, or nothing. */
export async function runBuild({ values, switches }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const started = performance.now();
  const { files, problems, proposals } = await buildWorkspace(workspace, instantOf(values['as-of'], workspace), terminal);
  terminal.settle();
  if (switches.has('json')) {
    const paths = files?.map(({ path, bytes }) => ({ path: `dist/${path}`, bytes: bytes.length }));
    terminal.say(
      JSON.stringify({ schema: 'leafwright/build/1', ...(paths === undefined ? {} : { files: paths }), proposals, problems }, undefined, 2),
    );
    return files === undefined ? 1 : 0;
  }
  const outcome = files === undefined ? 'Nothing was written.' : '';
  if (problems.length > 0) terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, outcome));
  if (files === undefined) return 1;
  for (const row of aligned(proposals.flatMap(rowsOf))) terminal.say(row);
  const dist = relative(process.cwd(), join(workspace, 'dist')) || 'dist';
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  const parts = ['client/', 'workshop/'].map((prefix) => {
    const { count, bytes } = totalOf(files, prefix);
    return `${join(dist, prefix)} ${count} files, ${shownBytes(bytes)}`;
  });
  terminal.say(`\n${parts.map((part) => terminal.accent(part)).join('; ')}; ${seconds} s`);
  terminal.say(
    `\nNext: open ${join(dist, 'workshop', 'index.html')}; upload ${join(dist, 'client')} (${join(dist, 'headers.txt')} says how)`,
  );
  return 0;
}
