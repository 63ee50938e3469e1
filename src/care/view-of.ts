import { type CalendarDate, compareDates, formatDate, formatLiftedMass, formatSizes, isoDate } from '../units/index.ts';
import { handsFor } from './hands.ts';
import type { CareInput } from './input.ts';
import type { CareNote } from './note.ts';
import type { CareEvent, CareView } from './view.ts';
import { careValues, peopleText, sayText, woodValues } from './words.ts';

/** What a care view says beside its note: who made the table, which one it is. */
export interface CareFrame {
  /** `RS-2026-07`. */
  readonly piece: string;
  readonly edition: number;
  /** The day of the edition. */
  readonly on: CalendarDate;
  readonly maker: CareView['maker'];
  readonly paper: CareView['paper'];
  /** What it is used for, as the proposal says: `dining`. */
  readonly use: string;
  readonly overallMm: { readonly length: number; readonly width: number; readonly height: number };
  readonly isRound: boolean;
  /** Botanical names by key of the wood. */
  readonly botanical: Readonly<Record<string, string>>;
}

/** Keys of texts that the papers of care use. */
const TEXTS = /^(?:care|label|movement|range)\./;

/** `Dining table in European oak`. */
function titleOf(input: CareInput, use: string): string {
  const key = `care.use.${use}`;
  const what = sayText(input, input.texts[key] === undefined ? 'care.use.table' : key);
  const [top] = input.woods;
  if (top === undefined) return what;
  return sayText(input, 'care.titled', { use: what, ...woodValues([top], input.language) });
}

/**
 * What is due for the table, in the order of its days: the end of its cure where that comes after the delivery, the first check, and when to look at the finish
 * again and again.
 */
function eventsOf(input: CareInput, note: CareNote, piece: string): readonly CareEvent[] {
  const { dates } = note;
  const values = careValues(input, dates);
  const event = (id: string, day: CalendarDate, more: { readonly seed?: string; readonly everyMonths?: number } = {}): CareEvent => ({
    seed: more.seed ?? `${piece} ${id}`,
    day,
    title: sayText(input, `care.event.${id}-title`, { ...values, piece }),
    text: sayText(input, `care.event.${id}-text`, { ...values, piece }),
    ...(more.everyMonths === undefined ? {} : { everyMonths: more.everyMonths }),
  });
  const { low } = input.finish.spec.refreshMonths;
  const isCuring = compareDates(dates.curedFrom, input.deliveredOn) > 0;
  // A refinish begins to count anew: its days are others, not the old ones moved.
  const since = input.refreshedOn === undefined ? '' : ` ${input.refreshedOn.year}-${input.refreshedOn.month}-${input.refreshedOn.day}`;
  const events = [
    ...(isCuring ? [event('cured', dates.curedFrom, { seed: `${piece} cured${since}` })] : []),
    event('check', dates.firstCheckOn, { seed: `${piece} check${since}` }),
    ...(low >= 1 ? [event('refresh', dates.refreshFrom, { seed: `${piece} refresh${since}`, everyMonths: Math.round(low) })] : []),
  ];
  return events.toSorted((a, b) => compareDates(a.day, b.day));
}

/** What the care papers of a table say: its note with what frames it. Names nobody but the maker. */
export function careViewOf(input: CareInput, note: CareNote, frame: CareFrame): CareView {
  const { language, shown, carrying, finish, baseFinish } = input;
  const { overallMm, isRound } = frame;
  const day = (date: CalendarDate): string => formatDate(date, language);
  const named = ({ spec, product }: CareInput['finish']): CareView['finish'] => ({
    name: spec.name,
    ...(product === undefined ? {} : { product }),
  });
  const sizes = isRound
    ? `Ø${formatSizes([overallMm.length, overallMm.height], shown)}`
    : formatSizes([overallMm.length, overallMm.width, overallMm.height], shown);
  const style = shown.style === 'mm+in' ? 'mm' : shown.style;
  return {
    format: 'leafwright/care/1',
    language,
    paper: frame.paper,
    texts: Object.fromEntries(Object.entries(input.texts).filter(([key]) => TEXTS.test(key))),
    piece: frame.piece,
    title: titleOf(input, frame.use),
    edition: frame.edition,
    date: day(frame.on),
    dateIso: isoDate(frame.on),
    finished: day(input.finishedOn),
    delivered: day(input.deliveredOn),
    madeIn: input.madeOn ?? input.finishedOn,
    maker: frame.maker,
    woods: input.woods.map(({ id, name }) => ({ name, ...(frame.botanical[id] === undefined ? {} : { botanical: frame.botanical[id] }) })),
    finish: named(finish),
    ...(baseFinish === undefined ? {} : { baseFinish: named(baseFinish) }),
    size: sizes,
    mass: formatLiftedMass(carrying.massKg, style, shown.locale),
    ...(carrying.isWeighed === true ? { isWeighed: true } : {}),
    note,
    events: eventsOf(input, note, frame.piece),
    ...(carrying.pieces.length < 2
      ? {}
      : {
          apart: {
            steps: carrying.apart,
            pieces: carrying.pieces.map(({ name, massKg }) => ({
              name,
              mass: formatLiftedMass(massKg, input.shown.style, input.shown.locale),
              people: peopleText(input, handsFor(massKg, 1)),
            })),
          },
        }),
  };
}
