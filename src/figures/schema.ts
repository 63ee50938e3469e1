/**
 * The contract `leafwright/figures/1` as zod schemas: one source for the types, the check and the JSON Schema.
 * A figure that was not computed is an absent key; `null` stands only for a load that nothing tips.
 */
import { z } from 'zod';

export const figuresFormat = 'leafwright/figures/1';

const point2 = z.strictObject({ x: z.number(), y: z.number() });
const point3 = z.strictObject({ x: z.number(), y: z.number(), z: z.number() });
const result = z.enum(['enough', 'limit', 'not-enough']);
const worstLoad = z
  .strictObject({ loadN: z.number(), atMm: point2 })
  .nullable()
  .describe('Smallest vertical load that begins to tip the table, and where it stands; null where no load there can');
const boxMm = z.strictObject({ length: z.number(), width: z.number(), thickness: z.number() });
const hours = z.strictObject({ low: z.number(), mid: z.number(), high: z.number() });

const part = z.strictObject({
  id: z.string().describe('Stable path such as base/leg-front-left'),
  type: z.string().describe('Same finished shape and wood: one line of the cutting list'),
  role: z.string(),
  name: z.string(),
  wood: z.string().optional().describe('Key in templates/woods.yaml'),
  material: z.string().optional().describe('Key in templates/materials.yaml'),
  grain: z
    .strictObject({ L: point3, R: point3, T: point3 })
    .optional()
    .describe('Unit vectors along the grain, radial and tangential, in the frame of the table'),
  placement: z
    .strictObject({ originMm: point3, axes: z.array(z.array(z.number()).length(3)).length(3) })
    .describe('world = originMm + axes * local; three rows'),
  sizeMm: boxMm.describe('Smallest box along the grain: length with the grain, then the wider and the thinner of the other two'),
  volumeMm3: z.number(),
  massKg: z.number(),
});

const tippingState = z.strictObject({
  edge: worstLoad,
  inside50: worstLoad.describe('On the curve 50 mm inside the outline of the top'),
  corners: z.array(z.strictObject({ atMm: point2, loadN: z.number().nullable() })),
  push: z
    .strictObject({
      forceN: z.number(),
      overEdge: z.array(point2).length(2),
      towards: point2,
    })
    .describe('Lowest horizontal force at overall height that begins to tip; nothing slides'),
  places: z.array(z.strictObject({ id: z.enum(['front', 'right', 'back', 'left']), edge: worstLoad, inside50: worstLoad })),
  tiltDeg: z.number(),
  cases: z.array(
    z.strictObject({
      id: z.string(),
      loadN: z.number(),
      pushN: z.number(),
      safetyFactor: z.number().nullable(),
      wanted: z.number(),
      least: z.number(),
      result,
    }),
  ),
});

const movement = z.strictObject({
  partId: z.string(),
  wood: z.string(),
  acrossMm: z.number(),
  sawn: z.enum(['flat', 'quarter']),
  moistureLowPercent: z.number(),
  moistureHighPercent: z.number(),
  changeMm: z.number().describe('Change of width between the driest and the dampest month of the room'),
  equation: z.string().describe('Equation of the Wood Handbook that gave it'),
  byEquation: z.strictObject({ eq132Mm: z.number().optional(), eq133Mm: z.number().optional() }),
  slotMm: z.number().optional().describe('Slot that the fixings need, each way from the fixed line'),
});

const fit = z.strictObject({
  clearancesMm: z.strictObject({
    front: z.number().optional(),
    back: z.number().optional(),
    left: z.number().optional(),
    right: z.number().optional(),
  }),
  clearHeightMm: z.number(),
  places: z
    .strictObject({
      daily: z.number(),
      straddled: z.number(),
      perSide: z.number(),
      freeBetweenLegsMm: z.strictObject({ sides: z.number(), ends: z.number() }),
    })
    .optional(),
  pieces: z.array(z.strictObject({ parts: z.array(z.string()), massKg: z.number(), boxMm: point3 })),
  wayIn: z.array(
    z.strictObject({
      index: z.number(),
      says: z.string(),
      result: z.enum(['passes', 'tight', 'not-proven', 'does-not-pass']),
      why: z.string(),
    }),
  ),
});

const wish = z.strictObject({
  id: z.string(),
  kind: z.string(),
  result: z.enum(['enough', 'limit', 'not-enough', 'judgement', 'not-computed']),
  value: z.number().optional(),
  unit: z.enum(['mm', 'N', 'percent', 'kg', 'places', 'minor', 'way-in']).optional(),
  target: z.strictObject({ atLeast: z.number().optional(), atMost: z.number().optional() }).optional(),
  why: z.strictObject({ key: z.string(), values: z.record(z.string(), z.union([z.string(), z.number()])) }).optional(),
  says: z.string().optional(),
});

const takeoff = z.strictObject({
  cuttingList: z.array(
    z.strictObject({
      type: z.string(),
      name: z.string(),
      partIds: z.array(z.string()),
      wood: z.string(),
      count: z.number(),
      finishedMm: boxMm,
      tenonsMm: z.number(),
      boards: z.number(),
      roughMm: boxMm,
      timber: z.string().optional(),
      layers: z.number(),
      netM3: z.number(),
    }),
  ),
  timber: z.array(
    z.strictObject({
      timber: z.string(),
      wood: z.string(),
      thicknessMm: z.number(),
      netM3: z.number(),
      netBoardFeet: z.number(),
      additionPercent: z.number(),
      grossM3: z.number(),
      grossBoardFeet: z.number(),
      ownedM3: z.number(),
      toBuyM3: z.number(),
      toBuyBoardFeet: z.number(),
    }),
  ),
  operations: z.array(
    z.strictObject({
      id: z.string(),
      says: z.string(),
      driver: z.string(),
      quantity: z.number(),
      per: z.string(),
      hours,
      finishing: z.boolean(),
    }),
  ),
  hardware: z.array(z.strictObject({ id: z.string(), kind: z.string(), says: z.string(), count: z.number() })),
  finish: z.array(
    z.strictObject({
      finish: z.string(),
      surface: z.enum(['top', 'base', 'underside']),
      areaM2: z.number(),
      coats: z.number(),
      litres: z.number(),
    }),
  ),
  finishAreaM2: z.number().describe('Skin less glued contact less floor contact, the underside of the top included'),
  undersideAreaM2: z.number(),
  hours,
  finishingShare: z.number(),
});

const price = z.strictObject({
  currency: z.string().describe('ISO 4217; every amount below is in its minor units'),
  build: z
    .array(
      z.strictObject({
        id: z.string(),
        group: z.string(),
        says: z.string(),
        quantity: z.string().optional(),
        rate: z.string().optional(),
        amountMinor: z.int(),
      }),
    )
    .describe('How the net price of the table came about: for the workshop alone'),
  costMinor: z.int(),
  marginPercent: z.number(),
  lines: z.array(
    z.strictObject({
      id: z.string(),
      says: z.string(),
      quantity: z.number(),
      eachMinor: z.int(),
      amountMinor: z.int(),
      certainty: z.enum(['fixed', 'allowance', 'estimate']),
      provisional: z.boolean(),
      taxId: z.string(),
      groups: z.array(z.strictObject({ says: z.string(), amountMinor: z.int() })),
    }),
  ),
  netMinor: z.int(),
  taxes: z.array(z.strictObject({ id: z.string(), says: z.string(), percent: z.string(), baseMinor: z.int(), amountMinor: z.int() })),
  totalMinor: z.int(),
  instalments: z.array(z.strictObject({ percent: z.string(), when: z.string(), amountMinor: z.int() })),
  options: z.array(
    z.strictObject({
      id: z.string(),
      says: z.string(),
      group: z.string().optional(),
      isDefault: z.boolean(),
      differenceNetMinor: z
        .int()
        .optional()
        .describe('Net price with it less net price without it, the other options as offered; absent where no allowed pair shows it'),
      differenceMinor: z.int().optional().describe('The same, tax included'),
    }),
  ),
  combinations: z.array(
    z.strictObject({
      options: z.array(z.string()),
      isDefault: z.boolean(),
      netMinor: z.int(),
      totalMinor: z.int(),
      instalmentsMinor: z
        .array(z.int())
        .optional()
        .describe('The total as it is paid, in the order of the instalments; absent in revisions frozen before there was any'),
    }),
  ),
});

export const variantFiguresSchema = z.strictObject({
  name: z.string(),
  offered: z.boolean(),
  overallMm: z.strictObject({ length: z.number(), width: z.number(), height: z.number() }),
  top: z.strictObject({
    shape: z.enum(['rectangle', 'round', 'oval']),
    thicknessMm: z.number(),
    acrossGrainMm: z.number(),
  }),
  parts: z.array(part),
  massKg: z.number(),
  centreOfGravityMm: point3,
  supportPolygonMm: z.array(point2).describe('Convex hull of the floor contact, counter-clockwise'),
  supportArcs: z.array(z.strictObject({ centreMm: point2, rxMm: z.number(), ryMm: z.number() })),
  tipping: z.record(z.string(), tippingState).describe('Per state; `standing` is the table as it stands in the room'),
  movement: z.array(movement),
  open: z
    .strictObject({ front: z.number(), side: z.number(), floorSeen: z.number().optional() })
    .describe('Shares from 0 to 1: 1 less the silhouette of the base over the elevation below the top'),
  fit,
  wishes: z.array(wish),
  takeoff,
  price: price.optional().describe('Absent where an error stands in the way of it'),
});

export const figuresSchema = z
  .strictObject({
    schema: z.literal(figuresFormat),
    proposal: z.string(),
    revision: z.string(),
    variants: z.record(z.string(), variantFiguresSchema),
  })
  .describe('What was computed for one revision of a proposal. Millimetres, kilograms, newtons; money in minor units.');

/** One variant as `leafwright figures` prints it. */
export type PrintedVariant = z.infer<typeof variantFiguresSchema>;
/** The answer of `leafwright figures`. */
export type PrintedFigures = z.infer<typeof figuresSchema>;
/** Everything computed of one variant with its default options. */
export type VariantFigures = PrintedVariant & { readonly price: PriceFigures };
/** Everything computed of a proposal without errors. */
export type Figures = Omit<PrintedFigures, 'variants'> & { readonly variants: Readonly<Record<string, VariantFigures>> };
export type TippingFigures = z.infer<typeof tippingState>;
export type PriceFigures = z.infer<typeof price>;
export type WishFigures = z.infer<typeof wish>;

/** JSON Schema (draft 2020-12) of the contract, as kept in templates/schemas/figures.json. */
export function figuresJsonSchema(): object {
  return {
    $id: figuresFormat,
    title: 'Figures of a proposal',
    ...z.toJSONSchema(figuresSchema, { target: 'draft-2020-12' }),
  };
}
