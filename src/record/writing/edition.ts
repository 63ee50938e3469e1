import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { appendEntry, nextEntry, readChain } from '../chain/chain.ts';
import { type EntryOf, entryBodies } from '../chain/entries.ts';
import { erasedBy, isErased } from '../chain/erased.ts';
import { entriesOf, readEntries } from '../chain/read-entries.ts';
import { recordProblem } from '../chain/record-problem.ts';
import { sha256Hex } from '../disk/canonical.ts';
import { commitFolder, fsyncFolder, type NamedBytes, removeTree, replaceFile, writeTree } from '../disk/durable.ts';
import {
  type CareLink,
  careLinkName,
  type EditionFiles,
  editionFolder,
  handedOverFolder,
  handedOverName,
  readCareLink,
  readEditionFiles,
} from '../disk/edition.ts';
import { digestsOf, makingPrefix, recordBytes } from '../disk/revision.ts';
import { linkToken } from '../disk/token.ts';
import { nextInstant, type RecordPlace, soundChain, underLock } from './add.ts';

export interface EditionRequest extends RecordPlace {
  readonly proposal: string;
  /** Name and version of the program. */
  readonly program: string;
  /** The day on which it is made. */
  readonly on: string;
  /** The hand-over, or the service since which the care is another. */
  readonly of: number;
  /** Chance for the link of the care: 16 bytes; not used where the table has one already that is kept. */
  readonly random: Uint8Array;
  /** Gives the care a new link in place of the one it has. */
  readonly renewLink?: boolean;
  /**
   * Makes the files of an edition, by path below its folder: `in/`, `data/`, `care/` for whoever has the table, `label/` for the maker,
   * `papers/` and `papers-<page>/` for the client.
   */
  readonly make: (edition: number, token: string) => Promise<readonly NamedBytes[]>;
}

/** An edition that was made. */
export interface Edition {
  readonly entry: EntryOf<'care'>;
  /** Token of the link of the table's care. */
  readonly token: string;
  readonly made: number;
}

/** The table's link: the one it has, or a new one that is on the disk before any edition names it. */
function linkOf({ folder, at, random, renewLink = false }: EditionRequest): CareLink {
  const known = readCareLink(folder);
  if (known !== undefined && !renewLink) return known;
  const link: CareLink = { format: 'leafwright/care-link/1', token: linkToken(random), made: at };
  mkdirSync(handedOverFolder(folder), { recursive: true });
  replaceFile(join(handedOverFolder(folder), careLinkName), recordBytes(link));
  fsyncFolder(folder);
  return link;
}

/** Folder of a file's part of an edition, and the rest of its path. */
const parts = ({ path }: NamedBytes): readonly [string, string] => [path.slice(0, path.indexOf('/')), path.slice(path.indexOf('/') + 1)];

/**
 * Freezes an edition of the papers of a table that was handed over: written beside, forced to the disk, moved to its name as one
 * step, then anchored by an entry. A run that is killed before that leaves nothing that counts.
 * Codes: `record/locked cannot-write not-handed-over`, the warning `clock-back`, and those of a broken chain.
 */
export async function makeEdition(request: EditionRequest): Promise<{ readonly edition?: Edition; readonly problems: readonly Problem[] }> {
  return underLock(request, () => editionUnderLock(request));
}

async function editionUnderLock(request: EditionRequest): Promise<{ readonly edition?: Edition; readonly problems: readonly Problem[] }> {
  const { folder, shown, of, zone } = request;
  const { chain, problems: unsound } = soundChain(folder, shown);
  if (unsound.length > 0) return { problems: unsound };
  const entries = entriesOf(chain.lines.flatMap(({ entry }) => entry ?? []));
  const ground = entries.find(({ n }) => n === of);
  if (ground?.kind !== 'hand-over' && ground?.kind !== 'service')
    return {
      problems: [
        recordProblem('not-handed-over', `entry ${of} of ${shown} is no hand-over and no service, so there are no papers to make`),
      ],
    };
  const edition = 1 + Math.max(0, ...entries.flatMap((entry) => (entry.kind === 'care' ? [entry.edition] : [])));
  const { at, problems } = nextInstant(chain, request.at);
  const link = linkOf(request);
  const made = await request.make(edition, link.token);
  const files: EditionFiles = {
    format: 'leafwright/edition/1',
    ...{ proposal: request.proposal, edition, of, at, zone, program: request.program },
    files: made
      .flatMap((file) => digestsOf(parts(file)[0], [{ path: parts(file)[1], bytes: file.bytes }]))
      .toSorted((a, b) => (a.path < b.path ? -1 : 1)),
  };
  const bytes = recordBytes(files);
  const making = join(handedOverFolder(folder), `${makingPrefix}${edition}`);
  removeTree(making);
  try {
    writeTree(making, [...made, { path: 'files.json', bytes }]);
    commitFolder(making, editionFolder(folder, edition));
  } catch (error) {
    removeTree(making);
    throw error;
  }
  const body = { kind: 'care', on: request.on, edition, of, files: sha256Hex(bytes) } as const;
  try {
    appendEntry(folder, nextEntry(chain.head, { ...entryBodies.care.parse(body), at, zone }));
  } catch (error) {
    if (readChain(folder).head.n === chain.head.n) removeTree(editionFolder(folder, edition));
    throw error;
  }
  const entry = readEntries(folder).at(-1);
  if (entry?.kind !== 'care') throw new Error(`the entry of edition ${edition} is not the last one`);
  return { edition: { entry, token: link.token, made: made.length }, problems };
}

/** An edition as it lies on the disk. */
export interface CareEdition {
  readonly entry: EntryOf<'care'>;
  readonly token: string;
  /** Files of one of its folders, by path below that: `care`, `label`, `papers`, `papers-<page>`; none where they were erased. */
  readonly filesOf: (name: string) => readonly NamedBytes[];
}

/** Editions of a proposal that are there, oldest first; none where the link is gone: `verify` says so. */
export function careEditions(proposalFolder: string): readonly CareEdition[] {
  const link = readCareLink(proposalFolder);
  if (link === undefined) return [];
  const erased = erasedBy(readChain(proposalFolder).lines.flatMap(({ entry }) => entry ?? []));
  return readEntries(proposalFolder).flatMap((entry): readonly CareEdition[] => {
    if (entry.kind !== 'care') return [];
    const folder = editionFolder(proposalFolder, entry.edition);
    const listed = readEditionFiles(folder)?.files ?? [];
    const filesOf = (name: string): readonly NamedBytes[] =>
      isErased(erased, `${handedOverName}/${entry.edition}/${name}/`)
        ? []
        : listed
            .filter(({ path }) => path.startsWith(`${name}/`))
            .map(({ path }) => ({ path: path.slice(name.length + 1), bytes: readFileSync(join(folder, ...path.split('/'))) }));
    return [{ entry, token: link.token, filesOf }];
  });
}
