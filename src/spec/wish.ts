import type { DecimalText, Force, Length, Mass, Percent } from '../units/index.ts';
import type { Side } from './room.ts';

/**
 * What is measured for a wish. `judgement` is taste: the maker answers it per variant.
 * "enough", "at the limit" (within 3 % of the target) and "not enough" are decided in assess/wishes.ts.
 */
export type MeasureSpec =
  /** Places of `width` along the sides and ends with no leg in them up to `kneeHeight`; `straddled` counts places with a leg between the knees. */
  | {
      readonly kind: 'places';
      readonly width: Length;
      readonly kneeHeight: Length;
      readonly ends: number;
      readonly straddled: boolean;
      readonly atLeast: number;
    }
  /** Free floor from the table's edge to the wall or obstacle on a side. */
  | { readonly kind: 'clearance'; readonly side: Side; readonly atLeast: Length }
  /** Lowest underside of rails, aprons and top where chairs go in. */
  | { readonly kind: 'clear-height'; readonly atLeast: Length }
  /** Shortest way in plan, inward from the named edges of the top, to any part of the base between two heights. */
  | {
      readonly kind: 'inset';
      readonly from: 'rim' | 'ends' | 'sides' | Side;
      readonly above: Length;
      readonly below?: Length;
      readonly atLeast: Length;
    }
  /** Height of a free box of this width and depth, its front at the front edge of the top. */
  | { readonly kind: 'knee-space'; readonly wide: Length; readonly deep: Length; readonly atLeast: Length }
  /** Lowest vertical load that begins to tip the table, `inset` inside the named edge. */
  | { readonly kind: 'tipping-load'; readonly at: 'worst' | 'ends' | 'sides' | 'corners'; readonly inset: Length; readonly atLeast: Force }
  | { readonly kind: 'push'; readonly atLeast: Force }
  | { readonly kind: 'open'; readonly seenFrom: 'front' | 'side'; readonly atLeast: Percent }
  | { readonly kind: 'size'; readonly of: 'length' | 'width' | 'height' | 'thickness'; readonly atLeast?: Length; readonly atMost?: Length }
  | { readonly kind: 'mass'; readonly atMost: Mass }
  /** Heaviest or largest single piece after taking apart goes through the way in. */
  | { readonly kind: 'way-in' }
  | { readonly kind: 'price'; readonly of: 'net' | 'total'; readonly atMost: DecimalText }
  | { readonly kind: 'judgement' };

export interface WishSpec {
  /** The client's own words. */
  readonly says: string;
  readonly measure: MeasureSpec;
  /** Why it matters, what was measured. */
  readonly note?: string;
}

/** The maker's answer to a wish that is a matter of judgement, or a remark beside a computed one. */
export interface AnswerSpec {
  readonly result?: 'enough' | 'limit' | 'not-enough';
  readonly says: string;
}
