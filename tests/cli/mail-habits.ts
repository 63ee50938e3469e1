import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** A mail as Python's email package is told to write it. */
export interface MailDescription {
  readonly name: string;
  readonly fields: readonly (readonly [string, string])[];
  readonly text?: MailBody & { readonly parameters?: readonly (readonly [string, string])[] };
  readonly html?: MailBody;
}
interface MailBody {
  readonly body: string;
  readonly charset: 'utf-8' | 'windows-1252' | 'iso-8859-1';
  readonly encoding: 'quoted-printable' | 'base64' | '8bit';
}

/** What the sender wrote above (or below) what they quote. */
export const above = 'Yes, gladly – all of it.\nMaren';

const lines = (text: string): readonly string[] => text.trimEnd().split('\n');
const marked = (text: string, mark: string): string =>
  lines(text)
    .map((line) => (line === '' ? mark.trimEnd() : mark + line))
    .join('\n');
const wrapped = (text: string, width: number, end = ''): string =>
  lines(text)
    .map((line) => line.replaceAll(new RegExp(`(?=.{${width + 1}})(.{1,${width}})(?: |(?<=-))`, 'g'), `$1${end}\n`))
    .join('\n');
const markup = (text: string): string =>
  lines(text)
    .map((line) => line.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('«', '&laquo;'))
    .join('<br>\n');

/**
 * Quoted flowed text: a line broken at a space ends in it, and each line of a paragraph bears its mark; a line that begins
 * with a space, `>` or "From " is stuffed. @source RFC 3676, sections 4.1, 4.4 and 4.5
 */
function flowed(text: string, mark: string, deletesSpace: boolean): string {
  const soft = deletesSpace ? '  ' : ' ';
  return lines(text)
    .flatMap((line) => {
      const parts = line
        .trimEnd()
        .replaceAll(/(?=.{67})(.{1,66}) /g, `$1${soft}\n`)
        .split('\n');
      return parts.map((part) => (mark === '' && !/^(?: |>|From )/.test(part) ? part : `${mark} ${part}`));
    })
    .join('\n');
}

const attribution = 'On Mon, 1 Mar 2027 at 09:30, Runa Stavely <runa@bench.example.invalid> wrote:';
const fieldsOf = (more: readonly (readonly [string, string])[] = []): MailDescription['fields'] => [
  ...more,
  ['From', 'Maren Tollefsen <maren.tollefsen@example.invalid>'],
  ['To', 'Runa Stavely <runa@bench.example.invalid>'],
  ['Subject', 'Re: Tisch für die Küche, second proposal'],
  ['Date', 'Mon, 01 Mar 2027 23:40:00 +0000'],
  ['Message-ID', '<1@example.invalid>'],
];
const received: readonly (readonly [string, string])[] = [
  ['Received', 'from a.example.invalid by mail.bench.example.invalid with ESMTPS; Tue, 02 Mar 2027 00:10:09 +0000 (UTC)'],
  ['Received', 'from kitchen by a.example.invalid with ESMTP; Mon, 01 Mar 2027 23:40:02 +0000 (UTC)'],
];

/**
 * A text as mail programs send it back, by their habits (common practice), in the encodings that they use.
 *
 * @param text what is quoted
 */
export function habitsOf(text: string): readonly MailDescription[] {
  const plain = (name: string, body: string, rest: Partial<NonNullable<MailDescription['text']>> = {}): MailDescription => ({
    name,
    fields: fieldsOf(),
    text: { body: `${body}\n`, charset: 'utf-8', encoding: 'quoted-printable', ...rest },
  });
  const fields =
    'From: Runa Stavely <runa@bench.example.invalid>\nSent: Monday, 1 March 2027 09:30\nTo: Maren Tollefsen\nSubject: Second proposal';
  const html = `<html><head><style>p{margin:0}</style></head><body><div>${markup(above)}</div>`;
  return [
    plain('top-posted', `${above}\n\n${attribution}\n\n${marked(wrapped(text, 70), '> ')}`),
    plain('attribution-wrapped', `${above}\n\n${wrapped(attribution, 60)}\n>\n${marked(text, '> ')}`, { encoding: 'base64' }),
    plain('below', `${attribution}\n${marked(wrapped(text, 72), '> ')}\n\n${above}`, { charset: 'windows-1252', encoding: '8bit' }),
    plain('twice-quoted', `${above}\n\n${attribution}\n${marked(wrapped(text, 64), '>> ')}`, { charset: 'windows-1252' }),
    plain('fields-over-it', `${above}\n\n________________________________\n${fields}\n\n${text}`),
    plain('flattened-with-bars', `${above}\n\n${attribution}\n${marked(text, '| ')}`, { encoding: 'base64', charset: 'windows-1252' }),
    plain('flattened-unmarked', `${above}\n\n${attribution}\n\n${text.replaceAll(' ', '\u00a0')}`),
    plain('flowed', `${flowed(above, '', false)}\n\n${attribution}\n${flowed(text, '>', false)}`, { parameters: [['format', 'flowed']] }),
    plain('flowed-delsp', `${flowed(above, '', true)}\n\n${attribution}\n${flowed(text, '>', true)}`, {
      parameters: [
        ['format', 'flowed'],
        ['delsp', 'yes'],
      ],
    }),
    {
      name: 'markup-alone',
      fields: fieldsOf(received),
      html: {
        body: `${html}<div>${markup(attribution)}</div><blockquote type="cite"><div>${markup(text)}</div></blockquote></body></html>`,
        charset: 'utf-8',
        encoding: 'quoted-printable',
      },
    },
    {
      name: 'both-parts',
      fields: fieldsOf(received),
      text: { body: `${above}\n\n${attribution}\n\n${marked(text, '> ')}\n`, charset: 'utf-8', encoding: 'base64' },
      html: { body: `${html}<blockquote>${markup(text)}</blockquote></body></html>`, charset: 'utf-8', encoding: 'base64' },
    },
  ];
}

export const hasPython = spawnSync('python3', ['--version']).status === 0;

/** The mails as bytes, written by Python's email package. */
export function writtenByPython(mails: readonly MailDescription[]): readonly Buffer[] {
  const script = fileURLToPath(new URL('../record/replies/write-mails.py', import.meta.url));
  const { status, stdout, stderr } = spawnSync('python3', [script], { input: JSON.stringify(mails), encoding: 'utf8', maxBuffer: 1e8 });
  if (status !== 0) throw new Error(stderr);
  return (JSON.parse(stdout) as readonly string[]).map((text) => Buffer.from(text, 'base64'));
}
