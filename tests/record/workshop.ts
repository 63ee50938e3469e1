import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { IssueRequest } from '../../src/record/index.ts';
import { shortFingerprint } from '../../src/record/index.ts';

/** A workspace with one proposal folder below the system's temporary folder; removed after the test. */
export function makeWorkspace(): { readonly workspace: string; readonly folder: string } {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-record-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', 'tarrow');
  mkdirSync(folder, { recursive: true });
  return { workspace, folder };
}

const utf8 = (text: string): Uint8Array => Buffer.from(text, 'utf8');

/** A request to issue a small made-up revision, with stated clock and chance. */
export function request(folder: string, revision: string, more: Partial<IssueRequest> = {}): IssueRequest {
  return {
    folder,
    shown: 'proposals/tarrow',
    proposal: 'tarrow',
    revision,
    at: `2027-02-1${revision.slice(1)}T09:30:00Z`,
    zone: 'Europe/London',
    random: createHash('sha256').update(revision).digest().subarray(0, 16),
    program: 'leafwright 0.1.0',
    inputs: [
      { path: 'proposals/tarrow/proposal.yaml', bytes: utf8(`title: A table, ${revision}\n`) },
      { path: 'templates/woods.yaml', bytes: utf8('oak: {}\n') },
    ],
    data: [{ path: 'figures.json', bytes: utf8('{"massKg":41}') }],
    make: async (fingerprint) => [
      { path: 'index.html', bytes: utf8(`<p>${revision} ${shortFingerprint(fingerprint)}</p>`) },
      { path: 'files/scope-a.pdf', bytes: utf8(`%PDF-1.7 ${fingerprint}`) },
    ],
    ...more,
  };
}

/** Bytes of a file with one bit of the byte at `at` turned. */
export function flipped(path: string, at: number): Uint8Array {
  const bytes = readFileSync(path);
  bytes[at] = (bytes[at] ?? 0) ^ 1;
  return bytes;
}
