/** Shop rates for tests, kept apart from the demos' so that a change of a price there changes no expectation here. */
import type { ShopRatesSpec, TableSpec } from '../../src/spec/index.ts';
import { date, decimal, length, library, mass, percent, specOf } from '../fixtures.ts';

const operation = (per: ShopRatesSpec['operations'][string]['per'], mid: number, finishing = false) => ({
  says: per,
  per,
  low: mid / 2,
  mid,
  high: mid * 2,
  finishing,
});

const timber = (wood: string, mm: number, short: number, long: number, price: string) => ({
  wood,
  thickness: length(mm),
  yields: { short: length(short), long: length(long) },
  price: decimal(price),
  per: 'm3' as const,
  addition: percent(35),
  quotedOn: date(2026, 2, 2),
});

export const rates: ShopRatesSpec = {
  ...library.rates,
  timber: {
    'oak-27': timber('oak-european', 27, 22, 20, '3200.00'),
    'oak-40': timber('oak-european', 40, 34, 31, '3400.00'),
    'oak-65': timber('oak-european', 65, 62, 58, '3900.00'),
    'ash-40': timber('ash-white', 40, 34, 31, '1550.00'),
    'ash-65': timber('ash-white', 65, 58, 56, '1750.00'),
  },
  hardware: {
    buttons: { says: 'Wooden button with screw', price: decimal('0.90') },
    'knock-down-bolts': { says: 'Bolt', price: decimal('2.60') },
    screws: { says: 'Screw', price: decimal('0.20') },
    steel: { says: 'Steel plate', price: decimal('4.20'), mass: mass(1) },
  },
  allowances: { length: length(40), width: length(10), thickness: length(5), kerf: length(3) },
  operations: {
    design: operation('job', 6),
    milling: operation('m2', 0.5),
    'edge-joint': operation('m', 0.25),
    'glue-up': operation('panel', 1),
    'panel-trim': operation('panel', 0.4),
    flattening: operation('m2', 1.5, true),
    'mortise-and-tenon': operation('joint', 0.8),
    'square-leg': operation('leg', 0.5),
    'edge-shaping': operation('m', 0.6),
    arris: operation('m', 0.1),
    sanding: operation('m2', 0.9, true),
    'wiped-coat': operation('m2-coat', 0.2, true),
    'between-coats': operation('m2-between', 0.15, true),
    assembly: operation('table', 4),
    delivery: operation('trip', 4),
  },
};

/** A spec with these rates around a hand-made table; `patch` replaces fields of the table's spec. */
export const spec = (patch: Partial<TableSpec> = {}, over: Partial<ShopRatesSpec> = {}) =>
  specOf(patch, { library: { ...library, rates: { ...rates, ...over } } });
