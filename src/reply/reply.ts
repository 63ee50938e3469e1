import { withoutHiddenSigns } from '../units/index.ts';
import { type CodeContent, codeStart, inFours, makeCode, openCode, signCount } from './code.ts';
import { heldWords, type Letter, wordsDigest } from './letter.ts';
import { mailLines } from './mail-text.ts';
import { type CodeOfLine, ownWords } from './own-words.ts';
import { hexOf } from './sha256.ts';
import { signValue } from './signs.ts';

/** What stands around the code, in the reader's language. */
export interface ReplyWords {
  /** The answer in a sentence or two, as it was chosen. */
  readonly says: string;
  readonly nameLabel: string;
  readonly remarkLabel: string;
}

/** The letter as text: what it says, name and remark between guillemets, by which they are found again in any language, and the code. */
export function makeReply(letter: Letter, words: ReplyWords): string {
  const remark = heldWords(letter.remark);
  return [
    heldWords(words.says),
    '',
    `${words.nameLabel}: «${heldWords(letter.name)}»`,
    ...(remark === '' ? [] : [`${words.remarkLabel}: «${remark}»`]),
    '',
    makeCode(letter),
    '',
  ].join('\n');
}

/**
 * What may be wrong with a reply. `no-code`, `cut`, `mistyped` and `several` leave no letter; `words-differ` leaves one to be
 * judged, and `words-missing` one without name and remark.
 */
export interface ReplyProblem {
  readonly code: 'reply/no-code' | 'reply/cut' | 'reply/mistyped' | 'reply/several' | 'reply/words-differ' | 'reply/words-missing';
  readonly says: string;
}

export interface ReadReply {
  readonly letter?: Letter;
  /** The letter's code as it was made, however it was mangled on its way. */
  readonly code?: string;
  readonly problems: readonly ReplyProblem[];
  /** What stands above name and code, down to the label of the name; empty where the code came without them. */
  readonly above: string;
  /** What the sender wrote around what is quoted, without the code. */
  readonly own: string;
  /** The letter with what stands around it, where it is no part of `own` though nothing marks it as quoted: below header fields. */
  readonly lower?: string;
  /** Whether the letter stands in a quotation, so that `own` is not part of it. */
  readonly isQuoted: boolean;
}

/** Where the code stands in the text; `content` where its check is right. */
interface Found {
  readonly start: number;
  /** After its last sign. */
  readonly end: number;
  readonly isCut: boolean;
  readonly signs: string;
  readonly content?: CodeContent;
}

/** Between signs a mail program may have put line ends, quote marks and other dashes. */
const between = /[\s>|*_.\-‐-―−]/u;

function follow(text: string, start: number, from: number): Found | undefined {
  let signs = '';
  let wanted: number | undefined;
  let last = from;
  for (let at = from; at < text.length; at += 1) {
    const sign = text[at] ?? '';
    if (between.test(sign)) continue;
    if (signValue(sign) === undefined) break;
    signs += sign;
    if (signs.length === 2) {
      wanted = signCount(signs);
      if (wanted === undefined) return { start, end: at + 1, isCut: false, signs };
    }
    if (signs.length === wanted) {
      const content = openCode(signs);
      return { start, end: at + 1, isCut: false, signs, ...(content === undefined ? {} : { content }) };
    }
    last = at + 1;
  }
  return signs.length < 8 ? undefined : { start, end: last, isCut: true, signs };
}

function findCodes(text: string): readonly Found[] {
  const starts = text.matchAll(/(?<![A-Z0-9])L\s*W\s*[1IL](?=[\s>|*_.\-‐-―−]*[A-Z0-9])/giu);
  return [...starts].flatMap((match) => follow(text, match.index, match.index + match[0].length) ?? []);
}

type Words = Pick<Letter, 'name' | 'remark'> & {
  /** What stands above them, down to the label of the name. */
  readonly above: string;
};

/** Name and remark: the last texts in guillemets after a colon that stand before the code; undefined where there is none. */
function wordsBefore(text: string, { start, content }: Found): Words | undefined {
  const wanted = content?.hasRemark === true ? 2 : 1;
  const held = [...text.slice(0, start).matchAll(/:\s*«([^«»]*)»/g)].slice(-wanted);
  const [name, remark = ''] = held.map(([, inner = '']) => inner.trim().normalize('NFC'));
  const above = text.slice(0, held[0]?.index ?? 0);
  return name === undefined ? undefined : { name: name.replaceAll(/\s+/g, ' '), remark, above };
}

/** The code holds a digest of name and remark as they were typed; signs that can not be seen are left out after that. */
function letterOf(
  { words: _words, hasRemark: _hasRemark, ...content }: CodeContent,
  { name, remark }: Pick<Letter, 'name' | 'remark'>,
): Letter {
  return { ...content, name: withoutHiddenSigns(name), remark: withoutHiddenSigns(remark) };
}

const says: Readonly<Record<ReplyProblem['code'], string>> = {
  'reply/no-code': `there is no reply code in this text; one begins with ${codeStart}-`,
  'reply/cut': 'the reply code is cut off before its end',
  'reply/mistyped': 'a sign of the reply code is wrong, missing or in another place',
  'reply/several': 'there are several different reply codes in this text; give me the one that counts alone',
  'reply/words-differ': 'the name or the remark is not what the reply code was made with',
  'reply/words-missing': 'the reply code came without the name and the remark that it was made with',
};
const problem = (code: ReplyProblem['code']): ReplyProblem => ({ code, says: says[code] });

/** For each line of a text, what it holds a part of a code of. */
function codeLines(text: string, found: readonly Found[]): CodeOfLine {
  const lineOf = (at: number): number => text.slice(0, at).split('\n').length - 1;
  const ranges = found.map(({ start, end, content }) => ({
    first: lineOf(start),
    last: lineOf(end - 1),
    of: content?.after === undefined ? ('letter' as const) : ('question' as const),
  }));
  return (line) => ranges.find(({ first, last }) => line >= first && line <= last)?.of;
}

/**
 * Finds the letter in what was pasted: a bare code, the text block, or a mail with quote marks, hard wraps, other dashes and
 * spaces, markup or quoted-printable left in it. A whole code wins over broken copies of it; two that differ are none.
 */
export function readReply(pasted: string): ReadReply {
  const lines = mailLines(pasted);
  const text = lines.map((line) => line.text).join('\n');
  const found = findCodes(text);
  const whole = found.filter((one) => one.content !== undefined);
  const codeOf = codeLines(text, found);
  const words = ownWords(lines, codeOf);
  const own = withoutHiddenSigns(words.own);
  const lower = words.lower === undefined ? {} : { lower: withoutHiddenSigns(words.lower) };
  const isQuoted = lines.some((line, i) => line.isQuoted && codeOf(i) !== undefined);
  const [first] = whole;
  if (first?.content === undefined)
    return {
      problems: [problem(found.length === 0 ? 'reply/no-code' : found.every((one) => one.isCut) ? 'reply/cut' : 'reply/mistyped')],
      above: '',
      own,
      ...lower,
      isQuoted,
    };
  if (new Set(whole.map((one) => JSON.stringify(one.content))).size > 1)
    return { problems: [problem('reply/several')], above: '', own, ...lower, isQuoted };
  const candidates = whole.flatMap((one) => wordsBefore(text, one) ?? []);
  const matching = candidates.find((words) => hexOf(wordsDigest(words)) === first.content?.words);
  const { above, ...named } = matching ?? candidates[0] ?? { name: '', remark: '', above: '' };
  const isBare = candidates.length === 0;
  const problems = matching !== undefined ? [] : [problem(isBare ? 'reply/words-missing' : 'reply/words-differ')];
  return { letter: letterOf(first.content, named), code: inFours(first.signs), problems, above, own, ...lower, isQuoted };
}
