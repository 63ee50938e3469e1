/** Quantities, money, calendar dates and how they are shown. Pure; SI inside. */
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
