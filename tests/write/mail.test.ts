import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import PostalMime from 'postal-mime';
import { describe, expect, it } from 'vitest';
import { type Mail, mailDraft } from '../../src/write/client/index.ts';

/** Read back by two general mail readers that share no code with what writes: postal-mime, and the `email` package of Python. */
const picture = Uint8Array.from({ length: 700 }, (_, i) => (i * 37) % 256);
const long = `A line of a hundred and more letters that no mail may carry as it stands: ${'Eschenholz, geölt; '.repeat(60)}`;
const mail: Mail = {
  from: { name: 'Aase Lund, bench', address: 'aase@bench.example.invalid' },
  to: [{ name: 'Zoë Öst', address: 'zoe@example.invalid' }, { address: 'rolf@example.invalid' }],
  subject: 'Second proposal: table for the garden room, 2,100 × 800 mm – until 14 March',
  text: `Dear Zoë,\n\n.a line that begins with a dot\nFrom here the table begins.\n${long}\n\n  two spaces before = and after  \nAase\n`,
  attachments: [{ name: 'drei Entwürfe.png', type: 'image/png', bytes: picture }],
  date: '2026-03-02T09:30:05Z',
  messageIdSeed: 'garden-room r2 payer',
};

const hasPython = spawnSync('python3', ['--version']).status === 0;
const reader = `
import sys, json, hashlib
from email import message_from_binary_file, policy
m = message_from_binary_file(open(sys.argv[1], 'rb'), policy=policy.default)
body = m.get_body(('plain',))
parts = list(m.iter_attachments())
print(json.dumps({
  'defects': [str(d) for p in m.walk() for d in p.defects] + [str(d) for h in m.values() for d in h.defects],
  'from': [[a.display_name, a.addr_spec] for a in m['from'].addresses],
  'to': [[a.display_name, a.addr_spec] for a in m['to'].addresses],
  'subject': m['subject'], 'date': m['date'].datetime.isoformat(), 'id': m['message-id'], 'version': m['mime-version'],
  'text': body.get_content(), 'type': body.get_content_type(),
  'files': [[p.get_filename(), p.get_content_type(), hashlib.sha256(p.get_content()).hexdigest(), p.get_content_disposition()] for p in parts],
}))
`;

describe('a mail as a file', () => {
  it('is the same bytes for the same arguments, and another mail for another seed', async () => {
    const bytes = await mailDraft(mail);
    expect(Buffer.compare(bytes, await mailDraft(mail))).toBe(0);
    expect(Buffer.compare(bytes, await mailDraft({ ...mail, messageIdSeed: 'garden-room r2 viewer' }))).not.toBe(0);
  });

  it('keeps to the line rules: CR LF alone, at most 76 characters in a body, 998 in a field, seven bits', async () => {
    // RFC 5322, 2.1.1 and 2.3; RFC 2045, 6.7 (5) and 6.8
    const text = Buffer.from(await mailDraft(mail)).toString('latin1');
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(text).not.toMatch(/[^\x20-\x7e\r\n\t]/);
    const body = text.slice(text.indexOf('\r\n\r\n'));
    expect(Math.max(...body.split('\r\n').map((line) => line.length))).toBeLessThanOrEqual(78);
    expect(text).not.toMatch(/^X-/im);
  });

  it('is read by postal-mime as it was written', async () => {
    const read = await PostalMime.parse(await mailDraft(mail));
    expect(read.from).toMatchObject({ name: 'Aase Lund, bench', address: 'aase@bench.example.invalid' });
    expect(read.to?.map(({ name, address }) => [name, address])).toEqual([
      ['Zoë Öst', 'zoe@example.invalid'],
      ['', 'rolf@example.invalid'],
    ]);
    expect(read.subject).toBe(mail.subject);
    expect(read.date).toBe('2026-03-02T09:30:05.000Z');
    expect(read.messageId).toMatch(/^<[0-9a-f]{32}@bench\.example\.invalid>$/);
    // This reader counts the line end before a boundary to the text, which RFC 2046, 5.1.1 gives to the boundary.
    expect(read.text?.replaceAll('\r\n', '\n').replace(/\n$/, '')).toBe(mail.text);
    expect(read.attachments.map(({ filename, mimeType, disposition }) => [filename, mimeType, disposition])).toEqual([
      ['drei Entwürfe.png', 'image/png', 'attachment'],
    ]);
    expect(Buffer.compare(Buffer.from(read.attachments[0]?.content as ArrayBuffer), picture)).toBe(0);
  });

  it.runIf(hasPython)('is read by the email package of Python without a defect', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'mail-')), 'draft.eml');
    writeFileSync(file, await mailDraft(mail));
    const read = JSON.parse(execFileSync('python3', ['-c', reader, file], { encoding: 'utf8' })) as Record<string, unknown>;
    expect(read).toMatchObject({
      defects: [],
      from: [['Aase Lund, bench', 'aase@bench.example.invalid']],
      to: [
        ['Zoë Öst', 'zoe@example.invalid'],
        ['', 'rolf@example.invalid'],
      ],
      subject: mail.subject,
      date: '2026-03-02T09:30:05+00:00',
      version: '1.0',
      type: 'text/plain',
      files: [['drei Entwürfe.png', 'image/png', expect.stringMatching(/^[0-9a-f]{64}$/), 'attachment']],
    });
    expect(String(read['text']).replaceAll('\r\n', '\n')).toBe(mail.text);
  });

  it('takes no field from a line end in a subject, a name, an address or a file name', async () => {
    const more = '\r\nBcc: everyone@example.invalid\r\n\r\n<script>';
    const bytes = await mailDraft({
      ...mail,
      subject: `Table${more}`,
      from: { name: `Aase${more}`, address: 'aase@bench.example.invalid' },
      to: [{ name: `Zoë${more}\n>, everyone@example.invalid`, address: 'zoe@example.invalid' }, { address: 'rolf@example.invalid' }],
      attachments: [{ name: `../../a${more}.png`, type: 'image/png', bytes: picture }],
    });
    const fields = (Buffer.from(bytes).toString('latin1').split('\r\n\r\n')[0] ?? '').replaceAll(/\r\n[ \t]/g, ' ');
    expect(fields.split('\r\n').map((line) => line.split(':')[0])).toEqual([
      ...['From', 'To', 'Subject', 'Message-ID', 'Date', 'MIME-Version', 'Content-Type'],
    ]);
    const read = await PostalMime.parse(bytes);
    expect([read.bcc, read.cc, read.to?.map(({ address }) => address)]).toEqual([
      undefined,
      undefined,
      ['zoe@example.invalid', 'rolf@example.invalid'],
    ]);
    expect(read.text?.startsWith('Dear Zoë')).toBe(true);
    expect(read.attachments).toHaveLength(1);
  });

  it('of one text alone is one part', async () => {
    const { attachments: _none, ...plain } = mail;
    const bytes = await mailDraft(plain);
    expect(Buffer.from(bytes).toString('latin1')).toMatch(/^Content-Type: text\/plain; charset=utf-8\r$/m);
    expect((await PostalMime.parse(bytes)).text?.replaceAll('\r\n', '\n')).toBe(mail.text);
  });
});
