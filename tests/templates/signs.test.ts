import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { openDocumentFonts } from '../../src/cli/draft/fonts.ts';

interface Font {
  readonly hasGlyphForCodePoint: (sign: number) => boolean;
}

/** Set from a text in single or double quotes or a template; `\u2002` is the sign it stands for. */
const sourceSigns = (source: string): string =>
  [...source.matchAll(/'([^'\n]*)'|`([^`]*)`/g)]
    .map(([, plain, template]) => plain ?? template ?? '')
    .join('')
    .replaceAll(/\\u([0-9a-f]{4})/gi, (_all, hex: string) => String.fromCodePoint(Number.parseInt(hex, 16)));

const below = (folder: string, end: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(end))
    .map((name) => join(folder, name));

/** A sign without a glyph is printed as a box: a document shows no such thing. */
test('the faces of documents have every sign that texts and documents are written with', () => {
  const texts = below('templates/texts', '.yaml').map((file) =>
    Object.values(parse(readFileSync(file, 'utf8')) as Record<string, unknown>)
      .filter((value) => typeof value === 'string')
      .join(''),
  );
  const sources = below('src/write/client', '.ts').map((file) => sourceSigns(readFileSync(file, 'utf8')));
  const signs = [...new Set([...texts, ...sources].join(''))].filter((sign) => (sign.codePointAt(0) ?? 0) > 0x1f).sort();
  expect(signs.length).toBeGreaterThan(80);
  const faces = openDocumentFonts();
  const missing = (['sans', 'serif'] as const).flatMap((face) =>
    signs
      .filter((sign) => !(faces[face] as unknown as Font).hasGlyphForCodePoint(sign.codePointAt(0) ?? 0))
      .map((sign) => `${face} U+${(sign.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`),
  );
  expect(missing).toEqual([]);
});
