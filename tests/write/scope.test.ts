import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { openDocumentFonts } from '../../src/cli/draft/fonts.ts';
import { writeScope } from '../../src/write/client/scope.ts';
import { viewFixture } from './view-fixture.ts';

/** The bytes are read back by general PDF tools (poppler, qpdf), not by the library that wrote them. */
const view = { ...viewFixture(), texts: { 'scope.title': 'Scope of work', 'scope.page-of': 'page {page} of {pages}' } };
const file = join(mkdtempSync(join(tmpdir(), 'scope-')), 'scope.pdf');
const tool = (name: string, ...args: string[]): string => execFileSync(name, args, { encoding: 'utf8' });

let bytes: Uint8Array;
beforeAll(async () => {
  bytes = await writeScope(view, 'A', openDocumentFonts());
  writeFileSync(file, bytes);
});

describe('scope of work', () => {
  it('gives the same bytes each time', async () => {
    expect(Buffer.compare(await writeScope(view, 'A', openDocumentFonts()), bytes)).toBe(0);
  });

  it('is a sound, tagged file with title and language', () => {
    expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
    const info = tool('pdfinfo', file);
    expect(info).toMatch(/Tagged:\s+yes/);
    expect(info).toContain('Title:           Scope of work: A table for the garden room, Reed');
    expect(tool('qpdf', '--qdf', '--object-streams=disable', file, '-')).toContain('/Lang (en-GB)');
    const structure = tool('pdfinfo', '-struct-text', file);
    for (const tag of ['H1', 'H2', 'Table', 'TR', 'TH', 'TD', 'Figure', 'LBody']) expect(structure).toContain(tag);
  });

  it('holds real text: parties, wood, price, instalments and terms', () => {
    const text = tool('pdftotext', '-layout', file, '-');
    for (const words of [
      'Maud and Piet Lamm',
      'Ana Orlow',
      '2,100 × 820 × 745 mm',
      'European oak',
      '€5,880.00',
      '€2,352.00',
      'Taking the old table away',
      '± 3 mm',
    ]) {
      expect(text).toContain(words);
    }
  });

  it('prints fingerprint and page x of y on every page', () => {
    const pages = tool('pdftotext', '-layout', file, '-')
      .split('\f')
      .filter((p) => p.trim() !== '');
    expect(pages.length).toBeGreaterThan(3);
    for (const [i, page] of pages.entries()) {
      expect(page).toContain('0a1b2 c3d4e 5f607 18293');
      expect(page).toContain(`page ${i + 1} of ${pages.length}`);
    }
  });

  it('has a signature block for each who decides and for the maker, on one page', () => {
    const last =
      tool('pdftotext', '-layout', file, '-')
        .split('\f')
        .filter((p) => p.trim() !== '')
        .at(-1) ?? '';
    for (const name of ['Maud Lamm', 'Piet Lamm', 'Ana Orlow']) expect(last).toContain(name);
  });

  it('embeds every font', () => {
    const fonts = tool('pdffonts', file)
      .split('\n')
      .slice(2)
      .filter((l) => l !== '');
    expect(fonts.length).toBeGreaterThan(2);
    for (const font of fonts) expect(font).toMatch(/yes yes yes/);
  });

  it('shows no money to an audience that sees no price', async () => {
    const { price: _, ...design } =
      view.designs[0] ??
      (() => {
        throw new Error('fixture has no design');
      })();
    writeFileSync(
      file.replace('.pdf', '-2.pdf'),
      await writeScope({ ...view, audience: 'no-price', designs: [design] }, 'A', openDocumentFonts()),
    );
    expect(tool('pdftotext', file.replace('.pdf', '-2.pdf'), '-')).not.toContain('€');
  });
});
