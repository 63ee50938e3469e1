/** One check: inputs, expected value and tolerance, with its source. */
export interface Row<Inputs, Expected> {
  readonly id: string;
  readonly says: string;
  readonly inputs: Inputs;
  readonly expected: Expected;
  readonly tolerance: number;
  readonly source: string;
}

/** Board feet of one rough board: thickness in inches or quarters, width in inches, length in feet or inches. */
export const boardFeetRows: readonly Row<
  {
    readonly thicknessIn?: number;
    readonly thicknessQuarters?: number;
    readonly widthIn: number;
    readonly lengthFt?: number;
    readonly lengthIn?: number;
  },
  number
>[] = [
  {
    id: 'bf-01',
    says: 'board feet',
    inputs: { thicknessIn: 3, widthIn: 8, lengthFt: 10 },
    expected: 20,
    tolerance: 0,
    source: 'small sawmill page "Calculating board feet of lumber"',
  },
  {
    id: 'bf-02',
    says: 'board feet of the unit piece',
    inputs: { thicknessIn: 1, widthIn: 12, lengthIn: 12 },
    expected: 1,
    tolerance: 0,
    source: 'definition: 144 cubic inches (furniture-making text, "Ordering lumber by the board foot")',
  },
  {
    id: 'bf-03',
    says: 'board feet',
    inputs: { thicknessIn: 2, widthIn: 16, lengthFt: 8 },
    expected: 21.333,
    tolerance: 0.001,
    source: 'how-to article "How to measure hardwood boards" (prints 21.3)',
  },
  {
    id: 'bf-04',
    says: 'board feet',
    inputs: { thicknessIn: 2, widthIn: 8, lengthIn: 72 },
    expected: 8,
    tolerance: 0,
    source: 'question-and-answer page citing a hardwood merchant (1152/144)',
  },
  {
    id: 'bf-05',
    says: 'board feet',
    inputs: { thicknessQuarters: 4, widthIn: 8, lengthFt: 8 },
    expected: 5.333,
    tolerance: 0.001,
    source: 'article "How to measure board feet" (prints 5.33)',
  },
  {
    id: 'bf-06',
    says: 'board feet, 1 x 3 by 8 ft nominal',
    inputs: { thicknessIn: 1, widthIn: 3, lengthFt: 8 },
    expected: 2,
    tolerance: 0,
    source: 'furniture-making text, "Ordering lumber by the board foot"',
  },
];

/** Surface measure in whole square feet. */
export const surfaceMeasureRows: readonly Row<{ readonly widthIn: number; readonly lengthFt: number }, number>[] = [
  {
    id: 'sm-01',
    says: 'surface measure (nearest whole)',
    inputs: { widthIn: 6.5, lengthFt: 8 },
    expected: 4,
    tolerance: 0,
    source: 'NHLA rule as quoted in a hardwood exporter page on American lumber measurement',
  },
  {
    id: 'sm-02',
    says: 'surface measure',
    inputs: { widthIn: 8, lengthFt: 12 },
    expected: 8,
    tolerance: 0,
    source: 'NHLA rule as quoted in a hardwood exporter page on American lumber measurement',
  },
  {
    id: 'sm-03',
    says: 'surface measure (10 10/12 rounds up)',
    inputs: { widthIn: 10, lengthFt: 13 },
    expected: 11,
    tolerance: 0,
    source: 'NHLA rule as quoted in a hardwood exporter page on American lumber measurement',
  },
  {
    id: 'sm-04',
    says: 'surface measure, length cut back to whole feet',
    inputs: { widthIn: 6.4375, lengthFt: 10.75 },
    expected: 5,
    tolerance: 0,
    source: 'hardwood-grading article (6 7/16 in by 10 ft 9 in; 5.36 -> 5)',
  },
  {
    id: 'sm-05',
    says: 'surface measure after rounding width and length down',
    inputs: { widthIn: 7, lengthFt: 8 },
    expected: 5,
    tolerance: 0,
    source: 'woodworkers forum primer on lumber grading (4.67 -> 5)',
  },
];

/** Board feet as tallied. */
export const tallyRows: readonly Row<
  { readonly widthIn: number; readonly lengthFt: number; readonly thicknessQuarters?: number; readonly thicknessIn?: number },
  number
>[] = [
  {
    id: 'sm-06',
    says: 'tallied board feet = surface measure x nominal thickness',
    inputs: { widthIn: 8, lengthFt: 12, thicknessQuarters: 8 },
    expected: 16,
    tolerance: 0,
    source: 'hardwood terminology page (BF = SM x T)',
  },
  {
    id: 'sm-07',
    says: 'tallied board feet, stock under 1 in counts as 1 in',
    inputs: { widthIn: 8, lengthFt: 12, thicknessIn: 0.75 },
    expected: 8,
    tolerance: 0,
    source: 'hardwood terminology page',
  },
];

/** Pieces per bar, in mm. */
export const kerfRows: readonly Row<{ readonly stock: number; readonly piece: number; readonly kerf: number }, number>[] = [
  {
    id: 'kerf-01',
    says: 'pieces per bar',
    inputs: { stock: 2400, piece: 597, kerf: 4 },
    expected: 4,
    tolerance: 0,
    source: 'n = floor((L+k)/(p+k))',
  },
  {
    id: 'kerf-02',
    says: 'pieces per bar',
    inputs: { stock: 2400, piece: 597, kerf: 5 },
    expected: 3,
    tolerance: 0,
    source: 'same formula',
  },
];

/** Checks that stand alone, by id. */
export const lumberChecks = {
  'bf-07': {
    says: 'cubic metres per board foot',
    inputs: { boardFeet: 1 },
    expected: 0.002359737216,
    tolerance: 1e-12,
    source: '1 in = 25.4 mm exactly; 144 in^3',
  },
  'bf-08': { says: 'board feet per cubic metre', inputs: { m3: 1 }, expected: 423.776, tolerance: 0.001, source: 'reciprocal of bf-07' },
  'waste-01': {
    says: 'gross for 100 net when 30 % of the gross is lost',
    inputs: { net: 100, lossOfGross: 0.3 },
    expected: 142.857,
    tolerance: 0.001,
    source: 'woodshop forum thread "Calculating waste from rough lumber"',
  },
  'waste-02': {
    says: 'share of gross lost when 30 % is added to net',
    inputs: { net: 100, added: 0.3 },
    expected: 0.230769,
    tolerance: 1e-6,
    source: 'same thread (23 %)',
  },
  'waste-03': {
    says: 'gross for 10 board feet net at 66 2/3 % yield',
    inputs: { net: 10, yield: 0.6666667 },
    expected: 15,
    tolerance: 0.001,
    source: 'newsgroup post on waste by grade',
  },
  'lab-01': {
    says: 'hours for 8 identical joints at 2 h, 5 % less per repeat, at most 30 % off',
    inputs: { joints: 8, firstH: 2 },
    expected: 13.3,
    tolerance: 0.001,
    source: 'Jones, How to price the job (2009/2018), joint rule as restated on a woodworking forum; reading of the discount is ours',
  },
  'lab-03': {
    says: 'milling hours for 60 board feet at 15 per hour',
    inputs: { boardFeet: 60 },
    expected: 4,
    tolerance: 0,
    source: 'forum statement of the same method',
  },
  'cov-use': {
    says: 'finish needed, litres',
    inputs: { areaM2: 4.2, coats: 2, coverage: 11, loss: 0.15 },
    expected: 0.878,
    tolerance: 0.001,
    source: 'area x coats / coverage x (1+loss)',
  },
} as const;
