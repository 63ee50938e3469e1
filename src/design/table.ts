import type { Problem, SpecPath } from '../problem/index.ts';
import type { Outline, Placement, Solid, Vec3 } from '../solid/index.ts';
import type { JointKind, Sawn } from '../spec/index.ts';

/** Directions in the table's frame: along the grain, radial, tangential. Right-handed unit vectors. */
export interface GrainFrame {
  readonly L: Vec3;
  readonly R: Vec3;
  readonly T: Vec3;
}

export type PartRole =
  | 'top'
  | 'leg'
  | 'apron'
  | 'stretcher'
  | 'slab'
  | 'post'
  | 'foot'
  | 'bearer'
  | 'rail'
  | 'panel'
  | 'drawer'
  | 'plate'
  | 'other';

/** One piece as it stands in the finished table. */
export interface Part {
  /** Stable path such as `base/leg-front-left`, `top`, `parts/tray`. */
  readonly id: string;
  /** Same finished shape and wood: one line of the cutting list. */
  readonly type: string;
  readonly role: PartRole;
  /** Text key of the name (`part.leg`), or the maker's own words. */
  readonly name: string;
  /** Key in `library.woods`, or absent for a material. */
  readonly wood?: string;
  /** Key in `library.materials`. */
  readonly material?: string;
  readonly densityKgM3: number;
  readonly solid: Solid;
  readonly placement: Placement;
  /** Absent for materials without grain. */
  readonly grain?: GrainFrame;
  readonly sawn: Sawn;
  /** Smallest box along the grain frame: length along L, then the wider and the thinner of the other two. */
  readonly sizeMm: { readonly length: number; readonly width: number; readonly thickness: number };
  /** Boards glued edge to edge across the width: 1 for a single piece. */
  readonly boards: number;
  /** Tapered, splayed, round ...: what the workshop does beyond squaring. */
  readonly features: readonly ('tapered' | 'splayed' | 'round' | 'octagonal' | 'chamfered' | 'glued-up' | 'shaped')[];
  /** Material cut away where another part is let in; in the table's frame. `solid` is the part before that: use `partVolume`. */
  readonly letIn?: readonly { readonly joint: string; readonly volumeMm3: number; readonly centroidMm: Vec3 }[];
  /** Where the maker wrote it. */
  readonly from: SpecPath;
}

export interface Joint {
  readonly id: string;
  readonly kind: JointKind;
  readonly a: string;
  readonly b: string;
  readonly knockDown: boolean;
  /** Contact polygon in the table's frame, planar; may be several. */
  readonly contact: readonly (readonly Vec3[])[];
  readonly contactAreaMm2: number;
  /** Length of tenon or embedment that is cut beyond the shoulder, where there is one. */
  readonly tenonMm?: number;
  readonly from: SpecPath;
}

/** How the top is held; points in plan where fixings sit. */
export interface Fixing {
  readonly kind: 'buttons' | 'slotted-screws' | 'figure-eights' | 'slotted-plates' | 'rigid' | 'loose';
  readonly pointsMm: readonly { readonly xMm: number; readonly yMm: number; readonly slotAlong: 'x' | 'y' | 'none' }[];
  readonly from: SpecPath;
}

/** A state of the table: which parts moved where, which are gone. The first is always `standing`. */
export interface TableState {
  readonly id: string;
  readonly says: string;
  readonly moved: Readonly<Record<string, Vec3>>;
  readonly without: readonly string[];
}

export interface Table {
  /** The top first, then the base, then free parts, each in a stable order. */
  readonly parts: readonly Part[];
  readonly joints: readonly Joint[];
  readonly fixing: Fixing;
  readonly states: readonly TableState[];
  readonly top: {
    readonly partId: string;
    readonly shape: 'rectangle' | 'round' | 'oval';
    readonly outline: Outline;
    readonly thicknessMm: number;
    /** Overall height of the table. */
    readonly heightMm: number;
    /** Dimension across the grain, for seasonal movement. */
    readonly acrossGrainMm: number;
    readonly grainAlong: 'x' | 'y';
    readonly boardWidthMm: number;
    readonly underChamfer?: { readonly inMm: number; readonly upMm: number };
  };
  readonly overallMm: { readonly length: number; readonly width: number; readonly height: number };
  /** Rounded volumes, plan shadows and the like that several rooms need are computed by `solid/`, not kept here. */
  readonly baseKind: 'legs' | 'slab-ends' | 'pedestal' | 'parts';
}

export interface DesignResult {
  /** Absent when an error makes the table impossible. */
  readonly table?: Table;
  readonly problems: readonly Problem[];
}
