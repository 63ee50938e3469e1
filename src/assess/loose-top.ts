import type { Part, Table } from '../design/index.ts';
import type { Vec2 } from '../solid/index.ts';
import { STANDARD_GRAVITY } from '../units/index.ts';
import type { Hull } from './convex.ts';
import { hullOf } from './convex.ts';
import { planHulls } from './slice.ts';
import type { Stance } from './tip.ts';
import { weigh } from './weigh.ts';

/** Depth below the underside of the top in which a part that carries it is looked for, mm. */
const carryMm = 0.1;

/**
 * How a top that only lies on its base stands there: its own weight over the hull of what carries it. A load near its edge can tip it
 * off the base long before the whole table tips. Absent where the top is fixed.
 */
export function looseTopStance(table: Table, parts: readonly Part[]): Stance | undefined {
  if (table.fixing.kind !== 'loose') return undefined;
  const top = parts.filter((part) => part.id === table.top.partId);
  if (top.length === 0) return undefined;
  const weight = weigh(top);
  const [x, y] = weight.centreOfGravityMm;
  const gravityMm: Vec2 = [x, y];
  return { weightN: weight.massKg * STANDARD_GRAVITY, gravityMm, hull: carriersOf(table, parts) };
}

function carriersOf(table: Table, parts: readonly Part[]): Hull {
  const undersideMm = table.top.heightMm - table.top.thicknessMm;
  const under = parts.filter((part) => part.id !== table.top.partId);
  const hulls = under.flatMap((part) => planHulls(part, undersideMm - carryMm, undersideMm));
  return hullOf(hulls.flatMap((hull) => [{ kind: 'polygon' as const, points: hull.points }, ...hull.ellipses]));
}
