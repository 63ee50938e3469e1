import type { Problem } from '../problem/index.ts';
import { nearestName } from '../problem/index.ts';
import type { EffectiveSpec, WorkUnit } from '../spec/index.ts';
import type { Driver, Work } from './drivers.ts';
import { DRIVERS } from './drivers.ts';
import type { OperationLine } from './take-off.ts';

const COUNTED_IN_WHOLE: readonly WorkUnit[] = ['job', 'panel', 'joint', 'part', 'leg', 'end', 'table', 'trip', 'drawer'];
/** Work that every table has: a maker who leaves it out of the rates has it in the hour. */
const ONCE: readonly WorkUnit[] = ['job', 'table', 'trip'];

/**
 * The hours of one table, low, middle and high: every operation of the shop rates that occurs in it, counted by its driver, and the maker's own
 * extra work. An operation that occurs zero times has no line.
 * Problems: `takeoff/unknown-operation`, `takeoff/operation-unit` (errors), `takeoff/uncounted-work` (warning: the table has work for
 * which the shop rates have no operation).
 */
export function listOperations(
  spec: EffectiveSpec,
  work: Work,
): { readonly operations: readonly OperationLine[]; readonly problems: readonly Problem[] } {
  const { operations: rates } = spec.library.rates;
  const problems: Problem[] = [];
  const operations: OperationLine[] = [];
  for (const [id, rate] of Object.entries(rates)) {
    const driver = DRIVERS[id];
    if (driver === undefined) problems.push(unknownOperation(id));
    else if (driver.per !== rate.per) problems.push(wrongUnit(id, rate.per, driver.per));
    else {
      const quantity = driver.quantity(work);
      const hours = { low: rate.low * quantity, mid: rate.mid * quantity, high: rate.high * quantity };
      if (quantity === 0) continue;
      operations.push({
        id,
        says: rate.says,
        driver: inWords(driver, quantity),
        quantity,
        per: rate.per,
        hours,
        finishing: rate.finishing,
      });
    }
  }
  for (const [id, driver] of Object.entries(DRIVERS)) {
    if (rates[id] !== undefined || ONCE.includes(driver.per)) continue;
    const quantity = driver.quantity(work);
    if (quantity > 0) problems.push(uncounted(id, driver, quantity));
  }
  for (const [id, { says, hours }] of Object.entries(spec.table.work)) {
    operations.push({ id: `own-work/${id}`, says, driver: 'hours as stated', quantity: 1, per: 'own', hours, finishing: false });
  }
  return { operations, problems };
}

function inWords({ per, counts, one = counts }: Driver, quantity: number): string {
  if (COUNTED_IN_WHOLE.includes(per)) return `${quantity} ${quantity === 1 ? one : counts}`;
  return `${quantity.toFixed(2)} ${per === 'm' ? 'm' : 'm²'} ${counts}`;
}

function unknownOperation(id: string): Problem {
  const near = nearestName(id, Object.keys(DRIVERS));
  return {
    code: 'takeoff/unknown-operation',
    severity: 'error',
    title: `nothing in a table counts the operation ${id} of the shop rates`,
    path: ['library', 'rates', 'operations', id],
    found: id,
    allowed: Object.keys(DRIVERS).join(', '),
    mend: near === undefined ? 'use one of these, or write the hours under work in the table' : `if ${near} was meant, write ${near}`,
  };
}

function wrongUnit(id: string, found: WorkUnit, allowed: WorkUnit): Problem {
  return {
    code: 'takeoff/operation-unit',
    severity: 'error',
    title: `the operation ${id} is counted per ${allowed}, not per ${found}`,
    path: ['library', 'rates', 'operations', id, 'per'],
    found,
    allowed,
    mend: `write per: ${allowed}, and the hours for one of them`,
  };
}

function uncounted(id: string, driver: Driver, quantity: number): Problem {
  return {
    code: 'takeoff/uncounted-work',
    severity: 'warning',
    title: `the table has work for which the shop rates have no hours: ${inWords(driver, quantity)}`,
    path: ['library', 'rates', 'operations'],
    found: `no operation ${id}`,
    mend: `add ${id} with per: ${driver.per} to the operations of the shop rates`,
  };
}
