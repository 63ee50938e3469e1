import type { Part, Table } from '../design/index.ts';
import { GLUED_JOINTS, type ProposalSpec, type TableSpec } from '../spec/index.ts';
import type { HardwareLine } from '../takeoff/index.ts';
import type { ConstructionFact, PlaceFact } from './input.ts';

/** Fixings that let a top of wood slide; the key of their name in the texts is `care.fixings.<kind>`. */
export const SLIDING: readonly Table['fixing']['kind'][] = ['buttons', 'slotted-screws', 'figure-eights', 'slotted-plates'];

/** Materials that stay as they are with the season and are let into wood. */
const METALS = ['steel', 'stainless-steel', 'brass', 'aluminium'];

/** Whether the boards or parts of a table are glued to each other. */
function isGlued({ joints, parts }: Table): boolean {
  return joints.some(({ kind, knockDown }) => !knockDown && GLUED_JOINTS.includes(kind)) || parts.some(({ boards }) => boards > 1);
}

/** What was bought tells by its own words what it is; common practice in naming. */
const says = (hardware: readonly HardwareLine[], words: RegExp): boolean =>
  hardware.some((line) => words.test(line.kind) || words.test(line.says));

const isTopOf =
  ({ top }: Table) =>
  (part: Part): boolean =>
    part.id === top.partId;

/** A part of the top's own height that a state of the table takes away or moves: a leaf. */
function hasLeaf({ states, parts }: Table): boolean {
  const loose = new Set(states.flatMap(({ moved, without }) => [...Object.keys(moved), ...without]));
  return parts.some(({ id, role, wood }) => loose.has(id) && role === 'panel' && wood !== undefined);
}

/** What is built in, from parts, joints, fixing and what was bought; what they do not show, as the maker wrote it. */
export function constructionFacts(
  table: Table,
  { alsoHas }: Pick<TableSpec, 'alsoHas'>,
  hardware: readonly HardwareLine[],
): readonly ConstructionFact[] {
  const top = table.parts.find(isTopOf(table));
  const slides = SLIDING.includes(table.fixing.kind) && table.fixing.pointsMm.length > 0 && top?.wood !== undefined;
  const facts: readonly (readonly [ConstructionFact, boolean])[] = [
    ['glued', isGlued(table)],
    ['moving-fixings', slides],
    ['breadboard', alsoHas.includes('breadboard')],
    ['drawer', table.parts.some(({ role }) => role === 'drawer')],
    ['leaf', alsoHas.includes('leaf') || hasLeaf(table)],
    ['knock-down', table.joints.some(({ knockDown }) => knockDown)],
    ['bolts', alsoHas.includes('bolts') || table.joints.some(({ kind }) => kind === 'bolts') || says(hardware, /\bbolts?\b/i)],
    ['glass', table.parts.some(({ material }) => material === 'glass')],
    ['levellers', alsoHas.includes('levellers') || says(hardware, /\blevell?(?:ing|ers?)\b/i)],
    ['castors', alsoHas.includes('castors') || says(hardware, /\bcast[oe]rs?\b/i)],
    ['steel', table.parts.some(({ material }) => material !== undefined && METALS.includes(material))],
  ];
  return facts.flatMap(([fact, holds]) => (holds ? [fact] : []));
}

/**
 * Time zones of the southern half of the earth, where homes are heated in some months.
 *
 * @source tz database, zone.tab: zones whose place has a southern latitude; which of them have a winter: common practice
 */
const SOUTHERN =
  /^(?:Australia\/|Antarctica\/|Atlantic\/Stanley$|Indian\/(?:Antananarivo|Mauritius|Reunion)$|Pacific\/(?:Auckland|Chatham|Easter|Norfolk|Noumea)$|Africa\/(?:Gaborone|Harare|Johannesburg|Maputo|Maseru|Mbabane|Windhoek)$|America\/(?:Argentina\/|(?:Asuncion|Coyhaique|La_Paz|Lima|Montevideo|Punta_Arenas|Santiago|Sao_Paulo)$))/;

/** What room and household ask. `zone` is the maker's, an IANA name: it tells the half of the earth where the room does not. */
export function placeFacts({ room, household }: Pick<ProposalSpec, 'room' | 'household'>, zone: string): readonly PlaceFact[] {
  const facts: readonly (readonly [PlaceFact, boolean])[] = [
    ['sun', room.sun],
    ['stove', room.stove],
    ['underfloor-heating', room.underfloorHeating],
    ['soft-floor', room.floor.soft],
    ['children', household.children],
    ['food', household.food],
    ['daily-spills', household.dailySpills],
    ['southern', room.hemisphere === undefined ? SOUTHERN.test(zone) : room.hemisphere === 'south'],
  ];
  return facts.flatMap(([fact, holds]) => (holds ? [fact] : []));
}
