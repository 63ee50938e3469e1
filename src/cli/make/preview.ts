import { join } from 'node:path';
import { formatProblems, type Problem } from '../../problem/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { gatheredProblems } from '../draft/evaluate.ts';
import { systemFault } from '../system-fault.ts';
import type { Terminal } from '../terminal.ts';
import { findWorkspace } from '../workspace.ts';
import { buildWorkspace } from './build-run.ts';
import { serveFolder } from './serve.ts';
import { onChange } from './watch.ts';

/** The same problem before and after lines were put in above it. */
const keyOf = ({ code, variant, path, found, place }: Problem): string => JSON.stringify([code, variant, path, found, place?.file]);

/** Says what the run before did not say, and how much stands as it was; a maker at work looks for the new slip alone. */
function sayNews(problems: readonly Problem[], told: ReadonlySet<string>, outcome: string, terminal: Terminal): void {
  const news = problems.filter((problem) => problem.severity === 'error' || !told.has(keyOf(problem)));
  if (news.length > 0) terminal.warn(formatProblems(news, { colour: terminal.colour.err }, outcome));
  const old = problems.length - news.length;
  if (old > 0) terminal.warn(`${old} ${old === 1 ? 'warning' : 'warnings'} as before.`);
}

/** Builds again and again; what the machine refuses meanwhile, such as a full disk, is said and ends nothing. */
function openRebuild(workspace: string, asOf: string | undefined, terminal: Terminal): () => Promise<void> {
  let told: ReadonlySet<string> = new Set();
  const rebuild = async (): Promise<void> => {
    const started = performance.now();
    const { files, problems } = await buildWorkspace(workspace, instantOf(asOf, workspace), terminal);
    terminal.settle();
    const gathered = gatheredProblems(problems);
    sayNews(gathered, told, files === undefined ? 'The pages are as they were.' : '', terminal);
    /** A slip hides warnings that will be there again once it is mended. */
    told = new Set([...(files === undefined ? told : []), ...gathered.map(keyOf)]);
    if (files !== undefined) terminal.say(`built in ${((performance.now() - started) / 1000).toFixed(1)} s`);
  };
  return async () => {
    try {
      await rebuild();
    } catch (error) {
      const refused = systemFault(error);
      if (refused === undefined) throw error;
      terminal.warn(`${refused}. The pages are as they were.`);
    }
  };
}

function portOf(said: string | undefined): number {
  const port = Number(said ?? '4310');
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port;
  throw new UsageFault(`--port ${said} is no port`, 'write a number from 1024 to 65535, or 0 for any free one');
}

/** `preview`: builds, serves the result to this machine, builds again when a file changes. */
export async function runPreview({ values }: Given, terminal: Terminal): Promise<ExitCode> {
  const workspace = findWorkspace(values['workspace']);
  const port = portOf(values['port']);
  const rebuild = openRebuild(workspace, values['as-of'], terminal);
  await rebuild();
  const { server, port: listening } = await serveFolder(join(workspace, 'dist'), '/workshop/', port).catch(
    (error: NodeJS.ErrnoException) => {
      const why = error.code === 'EADDRINUSE' ? `port ${port} is taken` : `port ${port} can not be used (${error.code})`;
      throw new UsageFault(why, 'choose another: leafwright preview --port 4400, or --port 0 for any free one');
    },
  );
  const ended = Promise.withResolvers<void>();
  const stopWatching = onChange(workspace, rebuild, ended.reject);
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => ended.resolve());
  terminal.say(`\nNext: open ${terminal.accent(`http://127.0.0.1:${listening}/`)}; Ctrl-C ends the preview`);
  try {
    await ended.promise;
  } finally {
    stopWatching();
    server.closeAllConnections();
    server.close();
  }
  return 0;
}
