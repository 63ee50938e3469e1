import type { Fit } from '../assess/index.ts';
import type { Table } from '../design/index.ts';
import type { CareInput, CarePiece } from './input.ts';
import { lowerFirst, sayText } from './words.ts';

type Words = Pick<CareInput, 'texts' | 'language'>;
type Piece = Fit['pieces'][number];
type Role = Table['parts'][number]['role'];

/** What a table is lifted by, the best first. */
const HOLDS: readonly Role[] = ['apron', 'rail', 'bearer', 'slab', 'post', 'stretcher', 'leg'];

/** What a table stands on: a piece that has one of these is no loose shelf. */
const STANDS: readonly Role[] = [...HOLDS, 'foot'];

/** What to take hold of: the rails where there are any, else what carries the top; legs that are fixed one by one, close to it. */
export function liftBy(table: Table, pieces: Fit['pieces'], words: Words): string {
  const { parts, baseKind } = table;
  const role = HOLDS.find((one) => parts.some((part) => part.role === one));
  const isLegs = standsAlone(table, pieces) && parts.some((part) => part.role === 'leg');
  return sayText(words, `care.lift-by.${baseKind === 'pedestal' ? 'pedestal' : isLegs ? 'leg' : (role ?? 'base')}`);
}

/** The name of a piece as it is carried: the top, the base where it is one piece, a drawer, or what its longest part is called. */
function nameOf(piece: Piece, table: Table, bases: readonly Piece[], words: Words): string {
  const parts = table.parts.filter(({ id }) => piece.parts.includes(id));
  if (parts.some(({ id }) => id === table.top.partId))
    return sayText(words, parts.length === 1 ? 'care.piece.top' : 'care.piece.top-and-more');
  if (parts.length > 0 && parts.every(({ role }) => role === 'drawer')) return sayText(words, 'care.piece.drawer');
  if (parts.length === 1 && parts.some(({ material }) => material === 'glass')) return sayText(words, 'care.piece.glass');
  if (bases.length === 1 && bases.includes(piece)) return sayText(words, 'care.piece.base');
  if (parts.length > 1 && parts.some(({ role }) => role === 'leg')) return sayText(words, 'care.piece.leg-frame');
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

interface Sorted {
  /** What only lies on something, such as a shelf of glass: it falls where the table is turned over. */
  readonly loose: readonly Piece[];
  readonly drawers: readonly Piece[];
  readonly top: readonly Piece[];
  readonly base: readonly Piece[];
}

function sorted(table: Table, pieces: readonly Piece[]): Sorted {
  const own = ({ parts }: Piece): Table['parts'] => table.parts.filter(({ id }) => parts.includes(id));
  const isTop = ({ parts }: Piece): boolean => parts.includes(table.top.partId);
  const isDrawer = (piece: Piece): boolean => piece.parts.length > 0 && own(piece).every(({ role }) => role === 'drawer');
  const isLoose = (piece: Piece): boolean => !isTop(piece) && !isDrawer(piece) && !own(piece).some(({ role }) => STANDS.includes(role));
  return {
    loose: pieces.filter((piece) => isLoose(piece) && onlyRests(piece, table)),
    drawers: pieces.filter(isDrawer),
    top: pieces.filter(isTop),
    base: pieces.filter((piece) => !isTop(piece) && !isDrawer(piece) && !(isLoose(piece) && onlyRests(piece, table))),
  };
}

function onlyRests({ parts }: Piece, { joints }: Table): boolean {
  const outward = joints.filter(({ a, b }) => parts.includes(a) !== parts.includes(b));
  return outward.length > 0 && outward.every(({ kind }) => kind === 'rests');
}

/** Whether the base is several pieces, each of them held by the top alone: legs on plates, slab ends without a rail. */
function standsAlone(table: Table, pieces: readonly Piece[]): boolean {
  const { base } = sorted(table, pieces);
  return base.length > 1 && base.every((piece) => neighboursOf(piece, base, table) === 0);
}

/**
 * Pieces in the order in which they come off: what lies loose, drawers, the top, then the base, those that are joined to the fewest
 * others first and the lighter of two before the heavier: what most others are joined to stays until last. Pieces that the top alone
 * holds come off it one by one, and it is what stays.
 */
export function inOrderOff(table: Table, pieces: Fit['pieces']): Fit['pieces'] {
  const { loose, drawers, top, base } = sorted(table, pieces);
  const held = base.map((piece) => ({ piece, neighbours: neighboursOf(piece, base, table) }));
  const off = held.toSorted((a, b) => a.neighbours - b.neighbours || a.piece.massKg - b.piece.massKg).map(({ piece }) => piece);
  return [...loose, ...drawers, ...(standsAlone(table, pieces) ? [...off, ...top] : [...top, ...off])];
}

/** Pieces with names of their own, in the order in which they come off: of several with one name each has its number. */
export function carriedPieces(
  table: Table,
  pieces: Fit['pieces'],
  words: Words,
): readonly (CarePiece & { readonly parts: readonly string[] })[] {
  const bases = sorted(table, pieces).base;
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
 * How a table comes apart, one step a line, in order: what is loose, before it is turned over; the top off its fixings, or each leg off
 * the top; then the joints that are made to come apart.
 * Nothing where it does not.
 */
export function apartSteps(table: Table, pieces: Fit['pieces'], hasDrawer: boolean, words: Words): readonly string[] {
  if (pieces.length < 2) return [];
  const { kind } = table.fixing;
  const joints = table.joints.filter(({ knockDown }) => knockDown);
  const { loose } = sorted(table, pieces);
  const isGlass = loose.some(({ parts }) => table.parts.some(({ id, material }) => material === 'glass' && parts.includes(id)));
  const topAlone = pieces.some(({ parts }) => parts.length === 1 && parts[0] === table.top.partId);
  const isAlone = kind !== 'loose' && standsAlone(table, pieces);
  const says = (key: string): string => sayText(words, `care.apart.${key}`);
  return [
    says('clear'),
    ...(loose.length > 0 ? [says(isGlass ? 'loose-glass' : 'loose')] : []),
    ...(hasDrawer ? [says('drawer')] : []),
    ...(isAlone ? [says('alone')] : topAlone ? [says(`top-${kind}`)] : []),
    ...[...new Set(joints.map((joint) => joint.kind))].map((joint) =>
      says(`joint-${joint === 'wedge' ? 'wedge' : joint === 'bolts' ? 'bolts' : 'key'}`),
    ),
    says('together'),
  ];
}
