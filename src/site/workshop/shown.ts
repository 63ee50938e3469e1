import { formatLength, formatMass, formatMoney, formatNumber, formatPercent, formatSizes, UNIT_SPACE } from '../../units/index.ts';

/** How figures are shown to the maker: exact to what a workshop measures, nothing rounded to the safe side. */
export interface WorkshopShown {
  readonly length: (mm: number) => string;
  readonly sizes: (size: { readonly length: number; readonly width: number; readonly thickness: number }) => string;
  readonly mass: (kg: number) => string;
  /** A force with the mass that weighs as much. */
  readonly load: (newton: number | null | undefined) => string;
  readonly money: (minor: number) => string;
  readonly hours: (hours: number) => string;
  readonly percent: (percent: number, decimals?: number) => string;
  readonly number: (value: number, decimals?: number) => string;
}

/** @source NIST SP 811 (2008), B.8: standard gravity */
const GRAVITY = 9.80665;

/** Formats for the maker's language, the proposal's style of lengths and its currency. */
export function workshopShown(locale: string, style: 'mm' | 'in' | 'mm+in', currency: string): WorkshopShown {
  const length = (mm: number): string => formatLength(mm, { style, locale, decimals: 1 });
  return {
    length,
    sizes: (size) => formatSizes([size.length, size.width, size.thickness], { style, locale, decimals: 1 }),
    mass: (kg) => formatMass(kg, style, locale, 1),
    load: (newton) =>
      newton === null || newton === undefined
        ? 'none tips it'
        : `${formatNumber(newton, locale)}${UNIT_SPACE}N (${formatMass(newton / GRAVITY, style, locale)})`,
    money: (minor) => formatMoney({ currency, minor }, locale),
    hours: (hours) => `${formatNumber(hours, locale, 1, 1)}${UNIT_SPACE}h`,
    percent: (percent, decimals = 0) => formatPercent(percent, locale, decimals),
    number: (value, decimals = 1) => formatNumber(value, locale, decimals),
  };
}
