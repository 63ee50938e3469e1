import forge from 'node-forge';

/** A key with its certificate, and the certificates above it where the file held any. */
export interface SigningKey {
  readonly privateKey: forge.pki.rsa.PrivateKey;
  readonly certificate: forge.pki.Certificate;
  readonly chain: readonly forge.pki.Certificate[];
  /** SHA-256 of the certificate in DER, hex. */
  readonly certificateSha256: string;
  /** Common name of the certificate's subject. */
  readonly name: string;
  /** First and last instant of the certificate, RFC 3339 in UTC. */
  readonly from: string;
  readonly until: string;
}

/** Why a PKCS #12 file gives no key. */
export type KeyRefusal = 'not-a-key-file' | 'wrong-passphrase' | 'no-rsa-key' | 'no-certificate';

/** Bits of a new key. */
export const keyBits = 3072;
/** Rounds by which a passphrase is stretched. */
const keyRounds = 100_000;

/** Bytes as the library takes them: a character each. Its own conversion overflows the stack on a large file. */
export const binaryOf = (bytes: Uint8Array): string => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
export const bytesOf = (binary: string): Uint8Array => Uint8Array.from(Buffer.from(binary, 'latin1'));
const instant = (date: Date): string => `${date.toISOString().slice(0, 19)}Z`;

export const certificateDer = (certificate: forge.pki.Certificate): string =>
  forge.asn1.toDer(forge.pki.certificateToAsn1(certificate)).getBytes();

export const sha256Of = (binary: string): string => forge.md.sha256.create().update(binary).digest().getBytes();

/** SHA-256 of a certificate in DER, hex. */
export const certificateDigest = (certificate: forge.pki.Certificate): string =>
  forge.util.bytesToHex(sha256Of(certificateDer(certificate)));

/** Common name of a certificate's subject; empty where it has none. The library gives UTF-8 as it stands in the file. */
export const commonName = (certificate: forge.pki.Certificate): string => {
  const value: unknown = certificate.subject.getField('CN')?.value;
  if (typeof value !== 'string') return '';
  try {
    return forge.util.decodeUtf8(value);
  } catch {
    return value;
  }
};

/** A new key on its way into a file. */
export interface NewKey {
  /** RSA key, PKCS #8 in PEM. */
  readonly privateKeyPem: string;
  /** Goes into the certificate as its common name. */
  readonly name: string;
  /** First and last instant of the certificate, RFC 3339 in UTC. */
  readonly from: string;
  readonly until: string;
  /** Positive and at most 20 bytes (RFC 5280, 4.1.2.2): random bytes. */
  readonly serial: Uint8Array;
  readonly passphrase: string;
}

/**
 * A PKCS #12 file with the key and a certificate that it signs itself: it shows that a file was not changed, and no third party
 * says whose key it is. SHA-256; the key under AES-256. The file's own salts come from the library.
 * @source RFC 5280, 4.1 and 4.2.1.3 (key usage: digital signature, non-repudiation); RFC 7292
 */
export function makeKeyFile(key: NewKey): Uint8Array {
  const privateKey = forge.pki.privateKeyFromPem(key.privateKeyPem) as forge.pki.rsa.PrivateKey;
  const certificate = forge.pki.createCertificate();
  certificate.publicKey = forge.pki.setRsaPublicKey(privateKey.n, privateKey.e);
  // The first bit is cleared, so that the number is positive, and the second set, so that it has no leading zeros.
  const [first = 0, ...rest] = key.serial;
  certificate.serialNumber = forge.util.bytesToHex(binaryOf(Uint8Array.of((first & 0x3f) | 0x40, ...rest)));
  certificate.validity.notBefore = new Date(key.from);
  certificate.validity.notAfter = new Date(key.until);
  const subject = [{ name: 'commonName', value: key.name, valueTagClass: forge.asn1.Type.UTF8 }];
  certificate.setSubject(subject as unknown as forge.pki.CertificateField[]);
  certificate.setIssuer(subject as unknown as forge.pki.CertificateField[]);
  certificate.setExtensions([
    { name: 'basicConstraints', cA: false, critical: true },
    { name: 'keyUsage', digitalSignature: true, nonRepudiation: true, critical: true },
    { name: 'subjectKeyIdentifier' },
  ]);
  certificate.sign(privateKey, forge.md.sha256.create());
  const p12 = forge.pkcs12.toPkcs12Asn1(privateKey, [certificate], key.passphrase, {
    algorithm: 'aes256',
    count: keyRounds,
    ...({ prfAlgorithm: 'sha256' } as object),
    generateLocalKeyId: true,
  });
  return bytesOf(forge.asn1.toDer(p12).getBytes());
}

/** Opens a PKCS #12 file, the program's own or one from a trust service; only RSA keys sign here. */
export function openKeyFile(bytes: Uint8Array, passphrase: string): SigningKey | KeyRefusal {
  let asn1: forge.asn1.Asn1;
  try {
    asn1 = forge.asn1.fromDer(binaryOf(bytes));
  } catch {
    return 'not-a-key-file';
  }
  let p12: forge.pkcs12.Pkcs12Pfx;
  try {
    p12 = forge.pkcs12.pkcs12FromAsn1(asn1, passphrase);
  } catch (error) {
    return error instanceof Error && /MAC|password|decrypt/i.test(error.message) ? 'wrong-passphrase' : 'not-a-key-file';
  }
  const bags = p12.safeContents.flatMap((contents) => contents.safeBags);
  const privateKey = bags.find((bag) => bag.key !== undefined && bag.key !== null && 'n' in bag.key)?.key as
    | forge.pki.rsa.PrivateKey
    | undefined;
  if (privateKey === undefined) return 'no-rsa-key';
  const certificates = bags.flatMap((bag) => bag.cert ?? []);
  const certificate = certificates.find(({ publicKey }) => 'n' in publicKey && publicKey.n.compareTo(privateKey.n) === 0);
  if (certificate === undefined) return 'no-certificate';
  return {
    privateKey,
    certificate,
    chain: certificates.filter((one) => one !== certificate),
    certificateSha256: certificateDigest(certificate),
    name: commonName(certificate),
    from: instant(certificate.validity.notBefore),
    until: instant(certificate.validity.notAfter),
  };
}
