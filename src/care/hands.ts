/**
 * Mass that one person may be counted for, kg. It is the load constant of the revised lifting equation: what most people may lift
 * in the easiest posture, so it is a count of hands and no leave to lift.
 *
 * @source Waters, Putz-Anderson, Garg, Fine: Revised NIOSH equation for the design and evaluation of manual lifting tasks,
 * Ergonomics 36 (1993): load constant 23 kg (51 lb)
 */
export const KG_PER_PERSON = 23;

/** People for a mass by weight alone, kg: at least `least`. Reach, stairs and backs are not counted. */
export function handsFor(massKg: number, least: 1 | 2): number {
  return Math.max(least, Math.ceil(massKg / KG_PER_PERSON));
}
