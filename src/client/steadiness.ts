import type { TippingFigures } from '../figures/index.ts';
import type { ShownDesign } from './client-source.ts';
import type { DesignView } from './client-view.ts';
import { roundTo, type Shown } from './shown.ts';
import type { Words } from './words.ts';

type Row = DesignView['steadiness']['rows'][number];
type Load = TippingFigures['edge'];

/**
 * A tipping load above this is not shown as a figure: long before it, the strength of top and joints governs, which is not
 * computed here. @source common practice
 */
export const STRENGTH_GOVERNS_N = 2500;

/** A load that begins to tip, rounded down; where strength would govern, only that it is more than that. */
export function tippingLoad(newton: number, shown: Shown, words: Words): string {
  return newton < STRENGTH_GOVERNS_N
    ? shown.load(newton, 'down')
    : words.say('steady.beyond', { load: shown.load(STRENGTH_GOVERNS_N, 'down') });
}

/** The same in a sentence: `about 107 kg`. */
export function aboutLoad(newton: number, shown: Shown, words: Words): string {
  const load = tippingLoad(newton, shown, words);
  return newton < STRENGTH_GOVERNS_N ? words.say('steady.about', { load }) : load;
}

/** Within this of an end and of a side at once, a point of a rectangular top counts as its corner. */
const CORNER_MM = 1;

/** Where on the top the lowest load stands, for the sentence: `corner`, `end`, `side` or `rim`. */
function placeOf(load: NonNullable<Load>, design: ShownDesign): string {
  const { top, overallMm } = design.figures;
  if (top.shape !== 'rectangle') return 'rim';
  const atEnd = Math.abs(Math.abs(load.atMm.x) - overallMm.length / 2) < CORNER_MM;
  const atSide = Math.abs(Math.abs(load.atMm.y) - overallMm.width / 2) < CORNER_MM;
  if (atEnd && atSide) return 'corner';
  return atEnd ? 'end' : 'side';
}

/** The lowest of some loads in newtons; undefined where none of them tips the table. */
function lowest(loads: readonly (number | null)[]): number | undefined {
  const known = loads.filter((load) => load !== null);
  return known.length === 0 ? undefined : Math.min(...known);
}

function loadRow(key: string, load: number | undefined, shown: Shown, words: Words): Row {
  const label = words.say(`steady.row.${key}`, { inset: shown.length(50) });
  return { label, value: load === undefined ? words.say('steady.never') : aboutLoad(load, shown, words) };
}

/** The load of a check and where it stands: the same weight further in tips far less. */
function loadOfCase({ loadN, pushN, id }: TippingFigures['cases'][number], design: ShownDesign, shown: Shown, words: Words): string {
  if (loadN <= 0) return shown.load(pushN, 'near');
  const spec = design.spec.library.loadCases[id];
  const load = shown.load(loadN, 'near');
  const insetMm = spec?.inset.mm ?? 0;
  if (insetMm === 0) return load;
  return words.say(spec?.at === 'corner' ? 'steady.load-corner' : 'steady.load-inside', { load, inset: shown.length(insetMm) });
}

function caseRow(one: TippingFigures['cases'][number], design: ShownDesign, shown: Shown, words: Words): Row {
  const spec = design.spec.library.loadCases[one.id];
  const load = loadOfCase(one, design, shown, words);
  const note =
    one.safetyFactor === null
      ? words.say('steady.case-note-never', { load })
      : words.say('steady.case-note', {
          load,
          factor: shown.number(roundTo(one.safetyFactor, 0.1, 'down')),
          wanted: shown.number(one.wanted),
        });
  return { label: spec?.says ?? one.id, value: words.say(`steady.result.${one.result}`), note };
}

function placeRows(tipping: TippingFigures, design: ShownDesign, shown: Shown, words: Words): Row[] {
  if (design.figures.top.shape !== 'rectangle') return [];
  const at = (ids: readonly string[]): number | undefined =>
    lowest(tipping.places.flatMap((place) => (ids.includes(place.id) ? [place.inside50?.loadN ?? null] : [])));
  return [
    loadRow('corner', lowest(tipping.corners.map((corner) => corner.loadN)), shown, words),
    loadRow('end', at(['left', 'right']), shown, words),
    loadRow('side', at(['front', 'back']), shown, words),
  ];
}

/** Other states of the table, where a drawer is open or a leaf is out. */
function stateRows(design: ShownDesign, shown: Shown, words: Words): Row[] {
  return Object.entries(design.figures.tipping)
    .filter(([state]) => state !== 'standing')
    .map(([state, tipping]) => ({
      label: words.say('steady.row.state', { state: design.spec.table.states[state]?.says ?? state }),
      value: tipping.edge === null ? words.say('steady.never') : aboutLoad(tipping.edge.loadN, shown, words),
    }));
}

/** The load that begins to tip it and where; only that there is none below the load at which strength governs, where that comes first. */
function firstSentence(edge: Load, design: ShownDesign, shown: Shown, words: Words): string {
  if (edge === null) return words.say('steady.sentence-never');
  if (edge.loadN >= STRENGTH_GOVERNS_N) return words.say('steady.sentence-beyond', { load: shown.load(STRENGTH_GOVERNS_N, 'down') });
  return words.say(`steady.sentence-${placeOf(edge, design)}`, { load: aboutLoad(edge.loadN, shown, words) });
}

/**
 * How steady a design is: one sentence on the load that begins to tip it, and the rows behind it.
 * Every load is rounded down; nothing in it is an invitation.
 */
export function steadiness(design: ShownDesign, shown: Shown, words: Words): DesignView['steadiness'] {
  const standing = design.figures.tipping.standing;
  if (standing === undefined) throw new Error(`design ${design.id} has no figures of the table as it stands`);
  const { edge } = standing;
  const first = firstSentence(edge, design, shown, words);
  const soft = design.spec.proposal.room.floor.soft ? ` ${words.say('steady.soft-floor')}` : '';
  return {
    sentence: `${first} ${words.say('steady.not-a-seat')}${soft}`,
    rows: [
      loadRow('edge', edge?.loadN, shown, words),
      loadRow('inside', standing.inside50?.loadN, shown, words),
      ...placeRows(standing, design, shown, words),
      {
        label: words.say('steady.row.push'),
        value: words.say('steady.about', { load: shown.load(standing.push.forceN, 'down') }),
        note: words.say('steady.push-note'),
      },
      ...stateRows(design, shown, words),
      ...standing.cases.map((one) => caseRow(one, design, shown, words)),
    ],
  };
}
