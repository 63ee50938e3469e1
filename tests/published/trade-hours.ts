/**
 * Labour drivers in hours for one experienced person in a machine-equipped small shop: lowest and highest usual figure by unit.
 * Common practice throughout; rows marked `memory` are common practice from memory.
 */
export const usualHours: Readonly<
  Record<string, { readonly per: string; readonly low: number; readonly high: number; readonly memory?: true }>
> = {
  design: { per: 'job', low: 3, high: 16 },
  buying: { per: 'job', low: 1, high: 5 },
  milling: { per: 'm2', low: 0.25, high: 0.9 },
  'edge-joint': { per: 'm', low: 0.15, high: 0.5 },
  'glue-up': { per: 'panel', low: 0.5, high: 1.5 },
  'panel-trim': { per: 'panel', low: 0.25, high: 0.75 },
  // A wide slab flattened with a router sled, per face.
  flattening: { per: 'm2', low: 1, high: 4 },
  'mortise-and-tenon': { per: 'joint', low: 0.35, high: 1.2 },
  lap: { per: 'joint', low: 0.35, high: 1.2, memory: true },
  'loose-tenon': { per: 'joint', low: 0.1, high: 0.4 },
  'glued-joint': { per: 'joint', low: 0.1, high: 0.4, memory: true },
  'screwed-joint': { per: 'joint', low: 0.1, high: 0.4, memory: true },
  'knock-down': { per: 'joint', low: 0.2, high: 0.8, memory: true },
  'square-leg': { per: 'leg', low: 0.3, high: 0.8 },
  'shaped-leg': { per: 'leg', low: 0.6, high: 2.5 },
  'turned-leg': { per: 'leg', low: 1, high: 3.5 },
  // As a shaped leg.
  'shaped-part': { per: 'part', low: 0.6, high: 2.5, memory: true },
  'edge-shaping': { per: 'm', low: 0.3, high: 1.2 },
  // As an edge shaped by hand.
  'under-chamfer': { per: 'm', low: 0.3, high: 1.2 },
  // As an edge profile with the router.
  arris: { per: 'm', low: 0.05, high: 0.2 },
  // Dovetails by machine from 2, by hand to 9.
  drawer: { per: 'drawer', low: 2, high: 9 },
  sanding: { per: 'm2', low: 0.3, high: 1 },
  'wiped-coat': { per: 'm2-coat', low: 0.1, high: 0.3 },
  'sprayed-coat': { per: 'm2-coat', low: 0.08, high: 0.25 },
  'brushed-coat': { per: 'm2-coat', low: 0.1, high: 0.3, memory: true },
  'between-coats': { per: 'm2-between', low: 0.05, high: 0.2 },
  assembly: { per: 'table', low: 2, high: 8 },
  fixing: { per: 'table', low: 0.75, high: 3 },
  'hand-over': { per: 'table', low: 1, high: 4 },
  delivery: { per: 'trip', low: 2, high: 8 },
};
