const entities: Readonly<Record<string, string>> = {
  nbsp: ' ',
  shy: '',
  gt: '>',
  lt: '<',
  amp: '&',
  quot: '"',
  laquo: '«',
  raquo: '»',
  ndash: '–',
  mdash: '—',
};

const point = (code: number): string => (code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '');

/** Quoted-printable as far as it was left in a pasted text. @source RFC 2045, section 6.7 */
function withoutQuotedPrintable(text: string): string {
  const joined = text.replaceAll(/=[ \t]*\r?\n/g, '');
  return joined.replaceAll(/(?:=(?:[0-9A-F]{2}))+/g, (run) => {
    const bytes = Uint8Array.from((run.match(/[0-9A-F]{2}/g) ?? []).map((pair) => Number.parseInt(pair, 16)));
    try {
      return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    } catch {
      return new TextDecoder('windows-1252').decode(bytes);
    }
  });
}

/** Stand for the begin and the end of a quotation in markup. */
const [QUOTE, UNQUOTE] = ['\ue000', '\ue001'];

function withoutMarkup(text: string): string {
  return text
    .replaceAll(/<!--[\s\S]*?-->|<(style|script|head|title)\b[\s\S]*?<\/\1>/gi, '')
    .replaceAll(/<blockquote\b[^<>]*>/gi, `\n${QUOTE}`)
    .replaceAll(/<\/blockquote>/gi, `${UNQUOTE}\n`)
    .replaceAll(/<br\s*\/?>(?:[ \t]*\r?\n)?|<\/(?:p|div|li|tr|h[1-6])>/gi, '\n')
    .replaceAll(/<\/?[a-z][a-z0-9]*(?:\s[^<>]*)?\/?>/gi, '')
    .replaceAll(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|([a-z]{2,6}));/gi, (whole, hex?: string, decimal?: string, name?: string) => {
      if (hex !== undefined) return point(Number.parseInt(hex, 16));
      if (decimal !== undefined) return point(Number(decimal));
      return entities[(name ?? '').toLowerCase()] ?? whole;
    });
}

/** A line of a pasted mail without the marks of quoting, and whether it had any. */
export interface MailLine {
  readonly text: string;
  readonly isQuoted: boolean;
}

/** The lines of a pasted text: quoted-printable and markup undone, odd spaces and invisible signs gone, quote marks told apart. */
export function mailLines(pasted: string): readonly MailLine[] {
  const bare = pasted.replaceAll(/[\ue000\ue001]/g, '');
  const plain = withoutMarkup(withoutQuotedPrintable(bare))
    .replaceAll(/[\u00ad\u200b\u2060\ufeff]|(?<=[ -~])[\u200c\u200d]/g, '')
    .replaceAll(/[\u00a0\u2000-\u200a\u202f\u3000]/g, ' ');
  let depth = 0;
  return plain.split(/\r\n|\r|\n/).map((line) => {
    const opened = depth + line.split(QUOTE).length - 1;
    const shown = line.replaceAll(/[\ue000\ue001]/g, '');
    const text = shown.replace(/^(?:\s*[>|])+ ?/, '');
    depth = Math.max(0, opened - (line.split(UNQUOTE).length - 1));
    return { text, isQuoted: opened > 0 || text !== shown };
  });
}
