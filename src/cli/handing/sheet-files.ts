import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem, SpecPath } from '../../problem/index.ts';
import type { AnyEntry } from '../../record/index.ts';
import type { HandOverSpec } from '../../spec/index.ts';
import { UsageFault } from '../command.ts';
import { type FileToKeep, keptFile, readFileToKeep } from '../hearing/record-file.ts';
import { refusal, remark } from '../refusal.ts';
import { AS_JPEG } from './fit-to-leave.ts';
import { isPicture, plainPhotograph } from './photograph-bytes.ts';

/** Files that a sheet names, read and ready to be kept. */
export interface SheetFiles {
  readonly photographs: readonly FileToKeep[];
  readonly paper?: FileToKeep;
  readonly problems: readonly Problem[];
}

const PICTURES = /^\.(?:jpe?g|png|webp|heic|heif|tiff?)$/;
/** What a file must be that is kept as a photograph, whatever its name says. */
export const NO_PICTURE = [
  'this file is no picture, whatever its name says',
  'name a JPEG, PNG, WebP, HEIC or TIFF file that opens as a picture',
] as const;
const PAPERS = /^\.(?:pdf|jpe?g|png|webp|heic|heif|tiff?)$/;

interface Read {
  readonly file?: FileToKeep;
  readonly problems: readonly Problem[];
}

/** A file that is named in a sheet. Code: `cli/hand-over-no-file`. */
function readNamed(folder: string, name: string, path: SpecPath, kind: 'photograph' | 'paper'): Read {
  const endings = kind === 'photograph' ? PICTURES : PAPERS;
  const refused = (title: string, mend: string): Read => ({
    problems: [{ ...refusal('hand-over-no-file', title, { found: name, mend }), path }],
  });
  try {
    if (statSync(join(folder, ...name.split('/')), { throwIfNoEntry: false })?.isFile() !== true)
      return refused('a file that the sheet names is not there', "lay it below the proposal's folder, or take the line out");
    const file = readFileToKeep(join(folder, ...name.split('/')));
    if (!endings.test(file.ending))
      return refused(
        'this is not the kind of file that belongs there',
        'a photograph ends in .jpg, .png, .webp, .heic or .tif; a paper may be a .pdf',
      );
    return kind === 'photograph' && !isPicture(file.bytes) ? refused(...NO_PICTURE) : { file, problems: [] };
  } catch (error) {
    if (error instanceof UsageFault) return refused(error.message, error.mend ?? 'name another file');
    throw error;
  }
}

/** That a photograph is kept with place, day and device in it. Code: `cli/photograph-as-it-is`, a warning. */
export const keptAsItIs = (found: string): Problem =>
  remark('photograph-as-it-is', 'a photograph is kept with all that its camera wrote into it', {
    found: `${found}; it may tell place, day and device, so it never goes out to a client`,
    mend: `where it should, ${AS_JPEG}`,
  });

/** The photograph as it is kept: without place and device where that can be done, else as it is, with a remark. */
function plainFile(file: FileToKeep, name: string, path: SpecPath): Read {
  const plain = plainPhotograph(file.bytes);
  if (plain !== undefined) return { file: { ending: file.ending, bytes: plain.bytes }, problems: [] };
  return {
    file,
    problems: [
      {
        ...keptAsItIs(name),
        path,
      },
    ],
  };
}

/**
 * Reads photographs and paper of a sheet. Errors: `cli/hand-over-no-file`. Warning: `cli/photograph-as-it-is`.
 *
 * @param folder the proposal's
 */
export function sheetFiles(folder: string, { photographs, acceptance }: HandOverSpec): SheetFiles {
  const read = photographs.map((name, i): Read => {
    const path: SpecPath = ['library', 'handOver', 'photographs', i];
    const { file, problems } = readNamed(folder, name, path, 'photograph');
    return file === undefined ? { problems } : plainFile(file, name, path);
  });
  const { paper: named } = acceptance;
  const paper = named === undefined ? undefined : readNamed(folder, named, ['library', 'handOver', 'acceptance', 'paper'], 'paper');
  return {
    photographs: read.flatMap(({ file }) => file ?? []),
    ...(paper?.file === undefined ? {} : { paper: paper.file }),
    problems: [...read.flatMap(({ problems }) => problems), ...(paper?.problems ?? [])],
  };
}

/** The files as the next entry names them, and as they are written. */
export function keptFiles(entries: readonly AnyEntry[], { photographs, paper }: SheetFiles) {
  const pictures = photographs.map((file, i) => keptFile(entries, `before-loading-${i + 1}`, file));
  const signed = paper === undefined ? undefined : keptFile(entries, 'acceptance', paper);
  return {
    photographs: pictures.map(({ named }) => named),
    ...(signed === undefined ? {} : { paper: signed.named }),
    files: [...pictures, ...(signed === undefined ? [] : [signed])].map(({ file }) => file),
  };
}
