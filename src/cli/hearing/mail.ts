import PostalMime from 'postal-mime';
import { unflowed } from './flowed.ts';

/** A saved mail, as far as an answer is concerned. */
export interface SavedMail {
  /** Its text as it was written; of a mail in markup alone its markup. */
  readonly text: string;
  readonly from?: { readonly name: string; readonly address: string };
  /** When it came: an instant in UTC, RFC 3339, by the last server that it passed, else by its sender's machine. */
  readonly at?: string;
}

/** Header fields with which a saved mail begins, and without which it is none. @source RFC 5322, section 3.6 */
const field = /^[A-Za-z][A-Za-z0-9-]*:[ \t]/;
const needed = /^(?:from|date|message-id|mime-version|received):/im;

/** Whether bytes are a saved mail: header fields up to an empty line, among them From and one that programs write. */
export function isSavedMail(bytes: Uint8Array): boolean {
  const head = Buffer.from(bytes.subarray(0, 20_000))
    .toString('latin1')
    .replace(/^From [^\r\n]*\r?\n/, '');
  const fields = head.split(/\r?\n\r?\n/)[0] ?? '';
  const lines = fields.split(/\r?\n/);
  const isHead =
    lines.length > 1 && lines.every((line) => field.test(line) || /^[ \t]/.test(line) || /^[A-Za-z][A-Za-z0-9-]*:$/.test(line));
  return isHead && /^from:/im.test(fields) && (fields.match(new RegExp(needed.source, 'gim')) ?? []).length > 1;
}

const plainType = /^content-type:[ \t]*text\/plain\b[^\r\n]*(?:\r?\n[ \t][^\r\n]*)*/gim;

/** The instant of the topmost `Received` field, which the last server wrote. @source RFC 5321, section 4.4 */
function receivedAt(headers: readonly { readonly key: string; readonly value: string }[]): string | undefined {
  const received = headers
    .find(({ key }) => key === 'received')
    ?.value.split(';')
    .at(-1);
  return received === undefined ? undefined : instant(received);
}

function instant(date: string | undefined): string | undefined {
  const time = Date.parse((date ?? '').replaceAll(/\([^()]*\)/g, ''));
  return Number.isNaN(time) ? undefined : `${new Date(time).toISOString().slice(0, 19)}Z`;
}

/**
 * Reads a saved mail. Text that was wrapped as `format=flowed` is put together here: joined with its quote marks inside, it
 * would no longer tell what is quoted.
 */
export async function readMail(bytes: Uint8Array): Promise<SavedMail> {
  const raw = Buffer.from(bytes).toString('latin1');
  const plain = (raw.match(plainType) ?? []).join('\n');
  const isFlowed = /;\s*format\s*=\s*"?flowed/i.test(plain);
  const fixed = raw.replaceAll(plainType, (type) => type.replace(/(;\s*format\s*=\s*"?)flowed/i, '$1fixed'));
  const mail = await PostalMime.parse(Buffer.from(fixed, 'latin1'));
  const text = mail.text ?? '';
  const at = receivedAt(mail.headers) ?? instant(mail.date);
  const { address, name = '' } = mail.from ?? {};
  return {
    text: text.trim() === '' ? (mail.html ?? '') : isFlowed ? unflowed(text, /;\s*delsp\s*=\s*"?yes/i.test(plain)) : text,
    ...(address === undefined ? {} : { from: { name, address } }),
    ...(at === undefined ? {} : { at }),
  };
}
