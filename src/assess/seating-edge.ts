import type { Hull } from './convex.ts';

/** Stretch of a seating edge, mm from its start. */
export type Span = readonly [number, number];

/** An edge of the top along which people sit: a straight side, or the whole rim of a round or oval top. */
export interface SeatingEdge {
  readonly id: 'front' | 'right' | 'back' | 'left' | 'rim';
  readonly lengthMm: number;
  readonly closed: boolean;
  /** Where a body's shadow comes within reach of the edge: once, or at both ends of a bar under a round top. */
  readonly spansOf: (shadow: Hull) => readonly Span[];
}
