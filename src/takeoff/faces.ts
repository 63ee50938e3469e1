import type { Contact, CoveredFace, Placement, Solid, Vec3 } from '../solid/index.ts';
import { floorContact, signedAreaMm2, skinPatches, TOUCH_MM } from '../solid/index.ts';

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

/** Does a normal in the table's frame point straight down? */
export const isLevelDown = (normal: Vec3): boolean => normal[2] <= LEVEL_RATIO - 1;

/** Faces on the floor are counted by `floorContactMm2`. */
export const isOnFloor = ({ normal, offsetMm }: CoveredFace): boolean => isLevelDown(normal) && Math.abs(offsetMm) <= TOUCH_MM;

/** The third row of the axes turns a local normal into its rise in the table's frame. */
function looksDown(up: Vec3, normal: Vec3): boolean {
  return up[0] * normal[0] + up[1] * normal[1] + up[2] * normal[2] <= LEVEL_RATIO - 1;
}

function contactMm2(contact: Contact): number {
  return contact.kind === 'ellipse' ? Math.PI * contact.rxMm * contact.ryMm : Math.abs(signedAreaMm2(contact.points));
}
