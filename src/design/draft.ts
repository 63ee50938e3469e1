import type { SpecPath } from '../problem/index.ts';
import type { Placement, Solid, Vec3 } from '../solid/index.ts';
import type { JointKind, Sawn } from '../spec/index.ts';
import type { Part, PartRole } from './table.ts';

/** A part before its size, type and grain frame are worked out. */
export interface PartDraft {
  readonly id: string;
  readonly role: PartRole;
  readonly name: string;
  /** Key in the woods, or in the materials where `isMaterial`. */
  readonly stuff: string;
  readonly isMaterial?: boolean;
  readonly solid: Solid;
  readonly placement: Placement;
  /** Along the grain, in the table's frame. */
  readonly grainAlong: Vec3;
  /** Across the grain, over the wider face; need not be square to the grain. */
  readonly across: Vec3;
  readonly sawn: Sawn;
  /** Width of a board in the glue-up, where the maker said one. */
  readonly boardWidthMm?: number;
  readonly features: readonly Part['features'][number][];
  readonly from: SpecPath;
}

/** A joint before its contact is found. */
export interface JointDraft {
  readonly id: string;
  readonly kind: JointKind;
  readonly a: string;
  readonly b: string;
  readonly knockDown: boolean;
  readonly tenonMm?: number;
  readonly from: SpecPath;
}

/** What a kind of base is made of. */
export interface BaseDraft {
  readonly parts: readonly PartDraft[];
  readonly joints: readonly JointDraft[];
}

/** A joint that a kind of base makes of itself: both parts' names without their folder, joined. */
export const ownJoint = (kind: JointKind, a: string, b: string, from: SpecPath, tenonMm?: number): JointDraft => ({
  id: `${stem(a)}+${stem(b)}`,
  kind,
  a,
  b,
  knockDown: false,
  ...(tenonMm === undefined ? {} : { tenonMm }),
  from,
});

const stem = (id: string): string => id.slice(id.indexOf('/') + 1);
