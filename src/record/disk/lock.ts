import { closeSync, fsyncSync, linkSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';

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
    return codeOf(error) === 'EPERM';
  }
}

function writeHolder(path: string): void {
  const handle = openSync(path, 'wx');
  try {
    writeSync(handle, JSON.stringify({ pid: process.pid, host: hostname() } satisfies Holder));
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

/** Gives a written holder the lock's name, as one step; tells apart a lock that is there and a disk without hard links. */
function linkHolder(beside: string, path: string): 'taken' | 'held' | 'no-links' {
  try {
    linkSync(beside, path);
    return 'taken';
  } catch (error) {
    return codeOf(error) === 'EEXIST' ? 'held' : 'no-links';
  }
}

/** Makes the lock with its holder in it as one step, so that a crash leaves no lock that names nobody. False where there is one. */
function take(path: string): boolean {
  const beside = `${path}.${process.pid}`;
  try {
    rmSync(beside, { force: true });
    writeHolder(beside);
    const linked = linkHolder(beside, path);
    if (linked !== 'no-links') return linked === 'taken';
  } finally {
    rmSync(beside, { force: true });
  }
  /** Without hard links the lock is made first and filled then; it goes away where it can not be filled. */
  try {
    writeHolder(path);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    rmSync(path, { force: true });
    throw error;
  }
}

/** Takes away a lock whose process has ended. Moved aside first, so that of two runs only one can take it away. */
function clearStale(path: string, holder: Holder): void {
  const aside = `${path}.${process.pid}.stale`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return;
    throw error;
  }
  const moved = readHolder(aside);
  if (moved !== undefined && (moved.pid !== holder.pid || moved.host !== holder.host)) renameSync(aside, path);
  else rmSync(aside, { force: true });
}

/** Takes away what runs that were killed while they took a lock have left beside it. Only while the lock is held. */
function clearLeftBeside(folder: string): void {
  for (const name of readdirSync(folder)) {
    const pid = name.startsWith(`${lockName}.`) ? /^\.(\d+)(?:\.stale)?$/.exec(name.slice(lockName.length))?.[1] : undefined;
    if (pid !== undefined && Number(pid) !== process.pid && !isRunning(Number(pid))) rmSync(join(folder, name), { force: true });
  }
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
    clearLeftBeside(folder);
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
