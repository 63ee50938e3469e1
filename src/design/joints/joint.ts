import type { Vec3 } from '../../solid/index.ts';
import { volumeMm3 } from '../../solid/index.ts';
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
 * wood, else from the bigger part. Places where three parts meet are taken out pair by pair.
 */
export function lettingIn(parts: readonly Part[], joints: readonly { readonly draft: JointDraft; readonly pair: Pair }[]): readonly Part[] {
  const cuts = new Map<string, NonNullable<Part['letIn']>[number][]>();
  const cut = (part: Part, joint: string, pair: Pair, share: number): void => {
    const list = cuts.get(part.id) ?? [];
    list.push({ joint, volumeMm3: pair.overlap.volumeMm3 * share, centroidMm: pair.overlap.centroidMm });
    cuts.set(part.id, list);
  };
  const done = new Set<Pair>();
  for (const { draft, pair } of joints) {
    if (!pair.overlaps || done.has(pair)) continue;
    done.add(pair);
    if (draft.kind === 'lap') {
      cut(pair.a, draft.id, pair, 0.5);
      cut(pair.b, draft.id, pair, 0.5);
    } else cut(housingPart(pair), draft.id, pair, 1);
  }
  return parts.map((part) => {
    const list = cuts.get(part.id);
    return list === undefined ? part : { ...part, letIn: list };
  });
}

function housingPart({ a, b }: Pair): Part {
  if (a.densityKgM3 !== b.densityKgM3) return a.densityKgM3 < b.densityKgM3 ? a : b;
  return volumeMm3(a.solid) >= volumeMm3(b.solid) ? a : b;
}
