import type { Problem } from '../../problem/index.ts';
import type { Vec2 } from '../../solid/index.ts';
import { hull, isInLoop } from '../../solid/index.ts';
import type { EffectiveSpec } from '../../spec/index.ts';
import { warn } from '../refuse.ts';
import type { Fixing, Table } from '../table.ts';
import type { Support } from './top-contact.ts';

/** Farthest that two fixings stand apart along a rail, and the first from its end, mm. Common practice. */
const APART_MM = 300;
const FROM_END_MM = 60;
/** A contact at least this long and twice as long as wide counts as a rail; a wide one gets four fixings, a small one gets one. */
const RAIL_MM = 200;
const WIDE_MM = 180;
/** Share of a wide plate's half size at which its four fixings stand. Common practice. */
const WIDE_SHARE = 0.7;
/** Beside the middle line across the grain a fixing can be fast: that is the fixed line from which the top moves. */
const FIXED_LINE_MM = 20;

interface Run {
  readonly support: Support;
  readonly kind: 'rail' | 'wide' | 'spot';
  readonly centre: Vec2;
  readonly along: Vec2;
  readonly lengthMm: number;
  readonly widthMm: number;
}

/** Smallest rectangle around a contact: one side lies along an edge of its hull. */
function runOf(support: Support): Run {
  const points = hull(support.outer);
  let best: Omit<Run, 'support' | 'kind'> | undefined;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length] as Vec2;
    const size = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (size === 0) return;
    const u: Vec2 = [(q[0] - p[0]) / size, (q[1] - p[1]) / size];
    const us = points.map((r) => r[0] * u[0] + r[1] * u[1]);
    const vs = points.map((r) => r[1] * u[0] - r[0] * u[1]);
    const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
    const [lu, lv] = [u1 - u0, v1 - v0];
    if (best !== undefined && best.lengthMm * best.widthMm <= lu * lv) return;
    const [mu, mv] = [(u0 + u1) / 2, (v0 + v1) / 2];
    const centre: Vec2 = [mu * u[0] - mv * u[1], mu * u[1] + mv * u[0]];
    const along: Vec2 = lu >= lv ? u : [-u[1], u[0]];
    best = { centre, along, lengthMm: Math.max(lu, lv), widthMm: Math.min(lu, lv) };
  });
  const run = best ?? { centre: support.outer[0] ?? [0, 0], along: [1, 0], lengthMm: 0, widthMm: 0 };
  const isRail = run.lengthMm >= RAIL_MM && run.lengthMm >= 2 * run.widthMm;
  return { ...run, support, kind: isRail ? 'rail' : run.widthMm >= WIDE_MM ? 'wide' : 'spot' };
}

const usualCount = (run: Run): number =>
  run.kind === 'spot' ? 1 : run.kind === 'wide' ? 4 : Math.ceil((run.lengthMm - 2 * FROM_END_MM) / APART_MM) + 1;

/** Points of one contact; a plate's stand at its quarters, a rail's evenly along its middle. */
function pointsOn(run: Run, count: number): readonly Vec2[] {
  const at = (u: number, v: number): Vec2 => [
    run.centre[0] + u * run.along[0] - v * run.along[1],
    run.centre[1] + u * run.along[1] + v * run.along[0],
  ];
  const lies = (p: Vec2): boolean => isInLoop(run.support.outer, p) && !run.support.holes.some((h) => isInLoop(h, p));
  if (run.kind === 'wide' && count === 4) {
    const r = Math.min(run.lengthMm, run.widthMm) / 2;
    const d = (r * WIDE_SHARE) / Math.SQRT2;
    return [at(-d, -d), at(d, -d), at(d, d), at(-d, d)].filter(lies);
  }
  if (count === 1) return [at(0, 0)].filter(lies);
  const reach = run.lengthMm / 2 - Math.min(FROM_END_MM, run.lengthMm / 4);
  return [...Array(count).keys()].map((k) => at(-reach + (2 * reach * k) / (count - 1), 0)).filter(lies);
}

/** Shares a count out by length: everyone gets one while they last, the rest by largest remainder. */
function shareOut(runs: readonly Run[], count: number): readonly number[] {
  const order = runs.map((_, i) => i).sort((a, b) => (runs[b] as Run).lengthMm - (runs[a] as Run).lengthMm || a - b);
  if (count <= runs.length) return runs.map((_, i) => (order.indexOf(i) < count ? 1 : 0));
  const total = runs.reduce((sum, r) => sum + r.lengthMm, 0);
  const rest = count - runs.length;
  const wanted = runs.map((r) => (rest * r.lengthMm) / total);
  const shares = wanted.map((w) => 1 + Math.floor(w));
  const byRemainder = [...order].sort((a, b) => ((wanted[b] as number) % 1) - ((wanted[a] as number) % 1));
  let left = count - shares.reduce((sum, s) => sum + s, 0);
  for (const i of byRemainder) {
    if (left <= 0) break;
    shares[i] = (shares[i] as number) + 1;
    left--;
  }
  return shares;
}

/**
 * Where the top is held: along rails, bearers and slabs at most every 300 mm, at plates four times, at legs only where there is nothing
 * longer. Every point lies where the underside really touches. Slots run across the top's grain; by the middle line a fixing is fast.
 */
export function fixTop(spec: EffectiveSpec, top: Table['top'], supports: readonly Support[], problems: Problem[]): Fixing {
  const { kind, count } = spec.table.fixing;
  const from = ['table', 'fixing'];
  if (kind === 'loose') return { kind, pointsMm: [], from };
  const all = supports.map(runOf);
  const longer = all.filter((r) => r.kind !== 'spot');
  const runs = longer.length > 0 ? longer : all;
  const counts = count === undefined ? runs.map(usualCount) : shareOut(runs, count);
  const points = runs.flatMap((run, i) => pointsOn(run, counts[i] ?? 0));
  if (count !== undefined && points.length !== count) {
    problems.push(
      warn(
        'design/fixings-not-placed',
        `only ${points.length} of the fixings find a place where the base touches the top`,
        [...from, 'count'],
        {
          found: String(count),
          allowed: `at most ${points.length}`,
        },
      ),
    );
  }
  const slotAlong = top.grainAlong === 'x' ? 'y' : 'x';
  const across = (p: Vec2): number => (slotAlong === 'y' ? p[1] : p[0]);
  return {
    kind,
    from,
    pointsMm: points.map((p) => ({
      xMm: p[0],
      yMm: p[1],
      slotAlong: kind === 'rigid' || Math.abs(across(p)) <= FIXED_LINE_MM ? ('none' as const) : slotAlong,
    })),
  };
}
