import type { MailLine } from './mail-text.ts';

/**
 * The line that a mail program sets over what it quotes: a day, a name and "wrote", in English, German, French, Dutch,
 * Danish, Norwegian and Swedish. A figure stands in it, of the day. Common
 * practice of mail programs; no standard rules it.
 */
const wrote = /^(?=.*\d)\s*(?:on|am|le|op|den|på)\b.{6,280}?\b(?:wrote|schrieb|a écrit|schreef|skrev)\b.{0,120}:\s*$/iu;
/** The same in one line that begins with the day, or holds an address. */
const wroteShort = /^(?=.*\d)(?=\s*\d|.*<\S+@\S+>)\s*.{6,200}(?:wrote|schrieb|a écrit|schreef|skrev)\s*:\s*$/iu;

/** A rule between an answer and what it answers: five or more dashes or underlines, with or without words in them. */
const rule = /^\s*(?:-{4,}[^-\n]{0,60}-{4,}|_{10,}|-{10,})\s*$/u;
const from = /^\s*\*?(?:from|von|de|van|fra|från)\s*:/iu;
const subject = /^\s*\*?(?:subject|betreff|objet|onderwerp|emne|ämne)\s*:/iu;
const otherField =
  /^\s*\*?(?:sent|date|to|cc|bcc|reply-to|gesendet|datum|an|antwort an|kopie|envoyé|à|verzonden|aan|sendt|dato|til|skickat|till|message-id|mime-version|content-[a-z-]+|x-[a-z-]+|return-path|received)\s*:/iu;
const isField = (line: string): boolean => from.test(line) || subject.test(line) || otherField.test(line);

const LINES_OF_FIELDS = 4;
/** A line of attribution may be wrapped into so many. */
const WRAPS = 3;

/** How many lines an attribution takes that begins at `at` and not later; 0 where there is none. */
function attribution(lines: readonly MailLine[], at: number): number {
  if (wroteShort.test(lines[at]?.text ?? '') && lines[at]?.isQuoted === false) return 1;
  for (let count = 1; count <= WRAPS && at + count <= lines.length; count += 1) {
    const some = lines.slice(at, at + count);
    if (some.some(({ text, isQuoted }) => isQuoted || text.trim() === '')) return 0;
    if (!wrote.test(some.map(({ text }) => text.trim()).join(' '))) continue;
    return count > 1 && attribution(lines, at + 1) > 0 ? 0 : count;
  }
  return 0;
}

/** Where a piece of a mail begins that somebody else may have written: its lines, and whether it is the mail's own heading. */
interface Heading {
  readonly count: number;
  /** Header fields with no rule over them: what a mail begins with when all of it was copied. */
  readonly isPlain: boolean;
}

/** Lines of a copy of a mail's header fields that begins here, with or without a rule over it; nothing where there is none. */
function fieldsBegin(lines: readonly MailLine[], at: number, isFirst: boolean): Heading | undefined {
  const text = (i: number): string => lines[i]?.text ?? '';
  if (lines[at]?.isQuoted !== false) return undefined;
  const next = rule.test(text(at)) ? at + 1 : at;
  const begin = text(next).trim() === '' && next > at ? next + 1 : next;
  const near = lines.slice(begin, begin + 1 + LINES_OF_FIELDS).map((line) => line.text);
  const fields = near.filter(isField);
  if (!isField(near[0] ?? '')) return undefined;
  const isHeading = isFirst
    ? fields.some((one) => from.test(one) || subject.test(one))
    : from.test(near[0] ?? '') || fields.some((one) => from.test(one));
  if (!isHeading || (fields.length < 2 && !(isFirst && subject.test(near[0] ?? '')))) return undefined;
  let end = begin + 1;
  // A field goes on in a line that is set in, or after a comma that ends it.
  while (end < lines.length && text(end).trim() !== '' && (isField(text(end)) || /^\s/.test(text(end)) || /[,;]\s*$/.test(text(end - 1))))
    end += 1;
  return { count: end - at, isPlain: next === at };
}

/** The line that says who wrote when, where no marks of quoting follow it: all that follows may be quoted. */
function headingAt(lines: readonly MailLine[], at: number, isFirst: boolean): Heading | undefined {
  const fields = fieldsBegin(lines, at, isFirst);
  if (fields !== undefined) return fields;
  const count = attribution(lines, at);
  return count === 0 || lines.slice(at + count).some(({ isQuoted }) => isQuoted) ? undefined : { count, isPlain: false };
}

/** A piece of a mail below its heading, without what is quoted in it. */
interface Piece {
  readonly heading?: Heading;
  readonly own: readonly string[];
  readonly holdsLetter: boolean;
  readonly holdsQuestion: boolean;
}

/** What a line holds a part of: a letter's code, that of a question that asks for a yes, or none. */
export type CodeOfLine = (line: number) => 'letter' | 'question' | undefined;

const hasWords = (own: readonly string[]): boolean => own.some((line) => line.trim() !== '');

function piecesOf(lines: readonly MailLine[], codeOf: CodeOfLine): readonly Piece[] {
  const pieces: Piece[] = [];
  let heading: Heading | undefined;
  let own: string[] = [];
  let [holdsLetter, holdsQuestion] = [false, false];
  const close = (): void => {
    pieces.push({ ...(heading === undefined ? {} : { heading }), own, holdsLetter, holdsQuestion });
    [own, holdsLetter, holdsQuestion] = [[], false, false];
  };
  for (let at = 0; at < lines.length; at += 1) {
    const line = lines[at];
    if (line === undefined) break;
    const next = headingAt(lines, at, pieces.length === 0 && !hasWords(own));
    if (next !== undefined) {
      close();
      heading = next;
      at += next.count - 1;
      continue;
    }
    const taken = attribution(lines, at);
    if (taken > 0) {
      at += taken - 1;
      continue;
    }
    const code = codeOf(at);
    if (!line.isQuoted && code === undefined) own.push(line.text.trimEnd());
    holdsLetter ||= !line.isQuoted && code === 'letter';
    holdsQuestion ||= code === 'question';
  }
  close();
  return pieces;
}

const shown = (own: readonly string[]): string =>
  own
    .join('\n')
    .replaceAll(/\n{3,}/g, '\n\n')
    .trim();

/** What the sender of a mail wrote, and what stands around a letter that it holds lower down. */
export interface OwnWords {
  readonly own: string;
  /** The letter with all around it, where it stands unquoted below the heading of another mail. */
  readonly lower?: string;
}

/**
 * What the sender wrote, without what is quoted: lines with no mark of quoting, above, between and below; no line that says
 * who wrote when, no header field of a mail. After a copy of header fields, or after such a line where no marks follow,
 * everything is quoted; but the fields that a copied mail begins with are its own, and what follows them is its sender's.
 */
export function ownWords(lines: readonly MailLine[], codeOf: CodeOfLine): OwnWords {
  const pieces = piecesOf(lines, codeOf);
  const [first, second] = pieces;
  const isItsOwn = first !== undefined && !hasWords(first.own) && second?.heading?.isPlain === true && !second.holdsQuestion;
  const own = isItsOwn ? second : first;
  const lower = pieces.find(({ holdsLetter }) => holdsLetter);
  const isApart = lower !== undefined && lower !== own && own?.holdsLetter !== true;
  return { own: shown(own?.own ?? []), ...(isApart ? { lower: shown(lower.own) } : {}) };
}
