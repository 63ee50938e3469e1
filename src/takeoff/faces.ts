import type { Contact, Placed, Placement, Solid, Vec3 } from '../solid/index.ts';
import {
  floorContact,
  intersectConvex,
  OVERLAP_MM3,
  placedPieces,
  signedAreaMm2,
  skinAreaMm2,
  skinPatches,
  touchAreaMm2,
  touchesOf,
  volumeMm3,
} from '../solid/index.ts';

const IN_TABLE: Placement = {
  originMm: [0, 0, 0],
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
};

/** A face whose normal is this close to straight down is level. */
const LEVEL_RATIO = 1e-9;

/** Area in mm2 of the level faces that look down. */
export function undersideMm2(solid: Solid, placement: Placement): number {
  const up = placement.axes[2];
  return skinPatches(solid).reduce((sum, { areaMm2, normal }) => sum + (normal !== undefined && looksDown(up, normal) ? areaMm2 : 0), 0);
}

/** Area in mm2 with which a placed solid stands on the floor. */
export function floorContactMm2(solid: Solid, placement: Placement): number {
  return floorContact(solid, placement).reduce((sum, contact) => sum + contactMm2(contact), 0);
}

/**
 * What of two skins lies inside the other body, in mm2, where one part is let into the other; `undefined` where they share no material. It is the
 * whole skin of the material that both claim: the skin of the two together is the sum of theirs less this.
 */
export function letInMm2(a: Placed, b: Placed): number | undefined {
  const others = placedPieces(b);
  const shared = placedPieces(a).flatMap((piece) => others.flatMap((other) => intersectConvex(piece, other) ?? []));
  if (shared.reduce((sum, piece) => sum + volumeMm3(piece), 0) <= OVERLAP_MM3) return undefined;
  const placed = shared.map((solid): Placed => ({ solid, placement: IN_TABLE }));
  const inner = placed.reduce((sum, one, i) => sum + placed.slice(i + 1).reduce((all, two) => all + touchMm2(one, two), 0), 0);
  return shared.reduce((sum, piece) => sum + skinAreaMm2(piece), 0) - 2 * inner;
}

/** Area in mm2 along which two placed solids touch. */
export function touchMm2(a: Placed, b: Placed): number {
  return touchAreaMm2(touchesOf(a, b));
}

/** The third row of the axes turns a local normal into its rise in the table's frame. */
function looksDown(up: Vec3, normal: Vec3): boolean {
  return up[0] * normal[0] + up[1] * normal[1] + up[2] * normal[2] <= LEVEL_RATIO - 1;
}

function contactMm2(contact: Contact): number {
  return contact.kind === 'ellipse' ? Math.PI * contact.rxMm * contact.ryMm : Math.abs(signedAreaMm2(contact.points));
}
