import type { Problem } from '../../problem/index.ts';
import type { AnyEntry } from '../../record/index.ts';
import { UsageFault } from '../command.ts';
import { type FileToKeep, keptFile, readFileToKeep } from '../hearing/record-file.ts';
import { isPicture, plainPhotograph } from './photograph-bytes.ts';
import { keptAsItIs, NO_PICTURE } from './sheet-files.ts';

/** A photograph that a command brings: without place and device where that can be done, else with a remark. */
export interface BroughtPhotograph {
  readonly file: FileToKeep;
  readonly problems: readonly Problem[];
}

/** Reads the photograph that an option names; nothing where it names none. Throws a UsageFault. Code: `cli/photograph-as-it-is`, a warning. */
export function broughtPhotograph(path: string | undefined): BroughtPhotograph | undefined {
  if (path === undefined) return undefined;
  const file = readFileToKeep(path);
  if (!isPicture(file.bytes)) throw new UsageFault(`${path}: ${NO_PICTURE[0]}`, NO_PICTURE[1]);
  const plain = plainPhotograph(file.bytes);
  return plain === undefined ? { file, problems: [keptAsItIs(path)] } : { file: { ending: file.ending, bytes: plain.bytes }, problems: [] };
}

/** It as an entry names it, and as it is written; nothing where there is none. */
export function keptPhotograph(entries: readonly AnyEntry[], what: string, brought: BroughtPhotograph | undefined) {
  if (brought === undefined) return { named: {}, files: {} };
  const { named, file } = keptFile(entries, what, brought.file);
  return { named: { photographs: [named] }, files: { files: [file] } };
}
