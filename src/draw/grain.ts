import type { Vec3 } from '../solid/index.ts';
import type { Board } from './boards.ts';
import { chance } from './chance.ts';
import { centre, cross, dot, minus, nth, plus, times, unit } from './vector.ts';

/** Faces whose normal is nearer to the grain than this show end grain: arcs instead of lines. */
const END_GRAIN_COSINE = 0.8;

export const isEndGrain = (board: Board, normal: Vec3): boolean => Math.abs(dot(board.grain.L, normal)) > END_GRAIN_COSINE;

/** Radius of ring `k` at a station along the grain: evenly spaced with a little unrest, narrowing, gently waving. */
function ringOf(board: Board, k: number, spacingMm: number): (alongMm: number) => number {
  const random = chance(`${board.key}:${k}`);
  const base = (k + 0.5 * (random() - 0.5)) * spacingMm;
  const perMm = (2 * Math.PI) / (500 + 700 * random());
  const phase = 2 * Math.PI * random();
  return (alongMm) => base + board.taper * alongMm + spacingMm * 0.16 * Math.sin(alongMm * perMm + phase);
}

/**
 * The rings of a board where they come out on one plane face, as open lines in the table's frame, clipped to the face.
 * The rings are cylinders round the pith, so lines on a face and arcs on the end grain belong together.
 * `spacingMm`: distance of the rings drawn, wider than in any tree so that a small drawing stays calm.
 */
export function grainLines(board: Board, points: readonly Vec3[], normal: Vec3, spacingMm: number): Vec3[][] {
  const lines = isEndGrain(board, normal)
    ? endGrainArcs(board, points, normal, spacingMm)
    : longGrainLines(board, points, normal, spacingMm);
  return lines.flatMap((line) => clipToFace(line, points, normal));
}

function longGrainLines(board: Board, points: readonly Vec3[], normal: Vec3, spacingMm: number): Vec3[][] {
  const { L, R, T } = board.grain;
  const along = unit(minus(L, times(normal, dot(L, normal))));
  const across = cross(normal, along);
  const origin = centre(points);
  const offset = minus(origin, board.pithMm);
  const stations = points.map((p) => dot(minus(p, origin), along));
  const [from, to] = [Math.min(...stations), Math.max(...stations)];
  const radial = ([r, t]: readonly [number, number]): number => Math.hypot(r, t);
  const inTree = (p: Vec3): readonly [number, number] => [dot(minus(p, board.pithMm), R), dot(minus(p, board.pithMm), T)];
  const most = Math.max(...points.map((p) => radial(inTree(p)))) + spacingMm;
  const least = distanceToAxis(points.map(inTree)) - spacingMm;
  const steps = Math.max(3, Math.min(22, Math.ceil((to - from) / 70)));
  const ar = dot(across, R);
  const at = dot(across, T);
  const roots = (ring: (alongMm: number) => number, a: number): readonly [number, number] | undefined => {
    const r = dot(offset, R) + a * dot(along, R);
    const t = dot(offset, T) + a * dot(along, T);
    const station = dot(offset, L) + a * dot(along, L);
    const radius = ring(station);
    const square = ar * ar + at * at;
    const half = (r * ar + t * at) / square;
    const under = half * half - (r * r + t * t - radius * radius) / square;
    return radius <= 0 || under < 0 ? undefined : [-half - Math.sqrt(under), -half + Math.sqrt(under)];
  };
  const point = (a: number, b: number): Vec3 => plus(origin, plus(times(along, a), times(across, b)));
  const lines: Vec3[][] = [];
  const drift = Math.abs(board.taper) * Math.max(Math.abs(from), Math.abs(to)) + spacingMm;
  for (let k = Math.max(1, Math.floor((least - drift) / spacingMm)); k <= Math.ceil((most + drift) / spacingMm); k += 1) {
    const ring = ringOf(board, k, spacingMm);
    let [low, high]: Vec3[][] = [[], []];
    let before: readonly [number, number] | undefined;
    const close = (): void => {
      for (const line of [low, high]) if (line !== undefined && line.length > 1) lines.push(line);
      [low, high] = [[], []];
    };
    for (let i = 0; i <= steps; i += 1) {
      const a = from + ((to - from) * i) / steps;
      const now = roots(ring, a);
      const previous = from + ((to - from) * (i - 1)) / steps;
      if (i > 0 && (now === undefined) !== (before === undefined)) {
        const tip = tipOf((x) => roots(ring, x), previous, a);
        for (const { a: x, pair } of before === undefined ? tip.toReversed() : tip) {
          low?.push(point(x, pair[0]));
          high?.push(point(x, pair[1]));
        }
      }
      if (now === undefined) close();
      else {
        low?.push(point(a, now[0]));
        high?.push(point(a, now[1]));
      }
      before = now;
    }
    close();
  }
  return lines;
}

/** Stations that round off the tip of a cathedral between one that meets the ring and one that does not, nearing the tip. */
function tipOf(
  roots: (a: number) => readonly [number, number] | undefined,
  one: number,
  other: number,
): { readonly a: number; readonly pair: readonly [number, number] }[] {
  const startsInside = roots(one) !== undefined;
  let [inside, outside] = startsInside ? [one, other] : [other, one];
  const start = inside;
  for (let i = 0; i < 16; i += 1) {
    const middle = (inside + outside) / 2;
    if (roots(middle) === undefined) outside = middle;
    else inside = middle;
  }
  return [0.5, 0.8, 0.95, 1].flatMap((share) => {
    const a = start + (inside - start) * share;
    const pair = roots(a);
    return pair === undefined ? [] : [{ a, pair: share === 1 ? ([(pair[0] + pair[1]) / 2, (pair[0] + pair[1]) / 2] as const) : pair }];
  });
}

/** Shortest way from the origin to the outline of a polygon in the plane. */
function distanceToAxis(points: readonly (readonly [number, number])[]): number {
  let least = Number.POSITIVE_INFINITY;
  points.forEach((p, i) => {
    const q = nth(points, i + 1);
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const square = dx * dx + dy * dy;
    const t = square === 0 ? 0 : Math.min(1, Math.max(0, -(p[0] * dx + p[1] * dy) / square));
    least = Math.min(least, Math.hypot(p[0] + dx * t, p[1] + dy * t));
  });
  return least;
}

function endGrainArcs(board: Board, points: readonly Vec3[], normal: Vec3, spacingMm: number): Vec3[][] {
  const { L, R, T } = board.grain;
  const polar = points.map((p): readonly [number, number] => [dot(minus(p, board.pithMm), T), dot(minus(p, board.pithMm), R)]);
  const middle = Math.atan2(
    polar.reduce((s, p) => s + p[1], 0),
    polar.reduce((s, p) => s + p[0], 0),
  );
  const turned = polar.map(([t, r]) => {
    const angle = Math.atan2(r, t) - middle;
    return Math.atan2(Math.sin(angle), Math.cos(angle));
  });
  const radii = polar.map((p) => Math.hypot(p[0], p[1]));
  const [first, last] = [Math.max(1, Math.floor(distanceToAxis(polar) / spacingMm) - 1), Math.ceil(Math.max(...radii) / spacingMm) + 1];
  const station = dot(minus(centre(points), board.pithMm), L);
  const [from, to] = [middle + Math.min(...turned), middle + Math.max(...turned)];
  const steps = Math.max(4, Math.ceil((to - from) / 0.14));
  const arcs: Vec3[][] = [];
  for (let k = first; k <= last; k += 1) {
    const radius = ringOf(board, k, spacingMm)(station);
    if (radius <= 0) continue;
    arcs.push(
      Array.from({ length: steps + 1 }, (_, i) => {
        const angle = from + ((to - from) * i) / steps;
        const p = plus(board.pithMm, plus(times(T, radius * Math.cos(angle)), times(R, radius * Math.sin(angle))));
        return plus(p, times(L, dot(minus(nth(points, 0), p), normal) / dot(L, normal)));
      }),
    );
  }
  return arcs;
}

/** The stretches of a line in the plane of a convex face that lie on the face. */
function clipToFace(line: readonly Vec3[], points: readonly Vec3[], normal: Vec3): Vec3[][] {
  const sides = points.map((p, i) => {
    const inward = unit(cross(normal, minus(nth(points, i + 1), p)));
    return { inward, offset: dot(inward, p) };
  });
  const out: Vec3[][] = [];
  let open = false;
  for (let i = 0; i + 1 < line.length; i += 1) {
    const [a, b] = [nth(line, i), nth(line, i + 1)];
    let t0 = 0;
    let t1 = 1;
    for (const { inward, offset } of sides) {
      const da = dot(inward, a) - offset;
      const db = dot(inward, b) - offset;
      if (da < 0 && db < 0) t1 = -1;
      else if (da < 0) t0 = Math.max(t0, da / (da - db));
      else if (db < 0) t1 = Math.min(t1, da / (da - db));
    }
    if (t1 <= t0) {
      open = false;
      continue;
    }
    const at = (t: number): Vec3 => plus(a, times(minus(b, a), t));
    const current = out.at(-1);
    if (open && t0 === 0 && current !== undefined) current.push(at(t1));
    else out.push([at(t0), at(t1)]);
    open = t1 === 1;
  }
  return out;
}
