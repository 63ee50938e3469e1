import { describe, expect, test } from 'vitest';
import type { Table } from '../../src/design/index.ts';
import { findLines } from '../../src/draw/hidden-lines.ts';
import { paintOrder } from '../../src/draw/paint-order.ts';
import { sharedFrame } from '../../src/draw/picture.ts';
import type { Projection } from '../../src/draw/projection.ts';
import { perspective } from '../../src/draw/projection.ts';
import { shapeOf } from '../../src/draw/shape.ts';
import { setStage } from '../../src/draw/stage.ts';
import { viewProjections } from '../../src/draw/view.ts';
import type { Vec3 } from '../../src/solid/index.ts';
import { meshOf, toTable } from '../../src/solid/index.ts';
import { computeDemo } from '../demos/load.ts';
import { legTable, roundTable, slabTable } from './tables.ts';

/**
 * The other way round: rays against all triangles.
 * @source T. Moeller, B. Trumbore, "Fast, Minimum Storage Ray/Triangle Intersection", Journal of Graphics Tools 2(1), 1997
 */
function firstHit(
  from: Vec3,
  way: Vec3,
  triangles: readonly Triangle[],
  beyond: number,
): { readonly t: number; readonly part: string } | undefined {
  let best: { t: number; part: string } | undefined;
  for (const { a, e1, e2, part } of triangles) {
    const p: Vec3 = [way[1] * e2[2] - way[2] * e2[1], way[2] * e2[0] - way[0] * e2[2], way[0] * e2[1] - way[1] * e2[0]];
    const det = e1[0] * p[0] + e1[1] * p[1] + e1[2] * p[2];
    if (Math.abs(det) < 1e-9) continue;
    const s: Vec3 = [from[0] - a[0], from[1] - a[1], from[2] - a[2]];
    const u = (s[0] * p[0] + s[1] * p[1] + s[2] * p[2]) / det;
    if (u < 0 || u > 1) continue;
    const q: Vec3 = [s[1] * e1[2] - s[2] * e1[1], s[2] * e1[0] - s[0] * e1[2], s[0] * e1[1] - s[1] * e1[0]];
    const v = (way[0] * q[0] + way[1] * q[1] + way[2] * q[2]) / det;
    if (v < 0 || u + v > 1) continue;
    const t = (e2[0] * q[0] + e2[1] * q[1] + e2[2] * q[2]) / det;
    if (t > beyond && (best === undefined || t < best.t)) best = { t, part };
  }
  return best;
}

interface Triangle {
  readonly a: Vec3;
  readonly e1: Vec3;
  readonly e2: Vec3;
  readonly part: string;
}

function trianglesOf(table: Table): Triangle[] {
  return table.parts.flatMap((part) => {
    const mesh = meshOf(part.solid, 0.05);
    const world = mesh.positions.map((p) => toTable(part.placement, p));
    const minus = (p: Vec3, q: Vec3): Vec3 => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
    return mesh.triangles.map(([i, j, k]): Triangle => {
      const [a, b, c] = [world[i], world[j], world[k]] as [Vec3, Vec3, Vec3];
      return { a, e1: minus(b, a), e2: minus(c, a), part: part.id };
    });
  });
}

const cases: readonly (readonly [string, () => Table])[] = [
  ['legs', () => legTable()],
  ['splayed', () => legTable(1800, 800, 745, 70)],
  ['round', () => roundTable()],
  ['slabs', slabTable],
];

interface Judged {
  readonly a: readonly [number, number];
  readonly b: readonly [number, number];
  readonly middle: readonly [number, number];
  readonly claimed: boolean;
  readonly seen: boolean;
}

/** Each found piece of an edge, with what two rays beside its middle say; pieces whose two sides differ are left out. */
function judge(table: Table, projection: Projection): Judged[] {
  const triangles = trianglesOf(table);
  const eye = projection.toEye([0, 0, 0]);
  const stage = setStage(
    table.parts.map((p) => shapeOf(p, 0.05)),
    projection,
  );
  return stage.edges.flatMap((edge) => {
    const whole = Math.hypot(edge.b[0] - edge.a[0], edge.b[1] - edge.a[1]);
    if (whole < 0.5) return [];
    return findLines({ ...stage, edges: [edge] }).flatMap(({ a, b, visibility }): Judged[] => {
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      if (length < 0.5) return [];
      const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const;
      const share = Math.hypot(middle[0] - edge.a[0], middle[1] - edge.a[1]) / whole;
      const depth = edge.a[2] + (edge.b[2] - edge.a[2]) * share;
      const aside = [(-(b[1] - a[1]) / length) * 0.6, ((b[0] - a[0]) / length) * 0.6] as const;
      const [left, right] = [1, -1].map((s) => {
        const at = worldOf([middle[0] + s * aside[0], middle[1] + s * aside[1], depth + 2.5], projection.project);
        return firstHit(at, eye, triangles, 0) === undefined;
      });
      return left === undefined || left !== right ? [] : [{ a, b, middle, claimed: visibility !== 'hidden', seen: left }];
    });
  });
}

/** Edges behind each other on one line of the picture are drawn as one: it is enough that one of them is seen there. */
const seenThere = (all: readonly Judged[], [x, y]: readonly [number, number]): boolean =>
  all.some(({ a, b, seen }) => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const off = Math.abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length;
    const along = ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / length;
    return seen && off < 0.05 && along > -0.5 && along < length + 0.5;
  });

describe('hidden lines agree with rays', () => {
  test.each(cases)('%s', (_, make) => {
    let compared = 0;
    const wrong: string[] = [];
    for (const [name, projection] of Object.entries(viewProjections)) {
      const all = judge(make(), projection);
      for (const one of all) {
        // The chords of a rim are there to be coincided with; a ray beside so short a line says little about it.
        if (Math.hypot(one.b[0] - one.a[0], one.b[1] - one.a[1]) < 12) continue;
        compared += 1;
        if (one.claimed === one.seen || (one.claimed && seenThere(all, one.middle))) continue;
        wrong.push(`${name} at ${one.middle.map((x) => x.toFixed(1)).join(', ')}: drawn ${one.claimed ? 'as seen' : 'as hidden'}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(20);
  });
});

/** The world point of a point of an orthographic picture: its axes are unit vectors at right angles. */
function worldOf([u, v, n]: Vec3, project: (p: Vec3) => Vec3): Vec3 {
  const columns = [project([1, 0, 0]), project([0, 1, 0]), project([0, 0, 1])];
  return columns.map((c) => c[0] * u + c[1] * v + c[2] * n) as unknown as Vec3;
}

describe('the last face painted over a point is the first one that a ray meets', () => {
  test.each(cases)('%s', (_, make) => {
    const table = make();
    const triangles = trianglesOf(table);
    const frame = sharedFrame([table]);
    const projection = perspective(frame);
    const stage = setStage(
      table.parts.map((p) => shapeOf(p, 0.05)),
      projection,
    );
    const painted = paintOrder(stage);
    let compared = 0;
    const wrong: string[] = [];
    for (const face of painted) {
      const n = face.world.length;
      const target = face.world.reduce<Vec3>((s, p) => [s[0] + p[0] / n, s[1] + p[1] / n, s[2] + p[2] / n], [0, 0, 0]);
      const way: Vec3 = [target[0] - frame.eyeMm[0], target[1] - frame.eyeMm[1], target[2] - frame.eyeMm[2]];
      const hit = firstHit(frame.eyeMm, way, triangles, 0);
      const [u, v] = projection.project(target);
      const top = painted.findLast(({ points }) =>
        points.every((p, i) => {
          const q = points[(i + 1) % points.length] ?? p;
          return (q[0] - p[0]) * (v - p[1]) - (q[1] - p[1]) * (u - p[0]) > 0;
        }),
      );
      if (top === undefined || hit === undefined) continue;
      compared += 1;
      if (top.shape.part.id !== hit.part) wrong.push(`${top.shape.part.id} over ${hit.part}`);
    }
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(10);
  });
});

/** The faces of that chamfer are warped, since two ovals of other proportions bound them, the more the coarser their chords: as in views. */
test('the arris of a chamfer under an oval is seen from below all round', () => {
  const { table } = computeDemo('marl-ockley/r1/B');
  const [a, b] = [590 - 20, 350 - 20];
  const top = table.parts.filter(({ id }) => id === 'top').map((part) => shapeOf(part, 0.5));
  const arris = findLines(setStage(top, viewProjections.underside)).filter(
    (line) => Math.abs(((line.a[0] + line.b[0]) / 2 / a) ** 2 + ((line.a[1] + line.b[1]) / 2 / b) ** 2 - 1) < 0.005,
  );
  const lengthOf = (lines: typeof arris): number => lines.reduce((sum, l) => sum + Math.hypot(l.b[0] - l.a[0], l.b[1] - l.a[1]), 0);
  expect(lengthOf(arris.filter(({ visibility }) => visibility === 'hidden'))).toBe(0);
  // @source S. Ramanujan, "Modular equations and approximations to pi" (1914): the girth of an ellipse, to 1e-5 here.
  expect(lengthOf(arris)).toBeCloseTo(Math.PI * (3 * (a + b) - Math.sqrt((3 * a + b) * (a + 3 * b))), -1);
});
