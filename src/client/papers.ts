import type { FinishSpec, WoodSpec } from '../spec/index.ts';
import {
  formatDate,
  formatLength,
  formatMass,
  formatNumber,
  formatPercent,
  type LengthStyle,
  parseDate,
  UNIT_SPACE,
} from '../units/index.ts';
import type { ClientView, DesignView, MaterialView } from './client-view.ts';
import type { BuiltRow, PaperLine, PapersView, WoodFacts } from './papers-view.ts';
import { plainText } from './rich-text.ts';
import { type Words, wordsOf } from './words.ts';

/** @source NIST SP 811 (2008), B.8: 1 lb/ft3 = 16.01846 kg/m3 */
const KG_M3_PER_LB_FT3 = 16.01846;

/** A finish as it was put on. */
export interface AppliedFinish {
  readonly spec: Pick<FinishSpec, 'name'>;
  readonly product?: string;
  readonly batch?: string;
}

/** Boards as the maker wrote down what was said of them. */
export interface StatedTimber {
  readonly wood: string;
  readonly origin?: string;
  readonly says?: string;
  readonly certificate?: string;
}

/** What was recorded of a delivered table. Days as `2027-02-14`; lengths in mm; moisture of dry mass and humidity in percent. */
export interface DeliveredTable {
  readonly piece: string;
  readonly finishedOn: string;
  readonly deliveredOn: string;
  readonly editionOn: string;
  readonly asBuilt: readonly {
    /** Path in the specification. */
    readonly what: string;
    readonly agreedMm: number;
    readonly builtMm: number;
    readonly toleranceMm: number;
    /** Who said yes to the difference: an id of somebody who decides. */
    readonly yes?: { readonly person?: string; readonly on: string };
  }[];
  /** As weighed. */
  readonly massKg?: number;
  /** Its overall size with what was measured in it, and its mass rounded up for whoever carries it: in the words of its care note. */
  readonly inCare: { readonly size: string; readonly mass: string };
  readonly finish: AppliedFinish;
  readonly baseFinish?: AppliedFinish;
  /** The yes to another finish than was ordered. */
  readonly otherFinish: readonly { readonly ordered: string; readonly person?: string; readonly on?: string }[];
  readonly moisturePercent: readonly number[];
  readonly humidityPercent: { readonly glueUp?: number; readonly finish?: number; readonly delivery?: number };
  readonly timber: readonly StatedTimber[];
  readonly glue?: string;
  /** The top's first. */
  readonly woods: readonly WoodSpec[];
}

/** The design as it was ordered, on one page of the ordered revision. */
export interface OrderedPage {
  readonly page: ClientView;
  readonly design: DesignView;
  readonly isDrawn: boolean;
  /** Ids of the options that were chosen where the design is drawn as standard. */
  readonly notDrawn?: readonly string[];
  readonly show: LengthStyle;
}

/** How the papers of one page say things. */
export interface Saying {
  readonly words: Words;
  readonly show: LengthStyle;
  readonly day: (iso: string) => string;
  readonly nameOf: (person: string | undefined) => string | undefined;
}

/** Sizes that every level but a sketch shows; of other parts only the level `full` does. */
const MAIN_SIZES = /^(?:height|top\.(?:length|width|diameter|thickness))$/;
const OVERALL_SIZES = /^(?:height|top\.(?:length|width|diameter))$/;

export function maySee(level: ClientView['level'], what: string): boolean {
  return level === 'full' || (level === 'agreed' ? MAIN_SIZES : OVERALL_SIZES).test(what);
}

const kebab = (text: string): string => text.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** `Length of the top`, `Height of the tray`; a size that the file format no longer has is told by the words of its path. */
export function sizeName(what: string, words: Words): string {
  const key = `papers.size.${kebab(what)}`;
  if (words.has(key)) return words.say(key);
  const [, part, of] = /^parts\.([^.]+)\.(.+)$/.exec(what) ?? [];
  const partKey = `papers.size.part.${kebab(of ?? '')}`;
  if (part !== undefined && words.has(partKey)) return words.say(partKey, { part: part.replaceAll('-', ' ') });
  const steps = what.split('.').map((step) => kebab(step).replaceAll('-', ' '));
  const joined = steps.join(', ');
  return joined.charAt(0).toUpperCase() + joined.slice(1);
}

function lengthText(mm: number, { words, show }: Saying): string {
  return formatLength(mm, { style: show, locale: words.language, decimals: 1, fraction: 32 });
}

/** Who said yes to a difference, and when; a name only where the page shows it. */
function yesText(yes: DeliveredTable['asBuilt'][number]['yes'], { words, nameOf, day }: Saying): string {
  if (yes === undefined) return words.say('papers.built-beyond');
  const name = nameOf(yes.person);
  const date = day(yes.on).replaceAll(' ', '\u00a0');
  return name === undefined ? words.say('papers.agreed-on', { date }) : `${name}, ${date}`;
}

export function builtRow(one: DeliveredTable['asBuilt'][number], saying: Saying): BuiltRow {
  const { words } = saying;
  const difference = one.builtMm - one.agreedMm;
  const isSame = Math.abs(difference) < 1e-9;
  const isBeyond = Math.abs(difference) > one.toleranceMm + 1e-9;
  return {
    says: sizeName(one.what, words),
    agreed: lengthText(one.agreedMm, saying),
    built: lengthText(one.builtMm, saying),
    tolerance: `±\u00a0${lengthText(one.toleranceMm, saying)}`,
    difference: isSame ? words.say('papers.no-difference') : `${difference > 0 ? '+' : ''}${lengthText(difference, saying)}`,
    agreedBy: isBeyond ? yesText(one.yes, saying) : words.say('papers.built-within'),
  };
}

function densityText(kgM3: number, { words, show }: Saying): string {
  const metric = `${formatNumber(Math.round(kgM3 / 10) * 10, words.language)}${UNIT_SPACE}kg/m³`;
  const pounds = `${formatNumber(kgM3 / KG_M3_PER_LB_FT3, words.language)}${UNIT_SPACE}lb/ft³`;
  return show === 'mm' ? metric : show === 'in' ? pounds : `${metric} (${pounds})`;
}

function woodFacts(wood: WoodSpec, saying: Saying): WoodFacts {
  const { words } = saying;
  const share = (change: number): string => formatPercent(change * 100, words.language, 2);
  return {
    name: wood.name,
    botanical: wood.botanical,
    rows: [
      [words.say('papers.wood-weight'), words.say('papers.wood-weight-says', { density: densityText(wood.densityKgM3, saying) })],
      [
        words.say('papers.wood-moves'),
        words.say('papers.wood-moves-says', { flat: share(wood.changeTangential), quarter: share(wood.changeRadial) }),
      ],
      ...(wood.origin === undefined ? [] : [[words.say('papers.wood-range'), wood.origin] as const]),
      ...(wood.ageing !== undefined && words.has(wood.ageing) ? [[words.say('papers.wood-ageing'), words.say(wood.ageing)] as const] : []),
    ],
    source: words.say('papers.wood-source', { source: wood.source }),
  };
}

export function finishRows(
  { finish, baseFinish, otherFinish }: Pick<DeliveredTable, 'finish' | 'baseFinish' | 'otherFinish'>,
  saying: Saying,
): PapersView['finish'] {
  const { words, nameOf, day } = saying;
  const said = ({ spec, product, batch }: AppliedFinish): string =>
    [spec.name, ...(product === undefined ? [] : [product]), ...(batch === undefined ? [] : [words.say('papers.batch', { batch })])].join(
      '; ',
    );
  const other = otherFinish.map(({ ordered, person, on }) => {
    const name = nameOf(person);
    const agreed = on === undefined ? '' : `; ${words.say('papers.agreed-on', { date: day(on) })}${name === undefined ? '' : `, ${name}`}`;
    return [words.say('papers.finish-ordered'), `${ordered}${agreed}`] as const;
  });
  return [
    [words.say(baseFinish === undefined ? 'papers.finish-all' : 'papers.finish-top'), said(finish)],
    ...(baseFinish === undefined ? [] : [[words.say('papers.finish-base'), said(baseFinish)] as const]),
    ...other,
  ];
}

export function moistureText(percents: readonly number[], words: Words): string {
  const [low, high] = [Math.min(...percents), Math.max(...percents)];
  const range =
    low === high
      ? formatPercent(low, words.language, 1)
      : `${formatNumber(low, words.language, 1)} ${words.say('range.to')} ${formatPercent(high, words.language, 1)}`;
  return words.count('papers.moisture-says', percents.length, { range });
}

export function baselineRows(
  { moisturePercent, humidityPercent }: Pick<DeliveredTable, 'moisturePercent' | 'humidityPercent'>,
  { words }: Saying,
): PapersView['baseline'] {
  const air = (['glueUp', 'finish', 'delivery'] as const).flatMap((when) => {
    const percent = humidityPercent[when];
    return percent === undefined ? [] : [[words.say(`papers.humidity-${kebab(when)}`), formatPercent(percent, words.language, 0)] as const];
  });
  return [...(moisturePercent.length === 0 ? [] : [[words.say('papers.moisture'), moistureText(moisturePercent, words)] as const]), ...air];
}

/** Metal, glass and stone by part, which alone bear no finish of wood; then the bought fittings that the page's level shows. */
function metalLines({ materials, hardware }: DesignView, { words }: Saying): readonly string[] {
  const parts = materials.filter(({ finish }) => finish === undefined);
  const named = ({ part, count }: MaterialView): string => (count === '1' ? part : words.say('material.hardware', { count, says: part }));
  return [...parts.map((row) => [named(row), row.wood, row.size ?? ''].filter((text) => text !== '').join(', ')), ...hardware];
}

/** Overall sizes that were agreed and, where one of them was measured, as built: as agreed alone where they read the same. */
function sizeRows({ asBuilt, inCare }: DeliveredTable, { sizes }: DesignView, { words }: Saying): PapersView['sizes'] {
  const bare = (text: string): string => text.replaceAll(/\s/g, '');
  const agreed = [words.say('papers.size'), sizes] as const;
  if (!asBuilt.some(({ what }) => OVERALL_SIZES.test(what))) return [agreed];
  const built = [words.say('papers.size-built'), bare(inCare.size) === bare(sizes) ? sizes : inCare.size] as const;
  return built[1] === sizes ? [built] : [built, agreed];
}

/** What the table weighs: on the scale, else as it was calculated. */
function massText({ massKg, inCare }: DeliveredTable, { words, show }: Saying): string {
  return massKg === undefined
    ? words.say('papers.mass-calculated', { mass: inCare.mass })
    : words.say('papers.mass-weighed', { mass: formatMass(massKg, show, words.language, 1) });
}

/**
 * The papers of a delivered table for one page: what its level and its reader may see, in words.
 *
 * @param delivered what was recorded
 * @param ordered the page as frozen, with texts of today beneath its own
 */
export function papersView(delivered: DeliveredTable, ordered: OrderedPage): PapersView {
  const { page, design, isDrawn, notDrawn, show } = ordered;
  const words = wordsOf(page.language, page.texts);
  const day = (iso: string): string => {
    const date = parseDate(iso);
    return date === undefined ? iso : formatDate(date, page.language);
  };
  const nameOf = (person: string | undefined): string | undefined => page.letter?.people.find(({ id }) => id === person)?.name;
  const saying: Saying = { words, show, day, nameOf };
  const options = page.letter?.designs.find(({ id }) => id === design.id)?.options ?? [];
  const chosen = options.filter(({ id }) => notDrawn?.includes(id) === true).map(({ says }) => says);
  return {
    format: 'leafwright/papers/1',
    page,
    design,
    isDrawn,
    ...(notDrawn === undefined
      ? {}
      : {
          standardShown: words.say('paper.standard-shown', {
            says: chosen.length === 0 ? words.say('price.no-options') : chosen.join('; '),
          }),
        }),
    piece: delivered.piece,
    finished: day(delivered.finishedOn),
    delivered: day(delivered.deliveredOn),
    edition: day(delivered.editionOn),
    editionIso: delivered.editionOn,
    deliveredIso: delivered.deliveredOn,
    sizes: sizeRows(delivered, design, saying),
    mass: massText(delivered, saying),
    built: delivered.asBuilt.filter(({ what }) => maySee(page.level, what)).map((one) => builtRow(one, saying)),
    ...(delivered.massKg === undefined
      ? {}
      : { weighed: words.say('papers.weighed', { mass: formatMass(delivered.massKg, show, page.language, 1) }) }),
    woods: delivered.woods.map((wood) => woodFacts(wood, saying)),
    timber: delivered.timber.map(({ wood, origin = '', says, certificate = '' }) => ({
      wood,
      origin,
      says: says === undefined ? '' : plainText(says),
      certificate,
    })),
    finish: finishRows(delivered, saying),
    metal: metalLines(design, saying),
    ...(delivered.glue === undefined ? {} : { glue: delivered.glue }),
    baseline: baselineRows(delivered, saying),
  };
}

/** Papers of a table, in the order in which they are listed. */
export const paperIds = ['care', 'drawings', 'materials', 'scope', 'statement', 'delivery-note'] as const;
export type PaperId = (typeof paperIds)[number];

const KILO = 1000;

/** A line of the list of papers: `href` beside the page, its bytes. */
export function paperLine({ page, edition }: Pick<PapersView, 'page' | 'edition'>, id: PaperId, href: string, bytes: number): PaperLine {
  const words = wordsOf(page.language, page.texts);
  const size = `${formatNumber(Math.max(1, Math.round(bytes / KILO)), page.language)}${UNIT_SPACE}KB`;
  return {
    href,
    name: words.say(`papers.${id}`),
    why: words.say(`papers.${id}-why`, { date: edition }),
    file: `${(href.split('.').at(-1) ?? '').toUpperCase()}, ${size}`,
  };
}
