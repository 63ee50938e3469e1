/**
 * What a camera writes into a photograph beside the picture (place, day, device, a small copy, words) is left out; the picture
 * itself stays to the byte, with its colour profile, and which way up it is shown.
 */

/** A photograph without what its camera wrote into it. */
export interface PlainPhotograph {
  /** By its first bytes, whatever its name says. */
  readonly format: 'jpg' | 'png' | 'webp';
  readonly bytes: Uint8Array;
  /** Bytes that were left out. */
  readonly leftOut: number;
}

const ascii = (bytes: Uint8Array, at: number, length: number): string => String.fromCharCode(...bytes.subarray(at, at + length));
const joined = (parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(Buffer.concat(parts));
const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/**
 * The photograph without what its camera wrote into it; nothing for a format that is not known here, or a file that is not sound.
 *
 * @source markers: ITU-T T.81 (1992), annex B.1; orientation: CIPA DC-008 (Exif 2.32), tag 0x0112; chunks: W3C PNG (third
 * edition), 5.3 and 11.3; RFC 9649 (WebP), 2
 */
export function plainPhotograph(bytes: Uint8Array): PlainPhotograph | undefined {
  const format = isJpeg(bytes) ? 'jpg' : isPng(bytes) ? 'png' : isWebp(bytes) ? 'webp' : undefined;
  if (format === undefined) return undefined;
  const plain = { jpg: plainJpeg, png: plainPng, webp: plainWebp }[format](bytes);
  return plain === undefined ? undefined : { format, bytes: plain, leftOut: bytes.length - plain.length };
}

const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;
const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
const isPng = (bytes: Uint8Array): boolean => PNG.every((byte, i) => bytes[i] === byte);
const isWebp = (bytes: Uint8Array): boolean => ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 4) === 'WEBP';

/**
 * True for the first bytes of a picture: JPEG, PNG, WebP, TIFF (as most cameras' own formats begin), HEIC or AVIF.
 *
 * @source TIFF 6.0 (1992), section 2; ISO/IEC 14496-12, 4.3 (file type box), and ISO/IEC 23008-12, 10.2 (brands)
 */
export function isPicture(bytes: Uint8Array): boolean {
  if (isJpeg(bytes) || isPng(bytes) || isWebp(bytes)) return true;
  const head = ascii(bytes, 0, 4);
  if (head === 'II*\0' || head === 'MM\0*') return true;
  return ascii(bytes, 4, 4) === 'ftyp' && /^(?:hei[cxms]|hev[cx]|mif1|msf1|avi[fs])$/.test(ascii(bytes, 8, 4));
}

/** Application segments that the picture itself needs: how it is scaled, its colour profile, how its colours were turned. */
function isOfPicture(marker: number, segment: Uint8Array): boolean {
  const named = (name: string): boolean => ascii(segment, 0, name.length) === name;
  if (marker === 0xe0) return named('JFIF\0');
  if (marker === 0xe2) return named('ICC_PROFILE\0');
  if (marker === 0xee) return named('Adobe');
  // Other application segments, and comments.
  return !(marker >= 0xe0 && marker <= 0xef) && marker !== 0xfe;
}

/** Which way up a picture is shown, 1 to 8, as an Exif segment says. */
function orientationIn(segment: Uint8Array): number | undefined {
  if (ascii(segment, 0, 6) !== 'Exif\0\0' || segment.length < 14) return undefined;
  const tiff = segment.subarray(6);
  const view = viewOf(tiff);
  const isLittle = ascii(tiff, 0, 2) === 'II';
  const first = view.getUint32(4, isLittle);
  if (first + 2 > tiff.length) return undefined;
  const count = view.getUint16(first, isLittle);
  for (let i = 0; i < count; i += 1) {
    const at = first + 2 + 12 * i;
    if (at + 12 > tiff.length) return undefined;
    if (view.getUint16(at, isLittle) === 0x0112) return view.getUint16(at + 8, isLittle);
  }
  return undefined;
}

/** An Exif segment that says which way up, and nothing else. */
const orientationSegment = (orientation: number): Uint8Array =>
  Uint8Array.of(
    ...[0xff, 0xe1, 0x00, 0x22],
    ...Buffer.from('Exif\0\0MM\0*', 'latin1'),
    ...[0, 0, 0, 8, 0, 1],
    ...[0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0],
    ...[0, 0, 0, 0],
  );

/** The end of the coded picture that begins at `at`: the next marker that is no restart. */
function endOfScan(bytes: Uint8Array, at: number): number {
  for (let i = at; i + 1 < bytes.length; i += 1) {
    const next = bytes[i + 1] ?? 0;
    if (bytes[i] === 0xff && next !== 0x00 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return i;
  }
  return bytes.length;
}

function plainJpeg(bytes: Uint8Array): Uint8Array | undefined {
  const kept: Uint8Array[] = [];
  let orientation: number | undefined;
  for (let at = 2; at + 1 < bytes.length; ) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    // What follows the end of the picture is left out: some cameras hide a second one, or a film, there.
    if (marker === 0xd9) return wholeJpeg(kept, orientation, bytes.subarray(at, at + 2));
    const length = at + 4 > bytes.length ? 0 : viewOf(bytes).getUint16(at + 2);
    const end = at + 2 + length;
    if (length < 2 || end > bytes.length) return undefined;
    const segment = bytes.subarray(at + 4, end);
    if (marker === 0xe1) orientation ??= orientationIn(segment);
    const until = marker === 0xda ? endOfScan(bytes, end) : end;
    if (isOfPicture(marker, segment)) kept.push(bytes.subarray(at, until));
    at = until;
  }
  return undefined;
}

function wholeJpeg(kept: readonly Uint8Array[], orientation: number | undefined, end: Uint8Array): Uint8Array {
  const isTurned = orientation !== undefined && orientation >= 2 && orientation <= 8;
  const head = kept[0]?.[1] === 0xe0 ? 1 : 0;
  return joined([
    Uint8Array.of(0xff, 0xd8),
    ...kept.slice(0, head),
    ...(isTurned ? [orientationSegment(orientation)] : []),
    ...kept.slice(head),
    end,
  ]);
}

/** Chunks that change how a picture looks; the others are words, days and places. */
const PNG_KEPT = new Set(['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'cHRM', 'gAMA', 'iCCP', 'sBIT', 'sRGB', 'cICP', 'pHYs', 'bKGD']);

function plainPng(bytes: Uint8Array): Uint8Array | undefined {
  const kept: Uint8Array[] = [PNG];
  for (let at = PNG.length; at + 12 <= bytes.length; ) {
    const end = at + 12 + viewOf(bytes).getUint32(at);
    const kind = ascii(bytes, at + 4, 4);
    if (end > bytes.length) return undefined;
    if (PNG_KEPT.has(kind)) kept.push(bytes.subarray(at, end));
    if (kind === 'IEND') return joined(kept);
    at = end;
  }
  return undefined;
}

const WEBP_KEPT = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP']);
/** Bits of a WebP's head that announce Exif and XMP. */
const WEBP_METADATA = 0x0c;

function plainWebp(bytes: Uint8Array): Uint8Array | undefined {
  const kept: Uint8Array[] = [];
  const whole = Math.min(bytes.length, 8 + viewOf(bytes).getUint32(4, true));
  for (let at = 12; at + 8 <= whole; ) {
    const size = viewOf(bytes).getUint32(at + 4, true);
    const end = at + 8 + size + (size % 2);
    if (end > whole) return undefined;
    const chunk = Uint8Array.from(bytes.subarray(at, end));
    const kind = ascii(chunk, 0, 4);
    if (kind === 'VP8X') chunk[8] = (chunk[8] ?? 0) & ~WEBP_METADATA;
    if (WEBP_KEPT.has(kind)) kept.push(chunk);
    at = end;
  }
  const body = joined(kept);
  const head = new Uint8Array(12);
  head.set(Buffer.from('RIFF', 'latin1'));
  viewOf(head).setUint32(4, body.length + 4, true);
  head.set(Buffer.from('WEBP', 'latin1'), 8);
  return kept.length === 0 ? undefined : joined([head, body]);
}
