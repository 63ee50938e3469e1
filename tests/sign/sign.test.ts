import { execFileSync, spawnSync } from 'node:child_process';
import { generateKeyPairSync } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openDocumentFonts } from '../../src/cli/draft/fonts.ts';
import { checkSignature, makeKeyFile, openKeyFile, type SigningKey, signPdf } from '../../src/sign/index.ts';
import { layOut } from '../../src/write/client/flow.ts';
import { measureWith, paintDocument } from '../../src/write/client/paint.ts';

/**
 * Signatures are judged by tools that share no code with this program: pdfsig (poppler, NSS), qpdf, and OpenSSL, whose `-cades`
 * asks for the signing-certificate attribute.
 * @source ISO 32000-1:2008, 12.8; RFC 5652; RFC 5035; EN 319 142-1 (no signing time among the attributes; from memory)
 */
const folder = mkdtempSync(join(tmpdir(), 'leafwright-sign-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const tool = (name: string, ...args: string[]): string => execFileSync(name, args, { encoding: 'utf8', cwd: folder });
const write = (name: string, bytes: Uint8Array): string => {
  writeFileSync(join(folder, name), bytes);
  return name;
};

const passphrase = 'four planed boards';
const privateKeyPem = generateKeyPairSync('rsa', {
  modulusLength: 3072,
  privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
  publicKeyEncoding: { type: 'spki', format: 'pem' },
}).privateKey;
const keyFile = makeKeyFile({
  privateKeyPem,
  name: 'Ana Orlów',
  from: '2026-01-02T00:00:00Z',
  until: '2046-01-02T00:00:00Z',
  serial: Uint8Array.from({ length: 16 }, (_, i) => 255 - i),
  passphrase,
});

function opened(bytes: Uint8Array, words: string): SigningKey {
  const key = openKeyFile(bytes, words);
  if (typeof key === 'string') throw new Error(key);
  return key;
}

async function unsigned(title: string): Promise<Uint8Array> {
  const fonts = openDocumentFonts();
  const page = { widthPt: 595, heightPt: 842, marginPt: 62, footPt: 12 };
  const info = { title, author: 'Ana Orlów', subject: 's', language: 'en-GB', dateIso: '2026-03-30', foot: 'f', pageOf: () => '' };
  const signature = { name: 'Ana Orlów', reason: 'Scope of work as approved', at: '2026-03-30T12:00:07Z' };
  return paintDocument(layOut([{ kind: 'title', text: title }], page, measureWith(fonts)), fonts, { ...info, signature }, 62);
}

let key: SigningKey;
let signed: Uint8Array;
beforeAll(async () => {
  key = opened(keyFile, passphrase);
  signed = await signPdf(await unsigned('Scope of work'), key);
  write('signed.pdf', signed);
  write('key.p12', keyFile);
  const pem = tool('openssl', 'pkcs12', '-in', 'key.p12', '-passin', `pass:${passphrase}`, '-nodes', '-nokeys');
  writeFileSync(join(folder, 'certificate.pem'), pem);
});

/** Where the signature itself stands: between the two ranges that are signed. */
function gap(pdf: Uint8Array): readonly [from: number, to: number] {
  const [, from = '', to = ''] = /\/ByteRange \[0 (\d+) (\d+) /.exec(Buffer.from(pdf).toString('latin1')) ?? [];
  return [Number(from), Number(to)];
}

describe('a signed PDF', () => {
  test('is whole and valid by pdfsig, and sound by qpdf', () => {
    const says = tool('pdfsig', '-nocert', 'signed.pdf');
    expect(says).toContain('Signature Validation: Signature is Valid.');
    expect(says).toContain('Total document signed');
    expect(says).toContain('Signing Hash Algorithm: SHA-256');
    expect(says).toContain('Signature Type: ETSI.CAdES.detached');
    expect(says).toContain('Signer Certificate Common Name: Ana Orlów');
    expect(tool('qpdf', '--check', 'signed.pdf')).toContain('No syntax or stream encoding errors found');
  });

  test('bears the signing certificate and no time among its attributes, by OpenSSL', () => {
    const [from, to] = gap(signed);
    const hex = Buffer.from(signed.slice(from + 1, to - 1)).toString('latin1');
    write('cms.der', Buffer.from(hex, 'hex'));
    write('content.bin', Buffer.concat([signed.slice(0, from), signed.slice(to)]));
    const verify = [
      'cms',
      '-verify',
      '-cades',
      '-binary',
      '-inform',
      'DER',
      '-in',
      'cms.der',
      '-content',
      'content.bin',
      ...['-CAfile', 'certificate.pem', '-partial_chain', '-no_check_time', '-purpose', 'any'],
      '-out',
      '/dev/null',
    ];
    expect(spawnSync('openssl', verify, { cwd: folder, encoding: 'utf8' }).stderr).toMatch(/verification successful/i);
    const printed = tool('openssl', 'cms', '-cmsout', '-print', '-inform', 'DER', '-in', 'cms.der');
    expect(printed).toContain('id-smime-aa-signingCertificateV2');
    expect(printed).toMatch(/messageDigest/);
    expect(printed).not.toMatch(/signingTime/);
  });

  test('is the same to the byte for the same file, key and time', async () => {
    expect(Buffer.compare(await signPdf(await unsigned('Scope of work'), opened(keyFile, passphrase)), signed)).toBe(0);
  });

  test("own check: certificate's digest as OpenSSL gives it, and the stated time", () => {
    const digest = /=([0-9A-F:]+)/.exec(tool('openssl', 'x509', '-in', 'certificate.pem', '-noout', '-fingerprint', '-sha256'))?.[1];
    expect(checkSignature(signed)).toEqual({
      valid: true,
      certificateSha256: digest?.replaceAll(':', '').toLowerCase(),
      name: 'Ana Orlów',
      signedAt: '2026-03-30T12:00:07Z',
    });
    const purposes = tool('openssl', 'x509', '-in', 'certificate.pem', '-noout', '-ext', 'keyUsage,basicConstraints');
    expect(purposes).toMatch(/CA:FALSE/);
    expect(purposes).toMatch(/Digital Signature, Non Repudiation/);
    expect(tool('openssl', 'verify', '-CAfile', 'certificate.pem', '-partial_chain', 'certificate.pem')).toContain('OK');
  });
});

describe('a file that was touched', () => {
  const flipped = (at: number): Uint8Array => Uint8Array.from(signed, (byte, i) => (i === at ? byte ^ 1 : byte));

  test('one flipped byte anywhere outside the signature is found', () => {
    const [from, to] = gap(signed);
    const places = [...Array(60).keys()].flatMap((i) => [
      Math.floor((i * from) / 60),
      to + Math.floor((i * (signed.length - to)) / 60),
      signed.length - 1,
    ]);
    expect(places.filter((at) => checkSignature(flipped(at)).valid)).toEqual([]);
  });

  test('the same by pdfsig', () => {
    const [, to] = gap(signed);
    write('flipped.pdf', flipped(to + 900));
    expect(tool('pdfsig', '-nocert', 'flipped.pdf')).toMatch(/Signature Validation: (?:Digest Mismatch|Signature is Invalid)/);
  });

  test('inside the signature too: digest, signature, padding', () => {
    const [from, to] = gap(signed);
    const text = Buffer.from(signed).toString('latin1');
    const end = text.slice(from, to).search(/0{400}/) + from;
    const places = [end - 40, end - 300, end - 600, end + 500, to - 2, from, to - 1];
    expect(places.filter((at) => checkSignature(flipped(at)).valid)).toEqual([]);
  });

  test('something appended, cut off, or signed by nobody is named', async () => {
    expect(checkSignature(Buffer.concat([signed, Buffer.from('\n% more')]))).toMatchObject({ valid: false, why: 'not-whole' });
    expect(checkSignature(signed.slice(0, -10))).toMatchObject({ valid: false, why: 'not-whole' });
    expect(checkSignature(Buffer.from('%PDF-1.7\n%%EOF'))).toEqual({ valid: false, why: 'no-signature' });
    expect(checkSignature(await unsigned('Scope'))).toMatchObject({ valid: false });
  });

  test("another file's signature does not fit, whoever's it is", async () => {
    const other = await signPdf(await unsigned('Scope of Work'), key);
    const [from, to] = gap(signed);
    const mixed = Buffer.concat([signed.slice(0, from), other.slice(...gap(other)), signed.slice(to)]);
    expect(checkSignature(mixed)).toMatchObject({ valid: false, why: 'changed' });
  });

  test('a signature by another key under the same certificate is refused', async () => {
    const stranger = generateKeyPairSync('rsa', {
      modulusLength: 3072,
      privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
      publicKeyEncoding: { type: 'spki', format: 'pem' },
    }).privateKey;
    const made = makeKeyFile({
      privateKeyPem: stranger,
      name: 'X',
      from: key.from,
      until: key.until,
      serial: new Uint8Array(16),
      passphrase: '',
    });
    const forged = await signPdf(await unsigned('Scope of work'), { ...key, privateKey: opened(made, '').privateKey });
    expect(checkSignature(forged)).toMatchObject({ valid: false, why: 'not-by-certificate' });
  });
});

/** @source RFC 5035, 3: the attribute holds the digest of the certificate, so that no other of the same key, issuer and number can be put in its place */
test('another certificate of the same key, name and number, put in place of the one that signed, is refused', () => {
  const hexOf = (p12: Uint8Array): string => {
    const pem = tool('openssl', 'pkcs12', '-in', write('one.p12', p12), '-passin', `pass:${passphrase}`, '-nodes', '-nokeys');
    write('one.pem', Buffer.from(pem));
    return execFileSync('openssl', ['x509', '-in', 'one.pem', '-outform', 'DER'], { cwd: folder }).toString('hex');
  };
  const longer = makeKeyFile({
    privateKeyPem,
    name: 'Ana Orlów',
    from: key.from,
    until: '2049-01-02T00:00:00Z',
    serial: Uint8Array.from({ length: 16 }, (_, i) => 255 - i),
    passphrase,
  });
  const [own, other] = [hexOf(keyFile), hexOf(longer)];
  const text = Buffer.from(signed).toString('latin1');
  expect([own.length, own === other, text.toLowerCase().split(own).length]).toEqual([other.length, false, 2]);
  const at = text.toLowerCase().indexOf(own);
  const put = (hex: string): Uint8Array => Buffer.from(text.slice(0, at) + hex + text.slice(at + hex.length), 'latin1');
  expect(checkSignature(put(own))).toMatchObject({ valid: true });
  expect(checkSignature(put(other))).toMatchObject({ valid: false, why: 'not-by-certificate' });
});

test('a large file is signed and checked as a small one', async () => {
  const pdf = Buffer.from(await unsigned('Large')).toString('latin1');
  const comment = `%${'x'.repeat(3_000_000)}\n`;
  const at = pdf.lastIndexOf('startxref');
  const large = await signPdf(Buffer.from(pdf.slice(0, at) + comment + pdf.slice(at), 'latin1'), key);
  expect(large.length).toBeGreaterThan(3e6);
  expect(checkSignature(large).valid).toBe(true);
});

describe('key files', () => {
  test('say why they can not be used', () => {
    expect(openKeyFile(keyFile, 'three planed boards')).toBe('wrong-passphrase');
    expect(openKeyFile(Buffer.from('no key at all'), passphrase)).toBe('not-a-key-file');
  });

  test('of another maker are taken: OpenSSL, RSA; and refused: elliptic curve', async () => {
    const make = (...kind: string[]): Uint8Array => {
      tool(
        'openssl',
        'req',
        '-x509',
        '-newkey',
        ...kind,
        '-nodes',
        '-keyout',
        'k.pem',
        '-out',
        'c.pem',
        '-subj',
        '/CN=Bench',
        '-days',
        '30',
      );
      const args = ['pkcs12', '-export', '-inkey', 'k.pem', '-in', 'c.pem', '-passout', 'pass:x'];
      return execFileSync('openssl', args, { cwd: folder });
    };
    const foreign = await signPdf(await unsigned('Scope'), opened(make('rsa:2048'), 'x'));
    write('foreign.pdf', foreign);
    expect(checkSignature(foreign)).toMatchObject({ valid: true, name: 'Bench' });
    expect(tool('pdfsig', '-nocert', 'foreign.pdf')).toContain('Signature is Valid');
    expect(openKeyFile(make('ec', '-pkeyopt', 'ec_paramgen_curve:P-256'), 'x')).toBe('no-rsa-key');
  });
});
