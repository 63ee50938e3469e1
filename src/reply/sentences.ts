import type { Letter } from './letter.ts';

/** How the sentences above a code differ from those that the page writes. */
export interface SentencesRead {
  /** Other words in the place of sentences of the page. */
  readonly changed: readonly { readonly found: string; readonly wanted: string }[];
  /** Sentences that are not there, with nothing in their place. */
  readonly missing: readonly string[];
  /** Words between two sentences of the page. */
  readonly added: readonly string[];
}

/** Letters and digits with the places where they stand in the text. */
interface Bare {
  readonly signs: string;
  readonly places: readonly number[];
}

/**
 * What of a text no mail program changes: plain letters and digits, whatever their case. Quote marks, wraps, other dashes and
 * quotation marks, signs of another encoding and names of signs in markup all fall away.
 */
function bareOf(text: string): Bare {
  let signs = '';
  const places: number[] = [];
  for (const { 0: found, index } of text.matchAll(/&[a-z]{2,8};|[A-Za-z0-9]/g)) {
    if (found.length > 1) continue;
    signs += found.toLowerCase();
    places.push(index);
  }
  return { signs, places };
}

const MOST_SHOWN = 200;
/** A text in one line, as it is shown; a long one is cut. */
function shownText(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ').trim();
  return line.length <= MOST_SHOWN ? line : `${line.slice(0, MOST_SHOWN - 1)}…`;
}

/** Where the letter begins: its greeting, the last one above the code; else the first of its sentences that is found. */
function beginOf(text: string, [greeting = '', ...rest]: readonly string[]): number {
  const greeted = greeting === '' ? -1 : text.lastIndexOf(greeting);
  if (greeted >= 0) return greeted + greeting.length;
  const found = rest.map((one) => (one === '' ? -1 : text.lastIndexOf(one))).filter((at) => at >= 0);
  return found.length === 0 ? -1 : Math.min(...found);
}

/** Text without the label of the name that ends it; a label in other words is the line it stands in. */
function withoutLabel(text: string, label: string): string {
  const { signs, places } = bareOf(text);
  const end = bareOf(label).signs;
  return text.slice(0, end !== '' && signs.endsWith(end) ? places[signs.length - end.length] : text.lastIndexOf('\n') + 1);
}

/**
 * Holds the text above a code against the sentences that were written there; undefined where none of them is found, as with a
 * code that came alone. What stands before the first sentence is the sender's own affair.
 *
 * @param above what stands above the name, marks of quoting and markup taken away
 * @param sentences the greeting, then what the letter says, in order
 * @param label what stands before the name
 */
export function compareSentences(above: string, sentences: readonly string[], label: string): SentencesRead | undefined {
  const text = withoutLabel(above.normalize('NFC'), label);
  const { signs, places } = bareOf(text);
  const wanted = sentences.map((sentence) => bareOf(sentence.normalize('NFC')).signs);
  const begin = beginOf(signs, wanted);
  if (begin < 0) return undefined;
  const changed: { readonly found: string; readonly wanted: string }[] = [];
  const missing: string[] = [];
  const added: string[] = [];
  let at = begin;
  let open: string[] = [];
  let isInside = false;
  const close = (end: number): void => {
    const gap = end <= at ? '' : text.slice(places[at] ?? 0, end < places.length ? (places[end] ?? text.length) : text.length);
    const found = shownText(gap);
    if (open.length > 0 && gap !== '') changed.push({ found, wanted: shownText(open.join(' ')) });
    else if (open.length > 0) missing.push(...open.map(shownText));
    else if (gap !== '' && isInside) added.push(found);
    open = [];
  };
  for (const [i, one] of wanted.entries()) {
    if (i === 0 || one === '') continue;
    const found = signs.indexOf(one, at);
    if (found < 0) {
      open.push(sentences[i] ?? '');
      continue;
    }
    close(found);
    isInside = true;
    at = found + one.length;
  }
  close(signs.length);
  return { changed, missing, added };
}

/** Texts in guillemets behind their labels, each in its lines. */
const heldTexts = /^[^\n«»]*:\s*«([^«»]*)»[^\S\n]*/gm;

/**
 * What the sender wrote above and below a letter that stands in a text unquoted; all of it where no letter is found. Where
 * the sentences are not known, nobody can tell what stands above them, and only what stands below is given.
 *
 * @param own the text without what is quoted in it and without the code
 * @param sentences the greeting, then what the letter says, in order; none where they are not known
 * @param words the name and the remark that end the letter
 */
export function wordsAround(own: string, sentences: readonly string[], { name, remark }: Pick<Letter, 'name' | 'remark'>): string {
  const text = own.normalize('NFC');
  const held = [...text.matchAll(heldTexts)];
  const signed = held.find(([, inner = '']) => inner.trim().replaceAll(/\s+/g, ' ') === name) ?? held[0];
  const last = remark === '' || signed === undefined ? signed : (held[held.indexOf(signed) + 1] ?? signed);
  const { signs, places } = bareOf(text.slice(0, signed?.index));
  const wanted = sentences.map((sentence) => bareOf(sentence.normalize('NFC')).signs).filter((one) => one !== '');
  const greeted = signs.lastIndexOf(wanted[0] ?? '\n');
  const found = greeted >= 0 ? [greeted] : wanted.map((one) => signs.indexOf(one)).filter((at) => at >= 0);
  const begin = found.length === 0 ? signed?.index : places[Math.min(...found)];
  if (begin === undefined) return text.trim();
  const above = wanted.length === 0 ? '' : text.slice(0, begin).trim();
  const below = last === undefined ? '' : text.slice(last.index + last[0].length).trim();
  return [above, below].filter((part) => /[\p{L}\p{N}]/u.test(part)).join('\n\n');
}
