import type { Length } from '../units/index.ts';

/** Overhangs run from the top's outline to the OUTER face of the leg. */
export interface LegsSpec {
  readonly shape: 'square' | 'round';
  /** Section at the head: side of the square or diameter. */
  readonly size: Length;
  /** Section at the floor; absent means straight. */
  readonly footSize?: Length;
  /** Which faces taper: the two inner ones (outer faces stay flat) or all four. */
  readonly taper: 'inside' | 'all';
  /** Length below the top that stays untapered. */
  readonly straightFor?: Length;
  readonly endOverhang: Length;
  readonly sideOverhang: Length;
  /** Overhang of the foot at the floor where the legs splay; absent means as at the head (upright). */
  readonly footEndOverhang?: Length;
  readonly footSideOverhang?: Length;
  readonly wood?: string;
}

export interface ApronsSpec {
  readonly height: Length;
  readonly thickness: Length;
  /** From the outer face of the legs to the outer face of the apron. */
  readonly setBack: Length;
  readonly sides: 'both' | 'long' | 'ends';
  /** Gap between the underside of the top and the apron. */
  readonly below: Length;
  readonly wood?: string;
}

export interface StretchersSpec {
  readonly height: Length;
  readonly thickness: Length;
  /** Height of the underside above the floor. */
  readonly at: Length;
  /** `box`: four; `ends`: two, across; `h`: two across and one between them, along. */
  readonly plan: 'box' | 'ends' | 'h';
  readonly wood?: string;
}

export interface LegsBase {
  readonly kind: 'legs';
  readonly legs: LegsSpec;
  readonly aprons?: ApronsSpec;
  readonly stretchers?: StretchersSpec;
}

export interface SlabEndsBase {
  readonly kind: 'slab-ends';
  readonly slabs: {
    /** Along y. */
    readonly width: Length;
    readonly thickness: Length;
    /** From the end of the top to the outer face of the slab. */
    readonly endOverhang: Length;
    /** Width at the floor where the slab tapers or spreads. */
    readonly footWidth?: Length;
    readonly wood?: string;
    readonly boardWidth?: Length;
  };
  readonly stretcher?: {
    readonly height: Length;
    readonly thickness: Length;
    /** Height of the underside above the floor. */
    readonly at: Length;
    readonly wood?: string;
  };
}

export interface PedestalBase {
  readonly kind: 'pedestal';
  readonly post: {
    readonly shape: 'round' | 'square' | 'octagon';
    /** Diameter, side, or width across flats, at the head. */
    readonly size: Length;
    readonly footSize?: Length;
    readonly wood?: string;
  };
  readonly foot:
    | {
        readonly kind: 'disc';
        readonly diameter: Length;
        readonly thickness: Length;
        readonly topDiameter?: Length;
        readonly wood?: string;
      }
    | {
        readonly kind: 'cross';
        /** Tip to tip. */
        readonly span: Length;
        readonly width: Length;
        readonly height: Length;
        /** Height at the tips where the arms fall; absent means level. */
        readonly tipHeight?: Length;
        /** Arms along x and y, or turned by 45 degrees. */
        readonly turned: boolean;
        readonly wood?: string;
      };
  /** What carries the top: crossed bearers, or a round plate. */
  readonly head:
    | { readonly kind: 'cross'; readonly span: Length; readonly width: Length; readonly height: Length; readonly wood?: string }
    | { readonly kind: 'disc'; readonly diameter: Length; readonly thickness: Length; readonly wood?: string };
  /** Steel plate let into the underside of the foot, flush: adds weight, not height. */
  readonly ballast?: { readonly kind: 'disc'; readonly diameter: Length; readonly thickness: Length; readonly material: string };
}

/** Nothing but free parts. */
export interface PartsBase {
  readonly kind: 'parts';
}

export type BaseSpec = LegsBase | SlabEndsBase | PedestalBase | PartsBase;
