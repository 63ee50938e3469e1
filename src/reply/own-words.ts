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
const otherField =
  /^\s*\*?(?:sent|date|to|subject|cc|gesendet|datum|an|betreff|envoyé|à|objet|verzonden|aan|onderwerp|sendt|dato|til|emne|skickat|till|ämne)\s*:/iu;

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

/** Whether a copy of a mail's header fields begins here, with or without a rule over it. */
function fieldsBegin(lines: readonly MailLine[], at: number): boolean {
  const text = (i: number): string => lines[i]?.text ?? '';
  const next = rule.test(text(at)) ? at + 1 : at;
  const begin = text(next).trim() === '' && next > at ? next + 1 : next;
  if (!from.test(text(begin))) return false;
  return lines.slice(begin + 1, begin + 1 + LINES_OF_FIELDS).some((line) => otherField.test(line.text));
}

/**
 * What the sender wrote, without what is quoted: lines with no mark of quoting, above, between and below; no line that says
 * who wrote when. After a copy of a mail's header fields, or after such a line where no marks follow, everything is quoted.
 *
 * @param isCode whether a line holds a part of a reply code
 */
export function ownWords(lines: readonly MailLine[], isCode: (line: number) => boolean): string {
  const own: string[] = [];
  for (let at = 0; at < lines.length; at += 1) {
    const line = lines[at];
    if (line === undefined || fieldsBegin(lines, at)) break;
    const taken = attribution(lines, at);
    if (taken > 0) {
      if (!lines.slice(at + taken).some(({ isQuoted }) => isQuoted)) break;
      at += taken - 1;
      continue;
    }
    if (!line.isQuoted && !isCode(at)) own.push(line.text.trimEnd());
  }
  return own
    .join('\n')
    .replaceAll(/\n{3,}/g, '\n\n')
    .trim();
}
