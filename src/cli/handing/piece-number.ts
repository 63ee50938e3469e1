import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { HAND_OVER_FILE, readWorkspace } from '../../read/index.ts';
import { readEntries } from '../../record/index.ts';
import { proposalFolder } from '../workspace.ts';

/** A piece number and the proposal whose table bears it. */
export interface Piece {
  readonly proposal: string;
  readonly piece: string;
}

/** Piece numbers of a workspace: of every hand-over on record, and of sheets that are being filled in. */
export function piecesOf(workspace: string): readonly Piece[] {
  return readWorkspace(workspace).flatMap((proposal) => {
    const folder = proposalFolder(workspace, proposal);
    const recorded = readEntries(folder).flatMap((entry) => (entry.kind === 'hand-over' ? [entry.piece] : []));
    const sheet = join(folder, HAND_OVER_FILE);
    const written = existsSync(sheet)
      ? /^piece:[ \t]*["']?(?<piece>[A-Za-z0-9./-]+)/m.exec(readFileSync(sheet, 'utf8'))?.groups?.['piece']
      : undefined;
    return [...new Set([...recorded, ...(written === undefined ? [] : [written])])].map((piece) => ({ proposal, piece }));
  });
}

/** `RS` of Runa Stavely: the first letters of at most three words of a name, without their accents. */
export function initialsOf(name: string): string {
  const letters = name
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .split(/[\s-]+/)
    .flatMap((word) => /^[A-Za-z]/.exec(word)?.[0].toUpperCase() ?? [])
    .slice(0, 3)
    .join('');
  return letters === '' ? 'T' : letters;
}

/** The next free number of a year: `RS-2027-03`. */
export function nextPiece(maker: string, year: number, taken: readonly Piece[]): string {
  const lead = `${initialsOf(maker)}-${year}-`;
  const numbers = taken.flatMap(({ piece }) =>
    piece.startsWith(lead) && /^\d{1,4}$/.test(piece.slice(lead.length)) ? [Number(piece.slice(lead.length))] : [],
  );
  return `${lead}${String(Math.max(0, ...numbers) + 1).padStart(2, '0')}`;
}
