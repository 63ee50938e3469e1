import { type FSWatcher, statSync, watch } from 'node:fs';
import { join } from 'node:path';

/** Files that change while one works; what a run writes itself is not among them. */
const isWritten = (name: string | null): boolean => name !== null && !/(lock|new)-leafwright|(^|[\\/])(issued[\\/]\.making|\.)/.test(name);

const pauseMs = 120;

/** What a maker writes in a workspace. */
const written = ['proposals', 'templates'];

/** Runs `work` one at a time, a moment after it was last asked for, and again where it was asked for meanwhile; a rejection goes to `fail`. */
function oneAtATime(work: () => Promise<void>, fail: (error: unknown) => void): { readonly ask: () => void; readonly stop: () => void } {
  let timer: NodeJS.Timeout | undefined;
  let isRunning = false;
  let isWaiting = false;
  const start = async (): Promise<void> => {
    isWaiting = isRunning;
    if (isRunning) return;
    isRunning = true;
    try {
      await work();
    } catch (error) {
      fail(error);
    }
    isRunning = false;
    if (isWaiting) await start();
  };
  return {
    ask: () => {
      clearTimeout(timer);
      timer = setTimeout(() => void start(), pauseMs);
    },
    stop: () => clearTimeout(timer),
  };
}

/** Calls `work` after every change to proposals or templates of a workspace, templates made later too; returns what ends it. */
export function onChange(workspace: string, work: () => Promise<void>, fail: (error: unknown) => void): () => void {
  const { ask, stop } = oneAtATime(work, fail);
  const watchers = new Map<string, FSWatcher>();
  const open = (name: string, isDeep: boolean, changed: (below: string | null) => void): void => {
    const folder = join(workspace, name);
    if (watchers.has(name) || statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return;
    watchers.set(name, watch(folder, { recursive: isDeep }, (_event, below) => changed(below)).on('error', fail));
  };
  const openWritten = (name: string): void => open(name, true, (below) => isWritten(below) && ask());
  for (const name of written) openWritten(name);
  /** The workspace's own entries alone: below it lie the output and, on a clone, all packages. */
  open('.', false, (name) => {
    if (name === null || !written.includes(name)) return;
    if (statSync(join(workspace, name), { throwIfNoEntry: false }) === undefined) {
      watchers.get(name)?.close();
      watchers.delete(name);
    } else openWritten(name);
    ask();
  });
  return () => {
    stop();
    for (const watcher of watchers.values()) watcher.close();
  };
}
