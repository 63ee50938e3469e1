import type { Part } from '../design/index.ts';
import type { Contact, Vec2 } from '../solid/index.ts';
import { floorContact } from '../solid/index.ts';
import type { Ellipse, Hull } from './convex.ts';
import { hullOf } from './convex.ts';

export interface Support {
  readonly contacts: readonly { readonly partId: string; readonly contact: Contact }[];
  readonly hull: Hull;
  /** Corners of the hull and points where straight edges meet round feet, counter-clockwise. */
  readonly polygonMm: readonly Vec2[];
  readonly arcs: readonly { readonly centreMm: Vec2; readonly rxMm: number; readonly ryMm: number }[];
}

/** What the parts stand on: whole foot sections on the floor and their convex hull, round feet exact. */
export function supportOf(parts: readonly Part[]): Support {
  const contacts = parts.flatMap((part) => floorContact(part.solid, part.placement).map((contact) => ({ partId: part.id, contact })));
  const hull = hullOf(contacts.map((c) => c.contact));
  const arcs: Ellipse[] = [];
  const corners: Vec2[] = [];
  for (const piece of hull.pieces) {
    if (piece.kind === 'edge') corners.push(piece.from, piece.to);
    else if (!arcs.includes(piece.ellipse)) arcs.push(piece.ellipse);
  }
  const polygonMm = corners.filter((p, i) => {
    const next = corners[(i + 1) % corners.length] as Vec2;
    return Math.hypot(p[0] - next[0], p[1] - next[1]) > 1e-9;
  });
  return { contacts, hull, polygonMm, arcs: arcs.map(({ centreMm, rxMm, ryMm }) => ({ centreMm, rxMm, ryMm })) };
}
