import MailComposer from 'nodemailer/lib/mail-composer';
import { sha256Text } from '../../reply/index.ts';

/** Somebody who writes or is written to. */
export interface MailPerson {
  readonly name?: string;
  readonly address: string;
}

export interface MailAttachment {
  readonly name: string;
  /** `image/png`, `application/pdf`. */
  readonly type: string;
  readonly bytes: Uint8Array;
}

export interface Mail {
  readonly from: MailPerson;
  readonly to: readonly MailPerson[];
  readonly subject: string;
  /** Plain text; lines end with a line feed. */
  readonly text: string;
  readonly attachments?: readonly MailAttachment[];
  /** When it was written: an instant in UTC, RFC 3339. */
  readonly date: string;
  /** Whatever tells this mail from every other: its message id and the boundaries of its parts follow from it. */
  readonly messageIdSeed: string;
}

/** Digits of the digest in a message id and in a boundary. */
const MESSAGE_ID_DIGITS = 32;

const person = ({ name, address }: MailPerson) => ({ name: name ?? '', address });

/**
 * A mail as the bytes of an .eml file, to be opened, read over and sent by hand: the same arguments give the same bytes.
 * Header fields and text in UTF-8, encoded for seven-bit ways; lines end with CR LF.
 *
 * @source RFC 5322 (fields, line ends), RFC 2045 to 2047 (parts, encodings, words in fields), RFC 2183 (attachments)
 */
export async function mailDraft(mail: Mail): Promise<Uint8Array> {
  const digest = sha256Text(`${mail.messageIdSeed}\n${mail.date}`).slice(0, MESSAGE_ID_DIGITS);
  const domain = mail.from.address.split('@').at(-1) ?? 'invalid';
  const node = new MailComposer({
    from: person(mail.from),
    to: mail.to.map(person),
    subject: mail.subject,
    text: mail.text,
    date: new Date(mail.date),
    messageId: `<${digest}@${domain}>`,
    baseBoundary: digest,
    boundaryPrefix: 'part',
    textEncoding: 'quoted-printable',
    newline: 'windows',
    disableFileAccess: true,
    disableUrlAccess: true,
    attachments: (mail.attachments ?? []).map(({ name, type, bytes }) => ({
      filename: name,
      contentType: type,
      content: Buffer.from(bytes),
    })),
  }).compile();
  return new Uint8Array(await node.build());
}
