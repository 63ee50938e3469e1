import type { Joint, Part, Table } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';
import { boundsMm, boundsOfAll } from '../solid/index.ts';
import type { JointKind } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import type { Fit } from './assessment.ts';
import { heightsOf } from './slice.ts';

type Piece = Fit['pieces'][number];

/** Kinds that hold nothing together once the top is off or the drawer is pulled. */
const liftsApart: readonly JointKind[] = ['rests'];

/** A part this close to the underside of the top carries it, mm. */
const touchMm = 0.1;

/**
 * What the table comes apart into for carrying: at knock-down joints, where parts only rest, and at the top's fixing unless it is rigid.
 * Largest first, by the longest side of the box; the box is along the table's axes. A loose drawer is a piece of its own.
 */
export function piecesOf(table: Table, massOf: Readonly<Record<string, number>>): readonly Piece[] {
  const groups = new Map(table.parts.map((part) => [part.id, part.id]));
  const root = (id: string): string => {
    const up = groups.get(id) ?? id;
    return up === id ? id : root(up);
  };
  const join = (a: string, b: string): void => {
    groups.set(root(a), root(b));
  };
  for (const joint of table.joints) if (holds(joint)) join(joint.a, joint.b);
  if (table.fixing.kind === 'rigid') for (const part of carriers(table)) join(table.top.partId, part.id);
  const pieces = new Map<string, Part[]>();
  for (const part of table.parts) pieces.set(root(part.id), [...(pieces.get(root(part.id)) ?? []), part]);
  return [...pieces.values()]
    .map((parts) => pieceOf(parts, massOf))
    .sort((a, b) => longestMm(b) - longestMm(a) || byCodeUnit(a.parts[0] ?? '', b.parts[0] ?? ''));
}

function holds(joint: Joint): boolean {
  return !joint.knockDown && !liftsApart.includes(joint.kind);
}

function carriers(table: Table): readonly Part[] {
  const undersideMm = table.top.heightMm - table.top.thicknessMm;
  return table.parts.filter((part) => part.id !== table.top.partId && Math.abs(heightsOf(part).highMm - undersideMm) <= touchMm);
}

function pieceOf(parts: readonly Part[], massOf: Readonly<Record<string, number>>): Piece {
  const box = boundsOfAll(parts.map((part) => boundsMm(part.solid, part.placement)));
  const boxMm: Vec3 = [box.maxMm[0] - box.minMm[0], box.maxMm[1] - box.minMm[1], box.maxMm[2] - box.minMm[2]];
  const massKg = parts.reduce((sum, part) => sum + (massOf[part.id] ?? 0), 0);
  return { parts: parts.map((part) => part.id), massKg, boxMm, people: peopleFor(massKg) };
}

function longestMm(piece: Piece): number {
  return Math.max(...piece.boxMm);
}

/** People who carry a piece on the level: one up to 25 kg, two up to 50, three and a dolly above. Common practice, no law's limit. */
export function peopleFor(massKg: number): number {
  if (massKg <= 25) return 1;
  return massKg <= 50 ? 2 : 3;
}
