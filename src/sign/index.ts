/**
 * Keys and PDF signatures: RSA and SHA-256, bytes in, bytes out. Where keys lie, the clock and chance are the caller's. A signature
 * of a certificate that signs itself shows that a file was not changed, and identifies nobody.
 */
export { type KeyRefusal, keyBits, makeKeyFile, type NewKey, openKeyFile, type SigningKey } from './key.ts';
export { checkSignature, type SignatureCheck, signPdf } from './pdf.ts';
