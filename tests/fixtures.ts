/**
 * Specs built in code, for tests that start behind `read/`.
 * Everything in it is invented: people, prices, towns. Densities: European oak 670, cherry 560, ash 690 kg/m3 (the demos' hand checks).
 */
import type {
  ApronsSpec,
  BaseSpec,
  EffectiveSpec,
  FreePartSpec,
  JointKind,
  JointSpec,
  LegsSpec,
  Library,
  ProposalSpec,
  TableSpec,
  VariantSpec,
  WoodSpec,
} from '../src/spec/index.ts';
import type { Angle, CalendarDate, DecimalText, Force, Length, Length2, Length3, Mass, Percent, Temperature } from '../src/units/index.ts';

export const length = (mm: number): Length => ({ mm, written: `${mm} mm` });
export const length2 = (x: number, y: number): Length2 => [length(x), length(y)];
export const length3 = (x: number, y: number, z: number): Length3 => [length(x), length(y), length(z)];
export const angle = (deg: number): Angle => ({ deg, written: `${deg} deg` });
export const percent = (value: number): Percent => ({ percent: value, written: `${value} %` });
export const force = (n: number): Force => ({ n, written: `${n} N` });
export const mass = (kg: number): Mass => ({ kg, written: `${kg} kg` });
export const temperature = (celsius: number): Temperature => ({ celsius, written: `${celsius} C` });
export const decimal = (text: string): DecimalText => text as DecimalText;
export const date = (year: number, month: number, day: number): CalendarDate => ({ year, month, day });

const woodColour = { face: '#c8a878', grain: '#a98a5c', end: '#8f7248' };

/** Movement coefficients and shrinkages: Wood Handbook FPL-GTR-190, Tables 13-5 and 4-3 (white oak group, black cherry, white ash); European oak and ash by likeness, for tests only. */
export const woods: Readonly<Record<string, WoodSpec>> = {
  'oak-european': {
    name: 'European oak',
    botanical: 'Quercus robur',
    densityKgM3: 670,
    hardness: 'hardwood',
    moeMPa: 10600,
    shrinkRadialPercent: 5.6,
    shrinkTangentialPercent: 10.5,
    changeRadial: 0.0018,
    changeTangential: 0.00365,
    elastic: { etOverEl: 0.072, erOverEl: 0.163, glrOverEl: 0.086 },
    colour: woodColour,
    source: 'tests',
  },
  'cherry-black': {
    name: 'Black cherry',
    botanical: 'Prunus serotina',
    densityKgM3: 560,
    specificGravity12: 0.5,
    hardness: 'hardwood',
    moeMPa: 10270,
    shrinkRadialPercent: 3.7,
    shrinkTangentialPercent: 7.1,
    changeRadial: 0.00126,
    changeTangential: 0.00248,
    elastic: { etOverEl: 0.086, erOverEl: 0.197, glrOverEl: 0.147, gltOverEl: 0.097 },
    colour: { face: '#b5744c', grain: '#8f5735', end: '#764527' },
    source: 'tests',
  },
  'ash-white': {
    name: 'White ash',
    botanical: 'Fraxinus americana',
    densityKgM3: 690,
    specificGravity12: 0.6,
    hardness: 'hardwood',
    moeMPa: 12000,
    shrinkRadialPercent: 4.9,
    shrinkTangentialPercent: 7.8,
    changeRadial: 0.00169,
    changeTangential: 0.00274,
    elastic: { etOverEl: 0.08, erOverEl: 0.125, glrOverEl: 0.109, gltOverEl: 0.077 },
    colour: { face: '#dcc9a3', grain: '#bda57a', end: '#a08a60' },
    source: 'tests',
  },
};

export const library: Library = {
  woods,
  materials: {
    steel: { name: 'Steel', densityKgM3: 7850, colour: { face: '#8a8d90', grain: '#77797c', end: '#77797c' }, source: 'tests' },
  },
  finishes: {
    'hardwax-oil': {
      name: 'Hardwax oil',
      classes: ['hardwax-oil'],
      coats: 2,
      coverageM2PerLitre: 24,
      lossPercent: 10,
      method: 'wiped',
      pricePerLitre: decimal('46.00'),
      betweenCoatsHours: 12,
      lightUseHours: 48,
      fullCureDays: 14,
      refreshMonths: { low: 12, high: 24 },
      sheen: 'satin',
      resists: { water: 'good', heat: 'poor', alcohol: 'fair' },
      repair: 'spot',
      care: { daily: 'Wipe with a damp cloth.', never: 'No scouring pads.', spills: 'Wipe up at once.', refresh: 'A thin coat each year.' },
      cautions: ['Oily rags can catch fire by themselves: lay them flat outdoors to dry.'],
      source: 'tests',
    },
  },
  loadCases: {
    lean: {
      says: 'A grown person leans on the edge',
      kind: 'vertical',
      load: force(400),
      inset: length(50),
      at: 'worst',
      wanted: 1.5,
      least: 1,
      uses: ['dining'],
      source: 'the maker',
    },
    shove: {
      says: 'Somebody pushes against the edge',
      kind: 'push',
      push: force(100),
      inset: length(0),
      at: 'worst',
      wanted: 1.2,
      least: 1,
      uses: ['dining'],
      source: 'the maker',
    },
  },
  rates: {
    format: 'leafwright/rates/1',
    quoteDays: 90,
    currency: 'EUR',
    hour: decimal('57.93'),
    overhead: { kind: 'in-hour' },
    markUp: { timber: percent(20), hardware: percent(15), finish: percent(15), labour: percent(0) },
    contingency: percent(5),
    leastMargin: percent(15),
    delivery: decimal('120.00'),
    roundUpTo: decimal('25.00'),
    steps: { boardFoot: decimal('0.01'), m3: decimal('0.0001'), m2: decimal('0.01'), litre: decimal('0.01'), hour: decimal('0.05') },
    timber: {
      'oak-40': {
        wood: 'oak-european',
        thickness: length(40),
        yields: { short: length(34), long: length(32) },
        price: decimal('3400.00'),
        per: 'm3',
        addition: percent(35),
        quotedOn: date(2026, 2, 2),
      },
      'oak-65': {
        wood: 'oak-european',
        thickness: length(80),
        yields: { short: length(72), long: length(70) },
        price: decimal('3900.00'),
        per: 'm3',
        addition: percent(35),
        quotedOn: date(2026, 2, 2),
      },
    },
    hardware: {
      buttons: { says: 'Wooden button with screw', price: decimal('0.85') },
      'slotted-screws': { says: 'Screw in a slot', price: decimal('0.40') },
    },
    allowances: { length: length(40), width: length(6), thickness: length(6), kerf: length(4) },
    operations: {
      'mortise-and-tenon': {
        says: 'Mortise and tenon, cut and fitted',
        per: 'joint',
        low: 0.6,
        mid: 0.8,
        high: 1.1,
        finishing: false,
      },
      flattening: { says: 'Flatten the faces of panels', per: 'm2', low: 1, mid: 1.5, high: 2.5, finishing: true },
      'wiped-coat': { says: 'Coat', per: 'm2-coat', low: 0.12, mid: 0.16, high: 0.22, finishing: true },
    },
    taxes: { home: { says: 'home goods', percent: percent(20) }, none: { says: 'no tax', percent: percent(0) } },
  },
  maker: {
    name: 'Runa Stavely',
    trade: 'Tables to order',
    address: '3 Net Loft, Tarrowby',
    email: 'bench@tarrowby.example',
    telephone: '+00 000 0000',
    timeZone: 'Europe/Dublin',
    invented: true,
  },
  terms: {
    sections: [{ title: 'Wood', body: 'Every board differs.' }],
    tolerances: [{ says: 'Overall sizes', value: '2 mm' }],
    changes: [{ stage: 'proposed', says: 'free' }],
    cancellation: [{ stage: 'proposed', says: 'nothing is due' }],
  },
  texts: {},
};

export const proposal: ProposalSpec = {
  format: 'leafwright/proposal/1',
  pages: {},
  title: 'A dining table',
  invented: true,
  client: { name: 'Maren Tollefsen' },
  deciders: { rule: 'all', people: { maren: { name: 'Maren Tollefsen' } } },
  language: 'en-GB',
  units: 'mm',
  show: 'mm',
  paper: 'a4',
  currency: 'EUR',
  use: 'dining',
  understood: 'Six of you daily.',
  wishes: {},
  room: {
    length: length(5150),
    width: length(2680),
    humidity: { low: percent(34), high: percent(58) },
    temperature: temperature(20),
    underfloorHeating: false,
    floor: { says: 'stone', soft: false },
    stands: {},
    sun: false,
    stove: false,
    obstacles: {},
    access: [],
    notes: [],
  },
  household: { children: false, dailySpills: false, food: false },
  revision: { id: 'r1', date: date(2026, 2, 20), validUntil: date(2026, 3, 20), level: 'full', audience: 'payer' },
  leadTime: 'ten weeks',
  terms: 'standard',
  rates: 'bench',
  tax: 'home',
  quantity: 1,
  lines: {},
  supplied: [],
  exclusions: [],
  assumptions: [],
  choices: [],
  instalments: [{ percent: percent(100), when: 'on delivery' }],
};

export const variant: VariantSpec = {
  id: 'A',
  name: 'Reed',
  why: 'Light and open.',
  answers: {},
  options: {},
  offered: true,
  notes: [],
};

/** Legs of the Reed: 62 mm tapering to 42 mm on the inner faces, 320 mm from the ends and 70 mm from the sides. */
export const reedLegs: LegsSpec = {
  shape: 'square',
  size: length(62),
  footSize: length(42),
  taper: 'inside',
  endOverhang: length(320),
  sideOverhang: length(70),
};

export const reedAprons: ApronsSpec = {
  height: length(60),
  thickness: length(24),
  setBack: length(8),
  sides: 'both',
  below: length(0),
};

export const reedBase: BaseSpec = { kind: 'legs', legs: reedLegs, aprons: reedAprons };

/** Demo 1, design A, first revision: 2100 x 820 x 28, 745 high. */
export const reedTable: TableSpec = {
  wood: 'oak-european',
  height: length(745),
  top: { kind: 'rectangle', length: length(2100), width: length(820), thickness: length(28), sawn: 'flat', grain: 'length' },
  base: reedBase,
  parts: {},
  joints: {},
  fixing: { kind: 'buttons' },
  states: {},
  finish: 'hardwax-oil',
  hardware: {},
  stock: {},
  alsoHas: [],
  work: {},
};

/** A complete spec around a table; `patch` replaces top-level fields of the table. */
export const specOf = (patch: Partial<TableSpec> = {}, over: Partial<EffectiveSpec> = {}): EffectiveSpec => ({
  proposal,
  variant,
  table: { ...reedTable, ...patch },
  library,
  ...over,
});

type Loose<T> = T extends FreePartSpec
  ? Omit<T, 'grain' | 'sawn' | 'turn' | 'mirror'> & Partial<Pick<T, 'grain' | 'sawn' | 'turn' | 'mirror'>>
  : never;

/** A free part with the usual defaults: grain along x, flat sawn, neither turned nor mirrored. */
export const freePart = (part: Loose<FreePartSpec>): FreePartSpec =>
  ({ grain: 'x', sawn: 'flat', turn: [], mirror: [], ...part }) as FreePartSpec;

export const joint = (kind: JointKind, a: string, b: string, knockDown = false): JointSpec => ({ kind, a, b, knockDown });
