import type { Angle, Length, Length2, Length3 } from '../units/index.ts';
import type { Sawn } from './top.ts';

interface FreePartCommon {
  /** What it is, in the maker's words; shown in cutting list and drawing notes. */
  readonly name?: string;
  /** One of the two; `wood` falls back to the table's wood. */
  readonly wood?: string;
  readonly material?: string;
  /** The part's own axis along which the grain runs (before turning). */
  readonly grain: 'x' | 'y' | 'z';
  readonly sawn: Sawn;
  /** Bottom centre of the part's own box, in the table's frame. */
  readonly at: Length3;
  /** Applied in the order written, about the table's axes through `at`. */
  readonly turn: readonly { readonly about: 'x' | 'y' | 'z'; readonly by: Angle }[];
  /** Also build the mirror images across the planes x = 0 and/or y = 0; ids gain `-2`, `-3`, `-4`. */
  readonly mirror: readonly ('x' | 'y')[];
  /** Cut once; same shapes and woods share one line of the cutting list. */
  readonly role?: 'leg' | 'rail' | 'apron' | 'stretcher' | 'foot' | 'post' | 'bearer' | 'panel' | 'drawer' | 'plate' | 'other';
}

export type FreePartSpec =
  | (FreePartCommon & { readonly kind: 'box'; readonly size: Length3 })
  /** Prism between two rectangles; `shift` moves the upper one in plan. */
  | (FreePartCommon & {
      readonly kind: 'frustum';
      readonly bottom: Length2;
      readonly top: Length2;
      readonly height: Length;
      readonly shift: Length2;
    })
  /** Cylinder, or cone where the two diameters differ. */
  | (FreePartCommon & { readonly kind: 'round'; readonly diameter: Length; readonly topDiameter?: Length; readonly height: Length })
  /** Polygon in the part's own x and y, extruded along its z; bottom centre = the origin of the outline. */
  | (FreePartCommon & {
      readonly kind: 'extruded';
      readonly outline: readonly Length2[];
      readonly holes: readonly (readonly Length2[])[];
      readonly height: Length;
    });

export type JointKind =
  | 'mortise-and-tenon'
  | 'loose-tenon'
  | 'dowels'
  | 'bridle'
  | 'lap'
  | 'housing'
  | 'edge-glue'
  | 'face-glue'
  | 'end-grain-glue'
  | 'screws'
  | 'bolts'
  | 'slotted-screws'
  | 'buttons'
  | 'wedge'
  | 'rests';

/** A joint between two parts, by id or by an id with `*` at its end. */
export interface JointSpec {
  readonly kind: JointKind;
  readonly a: string;
  readonly b: string;
  /** It comes apart with a key. */
  readonly knockDown: boolean;
}

/** A state other than the one that stands in the room: a leaf out, a drawer open. */
export interface StateSpec {
  readonly says: string;
  readonly move: Readonly<Record<string, Length3>>;
  readonly without: readonly string[];
}
