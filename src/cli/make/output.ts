import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { NamedBytes } from '../../record/index.ts';

const making = 'dist.new-leafwright';
const leaving = 'dist.old.new-leafwright';

function writeAll(root: string, files: readonly NamedBytes[]): void {
  const made = new Set<string>();
  for (const { path, bytes } of files) {
    const to = join(root, ...path.split('/'));
    const folder = dirname(to);
    if (!made.has(folder)) mkdirSync(folder, { recursive: true });
    made.add(folder);
    writeFileSync(to, bytes, { flag: 'wx' });
  }
}

/**
 * Replaces `dist/` of a workspace whole: written beside, then exchanged, so that nothing stale stays and a run that fails
 * leaves what was there. A run cut off between the two renames is put right by the next.
 */
export function replaceOutput(workspace: string, files: readonly NamedBytes[]): void {
  const [dist, next, old] = [join(workspace, 'dist'), join(workspace, making), join(workspace, leaving)];
  if (!existsSync(dist) && existsSync(old)) renameSync(old, dist);
  for (const folder of [next, old]) rmSync(folder, { recursive: true, force: true });
  try {
    writeAll(next, files);
  } catch (error) {
    rmSync(next, { recursive: true, force: true });
    throw error;
  }
  if (existsSync(dist)) renameSync(dist, old);
  renameSync(next, dist);
  rmSync(old, { recursive: true, force: true });
}

/** Files and bytes below a folder of the output, for the report of a run. */
export function totalOf(files: readonly NamedBytes[], prefix: string): { readonly count: number; readonly bytes: number } {
  const below = files.filter(({ path }) => path.startsWith(prefix));
  return { count: below.length, bytes: below.reduce((sum, { bytes }) => sum + bytes.length, 0) };
}

/** `1.4 MB`, `312 KB`. */
export function shownBytes(bytes: number): string {
  return bytes >= 1e6 ? `${(bytes / 1e6).toFixed(1)} MB` : `${Math.ceil(bytes / 1e3)} KB`;
}
