import { describe, expect, test } from 'vitest';
import { parseCommandLine } from '../../src/cli/arguments.ts';
import { commands } from '../../src/cli/commands.ts';
import { makeReply } from '../../src/reply/index.ts';
import { letterTo, openBench } from './answers.ts';
import { openRecordBench } from './record-bench.ts';

/** As in the attack of that name: the sum reads 6000 and is 0006, or an admirer's name stands where another was typed. */
const turned = 'at most \u202e0006\u202c EUR';

describe('what the maker types or pastes', () => {
  const given = (name: string, ...args: readonly string[]) => {
    const command = commands.find((one) => one.name === name);
    if (command === undefined) throw new Error(`there is no command ${name}`);
    return parseCommandLine(command, args);
  };

  test.each([
    ['sample', ['tarrow', 'S-04\u202e1', '--who', 'maren', '--yes']],
    ['sample', ['tarrow', 'S-041', '--who', 'Ma\u200bren', '--yes']],
    ['record', ['tarrow', 'yes', '--insist', turned]],
    ['cancel', ['tarrow', '--reason', turned]],
  ])('%s refuses a sign that nobody can see', (name, args) => {
    expect(() => given(name, ...args)).toThrow(/holds a sign that nobody can see: U\+20(?:2E|0B)$/);
  });

  test('names of files are taken as the disk has them, and a Persian name with its joiner as it is written', () => {
    expect(given('record', 'tarrow', '--file', 'a\u200eb.eml').values['file']).toBe('a\u200eb.eml');
    expect(given('note', 'tarrow', 'x', '--who', 'نازی\u200cها').values['who']).toBe('نازی\u200cها');
  });

  test('note keeps words without them, and says so', async () => {
    const bench = openRecordBench();
    await bench.issue('r1');
    const { code, out, err } = await bench.run(['note', 'tarrow', turned, '--who', 'maren']);
    expect([code, err]).toEqual([0, expect.stringContaining('warning[reply/turned-words]: the words held signs')]);
    expect([out, err]).toEqual([expect.any(String), expect.stringContaining('U+202E, U+202C')]);
    expect((await bench.run('note tarrow')).out).toContain('at most 0006 EUR');
  });
});

describe('what comes in', () => {
  test('a letter whose remark turns the direction: its code holds, and it is kept without the signs, with a warning', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const letter = letterTo(r1, 'maren', { remark: turned, name: 'Ma\u202eren' });
    const text = makeReply(letter, { says: 'My answer.', nameLabel: 'Name', remarkLabel: 'I would add' });
    const { code, err } = await bench.record(text);
    expect([code, [...err.matchAll(/\[(reply\/[a-z-]+)\]/g)].map(([, one]) => one)]).toEqual([0, ['reply/turned-words']]);
    const sealed = bench.sealed(bench.entries().at(-1));
    expect(sealed).toMatchObject({ data: { name: 'Maren', remark: 'at most 0006 EUR' } });
    expect(JSON.stringify(sealed)).not.toMatch(/[\u202a-\u202e]/);
  });

  test('plain words likewise; a word joiner that the page set, and spaces of no width, go without a word', async () => {
    const bench = openBench();
    await bench.issue('r1');
    const { err } = await bench.record(`Yes, ${turned}`, '--who', 'maren');
    expect(err).toContain('warning[reply/turned-words]');
    expect(bench.sealed(bench.entries().at(-1))).toMatchObject({ data: { words: 'Yes, at most 0006 EUR' } });
    const quiet = await bench.record('Yes\u2060, the\u200b thick one', '--who', 'maren');
    expect([quiet.err, bench.sealed(bench.entries().at(-1))]).toEqual([
      '',
      expect.objectContaining({ data: expect.objectContaining({ words: 'Yes, the thick one' }) }),
    ]);
  });

  test('a Persian name and a family of pictures come through a letter whole', async () => {
    const bench = openBench();
    const r1 = await bench.issue('r1');
    const letter = letterTo(r1, 'maren', { name: 'می\u200cنا', remark: 'خوب 👩\u200d👩\u200d👧' });
    const { code, err } = await bench.record(makeReply(letter, { says: 'x', nameLabel: 'Name', remarkLabel: 'And' }));
    expect([code, err]).toEqual([0, '']);
    expect(bench.sealed(bench.entries().at(-1))).toMatchObject({ data: { name: letter.name, remark: letter.remark } });
  });
});
