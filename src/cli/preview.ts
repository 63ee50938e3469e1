import { watch } from 'node:fs';
import { join } from 'node:path';
import { formatProblems } from '../problem/index.ts';
import { buildWorkspace } from './build-run.ts';
import { instantOf } from './clock.ts';
import { type ExitCode, type Given, UsageFault } from './command.ts';
import { gatheredProblems } from './evaluate.ts';
import { serveFolder } from './serve.ts';
import type { Terminal } from './terminal.ts';
import { findWorkspace } from './workspace.ts';

/** Files that change while one works; what a run writes itself is not among them. */
const isWritten = (name: string | null): boolean => name !== null && !/(lock|new)-leafwright|(^|[\\/])(issued[\\/]\.making|\.)/.test(name);

const pauseMs = 120;

async function rebuild(workspace: string, instant: string, terminal: Terminal): Promise<boolean> {
  const started = performance.now();
  const { files, problems } = await buildWorkspace(workspace, instant, terminal);
  terminal.settle();
  const outcome = files === undefined ? 'The pages are as they were.' : '';
  if (problems.length > 0) terminal.warn(formatProblems(gatheredProblems(problems), { colour: terminal.colour.err }, outcome));
  if (files !== undefined) terminal.say(`built in ${((performance.now() - started) / 1000).toFixed(1)} s`);
  return files !== undefined;
}

/** Calls `work` after every change below the folders, one run at a time, again where something changed meanwhile. */
function onChange(folders: readonly string[], work: () => Promise<void>): () => void {
  let timer: NodeJS.Timeout | undefined;
  let isRunning = false;
  let isWaiting = false;
  const start = async (): Promise<void> => {
    if (isRunning) {
      isWaiting = true;
      return;
    }
    isRunning = true;
    await work();
    isRunning = false;
    if (isWaiting) {
      isWaiting = false;
      void start();
    }
  };
  const watchers = folders.map((folder) =>
    watch(folder, { recursive: true }, (_event, name) => {
      if (!isWritten(name)) return;
      clearTimeout(timer);
      timer = setTimeout(() => void start(), pauseMs);
    }),
  );
  return () => {
    clearTimeout(timer);
    for (const watcher of watchers) watcher.close();
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
  const instant = (): string => instantOf(values['as-of']);
  instant();
  await rebuild(workspace, instant(), terminal);
  const { server, port: listening } = await serveFolder(join(workspace, 'dist'), '/workshop/', port).catch(
    (error: NodeJS.ErrnoException) => {
      const why = error.code === 'EADDRINUSE' ? `port ${port} is taken` : `port ${port} can not be used (${error.code})`;
      throw new UsageFault(why, 'choose another: leafwright preview --port 4400, or --port 0 for any free one');
    },
  );
  const stopWatching = onChange([join(workspace, 'proposals')], () => rebuild(workspace, instant(), terminal).then(() => undefined));
  terminal.say(`\nNext: open ${terminal.accent(`http://127.0.0.1:${listening}/`)}; Ctrl-C ends the preview`);
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
  stopWatching();
  server.closeAllConnections();
  server.close();
  return 0;
}
