import forge from 'node-forge';
import { certificateDer, type SigningKey, sha256Of } from './key.ts';

const { asn1 } = forge;
const { Class, Type } = asn1;

/** @source RFC 5652, 5.1 and 11.1 to 11.2 (signed data, content type, message digest); RFC 5035, 3 (signing certificate v2); RFC 8017, A.2.4 */
const oids = {
  data: '1.2.840.113549.1.7.1',
  signedData: '1.2.840.113549.1.7.2',
  contentType: '1.2.840.113549.1.9.3',
  messageDigest: '1.2.840.113549.1.9.4',
  signingCertificateV2: '1.2.840.113549.1.9.16.2.47',
  sha256: '2.16.840.1.101.3.4.2.1',
  sha256WithRsa: '1.2.840.113549.1.1.11',
  rsa: '1.2.840.113549.1.1.1',
} as const;

type Node = forge.asn1.Asn1;

const make = (type: forge.asn1.Type, constructed: boolean, value: string | Node[]): Node =>
  asn1.create(Class.UNIVERSAL, type, constructed, value as unknown as Node[]);
const sequence = (...parts: Node[]): Node => make(Type.SEQUENCE, true, parts);
const set = (...parts: Node[]): Node => make(Type.SET, true, parts);
const oid = (id: string): Node => make(Type.OID, false, asn1.oidToDer(id).getBytes());
const octets = (bytes: string): Node => make(Type.OCTETSTRING, false, bytes);
const whole = (n: number): Node => make(Type.INTEGER, false, asn1.integerToDer(n).getBytes());
const tagged = (tag: number, parts: Node[]): Node => asn1.create(Class.CONTEXT_SPECIFIC, tag as forge.asn1.Type, true, parts);
const der = (node: Node): string => asn1.toDer(node).getBytes();

const children = (node: Node | undefined): readonly Node[] => (Array.isArray(node?.value) ? (node.value as Node[]) : []);
const content = (node: Node | undefined): string => (typeof node?.value === 'string' ? node.value : '');
const isTagged = (node: Node | undefined, tag: number): boolean =>
  node?.tagClass === Class.CONTEXT_SPECIFIC && (node.type as number) === tag;
const idOf = (node: Node | undefined): string => (node?.type === Type.OID ? asn1.derToOid(content(node)) : '');

/** Signed attributes in the order of DER (X.690, 11.6): by their encoding. */
function signedAttributes(digest: string, certificate: forge.pki.Certificate): readonly Node[] {
  const attribute = (id: string, value: Node): Node => sequence(oid(id), set(value));
  // ESSCertIDv2 with SHA-256, its default, left out.
  const certificateId = sequence(sequence(sequence(octets(sha256Of(certificateDer(certificate))))));
  return [
    attribute(oids.contentType, oid(oids.data)),
    attribute(oids.messageDigest, octets(digest)),
    attribute(oids.signingCertificateV2, certificateId),
  ].sort((a, b) => (der(a) < der(b) ? -1 : 1));
}

/**
 * Detached CMS signed data (DER) over a content, by RSA (PKCS #1 v1.5) and SHA-256: the same bytes for the same content and key.
 * Signed attributes are content type, message digest and signing certificate v2, and no time: in a PDF that stands in the
 * signature dictionary, which is signed with the rest.
 * @source RFC 5652, 5; EN 319 142-1, 6.3 (attributes of a PDF signature with the sub-filter ETSI.CAdES.detached; from memory)
 */
export function signDetached(content: string, { privateKey, certificate, chain }: SigningKey): string {
  const attributes = signedAttributes(sha256Of(content), certificate);
  const toSign = forge.md.sha256.create().update(der(set(...attributes)));
  const signature = privateKey.sign(toSign);
  const signer = sequence(
    whole(1),
    issuerAndSerial(certificate),
    sequence(oid(oids.sha256)),
    tagged(0, [...attributes]),
    sequence(oid(oids.sha256WithRsa), make(Type.NULL, false, '')),
    octets(signature),
  );
  const signed = sequence(
    whole(1),
    set(sequence(oid(oids.sha256))),
    sequence(oid(oids.data)),
    tagged(
      0,
      [certificate, ...chain].map((one) => forge.pki.certificateToAsn1(one)),
    ),
    set(signer),
  );
  return der(sequence(oid(oids.signedData), tagged(0, [signed])));
}

/** What a detached CMS signature says of a content. */
export interface CmsCheck {
  readonly certificate?: forge.pki.Certificate;
  /** The digest in it is that of the content. */
  readonly isOfContent: boolean;
  /** The signature over its attributes is the certificate's. */
  readonly isSigned: boolean;
}

/** A certificate is named by its issuer and serial number as they stand in it: read and written anew, a name could differ. */
function issuerAndSerial(certificate: forge.pki.Certificate): Node {
  const fields = children(children(forge.pki.certificateToAsn1(certificate))[0]);
  const at = isTagged(fields[0], 0) ? 1 : 0;
  const [serial, issuer] = [fields[at], fields[at + 2]];
  if (serial === undefined || issuer === undefined) throw new RangeError('no X.509 certificate');
  return sequence(issuer, serial);
}

/** Checks a signature as `signDetached` makes it; others by RSA and SHA-256 with signed attributes too. Throws where it is no such CMS. */
export function checkDetached(cms: string, signedContent: string): CmsCheck {
  const buffer = forge.util.createBuffer(cms);
  const root = asn1.fromDer(buffer, { strict: true, parseAllBytes: false } as unknown as boolean);
  if (/[^\0]/.test(buffer.bytes())) throw new RangeError('something stands after the signature');
  const [type, wrapped] = children(root);
  const parts = children(children(wrapped)[0]);
  const signerInfos = children(parts.at(-1));
  if (idOf(type) !== oids.signedData || signerInfos.length !== 1) throw new RangeError('not CMS signed data with one signer');
  const certificates = children(parts.find((part) => isTagged(part, 0))).map((one) => forge.pki.certificateFromAsn1(one));
  const info = children(signerInfos[0]);
  const certificate = certificates.find((one) => info[1] !== undefined && der(issuerAndSerial(one)) === der(info[1]));
  const attributes = info.find((part) => isTagged(part, 0));
  const attribute = (id: string): Node | undefined => {
    const found = children(attributes).filter((one) => idOf(children(one)[0]) === id);
    return found.length === 1 ? children(children(found[0])[1])[0] : undefined;
  };
  const isSha256 = idOf(children(info[2])[0]) === oids.sha256;
  const named = content(children(children(children(attribute(oids.signingCertificateV2))[0])[0]).at(-1));
  const isOfContent =
    isSha256 && idOf(attribute(oids.contentType)) === oids.data && content(attribute(oids.messageDigest)) === sha256Of(signedContent);
  if (certificate === undefined || attributes === undefined || !isOfContent)
    return { isOfContent, isSigned: false, ...(certificate === undefined ? {} : { certificate }) };
  const signature = content(info.find((part) => part.type === Type.OCTETSTRING && part.tagClass === Class.UNIVERSAL));
  const toCheck = forge.md.sha256.create().update(der(set(...children(attributes))));
  const key = certificate.publicKey as forge.pki.rsa.PublicKey;
  return { certificate, isOfContent, isSigned: named === sha256Of(certificateDer(certificate)) && verified(key, toCheck, signature) };
}

function verified(key: forge.pki.rsa.PublicKey, md: forge.md.MessageDigest, signature: string): boolean {
  try {
    return key.verify(md.digest().getBytes(), signature);
  } catch {
    return false;
  }
}
