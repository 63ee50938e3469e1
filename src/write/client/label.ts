import { type CalendarDate, formatMonth } from '../../units/index.ts';
import { type LabelCode, labelCode } from './label-code.ts';
import { say } from './paper.ts';
import { type Face, ink, type MeasurePt, ptPerMm, quietInk } from './type.ts';

/** What a label under a top says. It is of use without any web: who made it of what, and how it is wiped. */
export interface LabelContent {
  /** `RS-2026-07`. */
  readonly piece: string;
  readonly wood: string;
  readonly finish: string;
  /** A day of the month in which it was finished. */
  readonly made: CalendarDate;
  /** The mass of the whole table, where it was weighed. */
  readonly weighs?: string;
  readonly maker: { readonly name: string; readonly trade: string; readonly address: string; readonly telephone: string };
  /** The whole address of the care page, `https://...`. */
  readonly careLink: string;
  /** One sentence or two. */
  readonly care: readonly string[];
  readonly texts: Readonly<Record<string, string>>;
  /** BCP 47. */
  readonly language: string;
}

export type LabelSize = 'large' | 'small';

/** Something on a label, in millimetres from its top left corner. */
export type LabelItem =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly face: Face;
      readonly sizeMm: number;
      readonly trackingMm: number;
      readonly leftMm: number;
      readonly baselineMm: number;
      readonly widthMm: number;
      readonly colour: string;
    }
  | { readonly kind: 'rule'; readonly leftMm: number; readonly topMm: number; readonly widthMm: number; readonly weightMm: number }
  | {
      readonly kind: 'frame';
      readonly leftMm: number;
      readonly topMm: number;
      readonly widthMm: number;
      readonly heightMm: number;
      readonly weightMm: number;
    }
  | { readonly kind: 'code'; readonly leftMm: number; readonly topMm: number; readonly code: LabelCode; readonly says: string };

export interface LabelLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly title: string;
  readonly language: string;
  readonly items: readonly LabelItem[];
}

/** Why a label can not be laid out: its address is too long for a code that can be scanned, or its words for letters that can be read. */
export interface LabelFault {
  readonly fault: 'link-too-long' | 'words-too-long';
}

interface Measures {
  readonly widthMm: number;
  readonly heightMm: number;
  /** From the edge to the outer line of the frame. */
  readonly insetMm: number;
  /** From the edge to the words. */
  readonly marginMm: number;
  readonly nameMm: number;
  readonly numberMm: number;
  readonly bodyMm: number;
  readonly smallMm: number;
  /** Baselines of the head from the top: name, trade; and the rule below it. */
  readonly head: readonly [number, number, number];
  /** Side of the code's box with its quiet zone. */
  readonly codeMm: number;
}

const measures: Readonly<Record<LabelSize, Measures>> = {
  large: {
    ...{ widthMm: 90, heightMm: 60, insetMm: 2.4, marginMm: 6.6, nameMm: 4.1, numberMm: 3.5, bodyMm: 2.6, smallMm: 2.05 },
    ...{ head: [9.8, 13.2, 15.4], codeMm: 26 },
  },
  small: {
    ...{ widthMm: 74, heightMm: 52, insetMm: 2, marginMm: 5.4, nameMm: 3.5, numberMm: 2.95, bodyMm: 2.2, smallMm: 1.8 },
    ...{ head: [8.3, 11.2, 13.1], codeMm: 22.5 },
  },
};

/** Letters below this height of their body are not read under a table. */
const LEAST_LETTER_MM = 1.75;
const leading = 1.32;

/** Sets words for a label: widths by the fonts that will print. */
class LabelSetter {
  readonly items: LabelItem[] = [];
  readonly measure: MeasurePt;

  constructor(measure: MeasurePt) {
    this.measure = measure;
  }

  widthMm(text: string, face: Face, sizeMm: number, trackingMm = 0): number {
    return this.measure(text, face, sizeMm * ptPerMm) / ptPerMm + trackingMm * Math.max(0, [...text].length - 1);
  }

  /** Breaks at spaces; a word that is wider than the line, such as an address, after a stroke or where the line ends. */
  wrap(text: string, face: Face, sizeMm: number, widthMm: number): readonly string[] {
    const fits = (line: string): boolean => this.widthMm(line, face, sizeMm) <= widthMm;
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(' ')) {
      const joined = line === '' ? word : `${line} ${word}`;
      if (fits(joined)) {
        line = joined;
        continue;
      }
      if (line !== '') lines.push(line);
      line = word;
      while (!fits(line)) {
        let most = line.length - 1;
        while (most > 1 && !fits(line.slice(0, most))) most -= 1;
        const stroke = line.lastIndexOf('/', most - 1) + 1;
        const end = stroke > most / 2 ? stroke : most;
        lines.push(line.slice(0, end));
        line = line.slice(end);
      }
    }
    return [...lines, line];
  }

  text(
    text: string,
    face: Face,
    sizeMm: number,
    xMm: number,
    baselineMm: number,
    more: { readonly isCentred?: boolean; readonly trackingMm?: number; readonly colour?: string } = {},
  ): void {
    const trackingMm = more.trackingMm ?? 0;
    const widthMm = this.widthMm(text, face, sizeMm, trackingMm);
    const leftMm = more.isCentred === true ? xMm - widthMm / 2 : xMm;
    this.items.push({ kind: 'text', text, face, sizeMm, trackingMm, leftMm, baselineMm, widthMm, colour: more.colour ?? ink });
  }
}

interface Line {
  readonly text: string;
  readonly face: Face;
  readonly sizeMm: number;
  readonly colour: string;
  /** From the baseline before, or from the top of the block. */
  readonly downMm: number;
}

/** Number, wood, finish, month and address as lines that are no wider than `widthMm`. */
function facts(setter: LabelSetter, content: LabelContent, m: Measures, scale: number, widthMm: number): readonly Line[] {
  const { piece, wood, finish, made, weighs, language, careLink } = content;
  const month = formatMonth(made, language);
  const madeSays =
    weighs === undefined ? say(content, 'label.made', { month }) : say(content, 'label.made-weighs', { month, mass: weighs });
  const [numberMm, bodyMm, smallMm] = [m.numberMm * scale, m.bodyMm * scale, Math.max(LEAST_LETTER_MM, m.smallMm * scale)];
  const block = (text: string, face: Face, sizeMm: number, beforeMm: number, colour = ink): readonly Line[] =>
    setter
      .wrap(text, face, sizeMm, widthMm)
      .map((line, i) => ({ text: line, face, sizeMm, colour, downMm: sizeMm * leading + (i === 0 ? beforeMm : 0) }));
  return [
    ...block(say(content, 'label.number', { piece }), 'serif-semibold', numberMm, 0),
    ...block(wood, 'serif', bodyMm, bodyMm * 0.35),
    ...block(finish, 'serif', bodyMm, 0),
    ...block(madeSays, 'serif', bodyMm, 0),
    ...block(careLink.replace(/^https?:\/\//, ''), 'sans', smallMm, bodyMm * 0.6, quietInk),
  ];
}

const heightOf = (lines: readonly Line[]): number => lines.reduce((sum, { downMm }) => sum + downMm, 0);

/** Care in an italic, and where the maker is found, as centred lines at the foot. */
function foot(setter: LabelSetter, { care, maker }: LabelContent, m: Measures, scale: number): readonly Line[] {
  const widthMm = m.widthMm - 2 * m.marginMm;
  const [careMm, smallMm] = [m.bodyMm * scale * 0.94, Math.max(LEAST_LETTER_MM, m.smallMm * scale)];
  const address = [maker.address, maker.telephone].filter((part) => part !== '').join('  ·  ');
  return [
    ...care
      .flatMap((sentence) => setter.wrap(sentence, 'serif-italic', careMm, widthMm))
      .map((text): Line => ({ text, face: 'serif-italic', sizeMm: careMm, colour: ink, downMm: careMm * 1.28 })),
    ...setter
      .wrap(address, 'sans', smallMm, widthMm)
      .map((text, i): Line => ({ text, face: 'sans', sizeMm: smallMm, colour: ink, downMm: smallMm * (i === 0 ? 1.85 : leading) })),
  ];
}

/**
 * Lays a label out at one of two sizes, 90 × 60 mm or 74 × 52 mm (A8 of ISO 216). Long words are set smaller, down to letters of 1.75 mm; what does
 * not fit even so is a fault.
 */
export function layOutLabel(content: LabelContent, size: LabelSize, measure: MeasurePt): LabelLayout | LabelFault {
  const m = measures[size];
  if (labelCode(content.careLink, m.codeMm) === undefined) return { fault: 'link-too-long' };
  const [nameAtMm, tradeAtMm, ruleAtMm] = m.head;
  const centreMm = m.widthMm / 2;
  const innerMm = m.widthMm - 2 * m.marginMm;
  const bottomMm = m.heightMm - m.marginMm * 0.85;
  for (let scale = 1; scale >= 0.78; scale -= 0.02) {
    const setter = new LabelSetter(measure);
    const nameTrackingMm = m.nameMm * scale * 0.14;
    const name = content.maker.name.toUpperCase();
    const below = foot(setter, content, m, scale);
    const footTopMm = bottomMm - heightOf(below) - m.bodyMm * 0.55;
    const roomMm = footTopMm - ruleAtMm;
    const code = labelCode(content.careLink, Math.min(m.codeMm, roomMm));
    if (code === undefined) continue;
    const left = facts(setter, content, m, scale, innerMm - code.sideMm - code.quietMm);
    const isWide =
      setter.widthMm(name, 'serif', m.nameMm * scale, nameTrackingMm) > innerMm ||
      setter.widthMm(content.maker.trade, 'serif-italic', m.bodyMm * scale) > innerMm;
    if (isWide || heightOf(left) + m.bodyMm * 0.8 > roomMm) continue;

    const hairMm = 0.12;
    for (const [insetMm, weightMm] of [
      [m.insetMm, 0.35],
      [m.insetMm + 0.9, hairMm],
    ] as const)
      setter.items.push({
        kind: 'frame',
        leftMm: insetMm,
        topMm: insetMm,
        widthMm: m.widthMm - 2 * insetMm,
        heightMm: m.heightMm - 2 * insetMm,
        weightMm,
      });
    setter.text(name, 'serif', m.nameMm * scale, centreMm, nameAtMm, { isCentred: true, trackingMm: nameTrackingMm });
    if (content.maker.trade !== '')
      setter.text(content.maker.trade, 'serif-italic', m.bodyMm * scale, centreMm, tradeAtMm, { isCentred: true, colour: quietInk });
    setter.items.push({ kind: 'rule', leftMm: m.marginMm, topMm: ruleAtMm, widthMm: innerMm, weightMm: hairMm });
    let atMm = ruleAtMm + (roomMm - heightOf(left)) / 2 - m.bodyMm * 0.25;
    for (const line of left) {
      atMm += line.downMm;
      setter.text(line.text, line.face, line.sizeMm, m.marginMm, atMm, { colour: line.colour });
    }
    setter.items.push({
      kind: 'code',
      leftMm: m.widthMm - m.marginMm - code.sideMm,
      topMm: ruleAtMm + (roomMm - code.sideMm) / 2,
      code,
      says: say(content, 'label.code', { link: content.careLink }),
    });
    setter.items.push({ kind: 'rule', leftMm: m.marginMm, topMm: footTopMm, widthMm: innerMm, weightMm: hairMm });
    atMm = footTopMm + m.bodyMm * 0.55;
    for (const line of below) {
      atMm += line.downMm;
      setter.text(line.text, line.face, line.sizeMm, centreMm, atMm - line.sizeMm * 0.28, { isCentred: true, colour: line.colour });
    }
    return {
      widthMm: m.widthMm,
      heightMm: m.heightMm,
      title: say(content, 'label.title', { piece: content.piece }),
      language: content.language,
      items: setter.items,
    };
  }
  return { fault: 'words-too-long' };
}
