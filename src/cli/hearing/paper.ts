import { readFileSync, statSync } from 'node:fs';
import { type IssuedOffer, sha256Hex } from '../../record/index.ts';
import { type Letter, optionBits } from '../../reply/index.ts';
import { minorDigits } from '../../units/index.ts';
import { type Given, UsageFault } from '../command.ts';

/** A scan of a signed paper, ready to be laid beside the record. */
export interface Scan {
  readonly path: string;
  readonly bytes: Uint8Array;
  readonly sha256: string;
}

/** First bytes of what is taken. @source ISO 32000-1, 7.5.2 (PDF); ISO/IEC 10918-1, B.1.1.3 (JPEG); ISO/IEC 15948, 5.2 (PNG) */
const kinds: readonly (readonly [string, readonly number[]])[] = [
  ['pdf', [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ['jpg', [0xff, 0xd8, 0xff]],
  ['png', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
];
const MOST_BYTES = 50_000_000;

/** Reads a scan; nothing where it is neither PDF nor picture. Throws a UsageFault where there is no such file. */
export function readScan(file: string): Scan | undefined {
  const stat = statSync(file, { throwIfNoEntry: false });
  if (stat?.isFile() !== true) throw new UsageFault(`there is no file ${file}`);
  if (stat.size > MOST_BYTES) throw new UsageFault(`${file} is larger than 50 MB`, 'scan it at 200 dots to the inch');
  const bytes = readFileSync(file);
  const kind = kinds.find(([, start]) => start.every((byte, i) => bytes[i] === byte))?.[0];
  if (kind === undefined) return undefined;
  const sha256 = sha256Hex(bytes);
  return { path: `records/files/${sha256.slice(0, 16)}.${kind}`, bytes, sha256 };
}

/** Fewest signs of a printed fingerprint that tell a revision: half of the twenty that are printed. */
const LEAST_DIGITS = 10;

const needed = ['design', 'who', 'revision', 'fingerprint'] as const;

/** An amount as it stands on paper, in minor units: `6,348.00`, `6 348.00`, `6348`. */
function minorOf(said: string, digits: number): number | undefined {
  const plain = said.replaceAll(/[^0-9.,]/g, '');
  const parts = /^([0-9.,]*?)(?:[.,]([0-9]{1,2}))?$/.exec(plain);
  const [, whole = '', part = ''] = parts ?? [];
  const figures = whole.replaceAll(/[.,]/g, '');
  return figures === '' ? undefined : Number(figures) * 10 ** digits + Number(part.padEnd(digits, '0').slice(0, digits));
}

/**
 * The yes on a signed scope as a letter: what the maker reads from the paper, held like any other answer; nothing where the
 * fingerprint on it is not that of the revision. Throws a UsageFault for what is missing or can not be so.
 */
export function letterOnPaper(
  { values }: Given,
  offers: readonly IssuedOffer[],
  person: string,
  name: string,
  on: string,
): Letter | undefined {
  const missing = needed.filter((option) => values[option] === undefined);
  if (missing.length > 0)
    throw new UsageFault(
      `--paper needs ${missing.map((option) => `--${option}`).join(', ')} as well`,
      '--paper scan.pdf --who maren --design A --options ceramic --revision r3 --fingerprint "xxxxx xxxxx"',
    );
  const fingerprint = (values['fingerprint'] ?? '').toLowerCase().replaceAll(/[^0-9a-f]/g, '');
  if (fingerprint.length < LEAST_DIGITS)
    throw new UsageFault('--fingerprint takes the first ten signs at least, as they are printed', '--fingerprint "xxxxx xxxxx"');
  const revision = (values['revision'] ?? '').toLowerCase();
  const offer = offers.find((one) => one.revision === revision);
  if (offer?.fingerprint.startsWith(fingerprint.slice(0, 20)) !== true) return undefined;
  const design = offer.designs.find(({ id }) => id === (values['design'] ?? '').toUpperCase());
  const options = (values['options'] ?? '')
    .toLowerCase()
    .split(/[\s,+]+/)
    .filter((id) => id !== '' && id !== 'none')
    .sort();
  const unknown = options.find((id) => design !== undefined && !design.options.includes(id));
  if (unknown !== undefined)
    throw new UsageFault(
      `design ${design?.id} of ${revision} has no option ${unknown}`,
      `there are ${design?.options.join(', ') || 'none'}`,
    );
  const audience = offer.people.find(({ id }) => id === person)?.audience ?? 'payer';
  const offered = design?.combinations.find((one) => one.options.join() === options.join());
  const said = values['total'];
  const read = said === undefined ? offered?.totalMinor : minorOf(said, minorDigits(offer.currency));
  if (said !== undefined && read === undefined) throw new UsageFault(`--total ${said} is no amount`, 'write it as 6348.00');
  return {
    verdict: 'yes',
    fingerprint: offer.fingerprint.slice(0, 20),
    design: (values['design'] ?? '').toUpperCase(),
    options: optionBits(design?.options ?? [], options),
    ...(audience === 'payer' && read !== undefined ? { total: { minor: read, currency: offer.currency } } : {}),
    date: on,
    ...(offer.terms[audience] === undefined ? {} : { terms: offer.terms[audience].slice(0, 8) }),
    name,
    remark: '',
  };
}
