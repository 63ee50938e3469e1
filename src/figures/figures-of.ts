import type { Assessment, Fit, Movement, Tipping, WishAnswer, WorstLoad } from '../assess/index.ts';
import type { Part, Table } from '../design/index.ts';
import type { TakeOff } from '../takeoff/index.ts';
import { priceFigures } from './price-figures.ts';
import { type Figures, figuresFormat, type TippingFigures, type VariantFigures, type WishFigures } from './schema.ts';
import type { FiguresSource, VariantSource } from './source.ts';

interface Point2 {
  x: number;
  y: number;
}
interface Point3 extends Point2 {
  z: number;
}

const point2 = ([x, y]: readonly [number, number]): Point2 => ({ x, y });
const point3 = ([x, y, z]: readonly [number, number, number]): Point3 => ({ x, y, z });

/** The object without its undefined keys: a figure that is not there has no key. */
function present<T extends object>(record: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}

/** A figure that was to be computed and is not there would be a fault of this program. */
function known(record: Readonly<Record<string, number>>, id: string, what: string): number {
  const value = record[id];
  if (value === undefined) throw new Error(`no ${what} was computed for part ${id}`);
  return value;
}

function partFigures(part: Part, assessment: Assessment, words: (says: string) => string): VariantFigures['parts'][number] {
  return present({
    id: part.id,
    type: part.type,
    role: part.role,
    name: words(part.name),
    wood: part.wood,
    material: part.material,
    grain: part.grain === undefined ? undefined : { L: point3(part.grain.L), R: point3(part.grain.R), T: point3(part.grain.T) },
    placement: { originMm: point3(part.placement.originMm), axes: part.placement.axes.map((row) => [...row]) },
    sizeMm: { length: part.sizeMm.length, width: part.sizeMm.width, thickness: part.sizeMm.thickness },
    volumeMm3: known(assessment.volumeOf, part.id, 'volume'),
    massKg: known(assessment.massOf, part.id, 'mass'),
  });
}

const worstLoad = (worst: WorstLoad | null): { loadN: number; atMm: Point2 } | null =>
  worst === null ? null : { loadN: worst.loadN, atMm: point2(worst.atMm) };

function tippingFigures(tipping: Tipping): TippingFigures {
  return {
    edge: worstLoad(tipping.edge),
    inside50: worstLoad(tipping.inside50),
    corners: tipping.corners.map((corner) => ({ atMm: point2(corner.atMm), loadN: corner.loadN })),
    push: {
      forceN: tipping.push.forceN,
      overEdge: tipping.push.overEdge.map(point2),
      towards: point2(tipping.push.towards),
    },
    places: tipping.places.map((place) => ({ id: place.id, edge: worstLoad(place.edge), inside50: worstLoad(place.inside50) })),
    tiltDeg: tipping.tiltDeg,
    cases: tipping.cases.map((one) => ({
      id: one.id,
      loadN: one.loadN,
      pushN: one.pushN,
      safetyFactor: one.safetyFactor,
      wanted: one.wanted,
      least: one.least,
      result: one.result,
    })),
  };
}

function movementFigures(movement: Movement): VariantFigures['movement'][number] {
  return present({
    partId: movement.partId,
    wood: movement.wood,
    acrossMm: movement.acrossMm,
    sawn: movement.sawn,
    moistureLowPercent: movement.moistureLowPercent,
    moistureHighPercent: movement.moistureHighPercent,
    changeMm: movement.changeMm,
    equation: movement.equation,
    byEquation: present({ eq132Mm: movement.byEquation.eq132Mm, eq133Mm: movement.byEquation.eq133Mm }),
    slotMm: movement.slotMm,
  });
}

function fitFigures(fit: Fit): VariantFigures['fit'] {
  const { front, back, left, right } = fit.clearancesMm;
  return present({
    clearancesMm: present({ front, back, left, right }),
    clearHeightMm: fit.clearHeightMm,
    places:
      fit.places === undefined
        ? undefined
        : {
            daily: fit.places.daily,
            straddled: fit.places.straddled,
            perSide: fit.places.perSide,
            freeBetweenLegsMm: { sides: fit.places.freeBetweenLegsMm.sides, ends: fit.places.freeBetweenLegsMm.ends },
          },
    pieces: fit.pieces.map((piece) => ({ parts: [...piece.parts], massKg: piece.massKg, boxMm: point3(piece.boxMm) })),
    wayIn: fit.wayIn.map((way) => ({ index: way.index, says: way.says, result: way.result, why: way.why })),
  });
}

function wishFigures(answer: WishAnswer): WishFigures {
  return present({
    id: answer.id,
    kind: answer.kind,
    result: answer.result,
    value: answer.value,
    unit: answer.unit,
    target: answer.target === undefined ? undefined : present({ atLeast: answer.target.atLeast, atMost: answer.target.atMost }),
    why: answer.why === undefined ? undefined : { key: answer.why.key, values: { ...answer.why.values } },
    says: answer.says,
  });
}

function takeOffFigures(taken: TakeOff, words: (says: string) => string): VariantFigures['takeoff'] {
  return {
    cuttingList: taken.cuttingList.map((line) =>
      present({
        type: line.type,
        name: words(line.name),
        partIds: [...line.partIds],
        wood: line.wood,
        count: line.count,
        finishedMm: { ...line.finishedMm },
        tenonsMm: line.tenonsMm,
        boards: line.boards,
        roughMm: { ...line.roughMm },
        timber: line.timber,
        layers: line.layers,
        netM3: line.netM3,
      }),
    ),
    timber: taken.timber.map((line) => ({
      timber: line.timber,
      wood: line.wood,
      thicknessMm: line.thicknessMm,
      netM3: line.netM3,
      netBoardFeet: line.netBoardFeet,
      additionPercent: line.additionPercent,
      grossM3: line.grossM3,
      grossBoardFeet: line.grossBoardFeet,
      ownedM3: line.ownedM3,
      toBuyM3: line.toBuyM3,
      toBuyBoardFeet: line.toBuyBoardFeet,
    })),
    operations: taken.operations.map((line) => ({
      id: line.id,
      says: line.says,
      driver: line.driver,
      quantity: line.quantity,
      per: line.per,
      hours: { ...line.hours },
      finishing: line.finishing,
    })),
    hardware: taken.hardware.map((line) => ({ id: line.id, kind: line.kind, says: line.says, count: line.count })),
    finish: taken.finish.map((line) => ({
      finish: line.finish,
      surface: line.surface,
      areaM2: line.areaM2,
      coats: line.coats,
      litres: line.litres,
    })),
    finishAreaM2: taken.finishAreaM2,
    undersideAreaM2: taken.undersideAreaM2,
    hours: { ...taken.hours },
    finishingShare: taken.finishingShare,
  };
}

function topFigures(table: Table): VariantFigures['top'] {
  return { shape: table.top.shape, thicknessMm: table.top.thicknessMm, acrossGrainMm: table.top.acrossGrainMm };
}

function variantFigures(source: VariantSource): VariantFigures {
  const { spec, table, assessment, takeOff } = source.standard;
  const words = (says: string): string => spec.library.texts[says] ?? says;
  return {
    name: spec.variant.name,
    offered: spec.variant.offered,
    overallMm: { length: table.overallMm.length, width: table.overallMm.width, height: table.overallMm.height },
    top: topFigures(table),
    parts: table.parts.map((part) => partFigures(part, assessment, words)),
    massKg: assessment.massKg,
    centreOfGravityMm: point3(assessment.centreOfGravityMm),
    supportPolygonMm: assessment.supportPolygonMm.map(point2),
    supportArcs: assessment.supportArcs.map((arc) => ({ centreMm: point2(arc.centreMm), rxMm: arc.rxMm, ryMm: arc.ryMm })),
    tipping: Object.fromEntries(assessment.tipping.map((state) => [state.state, tippingFigures(state)])),
    movement: assessment.movement.map(movementFigures),
    open: present({ front: assessment.open.front, side: assessment.open.side, floorSeen: assessment.open.floorSeen }),
    fit: fitFigures(assessment.fit),
    wishes: assessment.wishes.map(wishFigures),
    takeoff: takeOffFigures(takeOff, words),
    price: priceFigures(source, words),
  };
}

/**
 * The contract in plain data, ready for `JSON.stringify`: one entry per variant, keys in a fixed order, full precision.
 * Names are words in the proposal's language; ids, keys of woods and results are stable codes.
 */
export function figuresOf(source: FiguresSource): Figures {
  return {
    schema: figuresFormat,
    proposal: source.input.slug,
    revision: source.input.proposal.revision.id,
    variants: Object.fromEntries(source.variants.map((variant) => [variant.id, variantFigures(variant)])),
  };
}
