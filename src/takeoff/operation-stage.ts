import type { EffectiveSpec, StageWord } from '../spec/index.ts';

/**
 * By the end of which stage each operation is usually done; what is not named here is done when the parts are cut.
 *
 * @source common practice of a small shop: faces are flattened and edges shaped once the top is out of the clamps.
 */
export const USUAL_STAGES: Readonly<Record<string, StageWord>> = {
  design: 'ordered',
  buying: 'timber-bought',
  'edge-joint': 'glued',
  'glue-up': 'glued',
  'panel-trim': 'glued',
  'glued-joint': 'glued',
  drawer: 'glued',
  assembly: 'glued',
  flattening: 'finished',
  'edge-shaping': 'finished',
  'under-chamfer': 'finished',
  arris: 'finished',
  sanding: 'finished',
  'wiped-coat': 'finished',
  'sprayed-coat': 'finished',
  'brushed-coat': 'finished',
  'between-coats': 'finished',
  fixing: 'finished',
  'hand-over': 'delivered',
  delivery: 'delivered',
};

/** The stage by whose end an operation is done: as the shop rates say, else the usual one. The maker's own hours are done when the parts are cut. */
export function stageOfOperation(spec: EffectiveSpec, id: string): StageWord {
  return spec.library.rates.operations[id]?.stage ?? USUAL_STAGES[id] ?? 'cut';
}
