import type { Problem } from '../../problem/index.ts';
import { floorContact, gapMm, highestMm, lowestMm, TOUCH_MM } from '../../solid/index.ts';
import type { EffectiveSpec } from '../../spec/index.ts';
import { amountsFor, refuse, warn } from '../refuse.ts';
import type { Part } from '../table.ts';
import type { Pair } from './survey.ts';
import type { Support } from './top-contact.ts';

/** Does every part stand on the floor or reach it through others that it touches? Is any below the floor, or on an edge? */
export function checkFloor(spec: EffectiveSpec, parts: readonly Part[], pairs: readonly Pair[]): readonly Problem[] {
  const { length } = amountsFor(spec);
  const problems: Problem[] = [];
  for (const part of parts) {
    const low = lowestMm(part.solid, part.placement);
    if (low < -TOUCH_MM) {
      problems.push(
        refuse('design/below-floor', `${part.id} reaches ${length(-low)} below the floor`, part.from, {
          found: `lowest point at ${length(low)}`,
          allowed: '0 or higher',
          mend: `raise it by ${length(-low)}`,
        }),
      );
    }
  }
  const standing = standingParts(parts);
  if (standing.length === 0) {
    const low = Math.min(...parts.map((p) => lowestMm(p.solid, p.placement)));
    if (low > 0) {
      problems.push(
        refuse('design/not-on-floor', 'nothing of this table touches the floor', ['table', 'base'], {
          found: `the lowest part ends ${length(low)} above it`,
          mend: `lengthen or lower the base by ${length(low)}`,
        }),
      );
    }
    return problems;
  }
  for (const part of standing) {
    if (floorContact(part.solid, part.placement).some((c) => c.kind === 'ellipse' || c.points.length > 2)) continue;
    problems.push(
      warn('design/foot-not-flat', `${part.id} stands on an edge or a point`, part.from, {
        mend: 'cut its foot level, or use a prism between two rectangles with a shift, which stands flat',
      }),
    );
  }
  return [...problems, ...endsAboveFloor(spec, parts, pairs), ...hanging(spec, parts, pairs, standing)];
}

/** Farthest above the floor that the end of a leg looks like a slip and not like a bracket, mm. */
const SHORT_LEG_MM = 30;

/** Legs and feet that end just above the floor with nothing under them, while others stand. */
function endsAboveFloor(spec: EffectiveSpec, parts: readonly Part[], pairs: readonly Pair[]): readonly Problem[] {
  const { length } = amountsFor(spec);
  const restsOn = (part: Part): boolean =>
    pairs.some(({ a, b, touches, overlaps }) => {
      if (a.id !== part.id && b.id !== part.id) return false;
      const down = a.id === part.id ? -1 : 1;
      return overlaps || touches.some((t) => t.normal[2] * down > 0.7);
    });
  return parts.flatMap((part) => {
    const low = lowestMm(part.solid, part.placement);
    const isFoot = part.role === 'leg' || part.role === 'slab' || part.role === 'foot';
    if (!isFoot || low <= TOUCH_MM || low > SHORT_LEG_MM || restsOn(part)) return [];
    return [
      warn('design/foot-above-floor', `${part.id} ends ${length(low)} above the floor`, part.from, {
        found: `lowest point at ${length(low)}`,
        mend: `lengthen or lower it by ${length(low)}, or put a foot under it`,
      }),
    ];
  });
}

/** All parts that can be reached from some of them through contact. */
export function reachedFrom(start: readonly Part[], pairs: readonly Pair[]): ReadonlySet<string> {
  const reached = new Set(start.map((p) => p.id));
  for (let grown = -1; grown !== reached.size; ) {
    grown = reached.size;
    for (const { a, b } of pairs) {
      if (reached.has(a.id)) reached.add(b.id);
      else if (reached.has(b.id)) reached.add(a.id);
    }
  }
  return reached;
}

/** Parts that stand on the floor. */
export const standingParts = (parts: readonly Part[]): readonly Part[] =>
  parts.filter((p) => floorContact(p.solid, p.placement).length > 0);

/** Parts that neither stand nor touch what stands; the top has a check of its own, and what hangs under it counts as carried. */
function hanging(spec: EffectiveSpec, parts: readonly Part[], pairs: readonly Pair[], standing: readonly Part[]): readonly Problem[] {
  const carried = reachedFrom([...standing, ...parts.filter((p) => p.role === 'top')], pairs);
  return parts
    .filter((p) => !carried.has(p.id))
    .map((part) => {
      const nearest = parts
        .filter((other) => carried.has(other.id))
        .map((other) => ({ other, mm: gapMm(part, other) }))
        .sort((x, y) => x.mm - y.mm)[0];
      const found =
        nearest === undefined ? undefined : `${amountsFor(spec).length(nearest.mm)} from ${nearest.other.id}, the nearest part that stands`;
      return refuse('design/hangs-in-air', `${part.id} hangs in the air: nothing that it touches reaches the floor`, part.from, {
        ...(found === undefined ? {} : { found }),
        mend: 'move or lengthen it until it meets another part',
      });
    });
}

/** Does anything carry the top, and does nothing reach into it? */
export function checkTopCarried(
  spec: EffectiveSpec,
  parts: readonly Part[],
  pairs: readonly Pair[],
  joined: (a: string, b: string) => boolean,
): readonly Problem[] {
  const { length, volume } = amountsFor(spec);
  const top = parts[0];
  if (top === undefined) return [];
  const undersideMm = lowestMm(top.solid, top.placement);
  const into = pairs.filter((p) => p.a.id === top.id && p.overlaps && !joined(p.a.id, p.b.id));
  const problems = into.map(({ b, overlap }) => {
    const over = highestMm(b.solid, b.placement) - undersideMm;
    return refuse('design/reaches-into-top', `${b.id} reaches ${length(over)} above the underside of the top`, b.from, {
      found: `${volume(overlap.volumeMm3)} in the same place`,
      allowed: `up to ${length(undersideMm)} above the floor`,
      mend: `shorten or lower it by ${length(over)}`,
    });
  });
  const standing = standingParts(parts);
  // Where nothing stands, that is said elsewhere: what touches the top then carries it.
  const carried = reachedFrom(standing.length > 0 ? standing : parts.slice(1), pairs);
  if (carried.has(top.id) || into.length > 0) return problems;
  // What only hangs under the top does not count.
  const base = parts.slice(1).filter((p) => carried.has(p.id));
  const below = base.map((p) => ({ part: p, mm: highestMm(p.solid, p.placement) }));
  const highest = below.filter((h) => h.mm <= undersideMm + TOUCH_MM).sort((x, y) => y.mm - x.mm)[0];
  if (highest === undefined) {
    return [
      ...problems,
      refuse('design/top-not-carried', 'nothing carries the top', ['table', 'base'], { mend: 'add a base or free parts under it' }),
    ];
  }
  const gap = undersideMm - highest.mm;
  const found =
    gap > TOUCH_MM
      ? `${highest.part.id}, the highest part, ends ${length(gap)} below it`
      : `${highest.part.id} touches it along an edge only`;
  return [
    ...problems,
    refuse('design/top-not-carried', 'the base does not reach the underside of the top', highest.part.from, {
      found,
      allowed: `${length(undersideMm)} above the floor`,
      ...(gap > TOUCH_MM ? { mend: `raise or lengthen it by ${length(gap)}` } : {}),
    }),
  ];
}

/** Shared material without a joint: an error. Touching without one: a warning. What lies under the top is held by the fixing. */
export function checkUnjoined(
  spec: EffectiveSpec,
  top: Part,
  pairs: readonly Pair[],
  supports: readonly Support[],
  joined: (a: string, b: string) => boolean,
): readonly Problem[] {
  const { volume } = amountsFor(spec);
  return pairs.flatMap(({ a, b, overlap, overlaps }) => {
    const isUnderTop = a.id === top.id && (overlaps || supports.some((s) => s.part.id === b.id));
    if (joined(a.id, b.id) || isUnderTop) return [];
    const also = [{ path: b.from, note: b.id }];
    const mend = `joints: { ${jointName(a, b)}: { kind: mortise-and-tenon, a: ${a.id}, b: ${b.id} } }`;
    if (overlaps) {
      return [
        refuse('design/parts-overlap', `${a.id} and ${b.id} are in the same place, and no joint lets one into the other`, a.from, {
          found: `${volume(overlap.volumeMm3)} shared`,
          allowed: '1 mm3 without a joint',
          mend: `move one of them, or list the joint: ${mend}`,
          also,
        }),
      ];
    }
    return [
      warn('design/touch-without-joint', `${a.id} and ${b.id} touch, and no joint holds them`, a.from, {
        mend: `list how they are joined, or that one rests on the other: ${mend}`,
        also,
      }),
    ];
  });
}

const jointName = (a: Part, b: Part): string => [a.id, b.id].map((id) => id.slice(id.indexOf('/') + 1)).join('-');
