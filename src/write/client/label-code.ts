import { encode } from 'uqr';

/** Light modules on every side of a code. @source ISO/IEC 18004, quiet zone of QR codes: 4 modules (from memory) */
const QUIET_MODULES = 4;
/** The least side of a module that a telephone reads from a hand's width away. @source common practice of printing codes */
export const LEAST_MODULE_MM = 0.4;
/** A code that is larger than it needs to be shouts. */
const MOST_MODULE_MM = 0.62;

/** A QR code at its size: rows from top to bottom, `true` for dark; without its quiet zone. */
export interface LabelCode {
  readonly rows: readonly (readonly boolean[])[];
  readonly moduleMm: number;
  /** Side of the dark and light modules together. */
  readonly sideMm: number;
  readonly quietMm: number;
  readonly level: 'M' | 'Q';
}

function codeAt(text: string, level: LabelCode['level'], boxMm: number): LabelCode | undefined {
  const { data } = encode(text, { ecc: level, border: 0, boostEcc: false });
  const moduleMm = Math.min(MOST_MODULE_MM, Math.floor((boxMm / (data.length + 2 * QUIET_MODULES)) * 1000) / 1000);
  if (moduleMm < LEAST_MODULE_MM) return undefined;
  return { rows: data, moduleMm, sideMm: moduleMm * data.length, quietMm: moduleMm * QUIET_MODULES, level };
}

/**
 * A text as a QR code that fits a square box with its quiet zone: at level Q, which a quarter of its modules may fail, or at M
 * where Q would be too fine; `undefined` where both would.
 *
 * @source ISO/IEC 18004; levels M and Q restore about 15 and 25 % of the code words
 */
export function labelCode(text: string, boxMm: number): LabelCode | undefined {
  return codeAt(text, 'Q', boxMm) ?? codeAt(text, 'M', boxMm);
}

/**
 * The dark modules as one path of SVG, `scale` units a millimetre, its top left corner at `xMm`, `yMm`: a rectangle for each run
 * in a row. Filled in one call, so that no seam shows between rows.
 */
export function codePath({ rows, moduleMm }: LabelCode, xMm: number, yMm: number, scale: number): string {
  const n = (mm: number): string => String(Math.round(mm * scale * 10_000) / 10_000);
  return rows
    .flatMap((row, r) =>
      row.flatMap((dark, c) => {
        if (!dark || row[c - 1] === true) return [];
        const next = row.indexOf(false, c);
        const end = next === -1 ? row.length : next;
        const [left, right] = [n(xMm + c * moduleMm), n(xMm + end * moduleMm)];
        const [top, bottom] = [n(yMm + r * moduleMm), n(yMm + (r + 1) * moduleMm)];
        return [`M${left} ${top}L${right} ${top}L${right} ${bottom}L${left} ${bottom}Z`];
      }),
    )
    .join('');
}
