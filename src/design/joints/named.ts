import type { Problem, SpecPath } from '../../problem/index.ts';
import { nearestName } from '../../problem/index.ts';
import { gapMm } from '../../solid/index.ts';
import type { EffectiveSpec } from '../../spec/index.ts';
import { byCodeUnit } from '../../units/index.ts';
import type { JointDraft } from '../draft.ts';
import { amountsFor, refuse } from '../refuse.ts';
import type { Part } from '../table.ts';
import { type Pair, pairOf } from './survey.ts';

/** Ids that a name stands for: itself, or with `*` at its end all that begin so. */
export const idsMatching = (pattern: string, ids: readonly string[]): readonly string[] =>
  pattern.endsWith('*') ? ids.filter((id) => id.startsWith(pattern.slice(0, -1))) : ids.filter((id) => id === pattern);

/** A name that no part has, with the nearest one that some part does. */
export function unknownPart(name: string, path: SpecPath, ids: readonly string[]): Problem {
  const wild = name.endsWith('*') ? '*' : '';
  const near = nearestName(wild === '' ? name : name.slice(0, -1), ids);
  return refuse('design/unknown-part', 'no part has this name', path, {
    found: name,
    allowed: ids.join(', '),
    ...(near === undefined ? {} : { mend: `if ${near} was meant, write ${near}${wild}` }),
  });
}

/**
 * Joints that the maker listed, one for each pair that meets. A name with `*` stands for all parts that begin so, and only those of
 * them that meet are joined; at least one pair must. Names without `*` must meet.
 */
export function namedJoints(
  spec: EffectiveSpec,
  parts: readonly Part[],
  pairs: readonly Pair[],
  problems: Problem[],
): readonly JointDraft[] {
  const ids = parts.map((p) => p.id);
  return Object.entries(spec.table.joints)
    .sort(([x], [y]) => byCodeUnit(x, y))
    .flatMap(([id, joint]) => {
      const from = ['table', 'joints', id];
      const ends = (['a', 'b'] as const).map((end) => {
        const found = idsMatching(joint[end], ids);
        if (found.length === 0) problems.push(unknownPart(joint[end], [...from, end], ids));
        return found;
      });
      const [as = [], bs = []] = ends;
      if (as.length === 0 || bs.length === 0) return [];
      const meeting = combinations(as, bs).filter(([a, b]) => pairOf(pairs, a, b) !== undefined);
      if (meeting.length === 0) problems.push(noContact(spec, parts, as, bs, from));
      return meeting.map(
        ([a, b], k): JointDraft => ({ id: k === 0 ? id : `${id}-${k + 1}`, kind: joint.kind, a, b, knockDown: joint.knockDown, from }),
      );
    });
}

/** Every pair of different parts once. */
function combinations(as: readonly string[], bs: readonly string[]): readonly (readonly [string, string])[] {
  const seen = new Set<string>();
  return as.flatMap((a) =>
    bs.flatMap((b) => {
      const key = a < b ? `${a} ${b}` : `${b} ${a}`;
      if (a === b || seen.has(key)) return [];
      seen.add(key);
      return [[a, b] as const];
    }),
  );
}

/** No pair of a joint meets: said with the smallest distance. */
export function noContact(
  spec: EffectiveSpec,
  parts: readonly Part[],
  as: readonly string[],
  bs: readonly string[],
  path: SpecPath,
): Problem {
  const partOf = (id: string): Part => parts.find((p) => p.id === id) as Part;
  const nearest = combinations(as, bs)
    .map(([a, b]) => ({ a, b, mm: gapMm(partOf(a), partOf(b)) }))
    .sort((x, y) => x.mm - y.mm)[0];
  if (nearest === undefined) {
    return refuse('design/joint-without-contact', 'a joint names one part twice', path, { found: as.join(', ') });
  }
  const { a, b, mm } = nearest;
  const apart = mm > 0 ? `they are ${amountsFor(spec).length(mm)} apart` : 'they meet along an edge or a round only';
  return refuse('design/joint-without-contact', `${a} and ${b} are to be joined, but do not touch`, path, {
    found: apart,
    mend: mm > 0 ? 'move or lengthen one of them until their faces meet' : 'give one of them a flat, or let it into the other',
    also: [
      { path: partOf(a).from, note: a },
      { path: partOf(b).from, note: b },
    ],
  });
}
