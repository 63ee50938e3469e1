import type { CalendarDate, Length, Percent, Temperature } from '../units/index.ts';

/** A side of the table as the client faces its front: front is -y, back +y, left -x, right +x. */
export type Side = 'front' | 'back' | 'left' | 'right';

export interface RoomSpec {
  /** Along the table's x. */
  readonly length: Length;
  /** Along the table's y. */
  readonly width: Length;
  readonly height?: Length;
  readonly surveyedOn?: CalendarDate;
  readonly tolerance?: Length;
  readonly humidity: { readonly low: Percent; readonly high: Percent };
  readonly temperature: Temperature;
  readonly underfloorHeating: boolean;
  readonly floor: { readonly says: string; readonly outOfLevel?: { readonly by: Length; readonly over: Length }; readonly soft: boolean };
  /** Where the table stands: free space from its edge to the wall on at most one of each pair of opposite sides; centred where silent. */
  readonly stands: Partial<Readonly<Record<Side, Length>>>;
  /** Things that stand out from a wall into the room. */
  readonly obstacles: Readonly<Record<string, { readonly says: string; readonly side: Side; readonly depth: Length }>>;
  /** The way in, in the order that it is walked. */
  readonly access: readonly AccessSpec[];
  /** Other facts worth keeping: doors that swing, the stove, the sill. */
  readonly notes: readonly string[];
}

export type AccessSpec =
  | { readonly kind: 'door'; readonly says: string; readonly width: Length; readonly height: Length }
  | {
      readonly kind: 'passage';
      readonly says: string;
      readonly width: Length;
      readonly height?: Length;
      readonly turn: boolean;
      readonly turnInto?: Length;
    }
  | {
      readonly kind: 'stair';
      readonly says: string;
      readonly width: Length;
      readonly headroom?: Length;
      readonly steps?: number;
      readonly winder: boolean;
      readonly landing?: readonly [Length, Length];
    }
  | { readonly kind: 'hatch'; readonly says: string; readonly width: Length; readonly height: Length };

export interface ChairSpec {
  readonly count: number;
  readonly seat: Length;
  readonly arm?: Length;
  readonly width: Length;
}
