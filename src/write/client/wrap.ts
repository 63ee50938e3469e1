import type { RichRun } from '../../client/index.ts';
import type { Face, MeasurePt, Setting } from './type.ts';

/** Words in one face on one line. */
export interface Segment {
  readonly text: string;
  readonly face: Face;
  readonly xPt: number;
  readonly widthPt: number;
}

export interface Line {
  readonly segments: readonly Segment[];
  readonly widthPt: number;
}

interface Word {
  readonly text: string;
  readonly face: Face;
  /** White space before it. */
  readonly spaced: boolean;
}

function faceOf(run: RichRun, setting: Setting): Face {
  if (setting.face.startsWith('sans')) return run.strong ? 'sans-semibold' : setting.face;
  if (run.strong) return 'serif-semibold';
  return run.emphasis ? 'serif-italic' : setting.face;
}

/** Splits at breaking white space only: no-break and thin spaces hold a figure and its unit together. */
function wordsOf(runs: readonly RichRun[], setting: Setting): Word[] {
  const words: Word[] = [];
  let spaced = false;
  for (const run of runs) {
    const face = faceOf(run, setting);
    for (const piece of run.text.split(/([ \t\n]+)/)) {
      if (piece === '') continue;
      if (/^[ \t\n]/.test(piece)) {
        spaced = true;
      } else {
        words.push({ text: piece, face, spaced });
        spaced = false;
      }
    }
  }
  return words;
}

/** Cuts a word that is wider than the column into pieces that fit. */
function fitting(word: Word, widthPt: number, setting: Setting, measure: MeasurePt): Word[] {
  if (measure(word.text, word.face, setting.sizePt) <= widthPt) return [word];
  const pieces: Word[] = [];
  let piece = '';
  for (const char of word.text) {
    if (piece !== '' && measure(piece + char, word.face, setting.sizePt) > widthPt) {
      pieces.push({ text: piece, face: word.face, spaced: pieces.length === 0 && word.spaced });
      piece = '';
    }
    piece += char;
  }
  pieces.push({ text: piece, face: word.face, spaced: pieces.length === 0 && word.spaced });
  return pieces;
}

/** Neighbouring words of one face become one segment, so that copied text has its spaces. */
function setLine(words: readonly Word[], setting: Setting, measure: MeasurePt): Line {
  const segments: Segment[] = [];
  let xPt = 0;
  let pending = '';
  let face: Face | undefined;
  const close = (): void => {
    if (face === undefined || pending === '') return;
    const widthPt = measure(pending, face, setting.sizePt);
    segments.push({ text: pending, face, xPt, widthPt });
    xPt += widthPt;
    pending = '';
  };
  for (const [i, word] of words.entries()) {
    const before = word.spaced && i > 0 ? ' ' : '';
    if (face !== undefined && face !== word.face) {
      pending += before;
      close();
      pending = word.text;
    } else {
      pending += before + word.text;
    }
    face = word.face;
  }
  close();
  return { segments, widthPt: xPt };
}

/** Breaks runs into lines no wider than `widthPt`, first fit, ragged right. */
export function wrap(runs: readonly RichRun[], widthPt: number, setting: Setting, measure: MeasurePt): readonly Line[] {
  const lines: Line[] = [];
  let current: Word[] = [];
  for (const whole of wordsOf(runs, setting)) {
    for (const word of fitting(whole, widthPt, setting, measure)) {
      const candidate = [...current, word];
      const wide = current.length > 0 && setLine(candidate, setting, measure).widthPt > widthPt;
      if (wide && word.spaced) {
        lines.push(setLine(current, setting, measure));
        current = [word];
      } else if (wide) {
        // No white space before it: take back to the last word that starts after a space.
        const at = current.findLastIndex((w) => w.spaced);
        const kept = at > 0 ? current.slice(0, at) : current;
        lines.push(setLine(kept, setting, measure));
        current = [...current.slice(kept.length), word];
      } else {
        current = candidate;
      }
    }
  }
  if (current.length > 0) lines.push(setLine(current, setting, measure));
  return lines;
}
