import type { Problem } from '../../problem/index.ts';
import type { AnyEntry } from '../../record/index.ts';
import { type FileToKeep, keptFile, readFileToKeep } from '../hearing/record-file.ts';
import { plainPhotograph } from './photograph-bytes.ts';
import { keptAsItIs } from './sheet-files.ts';

/** A photograph that a command brings: without place and device where that can be done, else with a remark. */
export interface BroughtPhotograph {
  readonly file: FileToKeep;
  readonly problems: readonly Problem[];
}

/** Reads the photograph that an option names; nothing where it names none. Throws a UsageFault. Code: `cli/photograph-as-it-is`, a warning. */
export function broughtPhotograph(path: string | undefined): BroughtPhotograph | undefined {
  if (path === undefined) return undefined;
  const file = readFileToKeep(path);
  const plain = plainPhotograph(file.bytes);
  return plain === undefined ? { file, problems: [keptAsItIs(path)] } : { file: { ending: file.ending, bytes: plain.bytes }, problems: [] };
}

/** It as an entry names it, and as it is written; nothing where there is none. */
export function keptPhotograph(entries: readonly AnyEntry[], what: string, brought: BroughtPhotograph | undefined) {
  if (brought === undefined) return { named: {}, files: {} };
  const { named, file } = keptFile(entries, what, brought.file);
  return { named: { photographs: [named] }, files: { files: [file] } };
}
