import { plainPhotograph } from './photograph-bytes.ts';

/** How a photograph becomes one that can leave the workshop. */
export const AS_JPEG = 'open it with whatever shows your pictures, save or export it as JPEG, and name that file instead';

/** A file that may go out, with the ending of its kind: `.pdf`, `.jpg`. */
export interface Leaving {
  readonly ending: string;
  readonly bytes: Uint8Array;
}

const isPdf = (bytes: Uint8Array): boolean => Buffer.from(bytes.subarray(0, 5)).toString('latin1') === '%PDF-';

/**
 * A file of the record as it may go out to a client: a PDF as it is, save where a photograph lies in it with what its camera wrote; a
 * picture without place and device. Nothing for every other format, HEIC and TIFF among them: what a camera wrote into them can not be
 * left out here, and browsers show neither reliably.
 *
 * @source the mark of a camera's own words in a JPEG, which a PDF holds as it is: CIPA DC-008 (Exif 2.32), 4.7.2; ISO 32000-1, 7.4.8
 */
export function fitToLeave(bytes: Uint8Array): Leaving | undefined {
  if (isPdf(bytes)) return Buffer.from(bytes).includes('Exif\0\0', 0, 'latin1') ? undefined : { ending: '.pdf', bytes };
  const plain = plainPhotograph(bytes);
  return plain === undefined ? undefined : { ending: `.${plain.format}`, bytes: plain.bytes };
}
