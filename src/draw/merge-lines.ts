import type { Vec2 } from '../solid/index.ts';
import type { SeenLine, Stretches, Visibility } from './hidden-lines.ts';
import { join, without } from './hidden-lines.ts';

/** An open or closed run of points drawn in one go, so that dashes go on round corners. */
export interface Polyline {
  readonly visibility: Visibility;
  readonly points: readonly Vec2[];
}

interface Track {
  readonly origin: Vec2;
  readonly along: Vec2;
  readonly byKind: Record<Visibility, (readonly [number, number])[]>;
}

/** Two lines are one when their directions differ by less than this (rad) and they lie nearer than `tolerance`. */
const ANGLE_RAD = 2e-4;

/** One number for a direction and an offset: offsets stay far below two million steps of the tolerance. */
const keyOf = (angle: number, offset: number): number => angle * 4_194_304 + offset;

/** Joined as a visible or hidden line goes: the heavier wins where lines coincide. */
function tracksOf(lines: readonly SeenLine[], tolerance: number): Track[] {
  const tracks: Track[] = [];
  const index = new Map<number, Track>();
  for (const { a, b, visibility } of lines) {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length < tolerance / 5) continue;
    const turned = b[0] < a[0] - 1e-9 || (Math.abs(b[0] - a[0]) <= 1e-9 && b[1] < a[1]);
    const [p, q] = turned ? [b, a] : [a, b];
    const along: Vec2 = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
    const angle = Math.atan2(along[1], along[0]);
    const off = -along[1] * p[0] + along[0] * p[1];
    const [ia, io] = [Math.floor(angle / ANGLE_RAD), Math.floor(off / tolerance)];
    let track: Track | undefined;
    for (let da = -1; da <= 1; da += 1) for (let d = -1; d <= 1; d += 1) track ??= index.get(keyOf(ia + da, io + d));
    if (track === undefined) {
      track = { origin: p, along, byKind: { outline: [], edge: [], hidden: [] } };
      index.set(keyOf(ia, io), track);
      tracks.push(track);
    }
    const at = ([x, y]: Vec2): number => (x - track.origin[0]) * track.along[0] + (y - track.origin[1]) * track.along[1];
    track.byKind[visibility].push([at(p), at(q)]);
  }
  return tracks;
}

/**
 * Collinear pieces become one line, and where lines coincide the heaviest alone is drawn: outline, then edge, then hidden.
 * `tolerance` is in picture units.
 */
export function mergeLines(lines: readonly SeenLine[], tolerance: number): Polyline[] {
  const out: SeenLine[] = [];
  for (const { origin, along, byKind } of tracksOf(lines, tolerance)) {
    const point = (t: number): Vec2 => [origin[0] + along[0] * t, origin[1] + along[1] * t];
    let taken: Stretches = [];
    for (const visibility of ['outline', 'edge', 'hidden'] as const) {
      const own = join(byKind[visibility], tolerance);
      for (const [s, e] of without(own, taken, tolerance / 2)) out.push({ a: point(s), b: point(e), visibility });
      taken = join([...taken, ...own], tolerance);
    }
  }
  return chain(out, tolerance);
}

/** Strings lines of one kind together where exactly two of them meet. */
function chain(lines: readonly SeenLine[], tolerance: number): Polyline[] {
  const key = (p: Vec2, visibility: Visibility): string =>
    `${visibility}${Math.round(p[0] / (2 * tolerance))},${Math.round(p[1] / (2 * tolerance))}`;
  const ends = new Map<string, number[]>();
  lines.forEach((line, i) => {
    for (const p of [line.a, line.b]) {
      const k = key(p, line.visibility);
      ends.set(k, [...(ends.get(k) ?? []), i]);
    }
  });
  const used = new Set<number>();
  const follow = (start: number, from: Vec2): Vec2[] => {
    const run: Vec2[] = [];
    let current = start;
    let at = from;
    for (;;) {
      const visibility = lines[current]?.visibility;
      if (visibility === undefined) return run;
      const meeting = ends.get(key(at, visibility)) ?? [];
      const next = meeting.length === 2 ? meeting.find((i) => i !== current && !used.has(i)) : undefined;
      const line = next === undefined ? undefined : lines[next];
      if (next === undefined || line === undefined) return run;
      used.add(next);
      at = key(line.a, visibility) === key(at, visibility) ? line.b : line.a;
      run.push(at);
      current = next;
    }
  };
  const out: Polyline[] = [];
  lines.forEach((line, i) => {
    if (used.has(i)) return;
    used.add(i);
    const ahead = follow(i, line.b);
    const back = follow(i, line.a);
    out.push({ visibility: line.visibility, points: [...back.toReversed(), line.a, line.b, ...ahead] });
  });
  return out;
}
