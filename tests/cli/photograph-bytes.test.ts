/**
 * Photographs lose what a camera wrote into them, and no picture element. Checked with a general image library, which writes the
 * samples, reads back what is left and compares the pictures.
 */
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { plainPhotograph } from '../../src/cli/handing/photograph-bytes.ts';

const exif = {
  IFD0: { Make: 'Tarn Optical', Model: 'No 7', Artist: 'Maren Tollefsen', ImageDescription: 'the hall' },
  IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '53/1 20/1 30/1', GPSLongitudeRef: 'W', GPSLongitude: '6/1 15/1 0/1' },
};

/** A small picture with a gradient, so that turning it is seen. */
const picture = () => {
  const [width, height] = [48, 32];
  const pixels = Buffer.from(Array.from({ length: width * height * 3 }, (_, i) => (i * 7 + Math.floor(i / 90) * 13) % 256));
  return sharp(pixels, { raw: { width, height, channels: 3 } });
};

const samples: readonly (readonly [string, () => Promise<Buffer>])[] = [
  ['JPEG', () => picture().withExif(exif).jpeg({ quality: 90 }).toBuffer()],
  ['progressive JPEG', () => picture().withExif(exif).jpeg({ progressive: true }).toBuffer()],
  [
    'JPEG on its side, with a colour profile',
    () => picture().withExif(exif).withMetadata({ orientation: 6, exif, icc: 'srgb' }).jpeg().toBuffer(),
  ],
  ['PNG', () => picture().withExif(exif).png().toBuffer()],
  ['WebP', () => picture().withExif(exif).webp({ quality: 80 }).toBuffer()],
  ['WebP without loss', () => picture().withExif(exif).webp({ lossless: true }).toBuffer()],
];

const shown = (bytes: Uint8Array) => sharp(bytes).autoOrient().raw().toBuffer();

describe('a photograph without what its camera wrote into it', () => {
  test.each(samples)('%s', async (_name, make) => {
    const before = await make();
    expect((await sharp(before).metadata()).exif).toBeDefined();
    const plain = plainPhotograph(before);
    const bytes = plain?.bytes ?? new Uint8Array();
    expect(plain?.leftOut).toBeGreaterThan(80);
    expect(Buffer.from(bytes).toString('latin1')).not.toMatch(/Tarn|Tollefsen|hall|GPS/);
    const [was, is] = [await sharp(before).metadata(), await sharp(bytes).metadata()];
    expect([is.width, is.height, is.orientation, is.icc?.length]).toEqual([
      was.width,
      was.height,
      was.orientation === 6 ? 6 : undefined,
      was.icc?.length,
    ]);
    expect(is.exif?.length ?? 0).toBeLessThan(40);
    expect(await shown(bytes)).toEqual(await shown(before));
    expect(plainPhotograph(bytes)?.leftOut).toBe(0);
  });

  test('nothing of what is hidden behind the end of a JPEG', async () => {
    const jpeg = await picture().jpeg().toBuffer();
    const plain = plainPhotograph(Buffer.concat([jpeg, Buffer.from('a film of the room')]));
    expect([plain?.leftOut, Buffer.from(plain?.bytes ?? []).equals(jpeg)]).toEqual([18, true]);
  });

  test('comments of a JPEG go, with words in them', async () => {
    const jpeg = await picture().jpeg().toBuffer();
    const comment = Buffer.concat([Buffer.from([0xff, 0xfe, 0, 9]), Buffer.from('Maren’s'.slice(0, 7), 'latin1')]);
    const plain = plainPhotograph(Buffer.concat([jpeg.subarray(0, 2), comment, jpeg.subarray(2)]));
    expect(Buffer.from(plain?.bytes ?? []).equals(jpeg)).toBe(true);
  });

  test('not of a format that is not known, nor of a file that is not sound', async () => {
    const jpeg = await picture().withExif(exif).jpeg().toBuffer();
    const png = await picture().png().toBuffer();
    for (const bytes of [
      Buffer.from('GIF89a'),
      new Uint8Array(),
      jpeg.subarray(0, jpeg.length - 2),
      jpeg.subarray(0, 40),
      png.subarray(0, 60),
    ])
      expect(plainPhotograph(bytes)).toBeUndefined();
  });

  test('whatever byte is wrong or missing, it gives a picture or nothing', async () => {
    for (const [, make] of samples) {
      const bytes = await make();
      for (let i = 0; i < Math.min(bytes.length, 400); i += 1) {
        for (const value of [0x00, 0xff, (bytes[i] ?? 0) ^ 0x10]) {
          const wrong = Buffer.from(bytes);
          wrong[i] = value;
          const plain = plainPhotograph(wrong);
          expect(plain === undefined || plain.bytes.length <= wrong.length + 40).toBe(true);
        }
        plainPhotograph(bytes.subarray(0, i));
      }
    }
  });
});
