import { lstatSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { nearestName, type Problem } from '../problem/index.ts';
import { byCodeUnit } from '../units/index.ts';
import { problemAt, problemOfFile } from './place.ts';
import type { Origin, Source } from './tree.ts';

/** Largest file that is read, in bytes. */
const LARGEST = 1_000_000;

/** The folder of the program's own templates. */
export const PROGRAM_TEMPLATES = fileURLToPath(new URL('../../templates', import.meta.url));

/** A file, or why there is none. */
export interface FileRead {
  readonly source?: Source;
  readonly problems: readonly Problem[];
}

/**
 * Reads one text file below a folder, and nothing outside it. `path` is relative, with `/`; `shown` is how messages and the record
 * name it. Codes:
 * `read/no-file`, `read/not-a-file`, `read/link-out`, `read/too-large`, `read/not-utf-8`, `read/not-readable`.
 */
export function readText(root: string, path: string, shown = path): FileRead {
  const full = join(root, ...path.split('/'));
  const refused = (code: string, title: string, rest: Pick<Problem, 'found' | 'allowed' | 'mend'> = {}): FileRead => ({
    problems: [problemOfFile(code, title, shown, rest)],
  });
  try {
    const stat = statSync(full, { throwIfNoEntry: false });
    if (stat === undefined) {
      const link = lstatSync(full, { throwIfNoEntry: false });
      return link === undefined
        ? refused('read/no-file', 'this file is missing', mendMissing(root, path))
        : refused('read/no-file', 'this link leads nowhere', { mend: 'put the file itself here' });
    }
    if (!stat.isFile())
      return refused('read/not-a-file', stat.isDirectory() ? 'a folder stands where a file is wanted' : 'this is no ordinary file', {
        mend: 'put a text file of this name here',
      });
    if (!isWithin(root, full))
      return refused('read/link-out', 'this link leads out of the folder', {
        mend: 'copy the file here: what is issued must hold all that it came from',
      });
    if (stat.size > LARGEST)
      return refused('read/too-large', 'the file is too large', {
        found: `${Math.ceil(stat.size / 1e3)} KB`,
        allowed: `at most ${LARGEST / 1e3} KB`,
        mend: 'something else may have been saved under this name: take the text back from your copy',
      });
    return decode(readFileSync(full), shown);
  } catch (error) {
    return refused('read/not-readable', 'the file can not be opened', { found: reasonOf(error), mend: 'check that you may read it' });
  }
}

function decode(bytes: Uint8Array, shown: string): FileRead {
  const refused = (title: string, origin: Origin, rest: Pick<Problem, 'found' | 'mend'>): FileRead => ({
    problems: [problemAt('read/not-utf-8', title, origin, rest)],
  });
  const whole: Origin = { source: { path: shown, text: '' }, start: 0, end: 0 };
  const mend = 'save it as UTF-8 in your editor';
  if (isUtf16(bytes)) return refused('the file is not text in UTF-8', whole, { found: 'UTF-16, as some editors save', mend });
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    const nul = text.indexOf('\u0000');
    if (nul === -1) return { source: { path: shown, text }, problems: [] };
    const clean = { path: shown, text: text.replaceAll('\u0000', '\ufffd') };
    return refused('the file is not text', { source: clean, start: nul, end: nul + 1 }, { mend });
  } catch {
    /** Each byte that is no UTF-8 becomes one sign in the quotation. */
    const text = new TextDecoder('utf-8').decode(bytes);
    const wrong = text.indexOf('\ufffd');
    const found = 'a letter that was saved in another encoding';
    return refused('the file is not text in UTF-8', { source: { path: shown, text }, start: wrong, end: wrong + 1 }, { found, mend });
  }
}

/** A byte order mark of UTF-16, either way round. */
function isUtf16([first, second]: Uint8Array): boolean {
  return (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
}

/** Names of the entries of a folder, by code unit; none where there is no such folder. */
export function namesIn(root: string, path: string): readonly string[] {
  try {
    return readdirSync(join(root, ...path.split('/'))).toSorted(byCodeUnit);
  } catch {
    return [];
  }
}

/** Names of the folders inside a folder, links to folders left out. */
export function foldersIn(root: string, path: string): readonly string[] {
  return namesIn(root, path).filter(
    (name) => lstatSync(join(root, ...path.split('/'), name), { throwIfNoEntry: false })?.isDirectory() === true,
  );
}

/** Whether a file is there at all, of any kind. */
export function exists(root: string, path: string): boolean {
  return lstatSync(join(root, ...path.split('/')), { throwIfNoEntry: false }) !== undefined;
}

/** Whether two paths are the same folder on disk. */
export function sameFolder(a: string, b: string): boolean {
  try {
    return realpathSync(a) === realpathSync(b);
  } catch {
    return false;
  }
}

function isWithin(root: string, full: string): boolean {
  const way = relative(realpathSync(root), realpathSync(full));
  return way !== '..' && !way.startsWith(`..${sep}`) && !/^[A-Za-z]:/.test(way);
}

function mendMissing(root: string, path: string): Pick<Problem, 'mend'> {
  const steps = path.split('/');
  const name = steps.at(-1) ?? path;
  const folder = steps.slice(0, -1).join('/');
  const near = nearestName(name, namesIn(root, folder));
  return { mend: near === undefined ? `make the file ${name}` : `rename ${near} to ${name}` };
}

function reasonOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
}
