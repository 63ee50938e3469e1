import type { Fit } from '../assess/index.ts';
import type { Table } from '../design/index.ts';
import type { CareInput, CarePiece } from './input.ts';
import { lowerFirst, sayText } from './words.ts';

type Words = Pick<CareInput, 'texts' | 'language'>;
type Piece = Fit['pieces'][number];
type Role = Table['parts'][number]['role'];

/** What a table is lifted by, the best first. */
const HOLDS: readonly Role[] = ['apron', 'rail', 'bearer', 'slab', 'post', 'stretcher', 'leg'];

/** What to take hold of: the rails where there are any, else what carries the top. */
export function liftBy({ parts, baseKind }: Table, words: Words): string {
  const role = HOLDS.find((one) => parts.some((part) => part.role === one));
  return sayText(words, `care.lift-by.${baseKind === 'pedestal' ? 'pedestal' : (role ?? 'frame')}`);
}

/** The name of a piece as it is carried: the top, the base, a drawer, or what its longest part is called. */
function nameOf(piece: Piece, table: Table, bases: number, words: Words): string {
  const parts = table.parts.filter(({ id }) => piece.parts.includes(id));
  if (parts.some(({ id }) => id === table.top.partId))
    return sayText(words, parts.length === 1 ? 'care.piece.top' : 'care.piece.top-and-more');
  if (parts.length > 0 && parts.every(({ role }) => role === 'drawer')) return sayText(words, 'care.piece.drawer');
  if (bases === 1) return sayText(words, 'care.piece.base');
  const main = parts.toSorted((a, b) => longestMm(b) - longestMm(a))[0];
  const own = main === undefined ? undefined : (words.texts[main.name] ?? main.name);
  return own === undefined ? sayText(words, 'care.piece.part') : sayText(words, 'care.piece.named', { name: lowerFirst(own) });
}

const longestMm = ({ sizeMm }: Table['parts'][number]): number => sizeMm.length;

/** How many of these pieces a piece is joined to. */
function neighboursOf({ parts }: Piece, others: readonly Piece[], { joints }: Table): number {
  const joined = joints.flatMap(({ a, b }) => (parts.includes(a) ? [b] : parts.includes(b) ? [a] : []));
  return others.filter((other) => other.parts.some((id) => !parts.includes(id) && joined.includes(id))).length;
}

/**
 * Pieces in the order in which they come off: drawers, the top, then the base, those that are joined to the fewest others first and the
 * lighter of two before the heavier: what most others are joined to stays until last.
 */
export function inOrderOff(table: Table, pieces: Fit['pieces']): Fit['pieces'] {
  const isDrawer = (piece: Piece): boolean =>
    piece.parts.length > 0 && piece.parts.every((id) => table.parts.find((part) => part.id === id)?.role === 'drawer');
  const isTop = ({ parts }: Piece): boolean => parts.includes(table.top.partId);
  const base = pieces.filter((piece) => !isDrawer(piece) && !isTop(piece));
  const held = base.map((piece) => ({ piece, neighbours: neighboursOf(piece, base, table) }));
  const off = held.toSorted((a, b) => a.neighbours - b.neighbours || a.piece.massKg - b.piece.massKg).map(({ piece }) => piece);
  return [...pieces.filter(isDrawer), ...pieces.filter(isTop), ...off];
}

/** Pieces with names of their own, in the order in which they come off: of several with one name each has its number. */
export function carriedPieces(
  table: Table,
  pieces: Fit['pieces'],
  words: Words,
): readonly (CarePiece & { readonly parts: readonly string[] })[] {
  const isBase = ({ parts }: Piece): boolean => {
    const own = table.parts.filter(({ id }) => parts.includes(id));
    return !parts.includes(table.top.partId) && own.some(({ role }) => role !== 'drawer');
  };
  const bases = pieces.filter(isBase).length;
  const named = inOrderOff(table, pieces).map((piece) => ({
    name: nameOf(piece, table, bases, words),
    massKg: piece.massKg,
    parts: piece.parts,
  }));
  return named.map((one, i) => {
    const same = named.filter(({ name }) => name === one.name);
    if (same.length === 1) return one;
    const number = named.slice(0, i + 1).filter(({ name }) => name === one.name).length;
    return { ...one, name: sayText(words, 'care.piece.numbered', { name: one.name, number: String(number) }) };
  });
}

/**
 * How a table comes apart, one step a line, in order: what is loose, the top off its fixings, then the joints that are made to come apart.
 * Nothing where it does not.
 */
export function apartSteps(table: Table, pieces: Fit['pieces'], hasDrawer: boolean, words: Words): readonly string[] {
  if (pieces.length < 2) return [];
  const { kind } = table.fixing;
  const topAlone = pieces.some(({ parts }) => parts.length === 1 && parts[0] === table.top.partId);
  const joints = table.joints.filter(({ knockDown }) => knockDown);
  const says = (key: string): string => sayText(words, `care.apart.${key}`);
  return [
    says('clear'),
    ...(hasDrawer ? [says('drawer')] : []),
    ...(topAlone ? [says(`top-${kind}`)] : []),
    ...[...new Set(joints.map((joint) => joint.kind))].map((joint) =>
      says(`joint-${joint === 'wedge' ? 'wedge' : joint === 'bolts' ? 'bolts' : 'key'}`),
    ),
    says('together'),
  ];
}
