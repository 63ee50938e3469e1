import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import { type Ended, runIn } from './run.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** A workspace with a copy of an older revision of a demo as its draft; removed when the file's tests are over. */
export interface TestWorkspace {
  readonly folder: string;
  readonly at: (...parts: string[]) => string;
  readonly read: (path: string) => string;
  /** Changes one text in a file for good; throws where it is not there. */
  readonly change: (path: string, from: string | RegExp, to: string) => void;
  readonly run: (...args: string[]) => Promise<Ended>;
}

export function workspaceOf(slug: string, demo: string): TestWorkspace {
  const folder = mkdtempSync(join(tmpdir(), 'leafwright-issue-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const at = (...parts: string[]): string => join(folder, ...parts);
  cpSync(join(root, 'tests', 'demos', 'revisions', demo), at('proposals', slug), { recursive: true });
  const read = (path: string): string => readFileSync(at(path), 'utf8');
  return {
    folder,
    at,
    read,
    change: (path, from, to) => {
      const before = read(path);
      const after = before.replace(from, to);
      if (after === before) throw new Error(`${path} does not hold ${from}`);
      writeFileSync(at(path), after);
    },
    run: (...args) => runIn(folder, args),
  };
}

/** A template of the program as the workspace's own, under another name. */
export function ownTemplate({ at }: TestWorkspace, from: string, to: string): void {
  mkdirSync(dirname(at('templates', to)), { recursive: true });
  cpSync(join(root, 'templates', from), at('templates', to));
}

/** The problems of a run as they were printed, by their codes. */
export function told(stderr: string): Readonly<Record<string, readonly string[]>> {
  const found: Record<string, readonly string[]> = {};
  for (const block of stderr.split('\n\n')) {
    const code = /^(?:error|warning)\[([^\]]+)\]/.exec(block)?.[1];
    if (code !== undefined) found[code] = [...(found[code] ?? []), block];
  }
  return found;
}
