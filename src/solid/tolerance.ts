/** Every tolerance of the room, each with its unit and its reason. */

/** Grid of plane clipping, mm: a thousandth of what a maker can plane, and far above the rounding of doubles. */
export const CLIP_GRID_MM = 0.001;

/** Faces no farther apart than this touch, mm: half of 0.1 mm, the smallest step that a maker writes. */
export const TOUCH_MM = 0.05;

/** Faces within this angle are parallel, radians: over 50 mm, the depth of a usual joint, it opens by TOUCH_MM. */
export const PARALLEL_RAD = 0.001;

/** A contact smaller than this is a corner or an edge that brushes past, mm2. */
export const CONTACT_MM2 = 1;

/** A body thinner than this is rounding, mm: doubles keep 1e-10 mm at 2 m, and a cut adds a few such steps. */
export const SPLINTER_MM = 1e-7;

/** Shared material below this is rounding or tessellation, mm3: a grain of sawdust. */
export const OVERLAP_MM3 = 1;

/** Corners drawn as an edge turn by more than this, radians: one degree is what a draughtsman still shows. */
export const EDGE_RAD = Math.PI / 180;

/** Chord error of round parts where only contact, overlap or a silhouette is wanted, mm: below what can be sanded. */
export const CHORD_MM = 0.02;

/** Relative error of the quadrature of curved skins without closed form. */
export const QUADRATURE_RATIO = 1e-9;
