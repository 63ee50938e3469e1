import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readEntries } from '../../src/record/index.ts';
import { runIn } from './run.ts';

/** A delivery note is made of the first demo's order, before and after it is finished; read by poppler. */
const root = fileURLToPath(new URL('../../', import.meta.url));
const home = mkdtempSync(join(tmpdir(), 'leafwright-delivery-note-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const slug = 'tollefsen-quill';
const folder = join(home, 'proposals', slug);
const run = (...args: string[]) => runIn(home, args);

beforeAll(() => {
  mkdirSync(join(home, 'templates'));
  for (const name of [slug, 'farrant']) cpSync(join(root, 'proposals', name), join(home, 'proposals', name), { recursive: true });
});

function words(name: string): string {
  const text = execFileSync('pdftotext', ['-layout', join(folder, 'outbox', name), '-'], { encoding: 'utf8' });
  return text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ').replaceAll(/\s+/g, ' ');
}

describe('a delivery note', () => {
  test('before the table is finished it leaves room for what is not known, and records nothing', async () => {
    const entries = readEntries(folder).length;
    const { status, stderr } = await run('delivery-note', slug, '--on', '2026-06-18', '--as-of', '2026-06-01');
    expect([status, stderr]).toEqual([0, '']);
    expect(readEntries(folder)).toHaveLength(entries);
    const said = words('delivery-note-2026-06-18.pdf');
    expect(said).toContain('Day of delivery 18 June 2026');
    expect(said).toContain('Address 11 Cooper’s Steps, Tarrowby');
    expect(said).toMatch(/Last coat \.{20}/);
    expect(said).toContain('The days are counted from the last coat, which is not written down yet.');
    expect(said).toMatch(/to be measured and written here: \.+ %/);
    // 39.2 kg by the figures of the design; one person is counted for 23 kg (revised NIOSH lifting equation, load constant): two.
    expect(said).toMatch(/about 40 kg: 2 people at least, by weight alone/);
    expect(said).not.toContain('refresh kit');
    expect(said).not.toContain('catch fire');
  });

  test('with the last coat the first days stand by date; with a kit its caution, with a hygrometer its reading', async () => {
    await run('stage', slug, 'finished', '--as-of', '2026-06-08');
    await run('measure', slug, 'humidity', '54', '--at', 'delivery', '--as-of', '2026-06-10');
    const { status, stdout } = await run('delivery-note', slug, '--on', '2026-06-10', '--refresh-kit', '--as-of', '2026-06-10', '--json');
    expect(status).toBe(0);
    const note = JSON.parse(stdout) as { readonly days: Readonly<Record<string, string>>; readonly finishedOn: string };
    expect(note.finishedOn).toBe('2026-06-08');
    // Hardwax oil with a ceramic coat, templates/finishes.yaml: light use after 48 hours, cured after 21 days: 8 + 2 = 10, 8 + 21 = 29.
    expect(note.days).toEqual({ lightOver: '2026-06-10', lightFrom: '2026-06-11', curedOver: '2026-06-29', curedFrom: '2026-06-30' });
    const said = words('delivery-note-2026-06-10.pdf');
    expect(said).toContain('Nothing stands on it until 10 June 2026. From 11 June 2026 it bears light use');
    expect(said).toContain('Until 29 June 2026 the finish is still hardening');
    expect(said).toContain('54 %, measured on the day');
    expect(said).toMatch(/Cloths wet with oil can heat up by themselves and catch fire/);
  });

  test('days that have passed are told as passed', async () => {
    await run('delivery-note', slug, '--on', '2026-08-01', '--as-of', '2026-08-01');
    const said = words('delivery-note-2026-08-01.pdf');
    expect(said).toContain('The finish has hardened since 29 June 2026.');
    expect(said).not.toContain('Nothing stands on it until');
    // The reading of another day is not that of this one.
    expect(said).toContain('to be measured and written here');
  });

  test('shows no amount of money in any byte, and leaves room for every answer', async () => {
    const path = join(folder, 'outbox', 'delivery-note-2026-06-10.pdf');
    const bytes = execFileSync('qpdf', ['--qdf', '--object-streams=disable', path, '-'], { encoding: 'latin1' });
    const said = words('delivery-note-2026-06-10.pdf');
    expect(`${said}${bytes.slice(bytes.lastIndexOf('%%EOF'))}`).not.toMatch(/€|EUR|6,258|1,251/);
    for (const text of ['accepted as it is', 'to be put right by the days beside it', 'Not looked over', 'Left unsigned, because:'])
      expect(said).toContain(text);
    expect(said.match(/Signature/g)).toHaveLength(2);
  });

  test('is refused without an order; a page or a day that is not there is told', async () => {
    const { status, stderr } = await run('delivery-note', 'farrant');
    expect(status).toBe(1);
    expect(stderr).toContain('error[record/hand-over-no-order]: farrant is no order, so there is no table to hand over');
    expect(existsSync(join(home, 'proposals', 'farrant', 'outbox'))).toBe(false);
    const page = await run('delivery-note', slug, '--page', 'viewer');
    expect([page.status, page.stderr]).toEqual([2, expect.stringContaining('it has one page alone')]);
    const day = await run('delivery-note', slug, '--on', '2026-02-30');
    expect([day.status, day.stderr]).toEqual([2, expect.stringContaining('--on 2026-02-30 is no day')]);
  });
});
