import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import type { AnyEntry, EntryOf } from '../chain/entries.ts';
import { type Erased, isErased } from '../chain/erased.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { sha256Hex } from '../disk/canonical.ts';
import { listTree } from '../disk/durable.ts';
import {
  careLinkName,
  editionFolder,
  handedOverFolder,
  handedOverName,
  handedOverNames,
  readCareLink,
  readEditionFiles,
  unfinishedEditions,
} from '../disk/edition.ts';
import { recordBytes } from '../disk/revision.ts';
import { isLinkToken } from '../disk/token.ts';
import { checkFile } from './check-revision.ts';

const restore = (name: string): string => `take ${name} back from your copy or from git`;

/** One edition against its list, and its list against the entry that anchors it. */
function checkEdition(folder: string, shown: string, entry: EntryOf<'care'>, erased: readonly Erased[]): readonly Problem[] {
  const own = `${handedOverName}/${entry.edition}`;
  const name = `${shown}/${own}`;
  const at = editionFolder(folder, entry.edition);
  if (lstatSync(at, { throwIfNoEntry: false })?.isDirectory() !== true)
    return [recordProblem('file-missing', `${name} was handed over and is gone`, { mend: restore(name) })];
  const files = readEditionFiles(at);
  if (files === undefined)
    return [recordProblem('list-changed', `${name}/files.json is gone or is no list of files`, { mend: restore(`${name}/files.json`) })];
  const anchored = sha256Hex(readFileSync(join(at, 'files.json')));
  const known = new Set(['files.json', ...files.files.map(({ path }) => path)]);
  const gone = (path: string): boolean => isErased(erased, `${own}/${path}`);
  return [
    ...(anchored === entry.files && files.edition === entry.edition && files.of === entry.of
      ? []
      : [
          recordProblem('not-anchored', `${name}/files.json is not the one that entry ${entry.n} anchors`, {
            found: `SHA-256 ${anchored.slice(0, 16)}…`,
            allowed: `SHA-256 ${entry.files.slice(0, 16)}…`,
            mend: restore(`${name}/files.json`),
          }),
        ]),
    ...files.files.flatMap((listed) => (gone(listed.path) ? [] : (checkFile(at, name, listed, 'was handed over') ?? []))),
    ...listTree(at)
      .filter(({ path }) => !known.has(path))
      .map(({ path }) =>
        recordProblem('file-added', `${name}/${path} was added after the papers were made`, { mend: `move ${name}/${path} elsewhere` }),
      ),
  ];
}

/** The link is outside of the lists, and as this program writes it. */
function checkLink(folder: string, shown: string, hasEditions: boolean): readonly Problem[] {
  const name = `${shown}/${handedOverName}/${careLinkName}`;
  const link = readCareLink(folder);
  const isThere = lstatSync(join(handedOverFolder(folder), careLinkName), { throwIfNoEntry: false }) !== undefined;
  if (link === undefined && !isThere && !hasEditions) return [];
  const isWhole =
    link !== undefined &&
    isLinkToken(link.token) &&
    Buffer.from(recordBytes(link)).equals(readFileSync(join(handedOverFolder(folder), careLinkName)));
  return isWhole ? [] : [recordProblem('link-broken', `${name} holds no link, or is not as it was written`, { mend: restore(name) })];
}

/**
 * The papers of what was handed over: each edition against its list and the entry that anchors it, and that there is nothing else.
 * `shown` is the proposal's folder as the maker sees it. Codes: `record/file-missing file-changed file-added list-changed not-anchored
 * link-broken`, the warning `unfinished`.
 */
export function checkEditions(folder: string, shown: string, entries: readonly AnyEntry[], erased: readonly Erased[]): readonly Problem[] {
  const editions = entries.filter((entry) => entry.kind === 'care');
  const known = new Set([careLinkName, ...editions.map(({ edition }) => String(edition))]);
  const unfinished = new Set(unfinishedEditions(folder));
  const others = handedOverNames(folder).filter((name) => !known.has(name));
  return [
    ...editions.flatMap((entry) => checkEdition(folder, shown, entry, erased)),
    ...checkLink(folder, shown, editions.length > 0),
    ...others.map((name) =>
      unfinished.has(name) || /^[1-9]\d{0,5}$/.test(name)
        ? recordProblem('unfinished', `${shown}/${handedOverName}/${name} was left by an interrupted run`, {
            severity: 'warning',
            mend: 'the next command that writes to the record clears it away',
          })
        : recordProblem('file-added', `${shown}/${handedOverName}/${name} is no edition`, {
            mend: `move ${shown}/${handedOverName}/${name} elsewhere`,
          }),
    ),
  ];
}
