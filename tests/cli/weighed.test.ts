/**
 * What a table weighs on a scale, and how wide it was built, is what its care, its papers and its label go by. The commission is a demo's
 * in a copy; weights and sizes are invented, and sums are worked out beside them.
 */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CareTable, careInputOf, type HandedOver } from '../../src/care/index.ts';
import { isOtherMass } from '../../src/cli/handing/as-built.ts';
import { computeProposal } from '../../src/compute.ts';
import { readProposal } from '../../src/read/index.ts';
import { readEntries } from '../../src/record/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { book } from '../care/read-rules.ts';
import { filledIn } from './hand-over-bench.ts';
import { runIn } from './run.ts';

const slug = 'tollefsen-quill';
const root = fileURLToPath(new URL('../../', import.meta.url));
const workspace = mkdtempSync(join(tmpdir(), 'leafwright-weighed-'));
const folder = join(workspace, 'proposals', slug);
const sheet = join(folder, 'hand-over.yaml');
const run = (day: string, ...args: readonly string[]) => runIn(workspace, [...args, '--as-of', day]);
const pdf = (...path: readonly string[]): string =>
  execFileSync('pdftotext', ['-layout', join(folder, 'handed-over', '1', ...path), '-'], { encoding: 'utf8' }).replaceAll(
    /[\u00a0\u202f]/g,
    ' ',
  );

beforeAll(async () => {
  cpSync(join(root, 'proposals', slug), folder, { recursive: true });
  cpSync(join(root, 'templates', 'maker.yaml'), join(workspace, 'templates', 'maker.yaml'), { recursive: true });
  const maker = join(workspace, 'templates', 'maker.yaml');
  const says = readFileSync(maker, 'utf8').replace(/^site:.*\n/m, '');
  writeFileSync(maker, says.replace('\ntimeZone:', '\nsite: https://tables.example.invalid/p\ntimeZone:'));
  await run('2027-07-02', 'hand-over', slug, '--on', '2027-07-01');
  let text = readFileSync(sheet, 'utf8');
  for (const [from, to] of filledIn) text = text.replaceAll(from, to);
  text = text.replace('top.width: { built: 82 cm }', 'top.width: { built: 801 }').replace('# mass: 41.5 kg', 'mass: 52 kg');
  writeFileSync(sheet, text);
}, 60_000);
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

describe('the mass on a scale', () => {
  test('is recorded, and told where it is further from the reckoned one than a wood spreads', async () => {
    // Pounds written for kilograms, 2.2 times as much, and a point in the wrong place: a slip, which hands would go by.
    const said = readFileSync(sheet, 'utf8');
    for (const slip of ['86 kg', '390 kg', '3.9 kg']) {
      writeFileSync(sheet, said.replace('mass: 52 kg', `mass: ${slip}`));
      const slipped = await run('2027-07-02', 'hand-over', slug);
      expect([slip, slipped.status, slipped.stderr]).toEqual([slip, 1, expect.stringContaining('error[cli/hand-over-no-mass]')]);
      expect(slipped.stderr).toMatch(/hand-over\.yaml:\d+:\d+ {2}mass/);
    }
    writeFileSync(sheet, said);
    expect(readEntries(folder).some(({ kind }) => kind === 'hand-over')).toBe(false);

    const note = await run('2027-07-02', 'delivery-note', slug);
    expect(note.status, note.stderr).toBe(0);
    expect(note.stdout).toMatch(/carried by {4}3 at least, by weight alone \(52\skg\)/);
    const { status, stdout, stderr } = await run('2027-07-02', 'hand-over', slug);
    expect(status, stderr).toBe(0);
    expect(stderr).toContain(
      'warning[cli/hand-over-other-mass]: the table is heavier than it was reckoned, by more than its wood explains',
    );
    expect(stderr).toMatch(/hand-over\.yaml:\d+:\d+ {2}mass/);
    expect(stdout).toMatch(/weighed {7}52\skg/);
    expect(readEntries(folder).findLast(({ kind }) => kind === 'hand-over')).toMatchObject({ massKg: 52 });
    // Recorded once: the same sheet again is no second hand-over.
    expect((await run('2027-07-02', 'hand-over', slug)).stdout).toContain('on record already');
  }, 60_000);

  test('is what care, papers and label say, with the hands for it', () => {
    const view = JSON.parse(readFileSync(join(folder, 'handed-over', '1', 'data', 'care.json'), 'utf8')) as { readonly mass: string };
    expect(view.mass.replaceAll(/\s/g, ' ')).toBe('52 kg');
    // 52 / 23 = 2.3: three people. @source the NIOSH load constant, 23 kg
    expect(pdf('care', 'care.pdf').replaceAll(/\s+/g, ' ')).toMatch(/about 52 kg[^.]*\. By weight alone that is three people/);
    expect(pdf('papers', 'drawings-as-built.pdf')).toContain('On the scale the whole table came to 52 kg.');
    for (const size of ['90x60', '74x52']) expect(pdf('label', `label-${size}.pdf`)).toContain('Weighs 52 kg');
  });

  test('a tenth either way is the spread of a wood', () => {
    // @source Wood Handbook (2010), Table 5-6: specific gravity, 10 %
    expect([isOtherMass(43.9, 40), isOtherMass(36.1, 40), isOtherMass(44.1, 40), isOtherMass(35.9, 40)]).toEqual([
      false,
      false,
      true,
      true,
    ]);
  });
});

describe('care by what was built', () => {
  const { input } = readProposal(root, slug);
  const { computed } = input === undefined ? {} : computeProposal(input, { measure: openFonts().measure });
  const variant = computed?.variants[0];
  if (input === undefined || variant === undefined) throw new Error(`${slug} can not be computed`);
  const { spec, table, assessment, takeOff } = variant.standard;
  const of: CareTable = { spec, table, assessment, takeOff, steadiness: [] };
  const day = { year: 2027, month: 6, day: 10 };
  const handed: HandedOver = { finish: { id: spec.table.finish }, finishedOn: day, deliveredOn: day };
  const careOf = (more: Partial<HandedOver>) =>
    careInputOf(of, { ...handed, ...more }, input.proposal, { book, texts: input.library.texts, finishes: input.library.finishes });

  test('its top moves in proportion to the width as it was built, and nothing else does', () => {
    const [reckoned, built] = [careOf({}), careOf({ topAcrossMm: 1000 })];
    const top = (one: typeof reckoned) => one.movement.find(({ isTop }) => isTop);
    expect(top(reckoned)?.acrossMm).toBe(800);
    // @source Wood Handbook (2010), Eq. 13-2 and 13-3: the change is in proportion to the size. 1000 / 800
    expect((top(built)?.highMm ?? 0) / (top(reckoned)?.highMm ?? 0)).toBeCloseTo(1.25, 9);
    expect((top(built)?.lowMm ?? 0) / (top(reckoned)?.lowMm ?? 0)).toBeCloseTo(1.25, 9);
    expect(built.movement.filter(({ isTop }) => !isTop)).toEqual(reckoned.movement.filter(({ isTop }) => !isTop));
  });

  test('its pieces weigh together what the scale said', () => {
    const { carrying } = careOf({ massKg: 52 });
    expect([carrying.massKg, carrying.isWeighed]).toEqual([52, true]);
    expect(carrying.pieces.reduce((sum, { massKg }) => sum + massKg, 0)).toBeCloseTo(52, 6);
    expect(careOf({}).carrying.massKg).toBe(assessment.massKg);
  });
});
