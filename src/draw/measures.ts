import type { Part, PartRole, Table } from '../design/index.ts';
import type { Vec3 } from '../solid/index.ts';
import type { Shape } from './shape.ts';

/** A stretch along one axis of the table, mm, and the level or reach it belongs to. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly round: boolean;
}

/** Heights within this count as the same (mm): a draughtsman would not write both. */
const SAME_MM = 0.6;

const roleLies: ReadonlySet<PartRole> = new Set<PartRole>(['apron', 'stretcher', 'rail', 'bearer', 'foot']);
/** Glides and levelling feet are lower than this (mm): what stands on them counts as standing on the floor. */
const GLIDE_MM = 20;
const roleStands: ReadonlySet<PartRole> = new Set<PartRole>(['leg', 'slab', 'post']);

const axisOf = { x: 0, y: 1, z: 2 } as const;

/** All corners of a shape; round parts by their facets. */
export const pointsOf = (shape: Shape): readonly Vec3[] => shape.pieces.flatMap((p) => p.points);

export function reachAlong(points: readonly Vec3[], axis: 'x' | 'y' | 'z'): readonly [number, number] {
  const values = points.map((p) => p[axisOf[axis]]);
  return [Math.min(...values), Math.max(...values)];
}

const isRound = (part: Part): boolean => part.solid.kind === 'rings';

/** Joins stretches that touch. */
function joined(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (const span of spans.toSorted((a, b) => a.from - b.from || a.to - b.to)) {
    const last = out.at(-1);
    if (last !== undefined && span.from <= last.to + SAME_MM) {
      const same = Math.abs(span.from - last.from) < SAME_MM && Math.abs(span.to - last.to) < SAME_MM;
      out[out.length - 1] = { from: last.from, to: Math.max(last.to, span.to), round: last.round && span.round && same };
    } else out.push(span);
  }
  return out;
}

/** Where the table stands on the floor, seen along the other level axis. */
export function footSpans(shapes: readonly Shape[], axis: 'x' | 'y'): Span[] {
  return joined(
    shapes.flatMap((shape): Span[] => {
      const low = pointsOf(shape).filter((p) => p[2] < GLIDE_MM);
      if (low.length < 3) return [];
      const [from, to] = reachAlong(low, axis);
      return [{ from, to, round: isRound(shape.part) }];
    }),
  );
}

/** Where legs, slabs and posts meet what is above them, seen along the other level axis. */
export function headSpans(shapes: readonly Shape[], axis: 'x' | 'y'): Span[] {
  return joined(
    shapes.flatMap((shape): Span[] => {
      if (!roleStands.has(shape.part.role)) return [];
      const points = pointsOf(shape);
      const top = reachAlong(points, 'z')[1];
      const [from, to] = reachAlong(
        points.filter((p) => p[2] > top - SAME_MM),
        axis,
      );
      return [{ from, to, round: isRound(shape.part) }];
    }),
  );
}

/** Reach of the longest bearer that lies along an axis (one that lies askew has no true length there), and where its near side lies on the other one. */
export function bearerSpan(shapes: readonly Shape[], axis: 'x' | 'y'): (Span & { readonly asideMm: number }) | undefined {
  const spans = shapes
    .filter((s) => s.part.role === 'bearer')
    .flatMap((s): (Span & { readonly asideMm: number })[] => {
      const points = pointsOf(s);
      const [from, to] = reachAlong(points, axis);
      const [low, high] = reachAlong(points, axis === 'x' ? 'y' : 'x');
      return to - from < 1.5 * (high - low) && !isRound(s.part) ? [] : [{ from, to, round: isRound(s.part), asideMm: low }];
    });
  return spans.toSorted((a, b) => b.to - b.from - (a.to - a.from))[0];
}

/** Mirror images left and right of the middle: the second half needs no figures. */
export function isMirrored(spans: readonly Span[]): boolean {
  return spans.every((s) => spans.some((o) => Math.abs(o.from + s.to) < SAME_MM && Math.abs(o.to + s.from) < SAME_MM));
}

/** Rails lower than this are stretchers: knees pass over them (mm). */
const CLEAR_FROM_MM = 400;

/** Most heights between floor and underside that one chain shows. */
const MOST_LEVELS = 5;

/**
 * Heights worth a measure, from the floor up: the floor, upper and lower sides of feet, rails, aprons and bearers, the
 * underside and the height of the top. Clear heights come first; what lies nearer than `leastMm` to one already taken is
 * left out, so that a drawer's many edges do not crowd out the rest.
 */
export function levels(shapes: readonly Shape[], table: Table, leastMm: number, clearMm: number): number[] {
  const under = table.top.heightMm - table.top.thicknessMm;
  const lying = shapes
    .filter((s) => s.part.id !== table.top.partId && roleLies.has(s.part.role))
    .map((s) => ({ role: s.part.role, reach: reachAlong(pointsOf(s), 'z') }));
  const undersides = lying.filter((l) => l.role !== 'foot').map((l) => l.reach[0]);
  const others = [
    ...lying.filter((l) => l.role === 'foot').map((l) => l.reach[1]),
    ...lying.filter((l) => l.role !== 'foot').map((l) => l.reach[1]),
  ];
  const taken = [0, under, table.top.heightMm];
  const lowest = undersides.filter((z) => z > CLEAR_FROM_MM && z < under - clearMm).toSorted((a, b) => a - b)[0];
  if (lowest !== undefined) taken.push(lowest);
  for (const z of [...undersides.toSorted((a, b) => a - b), ...others]) {
    if (taken.length >= MOST_LEVELS + 3) break;
    if (z > 0 && z < under && taken.every((t) => Math.abs(t - z) >= leastMm)) taken.push(z);
  }
  return taken.sort((a, b) => a - b);
}

/** How far the base reaches at a level, along an axis: where an extension line begins. */
export function reachAtLevel(shapes: readonly Shape[], table: Table, levelMm: number, axis: 'x' | 'y'): readonly [number, number] {
  const touching = shapes.filter((shape) => {
    if (shape.part.id === table.top.partId) return levelMm > table.top.heightMm - table.top.thicknessMm - SAME_MM;
    if (roleStands.has(shape.part.role) && levelMm > SAME_MM) return false;
    const [low, high] = reachAlong(pointsOf(shape), 'z');
    return Math.abs(low - levelMm) < SAME_MM || Math.abs(high - levelMm) < SAME_MM;
  });
  const points = touching.flatMap((s) => pointsOf(s).filter((p) => s.part.id === table.top.partId || Math.abs(p[2] - levelMm) < SAME_MM));
  return points.length === 0 ? [0, 0] : reachAlong(points, axis);
}
