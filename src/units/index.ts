/** Quantities, money, calendar dates and how they are shown. Pure; SI inside; text in, text out, nothing else. */
export { addDays, addMonths, compareDates, dayNumber, daysInMonth, fromDayNumber, isLeapYear, isoDate, parseDate } from './calendar.ts';
export type { Exact } from './exact.ts';
export {
  compareExact,
  exact,
  exactOf,
  exactOfNumber,
  minus,
  negate,
  over,
  plus,
  roundHalfUp,
  roundToStep,
  roundUp,
  times,
  toDecimal,
  toNumber,
  ZERO,
} from './exact.ts';
export type { LengthShown } from './format.ts';
export {
  formatAngle,
  formatDate,
  formatDimension,
  formatForce,
  formatInches,
  formatLength,
  formatLiftedMass,
  formatMass,
  formatMoney,
  formatMonth,
  formatNumber,
  formatPercent,
  formatShortDate,
  formatSizes,
  UNIT_SPACE,
} from './format.ts';
export { type HiddenSign, hiddenSigns, turningSigns, withoutHiddenSigns } from './hidden-signs.ts';
export type { LengthReading } from './length.ts';
export { parseLength, writeLength } from './length.ts';
export { parseAngle, parseDuration, parseForce, parseMass, parsePercent, parseTemperature, STANDARD_GRAVITY } from './measure.ts';
export {
  decimalOfMoney,
  distribute,
  exactDecimal,
  exactMoney,
  isCurrencyCode,
  minorDigits,
  minusMoney,
  money,
  percentOf,
  roundMinor,
  sumMoney,
} from './money.ts';
export { parseExact } from './number.ts';
export { byCodeUnit } from './order.ts';
export type { Parsed, Refused } from './parsed.ts';
export type {
  Angle,
  BareUnit,
  CalendarDate,
  DecimalText,
  Duration,
  Force,
  Length,
  Length2,
  Length3,
  LengthStyle,
  Mass,
  Money,
  Percent,
  Temperature,
} from './quantity.ts';
