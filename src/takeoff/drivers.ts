import type { Part, Table } from '../design/index.ts';
import type { Outline } from '../solid/index.ts';
import type { JointKind, WorkUnit } from '../spec/index.ts';
import type { Surface } from './surfaces.ts';
import type { CuttingLine } from './take-off.ts';

/** What the work is counted from. */
export interface Work {
  readonly table: Table;
  readonly cuttingList: readonly CuttingLine[];
  readonly surfaces: readonly Surface[];
}

const SCREWED: readonly JointKind[] = ['screws', 'slotted-screws', 'buttons'];

/** How one operation is counted: its unit, the quantity in it, and what was counted, in words. */
export interface Driver {
  readonly per: WorkUnit;
  readonly counts: string;
  /** The same of one, where it is counted in whole. */
  readonly one?: string;
  readonly quantity: (work: Work) => number;
}

/**
 * The operations that can be counted from a table, by their key in the shop rates. Faces, lengths and joints are those of the finished parts,
 * in m2 and m. Work that nothing counts (a breadboard end, a repair) is written under `work` in the table, with its hours.
 *
 * @source the list of operations and their units: common practice of a small shop; the faces that are planed stand in for the published rule
 * of 15 board feet an hour (Jones, "How to price the job").
 */
export const DRIVERS: Readonly<Record<string, Driver>> = {
  design: { per: 'job', counts: 'job', quantity: () => 1 },
  buying: { per: 'job', counts: 'job', quantity: () => 1 },
  milling: { per: 'm2', counts: 'of part faces', quantity: ({ cuttingList }) => sum(cuttingList.map(planedM2)) },
  'edge-joint': { per: 'm', counts: 'of glued edges', quantity: ({ cuttingList }) => sum(cuttingList.map(gluedEdgesM)) },
  'glue-up': {
    per: 'panel',
    counts: 'panels and laminations',
    one: 'panel or lamination',
    quantity: ({ cuttingList }) => sum(cuttingList.map(glueUps)),
  },
  'panel-trim': {
    per: 'panel',
    counts: 'panels',
    one: 'panel',
    quantity: ({ cuttingList }) => sum(panels(cuttingList).map((line) => line.count)),
  },
  flattening: { per: 'm2', counts: 'of panel faces', quantity: ({ cuttingList }) => sum(panels(cuttingList).map(bothFacesM2)) },
  'mortise-and-tenon': joints('mortises and tenons', 'mortise and tenon', ['mortise-and-tenon', 'bridle', 'wedge']),
  lap: joints('laps and housings', 'lap or housing', ['lap', 'housing']),
  'loose-tenon': joints('loose tenons and dowelled joints', 'joint with loose tenons or dowels', ['loose-tenon', 'dowels']),
  'glued-joint': joints('plain glued joints', 'plain glued joint', ['face-glue', 'edge-glue', 'end-grain-glue']),
  'screwed-joint': {
    per: 'joint',
    counts: 'screwed joints',
    one: 'screwed joint',
    quantity: ({ table }) => table.joints.filter((j) => !j.knockDown && SCREWED.includes(j.kind)).length,
  },
  'knock-down': {
    per: 'joint',
    counts: 'joints that come apart',
    one: 'joint that comes apart',
    quantity: ({ table }) => table.joints.filter((j) => j.kind === 'bolts' || (j.knockDown && j.kind !== 'wedge')).length,
  },
  'square-leg': {
    per: 'leg',
    counts: 'square legs',
    one: 'square leg',
    quantity: ({ table }) => legs(table).filter((p) => shapeOf(p) === 'square').length,
  },
  'shaped-leg': {
    per: 'leg',
    counts: 'shaped legs',
    one: 'shaped leg',
    quantity: ({ table }) => legs(table).filter((p) => shapeOf(p) === 'shaped').length,
  },
  'turned-leg': {
    per: 'leg',
    counts: 'turned legs',
    one: 'turned leg',
    quantity: ({ table }) => legs(table).filter((p) => shapeOf(p) === 'round').length,
  },
  'shaped-part': {
    per: 'part',
    counts: 'shaped or rounded parts',
    one: 'shaped or rounded part',
    quantity: ({ table }) => table.parts.filter((p) => p.wood !== undefined && !isLeg(p) && shapeOf(p) !== 'square').length,
  },
  'edge-shaping': { per: 'm', counts: 'of edge of the top', quantity: ({ table }) => perimeterMm(table.top.outline) / 1000 },
  'under-chamfer': {
    per: 'm',
    counts: 'of chamfer under the top',
    quantity: ({ table }) => (table.top.underChamfer === undefined ? 0 : perimeterMm(table.top.outline) / 1000),
  },
  arris: {
    per: 'm',
    counts: 'of long arrises of the base',
    quantity: ({ table }) =>
      sum(table.parts.filter((p) => p.wood !== undefined && p.role !== 'top').map((p) => (4 * p.sizeMm.length) / 1000)),
  },
  drawer: { per: 'drawer', counts: 'drawers', one: 'drawer', quantity: ({ table }) => drawers(table) },
  sanding: { per: 'm2', counts: 'of surface', quantity: ({ surfaces }) => sum(surfaces.map((s) => s.areaM2)) },
  'wiped-coat': coats('wiped'),
  'sprayed-coat': coats('sprayed'),
  'brushed-coat': coats('brushed'),
  'between-coats': {
    per: 'm2-between',
    counts: 'between coats',
    quantity: ({ surfaces }) => sum(surfaces.map((s) => s.areaM2 * Math.max(0, s.coats - 1))),
  },
  assembly: { per: 'table', counts: 'table', quantity: () => 1 },
  fixing: { per: 'table', counts: 'table', quantity: () => 1 },
  'hand-over': { per: 'table', counts: 'table', quantity: () => 1 },
  delivery: { per: 'trip', counts: 'trip', quantity: () => 1 },
};

/**
 * Length in mm around a plan outline. An ellipse by Ramanujan's second approximation, exact for a circle and better than 1e-6 for any top
 * that is not four times as long as wide.
 *
 * @source S. Ramanujan, "Modular equations and approximations to pi", Quart. J. Math. 45 (1914), 350-372.
 */
export function perimeterMm(outline: Outline): number {
  if (outline.kind === 'polygon') {
    const { points } = outline;
    return sum(
      points.map((p, i) => {
        const q = points[(i + 1) % points.length] ?? p;
        return Math.hypot(q[0] - p[0], q[1] - p[1]);
      }),
    );
  }
  const { rxMm: a, ryMm: b } = outline;
  const h = ((a - b) / (a + b)) ** 2;
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}

/** Joints of the given kinds; those within a drawer are part of the drawer's own hours. */
function joints(counts: string, one: string, kinds: readonly JointKind[]): Driver {
  const quantity = ({ table }: Work): number => {
    const drawer = new Set(table.parts.filter((part) => part.role === 'drawer').map((part) => part.id));
    return table.joints.filter(({ kind, a, b }) => kinds.includes(kind) && !(drawer.has(a) && drawer.has(b))).length;
  };
  return { per: 'joint', counts, one, quantity };
}

function coats(method: Surface['method']): Driver {
  return {
    per: 'm2-coat',
    counts: `of ${method} coats`,
    quantity: ({ surfaces }) => sum(surfaces.filter((s) => s.method === method).map((s) => s.areaM2 * s.coats)),
  };
}

/** The four long faces of every piece that is planed: each layer of a lamination has its own. */
function planedM2({ finishedMm, layers, count }: CuttingLine): number {
  return (2 * finishedMm.length * (finishedMm.width * layers + finishedMm.thickness) * count) / 1e6;
}

function gluedEdgesM({ finishedMm, boards, layers, count }: CuttingLine): number {
  return ((boards - 1) * layers * count * finishedMm.length) / 1000;
}

/** A panel for each layer that is glued from boards, and one more gluing for a lamination. */
function glueUps({ boards, layers, count }: CuttingLine): number {
  return ((boards > 1 ? layers : 0) + (layers > 1 ? 1 : 0)) * count;
}

function panels(cuttingList: readonly CuttingLine[]): readonly CuttingLine[] {
  return cuttingList.filter((line) => line.boards > 1);
}

function bothFacesM2({ finishedMm, count }: CuttingLine): number {
  return (2 * finishedMm.length * finishedMm.width * count) / 1e6;
}

const isLeg = (part: Part): boolean => part.role === 'leg' || part.role === 'post';
const legs = (table: Table): readonly Part[] => table.parts.filter((part) => part.wood !== undefined && isLeg(part));

function shapeOf(part: Part): 'round' | 'shaped' | 'square' {
  if (part.features.includes('round')) return 'round';
  const shaped: readonly string[] = ['tapered', 'splayed', 'octagonal', 'shaped'];
  return part.features.some((feature) => shaped.includes(feature)) ? 'shaped' : 'square';
}

/** Drawers, however many parts each is drawn with: groups of drawer parts that are joined to each other. */
function drawers(table: Table): number {
  const open = new Set(table.parts.filter((part) => part.role === 'drawer').map((part) => part.id));
  let count = 0;
  for (const start of open) {
    count += 1;
    const reached = [start];
    for (const id of reached) {
      open.delete(id);
      for (const { a, b } of table.joints) {
        const next = a === id ? b : b === id ? a : undefined;
        if (next !== undefined && open.has(next) && !reached.includes(next)) reached.push(next);
      }
    }
  }
  return count;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
