import { Signer, SignPdf } from '@signpdf/signpdf';
import { checkDetached, signDetached } from './cms.ts';
import { binaryOf, bytesOf, certificateDigest, commonName, type SigningKey } from './key.ts';

/** Puts the CMS of `signDetached` where the library wants one. */
class KeySigner extends Signer {
  readonly key: SigningKey;
  constructor(key: SigningKey) {
    super();
    this.key = key;
  }
  override async sign(pdf: Uint8Array): Promise<Buffer> {
    return Buffer.from(bytesOf(signDetached(binaryOf(pdf), this.key)));
  }
}

/**
 * Signs a PDF that has an empty signature dictionary (byte range and contents to be filled in): the same bytes for the same file and
 * key. The dictionary holds the time. @throws Error where there is no such dictionary, or the certificates do not fit into it.
 */
export async function signPdf(pdf: Uint8Array, key: SigningKey): Promise<Uint8Array> {
  return new Uint8Array(await new SignPdf().sign(pdf, new KeySigner(key)));
}

/** What the signature of a PDF says. */
export interface SignatureCheck {
  /** The whole file is as it was signed, by the key of this certificate. Says nothing of who holds the key. */
  readonly valid: boolean;
  readonly why?: 'no-signature' | 'not-whole' | 'unreadable' | 'changed' | 'not-by-certificate';
  /** SHA-256 of the certificate in DER, hex. */
  readonly certificateSha256?: string;
  readonly name?: string;
  /** As the signature dictionary states it: RFC 3339 in UTC; no time stamp of a third party. */
  readonly signedAt?: string;
}

/** `D:20260330120000Z` of a PDF (ISO 32000-1, 7.9.4) as RFC 3339; nothing for other zones, which this program never writes. */
function statedTime(dictionary: string): string | undefined {
  const [, ...parts] = /\/M \(D:(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)Z/.exec(dictionary) ?? [];
  const [year, month, day, hour, minute, second] = parts;
  return year === undefined ? undefined : `${year}-${month}-${day}T${hour}:${minute}:${second}Z`;
}

/**
 * Checks the last signature of a PDF: its byte range covers the whole file but the signature itself, the digest and the signature
 * hold. Trust in the certificate is not judged: compare its digest with the one that the maker gave you.
 * @source ISO 32000-1:2008, 12.8.1 and Table 252 (byte range, contents)
 */
export function checkSignature(pdf: Uint8Array): SignatureCheck {
  const text = binaryOf(pdf);
  const range = [...text.matchAll(/\/ByteRange \[(\d{1,10}) +(\d{1,10}) +(\d{1,10}) +(\d{1,10}) *\]/g)].at(-1);
  if (range === undefined) return { valid: false, why: 'no-signature' };
  const [start = 0, length = 0, after = 0, rest = 0] = range.slice(1).map(Number);
  const contents = text.slice(length, after);
  const isWhole = start === 0 && after + rest === text.length && /^<(?:[0-9a-f]{2})+>$/i.test(contents) && range.index < length;
  if (!isWhole) return { valid: false, why: 'not-whole' };
  const signedAt = statedTime(text.slice(text.lastIndexOf(' obj', range.index), text.indexOf('endobj', after)));
  const time = signedAt === undefined ? {} : { signedAt };
  try {
    const cms = binaryOf(hexBytes(contents.slice(1, -1)));
    const { certificate, isOfContent, isSigned } = checkDetached(cms, text.slice(0, length) + text.slice(after));
    if (certificate === undefined) return { valid: false, why: 'unreadable', ...time };
    const who = { certificateSha256: certificateDigest(certificate), name: commonName(certificate), ...time };
    if (!isOfContent) return { valid: false, why: 'changed', ...who };
    return isSigned ? { valid: true, ...who } : { valid: false, why: 'not-by-certificate', ...who };
  } catch {
    return { valid: false, why: 'unreadable', ...time };
  }
}

const hexBytes = (hex: string): Uint8Array =>
  Uint8Array.from({ length: hex.length / 2 }, (_, i) => Number.parseInt(hex.slice(2 * i, 2 * i + 2), 16));
