import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

export { add, heldAs, offered, place, request, tellAll, tellDelivery } from './told.ts';

/** A workspace with one proposal folder below the system's temporary folder; removed after the test. */
export function makeWorkspace(): { readonly workspace: string; readonly folder: string } {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-record-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', 'tarrow');
  mkdirSync(folder, { recursive: true });
  return { workspace, folder };
}

/** Bytes of a file with one bit of the byte at `at` turned. */
export function flipped(path: string, at: number): Uint8Array {
  const bytes = readFileSync(path);
  bytes[at] = (bytes[at] ?? 0) ^ 1;
  return bytes;
}
