import type { Overlap, Vec3 } from '../../solid/index.ts';
import { overlapOfThree, volumeMm3 } from '../../solid/index.ts';
import type { JointDraft } from '../draft.ts';
import type { Joint, Part } from '../table.ts';
import type { Pair } from './survey.ts';

/**
 * A joint with its contact: the faces that touch, or, where one part is let into the other, the mouth it goes through.
 */
export function jointOf(draft: JointDraft, pair: Pair): Joint {
  const letIn = pair.touches.length === 0;
  const contact = letIn ? pair.overlap.mouth : pair.touches.map((t) => t.outer);
  return {
    id: draft.id,
    kind: draft.kind,
    a: draft.a,
    b: draft.b,
    knockDown: draft.knockDown,
    contact,
    contactAreaMm2: letIn ? contact.reduce((sum, loop) => sum + loopAreaMm2(loop), 0) : pair.touchMm2,
    ...(draft.tenonMm === undefined ? {} : { tenonMm: draft.tenonMm }),
    from: draft.from,
  };
}

function loopAreaMm2(loop: readonly Vec3[]): number {
  const [ax, ay, az] = loop[0] ?? [0, 0, 0];
  let [x, y, z] = [0, 0, 0];
  for (let i = 1; i + 1 < loop.length; i++) {
    const [bx, by, bz] = loop[i] as Vec3;
    const [cx, cy, cz] = loop[i + 1] as Vec3;
    x += (by - ay) * (cz - az) - (bz - az) * (cy - ay);
    y += (bz - az) * (cx - ax) - (bx - ax) * (cz - az);
    z += (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  }
  return Math.hypot(x, y, z) / 2;
}

/**
 * Takes what joined parts share out of one of them, so that no wood is counted twice: half from each at a lap, else from the lighter
 * wood, else from the bigger part. Where three parts meet, what was taken out of the pairs once too often is put back.
 */
export function lettingIn(parts: readonly Part[], joints: readonly { readonly draft: JointDraft; readonly pair: Pair }[]): readonly Part[] {
  const cuts = new Map<string, NonNullable<Part['letIn']>[number][]>();
  const cut = (part: Part, joint: string, pair: Pair, share: number): void => {
    const list = cuts.get(part.id) ?? [];
    list.push({ joint, volumeMm3: pair.overlap.volumeMm3 * share, centroidMm: pair.overlap.centroidMm });
    cuts.set(part.id, list);
  };
  const done = new Set<Pair>();
  const cutFrom = new Map<Pair, { readonly part: Part; readonly joint: string }>();
  for (const { draft, pair } of joints) {
    if (!pair.overlaps || done.has(pair)) continue;
    done.add(pair);
    cutFrom.set(pair, { part: housingPart(pair), joint: draft.id });
    if (draft.kind === 'lap') {
      cut(pair.a, draft.id, pair, 0.5);
      cut(pair.b, draft.id, pair, 0.5);
    } else cut(housingPart(pair), draft.id, pair, 1);
  }
  for (const { part, joint, overlap } of sharedByThree([...done], cutFrom)) {
    const list = cuts.get(part.id) ?? [];
    list.push({ joint, volumeMm3: -overlap.volumeMm3, centroidMm: overlap.centroidMm });
    cuts.set(part.id, list);
  }
  return parts.map((part) => {
    const list = cuts.get(part.id);
    return list === undefined ? part : { ...part, letIn: list };
  });
}

/** Triples of parts of which every two were let into each other: their common body was cut once for each pair, and must be cut twice. */
function sharedByThree(
  pairs: readonly Pair[],
  cutFrom: ReadonlyMap<Pair, { readonly part: Part; readonly joint: string }>,
): readonly { readonly part: Part; readonly joint: string; readonly overlap: Omit<Overlap, 'mouth'> }[] {
  return pairs.flatMap((pair) =>
    pairs.flatMap((other) => {
      // Pairs run from the earlier part to the later: (a, b) and (a, c) with (b, c) name a triple once.
      if (other.a !== pair.a || pairs.indexOf(other) <= pairs.indexOf(pair)) return [];
      const closes = (p: Pair): boolean => (p.a === pair.b && p.b === other.b) || (p.a === other.b && p.b === pair.b);
      const cut = cutFrom.get(pair);
      if (cut === undefined || !pairs.some(closes)) return [];
      const overlap = overlapOfThree(pair.a, pair.b, other.b);
      return overlap.volumeMm3 > 0 ? [{ ...cut, overlap }] : [];
    }),
  );
}

function housingPart({ a, b }: Pair): Part {
  if (a.densityKgM3 !== b.densityKgM3) return a.densityKgM3 < b.densityKgM3 ? a : b;
  return volumeMm3(a.solid) >= volumeMm3(b.solid) ? a : b;
}
