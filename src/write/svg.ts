import type { LineClass, Mark, PathStep, Sheet } from '../draw/index.ts';
import { letteringFaces, lineStyles, paperInks } from '../draw/index.ts';

/** Letters of one text as an SVG path in sheet mm, anchored as asked; from `openFonts()`. */
export type OutlineText = (text: Extract<Mark, { readonly kind: 'text' }>) => string;

export interface SvgOptions {
  /** Put before every id, so that several sheets can stand on one page. */
  readonly idPrefix: string;
  /**
   * `page`: classes only, coloured by the page's style sheet (`sheetCss()`), text in the page's fonts.
   * `file`: self-contained, presentation attributes, no style sheet.
   */
  readonly mode?: 'page' | 'file';
  /** `file` only: draw letters as outlines, so that no renderer needs a font. */
  readonly outlineText?: OutlineText;
  /** `file` only: lay the paper's colour under the sheet. */
  readonly paper?: boolean;
}

/** A number with at most 3 decimals, no trailing zeros, no minus zero. */
export function svgNumber(value: number): string {
  const text = (Math.round(value * 1000) / 1000).toString();
  return text === '-0' ? '0' : text;
}

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const escapeXml = (text: string): string => text.replace(/[&<>"']/g, (c) => escapes[c] ?? c);

const GRID_PER_MM = 100;

/** Lines go relative to the point before them, on a grid of 0.01 mm, so that a long line stays short and does not drift. */
export function pathData(steps: readonly PathStep[]): string {
  let out = '';
  let [x, y] = [0, 0];
  let before = '';
  const write = (letter: string, numbers: readonly number[]): void => {
    const text = numbers.map(svgNumber).join(' ').replaceAll(' -', '-');
    out += letter !== before || letter === 'M' ? letter : text.startsWith('-') ? '' : ' ';
    out += text;
    before = letter;
  };
  const grid = (value: number): number => Math.round(value * GRID_PER_MM);
  const absolute = (value: number): number => value / GRID_PER_MM;
  for (const step of steps) {
    if (step[0] === 'Z') {
      out += 'Z';
      before = 'Z';
      continue;
    }
    const [toX, toY] = [grid(step.at(-2) as number), grid(step.at(-1) as number)];
    if (step[0] === 'L') write('l', [absolute(toX - x), absolute(toY - y)]);
    else if (step[0] === 'M') write('M', [absolute(toX), absolute(toY)]);
    else write(step[0], [...step.slice(1, -2).map(Number), absolute(toX), absolute(toY)]);
    [x, y] = [toX, toY];
  }
  return out;
}

const attributesOf = (values: Readonly<Record<string, string | number | undefined>>): string =>
  Object.entries(values)
    .map(([name, value]) => (value === undefined ? '' : ` ${name}="${typeof value === 'number' ? svgNumber(value) : escapeXml(value)}"`))
    .join('');

function strokeAttributes(lineClass: LineClass, colour: string | undefined): Readonly<Record<string, string | number | undefined>> {
  const style = lineStyles[lineClass];
  return {
    fill: 'none',
    stroke: colour ?? paperInks[style.ink],
    'stroke-width': style.widthMm,
    'stroke-dasharray': style.dashMm?.map(svgNumber).join(' '),
    'stroke-linecap': style.cap,
    'stroke-linejoin': 'round',
  };
}

function textMark(mark: Extract<Mark, { readonly kind: 'text' }>, options: SvgOptions): string {
  const [x, y] = mark.atMm;
  const file = options.mode === 'file';
  if (file && options.outlineText !== undefined) return `<path${attributesOf({ fill: paperInks.ink, d: options.outlineText(mark) })}/>`;
  const serif = letteringFaces[mark.class] === 'serif';
  const attributes = {
    class: file ? undefined : `lw-text lw-${mark.class}`,
    x,
    y,
    'font-size': mark.sizeMm,
    'text-anchor': mark.anchor === 'start' ? undefined : mark.anchor,
    transform: mark.angleDeg === 0 ? undefined : `rotate(${svgNumber(mark.angleDeg)} ${svgNumber(x)} ${svgNumber(y)})`,
    fill: file ? paperInks.ink : undefined,
    'font-family': file ? (serif ? "'Source Serif 4', serif" : "'Source Sans 3', sans-serif") : undefined,
  };
  return `<text${attributesOf(attributes)}>${escapeXml(mark.text)}</text>`;
}

function markToSvg(mark: Mark, options: SvgOptions): string {
  const file = options.mode === 'file';
  switch (mark.kind) {
    case 'line': {
      const d = pathData(mark.steps);
      if (file) return `<path${attributesOf({ ...strokeAttributes(mark.class, mark.colour), d })}/>`;
      const own = mark.colour === undefined ? '' : ' lw-own';
      return `<path${attributesOf({ class: `lw-line lw-${mark.class}${own}`, stroke: mark.colour, d })}/>`;
    }
    case 'face': {
      const d = pathData(mark.steps);
      const stroke = mark.stroke;
      const bleed =
        mark.bleedMm === undefined ? {} : { stroke: mark.fill, 'stroke-width': mark.bleedMm, 'stroke-linejoin': 'round' as const };
      const face = { fill: mark.fill, 'fill-opacity': mark.opacity, ...bleed, 'data-part': mark.partId };
      if (file) {
        const outline = stroke === undefined ? {} : { ...strokeAttributes(stroke, undefined), fill: mark.fill };
        return `<path${attributesOf({ ...outline, ...face, 'data-part': undefined, d })}/>`;
      }
      const outline = stroke === undefined ? '' : ` lw-line lw-${stroke}`;
      const kind = mark.opacity === undefined ? 'lw-face' : 'lw-veil';
      return `<path${attributesOf({ class: `${kind}${outline}`, ...face, d })}/>`;
    }
    case 'tick':
      return `<path${attributesOf({ class: file ? undefined : 'lw-tick', fill: file ? paperInks.quiet : undefined, d: pathData(mark.steps) })}/>`;
    case 'text':
      return textMark(mark, options);
  }
}

/** Faces and grain keep the wood's colour; a run of them shares one group, which the dark scheme dims as a whole. */
const isWood = (mark: Mark): boolean =>
  (mark.kind === 'face' && mark.opacity === undefined) || (mark.kind === 'line' && mark.colour !== undefined);

/**
 * A sheet as an SVG element with an accessible name and description. User units are sheet mm.
 * Same sheet and options, same bytes.
 */
export function sheetToSvg(sheet: Sheet, options: SvgOptions): string {
  const file = options.mode === 'file';
  const id = `${options.idPrefix}-${sheet.id}`;
  const size = `${svgNumber(sheet.widthMm)} ${svgNumber(sheet.heightMm)}`;
  const root = {
    xmlns: file ? 'http://www.w3.org/2000/svg' : undefined,
    class: file ? undefined : 'lw-sheet',
    viewBox: `0 0 ${size}`,
    width: file ? `${svgNumber(sheet.widthMm)}mm` : undefined,
    height: file ? `${svgNumber(sheet.heightMm)}mm` : undefined,
    role: 'img',
    'aria-labelledby': `${id}-t ${id}-d`,
  };
  const lines = [
    `<svg${attributesOf(root)}>`,
    `<title id="${escapeXml(id)}-t">${escapeXml(sheet.title)}</title>`,
    `<desc id="${escapeXml(id)}-d">${escapeXml(sheet.description)}</desc>`,
  ];
  if (file && options.paper === true) {
    lines.push(`<rect${attributesOf({ width: sheet.widthMm, height: sheet.heightMm, fill: paperInks.paper })}/>`);
  }
  // A drawing has pale wood under its lines, which the dark scheme must dim further than a picture's.
  const wood = sheet.scale === undefined ? 'lw-wood' : 'lw-wood lw-pale';
  let inWood = false;
  for (const mark of sheet.marks) {
    if (!file && isWood(mark) !== inWood) {
      inWood = !inWood;
      lines.push(inWood ? `<g class="${wood}">` : '</g>');
    }
    lines.push(markToSvg(mark, options));
  }
  if (inWood) lines.push('</g>');
  lines.push('</svg>');
  return lines.join('\n');
}

/**
 * The style sheet for sheets in `page` mode. It reads the page's custom properties `--ink`, `--quiet`, `--caution`;
 * in the dark scheme woods dim and shadows fade; in forced colours lines keep the reader's own text colour.
 */
export function sheetCss(): string {
  const rules = [
    '.lw-sheet{display:block;width:100%;height:auto;color:var(--ink,currentColor)}',
    '.lw-line{stroke-linejoin:round}',
    '.lw-line:not(.lw-face){fill:none}',
    ".lw-text{fill:var(--ink,currentColor);font-family:'Source Sans 3',sans-serif;font-variant-numeric:lining-nums}",
    ".lw-title{font-family:'Source Serif 4',serif}",
    '.lw-small,.lw-note{fill:var(--quiet,currentColor)}',
    '.lw-tick{fill:var(--quiet,currentColor)}',
  ];
  for (const [name, style] of Object.entries(lineStyles)) {
    const colour = style.ink === 'ink' ? 'var(--ink,currentColor)' : `var(--${style.ink},currentColor)`;
    const dash = style.dashMm === undefined ? '' : `;stroke-dasharray:${style.dashMm.map(svgNumber).join(' ')}`;
    rules.push(`.lw-${name}:not(.lw-own){stroke:${colour}}`);
    rules.push(`.lw-${name}{stroke-width:${svgNumber(style.widthMm)};stroke-linecap:${style.cap}${dash}}`);
  }
  rules.push(
    '@media (prefers-color-scheme:dark){.lw-wood{filter:brightness(.62) saturate(1.15)}.lw-pale{filter:brightness(.36) saturate(1.5)}.lw-veil{fill:#000}.lw-veil:nth-child(odd){display:none}}',
  );
  rules.push('@media print{.lw-wood{filter:none}}');
  rules.push(
    '@media (forced-colors:active){.lw-wood{opacity:.35}.lw-line:not(.lw-own){stroke:CanvasText}.lw-text,.lw-tick{fill:CanvasText}}',
  );
  return rules.join('\n');
}
