import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { readProposal } from '../../read/index.ts';
import { replaceFile } from '../../record/index.ts';
import { proposalFolder } from '../workspace.ts';

/** A file of the maker's, by its path below the proposal's folder. */
export interface OwnFile {
  readonly path: string;
  readonly text: string;
}

/** Puts a text in the place of a file in one step. */
export const replaceText = (file: string, text: string): void => replaceFile(file, Buffer.from(text, 'utf8'));

/**
 * Writes files of a proposal, each as one step, and reads the proposal again. Where it then has an error that it did not have,
 * every file is put back as it was and the problems are given.
 */
export function writeOwnFiles(workspace: string, slug: string, files: readonly OwnFile[]): readonly Problem[] {
  const at = (path: string): string => join(proposalFolder(workspace, slug), ...path.split('/'));
  const before = files.map(({ path }) => (existsSync(at(path)) ? readFileSync(at(path), 'utf8') : undefined));
  for (const { path, text } of files) replaceText(at(path), text);
  const { problems } = readProposal(workspace, slug);
  if (!hasErrors(problems)) return [];
  for (const [i, { path }] of files.entries()) {
    const text = before[i];
    if (text === undefined) rmSync(at(path), { force: true });
    else replaceText(at(path), text);
  }
  return problems;
}

/** Writes a folder beside its place, then gives it its name; leaves nothing where that fails, nor anything of a run cut off. */
export function writeBeside(making: string, folder: string, files: readonly OwnFile[]): void {
  rmSync(making, { recursive: true, force: true });
  try {
    /** Made alone first: told to make the folders above as well, Node calls a disk that can not be written a missing folder. */
    mkdirSync(making);
    for (const { path, text } of files) {
      const to = join(making, ...path.split('/'));
      mkdirSync(join(to, '..'), { recursive: true });
      writeFileSync(to, text);
    }
    renameSync(making, folder);
  } catch (error) {
    rmSync(making, { recursive: true, force: true });
    throw error;
  }
}
