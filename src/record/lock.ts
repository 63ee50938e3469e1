import { closeSync, fsyncSync, openSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import type { Problem } from '../problem/index.ts';

/** Who holds a lock: a process on a machine. */
interface Holder {
  readonly pid: number;
  readonly host: string;
}

/** The lock's name in a proposal's folder; ignored by git. */
export const lockName = 'record.lock-leafwright';

function readHolder(path: string): Holder | undefined {
  try {
    const value: unknown = JSON.parse(readFileSync(path, 'utf8'));
    if (typeof value !== 'object' || value === null) return undefined;
    const { pid, host } = value as Partial<Holder>;
    return typeof pid === 'number' && typeof host === 'string' ? { pid, host } : undefined;
  } catch {
    return undefined;
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function take(path: string): boolean {
  try {
    const handle = openSync(path, 'wx');
    try {
      writeSync(handle, JSON.stringify({ pid: process.pid, host: hostname() }));
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

/** Takes away a lock whose process has ended. Moved aside first, so that of two runs only one can take it away. */
function clearStale(path: string, holder: Holder): void {
  const aside = `${path}.${process.pid}`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return;
    throw error;
  }
  const moved = readHolder(aside);
  if (moved !== undefined && (moved.pid !== holder.pid || moved.host !== holder.host)) renameSync(aside, path);
  else rmSync(aside, { force: true });
}

/**
 * Runs `work` while no other run may write `what` (`the records of this proposal`) in a folder; gives its result, or the
 * problem `record/locked`.
 * A lock left by a process that has ended on this machine is taken over.
 */
export async function withLock<T>(
  folder: string,
  what: string,
  work: () => Promise<T>,
): Promise<{ readonly value: T } | { readonly problem: Problem }> {
  const path = join(folder, lockName);
  for (let tries = 0; !take(path); tries += 1) {
    const holder = readHolder(path);
    const isStale = holder !== undefined && holder.host === hostname() && holder.pid !== process.pid && !isRunning(holder.pid);
    if (!isStale || tries >= 3) return { problem: locked(path, what, holder) };
    clearStale(path, holder);
  }
  try {
    return { value: await work() };
  } finally {
    rmSync(path, { force: true });
  }
}

function locked(path: string, what: string, holder: Holder | undefined): Problem {
  return {
    code: 'record/locked',
    severity: 'error',
    title: `another run is writing ${what}`,
    path: [],
    found: holder === undefined ? path : `process ${holder.pid} on ${holder.host}`,
    mend: `wait until it has ended; if none runs, delete ${path}`,
  };
}
