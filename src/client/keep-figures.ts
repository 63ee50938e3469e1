import { UNIT_SPACE } from '../units/index.ts';

const NO_BREAK_SPACE = '\u00a0';
const FIGURE = '[\\d½¼¾⅛⅜⅝⅞]';

/** Units that a maker writes after a figure. `in` is a word as well: a unit only where nothing but a mark follows. */
const UNITS = 'mm|cm|m²|m³|m|kg|g|kN|N|lbf|lb|bf|ft|h|%|°C|°F|EUR|USD|in(?=[.,;:)×]|$)';

const beforeUnit = new RegExp(`(${FIGURE}) (?=(?:${UNITS})(?![\\p{L}\\p{N}]))`, 'gu');
const beforeTimes = new RegExp(`(${FIGURE}[″′]?) ?× ?(?=${FIGURE})`, 'gu');
const beforeFraction = /(\d) (?=\d+[/\u2044]\d)/gu;

/**
 * The maker's words with what a line must not part: a figure keeps its unit (narrow no-break space), a whole number its
 * fraction, a multiplication sign the figure before it. Nothing else changes.
 */
export function keepFigures(text: string): string {
  return text
    .replaceAll(beforeUnit, `$1${UNIT_SPACE}`)
    .replaceAll(beforeTimes, `$1${NO_BREAK_SPACE}× `)
    .replaceAll(beforeFraction, `$1${NO_BREAK_SPACE}`);
}
