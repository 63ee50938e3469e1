import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { letterText, letterTo, openBench } from './answers.ts';

/** What a browser sends from the page's form. @source WHATWG URL Standard, application/x-www-form-urlencoded, here by Node's URLSearchParams */
const posted = (letter: string): string =>
  new URLSearchParams({ proposal: 'tarrow', revision: 'r1', person: 'maren', name: 'Maren Tollefsen', letter }).toString();

describe('what a form posted', () => {
  test('is read as a letter just as it was sent, whoever is named', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const remark = 'Füße & Kante: 100 % = gut?\nא + b';
    const text = posted(letterText(letterTo(r1, 'maren', { remark })).replaceAll('\n', '\r\n'));
    expect(text).not.toContain(' ');
    const file = join(bench.workspace, 'body.txt');
    writeFileSync(file, `${text}\r\n`);
    const { code, out } = await bench.record('--file', file, '--who', 'maren');
    expect([code, out.split('\n').slice(0, 4)]).toEqual([
      0,
      [
        'entry 2: maren says yes to design A of r1 with ceramic, €6,348.00',
        'with the remark:',
        '  | Füße & Kante: 100 % = gut?',
        '  | א + b',
      ],
    ]);
    expect(bench.entries().at(-1)).toMatchObject({ kind: 'answer', by: 'form', person: 'maren' });
  });

  test('without a letter in it is refused, and words with an equals sign are words', async () => {
    const bench = openBench();
    await bench.issue('r1');
    await expect(bench.record('letter=&name=Maren')).rejects.toThrow('what this form posted holds no letter');
    expect((await bench.record('In your letter=offer, A is the one', '--who', 'maren')).out).toContain('are kept as they are');
  });

  test('an empty file is said to be empty', async () => {
    const bench = openBench();
    await bench.issue('r1');
    for (const [name, bytes] of [
      ['mail.eml', ''],
      ['mail.txt', '\r\n \n'],
    ] as const) {
      const file = join(bench.workspace, name);
      writeFileSync(file, bytes);
      await expect(bench.record('--file', file)).rejects.toThrow('is empty');
    }
    expect(bench.entries().length).toBe(1);
  });
});

describe('a letter under the name of another who decides', () => {
  test('is refused, however the name is typed; insisting is recorded', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    for (const name of ['Idris Quill', ' idris  QUILL ', 'Ídris-Quill']) {
      const { code, err } = await bench.record(letterText(letterTo(r1, 'maren', { name })));
      expect([code, err.split('\n')[0]]).toEqual([
        1,
        'error[reply/name-of-another]: the letter is maren’s, and the name typed under it is that of idris: Idris Quill',
      ]);
    }
    expect(bench.entries().length).toBe(1);
    const text = letterText(letterTo(r1, 'maren', { name: 'Idris Quill' }));
    expect((await bench.record(text, '--insist', 'They sat side by side and told me so')).code).toBe(0);
    expect(bench.entries().at(-1)).toMatchObject({ person: 'maren', insisted: ['reply/name-of-another'] });
  });

  test('own names, short names and names of others are taken', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    for (const name of ['Maren', 'M. Tollefsen', 'Maren Quill', 'MAREN TOLLEFSEN'])
      expect((await bench.record(letterText(letterTo(r1, 'maren', { name })))).code).toBe(0);
  });
});
