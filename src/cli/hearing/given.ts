import { readFileSync, statSync } from 'node:fs';
import { heldWords } from '../../reply/index.ts';
import { UsageFault } from '../command.ts';
import { isSavedMail, readMail, type SavedMail } from './mail.ts';

/** What was handed over: words, a pasted mail, a saved one, what a form posted. */
export interface Heard {
  readonly text: string;
  readonly by: 'code' | 'form';
  readonly mail?: SavedMail;
}

/** More than any mail with a letter in it has. */
const MOST_BYTES = 30_000_000;

/** Tab, line ends and space: a file of these alone says nothing. */
const blanks: readonly number[] = [0x09, 0x0a, 0x0d, 0x20];

/** Bytes as text: UTF-8, or with its mark UTF-16, else the usual eight-bit letters of western Europe. */
function textOf(bytes: Uint8Array, shown: string): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  if (bytes.includes(0)) throw new UsageFault(`${shown} is no text and no mail`, 'save the mail as .eml, or paste its text');
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

type Fields = Readonly<Record<string, unknown>>;

/** The fields as a browser sends them, where they came as they were sent. @source WHATWG URL, application/x-www-form-urlencoded */
function sentFields(text: string): Fields | undefined {
  const sent = text.trim();
  if (/\s/.test(sent) || !/(?:^|&)(?:letter|code)=/.test(sent)) return undefined;
  return Object.fromEntries(new URLSearchParams(sent));
}

/** The fields of a form: as JSON, or as they were sent. */
function fieldsOf(text: string): Fields | undefined {
  if (!/^\s*\{/.test(text)) return sentFields(text);
  try {
    return JSON.parse(text) as Fields;
  } catch {
    return undefined;
  }
}

/** The letter in what a form posted: whole, or put together from its fields. */
function letterOfForm(text: string): string | undefined {
  const fields = fieldsOf(text);
  if (fields === undefined) return undefined;
  const field = (name: string): string => (typeof fields[name] === 'string' ? fields[name].trim() : '');
  const held = (name: string): string => heldWords(field(name));
  const [letter, code] = [field('letter'), field('code')];
  if (letter === '' && code === '')
    throw new UsageFault('what this form posted holds no letter', 'a form posts letter, or code with name and remark: {"letter": "..."}');
  if (letter !== '') return letter.includes(code) ? letter : `${letter}\n\n${code}`;
  const remark = field('remark') === '' ? '' : `: «${held('remark')}»\n`;
  return `: «${held('name')}»\n${remark}\n${code}`;
}

async function heardBytes(bytes: Uint8Array, shown: string): Promise<Heard> {
  if (bytes.every((byte) => blanks.includes(byte))) throw new UsageFault(`${shown} is empty`, 'save the mail again, or paste its text');
  if (bytes.length > MOST_BYTES) throw new UsageFault(`${shown} is larger than a mail with a letter in it`);
  if (/\.eml$/i.test(shown) || isSavedMail(bytes)) {
    const mail = await readMail(bytes);
    return { text: mail.text.toWellFormed(), by: 'code', mail };
  }
  return heardText(textOf(bytes, shown).replace(/^\ufeff/, ''));
}

function heardText(text: string): Heard {
  const form = letterOfForm(text);
  return form === undefined ? { text: text.toWellFormed(), by: 'code' } : { text: form.toWellFormed(), by: 'form' };
}

async function standardInput(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks);
}

/**
 * Reads what was handed over: a file, standard input (`-`), or words on the command line; nothing where none was. Throws a
 * UsageFault for two at once, and for what can not be read.
 */
export async function heardFrom(file: string | undefined, words: string | undefined): Promise<Heard | undefined> {
  if (file !== undefined && words !== undefined) throw new UsageFault('say it once: with --file, or in words', 'leave one of them out');
  const source = file ?? (words === '-' ? '-' : undefined);
  if (source === '-') return heardBytes(await standardInput(), 'standard input');
  if (source !== undefined) {
    if (statSync(source, { throwIfNoEntry: false })?.isFile() !== true) throw new UsageFault(`there is no file ${source}`);
    return heardBytes(readFileSync(source), source);
  }
  if (words === undefined) return undefined;
  if (words.trim() === '') throw new UsageFault('there are no words in ""', 'write what was said between the quotation marks');
  return heardText(words);
}
