/**
 * What a camera wrote into a photograph never goes out: neither in the client's papers, nor in the care of the table, nor on a page.
 * The samples are made by a general image library, or laid out by hand after the standards that are named. All data is invented.
 */
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fitToLeave } from '../../src/cli/handing/fit-to-leave.ts';
import { readEntries } from '../../src/record/index.ts';
import { filledIn } from './hand-over-bench.ts';
import { runIn } from './run.ts';

const slug = 'tollefsen-quill';
const root = fileURLToPath(new URL('../../', import.meta.url));
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-stay-'));
const folder = join(workspace, 'proposals', slug);
const run = (day: string, ...args: readonly string[]) => runIn(workspace, [...args, '--as-of', day]);

/** What the cameras of this test write: searched for in every byte that goes out. */
const TELLS = 'Tarn Optical No 7';
const exif = { IFD0: { Make: TELLS, ImageDescription: TELLS }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '53/1 20/1 30/1' } };
const picture = () => sharp({ create: { width: 24, height: 16, channels: 3, background: '#a87' } });

/** @source ISO/IEC 14496-12 (2015), 4.2 and 4.3: size, kind and brand of a file's first box; then whatever a telephone writes */
const heic = Buffer.concat([
  Buffer.from([0, 0, 0, 24]),
  Buffer.from('ftypheic\0\0\0\0mif1heic', 'latin1'),
  Buffer.from(`Exif\0\0${TELLS}`, 'latin1'),
]);

/** @source TIFF, revision 6.0 (1992), section 2: head, a directory of one field (271, Make, ASCII), then its words */
const tiff = Buffer.concat([
  Buffer.from('II*\0\x08\0\0\0', 'latin1'),
  Buffer.from([1, 0, 0x0f, 1, 2, 0, TELLS.length + 1, 0, 0, 0, 26, 0, 0, 0, 0, 0, 0, 0]),
  Buffer.from(`${TELLS}\0`, 'latin1'),
]);

const samples = { jpg: Buffer.alloc(0), tif: tiff };
const published = (): readonly (readonly [path: string, bytes: Buffer])[] => {
  const at = join(workspace, 'dist', 'client');
  return readdirSync(at, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => [entry.name, readFileSync(join(entry.parentPath, entry.name))] as const);
};

beforeAll(async () => {
  samples.jpg = await picture().withExif(exif).jpeg().toBuffer();
  cpSync(join(root, 'proposals', slug), folder, { recursive: true });
  await run('2027-07-02', 'hand-over', slug, '--on', '2027-07-01');
  const sheet = join(folder, 'hand-over.yaml');
  let text = readFileSync(sheet, 'utf8');
  for (const [from, to] of [
    ...filledIn,
    ['top.width: { built: 82 cm }', 'top.width: { built: 801 }'],
    ['# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [front.tif, side.heic, back.jpg]'],
    ['signed: false', 'signed: true'],
    ['  # by: idris', '  by: maren'],
    ['  # paper: acceptance.pdf', '  paper: acceptance.heic'],
  ] as const)
    text = text.replaceAll(from, to);
  writeFileSync(sheet, text);
  writeFileSync(join(folder, 'front.tif'), samples.tif);
  writeFileSync(join(folder, 'side.heic'), heic);
  writeFileSync(join(folder, 'back.jpg'), samples.jpg);
  writeFileSync(join(folder, 'acceptance.heic'), heic);
}, 60_000);
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

describe('what may go out', () => {
  test('a JPEG goes without what its camera wrote, whatever its name; TIFF and HEIC do not go', async () => {
    for (const bytes of [samples.jpg, samples.tif, heic]) expect(bytes.includes(TELLS)).toBe(true);
    const plain = fitToLeave(samples.jpg);
    expect([plain?.ending, Buffer.from(plain?.bytes ?? []).includes(TELLS)]).toEqual(['.jpg', false]);
    expect(await sharp(plain?.bytes).raw().toBuffer()).toEqual(await sharp(samples.jpg).raw().toBuffer());
    expect([fitToLeave(samples.tif), fitToLeave(heic), fitToLeave(Buffer.from('no format'))]).toEqual([undefined, undefined, undefined]);
  });

  test('a PDF goes as it is, save where a photograph lies in it with its camera’s words', () => {
    const scan = Buffer.from('%PDF-1.7 a scan');
    expect(fitToLeave(scan)).toEqual({ ending: '.pdf', bytes: scan });
    expect(fitToLeave(Buffer.concat([scan, samples.jpg]))).toBeUndefined();
  });
});

describe('a hand-over with photographs as a telephone makes them', () => {
  test('is recorded, says which of them stay in the workshop and how to make a JPEG, and publishes none', async () => {
    const { status, stderr } = await run('2027-07-02', 'hand-over', slug);
    expect(status, stderr).toBe(0);
    expect(stderr.match(/warning\[cli\/photograph-as-it-is\]/g)).toHaveLength(2);
    expect(stderr).toContain('so it never goes out to a client');
    expect(stderr).toContain('save or export it as JPEG');
    expect(stderr).toContain("warning[cli/paper-stays]: the signed paper is kept, and is not among the client's papers");
    expect((await run('2027-07-02', 'build')).status).toBe(0);
    const files = published();
    expect(files.length).toBeGreaterThan(20);
    expect(files.flatMap(([path, bytes]) => (bytes.includes(TELLS) || bytes.includes('ftypheic') ? [path] : []))).toEqual([]);
    expect(files.filter(([path]) => /^delivery-note/.test(path))).toEqual([]);
    expect((await runIn(workspace, ['verify', slug])).status).toBe(0);
  }, 60_000);

  test('the paper as JPEG, attached later, goes out without place and device', async () => {
    const { n = 0 } = readEntries(folder).findLast(({ kind }) => kind === 'hand-over') ?? {};
    const scan = join(workspace, 'paper.jpg');
    writeFileSync(scan, samples.jpg);
    const attached = await run('2027-07-03', 'attach', slug, scan, '--to', String(n), '--what', 'paper-signature', '--who', 'maren');
    expect(attached.status, attached.stderr).toBe(0);
    const again = await run('2027-07-03', 'care', slug, '--again');
    expect([again.status, again.stderr]).toEqual([0, expect.not.stringContaining('paper-stays')]);
    expect((await run('2027-07-03', 'build')).status).toBe(0);
    const notes = published().filter(([path]) => /^delivery-note/.test(path));
    expect(notes.map(([path]) => path)).toContain('delivery-note.jpg');
    for (const [, bytes] of notes) expect([bytes.includes(TELLS), bytes.includes('Exif')]).toEqual([false, false]);
  }, 60_000);
});
