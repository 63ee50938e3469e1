import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import PostalMime from 'postal-mime';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { issuedOffers } from '../../src/record/index.ts';
import { letterText, letterTo } from '../cli/answers.ts';
import { ownTemplate, workspaceOf } from '../cli/issue-workspace.ts';
import { isLeftOut, openBrowser } from './browser.ts';

/**
 * Words that would become something else where a writer forgets to escape them: in names, wishes, notes, remarks and evidence of a whole
 * commission, on the pages of client and workshop, in the letter's data, papers and mails. People are invented.
 */
const mark = '<img src=x onerror=window.owned=1>';
const block = '</script><script>window.owned=1</script>';
const title = `Desk “a”, 'b', "c" & ${mark} é`;
const client = `Petra ${block}`;
const design = `Frame ${mark}`;
/** Signs that end a statement of a script; and those that turn or hide what is written, which no file may hold. */
const separators = 'a\u2028b\u2029c';
const unseen = `${separators}\u202ed\u200be`;
const headers = 'Yes.\r\nBcc: everyone@example.invalid\r\n\r\n';
const remark = `${block} ${mark} ${unseen} \${1} {total} %s \\u003c`;

const workspace = workspaceOf('desk', 'lindqvaar-wren/r1');
const { at, change, run } = workspace;
const proposal = 'proposals/desk/proposal.yaml';
/** As YAML, and with no sign of a replacement read in it. */
const quoted = (text: string): string => JSON.stringify(text).replaceAll('$', '$$$$');

async function done(...args: string[]): Promise<string> {
  const { status, stdout, stderr } = await run(...args);
  expect([args[0], status, status === 0 ? '' : stdout + stderr]).toEqual([args[0], 0, '']);
  return stdout;
}
let tokens: readonly string[] = [];

describe.skipIf(isLeftOut)('words that would be code', () => {
  let browser: Browser;

  beforeAll(async () => {
    ownTemplate(workspace, 'maker.yaml', 'maker.yaml');
    change(proposal, 'title: Desk for the attic study', `title: ${quoted(title)}`);
    change(proposal, '  name: Petra Lindqvaar\n  address', `  name: ${quoted(client)}\n  address`);
    change(proposal, 'petra: { name: Petra Lindqvaar,', `petra: { name: ${quoted(client)},`);
    change(proposal, 'says: Knees free', `says: ${quoted(`Knees ${mark} ${separators}`)}`);
    change(proposal, 'says: Turned ash bush for the cable way', `says: ${quoted(`Bush ${block}`)}`);
    change(proposal, '- The screen arm, screens and cables.', `- ${quoted(`The arm ${mark} ${block}`)}`);
    change(proposal, 'Tobiah translates at this desk', `${mark} ${block} Tobiah translates at this desk`);
    change(proposal, 'when: with both your answers', `when: ${quoted(`with ${mark}`)}`);
    change(proposal, 'says: A piece of S3, oiled.', `says: A piece of S3, ${block}, oiled.`);
    change('proposals/desk/variants/a.yaml', 'name: Frame and drawer', `name: ${quoted(design)}`);
    change(
      'proposals/desk/variants/a.yaml',
      'ready: Ten weeks',
      `options:\n  pale:\n    says: ${quoted(`Pale ${block}`)}\n    price: "500.00"\n    patch: { finish: hardwax-oil-ceramic }\nready: Ten weeks`,
    );
    await done('note', 'desk', remark, '--as-of', '2026-03-01');
    await done('note', 'desk', '--settle', '1', '--as', 'answered', remark, '--as-of', '2026-03-01');
    const { pages } = JSON.parse(await done('issue', 'desk', '--as-of', '2026-03-02', '--json'));
    tokens = pages.map(({ token }: { token: string }) => token);
    await done('record', 'desk', `${headers}${remark}`, '--who', 'petra', '--as-of', '2026-03-03');
    for (const person of ['petra', 'tobiah']) {
      const offer = issuedOffers(at('proposals/desk')).at(-1);
      if (offer === undefined) throw new Error('nothing is issued');
      await done(
        'record',
        'desk',
        letterText(letterTo(offer, person, { on: [], name: person === 'petra' ? client : `Tobiah ${block}`, remark, date: '2026-03-04' })),
        '--as-of',
        '2026-03-04',
      );
    }
    await done('confirm', 'desk', '--as-of', '2026-03-05');
    await done('request', 'desk', '--instalment', '1', '--as-of', '2026-03-05');
    await done('statement', 'desk', '--as-of', '2026-03-05');
    await done('scope', 'desk', '--as-of', '2026-03-05');
    await done('build', '--as-of', '2026-03-06');
    browser = await openBrowser();
  }, 240_000);
  afterAll(() => browser?.close());

  test('are words on every page of client and workshop: nothing runs, nothing is loaded, no element is theirs', async () => {
    const below = (folder: string): readonly string[] =>
      readdirSync(at(folder), { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.html'))
        .map((name) => at(folder, name));
    const files = [...below('dist/client'), ...below('dist/workshop')];
    expect(files.length).toBeGreaterThan(4);
    const context = await browser.newContext();
    for (const file of files) {
      const page = await context.newPage();
      const asked: string[] = [];
      page.on('request', (request) => asked.push(request.url()));
      const faults: string[] = [];
      page.on('pageerror', ({ message }) => faults.push(message));
      await page.goto(pathToFileURL(file).href);
      const seen = await page.evaluate(() => ({
        owned: 'owned' in window,
        images: document.querySelectorAll('img[src="x"], [onerror]').length,
        scripts: [...document.scripts].filter(({ text }) => text.startsWith('window.owned')).length,
        text: document.body.textContent ?? '',
      }));
      expect([file, seen.owned, seen.images, seen.scripts, faults]).toEqual([file, false, 0, 0, []]);
      expect(asked.filter((url) => url.endsWith('/x'))).toEqual([]);
      if (file.includes(tokens[0] ?? '-')) {
        for (const words of [title, client, design, `Bush ${block}`]) expect(seen.text).toContain(words);
        const data = JSON.parse((await page.locator('script[type="application/json"]').textContent()) ?? '');
        expect([data.title, data.letter.designs[0].name, data.letter.people.map(({ name }: { name: string }) => name)]).toEqual([
          title,
          design,
          expect.arrayContaining([client]),
        ]);
      }
      await page.close();
    }
    await context.close();
  }, 120_000);

  test('add no field to a mail, and come back from a reader as they were', async () => {
    const outbox = readdirSync(at('proposals/desk/outbox')).filter((name) => name.endsWith('.eml'));
    expect(outbox.length).toBeGreaterThan(2);
    for (const name of outbox) {
      const bytes = readFileSync(at('proposals/desk/outbox', name));
      const mail = await PostalMime.parse(bytes);
      expect([name, mail.bcc, mail.cc, mail.to?.length]).toEqual([name, undefined, undefined, expect.any(Number)]);
      expect([name, mail.subject]).toEqual([name, expect.stringContaining(title)]);
      expect(bytes.toString('latin1').split('\r\n\r\n')[0]).not.toMatch(/^Bcc|everyone@/im);
    }
  });

  test('are words in papers, which hold no script and no action', () => {
    const papers = [
      ...readdirSync(at('proposals/desk/outbox')).map((name) => at('proposals/desk/outbox', name)),
      ...readdirSync(at('proposals/desk/records')).map((name) => at('proposals/desk/records', name)),
      ...readdirSync(at('dist/client', tokens[0] ?? '-')).map((name) => at('dist/client', tokens[0] ?? '-', name)),
    ].filter((path) => path.endsWith('.pdf'));
    expect(papers.length).toBeGreaterThan(4);
    for (const path of papers) {
      expect(execFileSync('qpdf', ['--check', path], { encoding: 'utf8' })).toContain('No syntax or stream encoding errors found');
      const unpacked = execFileSync('qpdf', ['--qdf', '--object-streams=disable', path, '-'], { encoding: 'latin1', maxBuffer: 1e8 });
      expect(unpacked).not.toMatch(/\/(?:JavaScript|JS|OpenAction|Launch|AA)\b/);
      expect(execFileSync('pdftotext', [path, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ')).toContain('onerror=window.owned=1>');
    }
  });
});
