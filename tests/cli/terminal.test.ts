import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { steadied } from '../../src/cli/terminal.ts';
import { workspaceOf } from './issue-workspace.ts';

const launcher = fileURLToPath(new URL('../../src/cli/leafwright.mjs', import.meta.url));

/**
 * Signs by which a text steers a terminal. @source ECMA-48 (1991), 5.4 (control sequences) and 8.3; the Unicode Standard, 23.2
 * (layout controls) and UAX 9 (bidirectional formatting)
 */
const hostile = {
  clear: '\u001b[2J\u001b[H',
  title: '\u001b]0;bash\u0007',
  clipboard: '\u001b]52;c;cm0gLXJm\u001b\\',
  eightBit: '\u009b31m',
  overwrite: 'no\r\u001b[Kyes',
  back: 'no\b\byes',
  turned: 'Mar\u202en e\u2066n\u2069',
  unseen: 'Ma\u200bren\ufeff\u00ad\u{e0041}',
  lines: 'one\u2028two\u2029three',
} as const;
const steering = /[\p{Cc}\p{Cf}\u2028\u2029]/u;
const unsteady = (text: string): boolean => steering.test(text.replaceAll('\n', ''));

describe('what a terminal is given', () => {
  test.each(Object.entries(hostile))('%s can not steer it', (_name, text) => {
    expect(unsteady(text)).toBe(true);
    for (const marks of ['none', 'accent', 'all'] as const) expect(unsteady(steadied(`words: ${text}`, marks))).toBe(false);
  });

  test('shows that something stood there, and leaves all else as it is', () => {
    expect(steadied('Maren\u001b[2J said:\tyes')).toBe('Maren·[2J said: yes');
    const plain = 'Señor Ægir – 1 234,50 € ½ «ja»\n漢字, नमस्ते\n';
    expect(steadied(plain)).toBe(plain);
    expect(steadied('one\r\ntwo')).toBe('one\ntwo');
  });

  test('keeps the colours that the program sets, where there are any; conceals nothing', () => {
    const painted = '\u001b[36mr1\u001b[39m \u001b[8mhidden\u001b[0m';
    expect(steadied(painted, 'accent')).toBe('\u001b[36mr1\u001b[39m ·[8mhidden·[0m');
    expect(steadied('\u001b[1;31merror\u001b[0m', 'all')).toBe('\u001b[1;31merror\u001b[0m');
    expect(steadied('\u001b[1;31merror\u001b[0m')).toBe('·[1;31merror·[0m');
  });

  test('JSON says the same as before', () => {
    const value = { words: Object.values(hostile), plain: 'Ægir' };
    const text = steadied(JSON.stringify(value, undefined, 2));
    expect(unsteady(text)).toBe(false);
    expect(JSON.parse(text)).toEqual(value);
  });

  test('words that somebody sent, in a process of its own', () => {
    const { folder, at } = workspaceOf('table', 'tollefsen-quill/r1');
    const run = (...args: string[]) => spawnSync(process.execPath, [launcher, ...args], { cwd: folder, encoding: 'utf8' });
    writeFileSync(at('mail.txt'), `${Object.values(hostile).join(' ')}\n\nwider, please\n`);
    const kept = run('note', 'table', '--file', 'mail.txt', '--who', 'maren', '--as-of', '2027-02-01');
    const listed = run('note', 'table', '--as-of', '2027-02-01');
    const json = run('note', 'table', '--as-of', '2027-02-01', '--json');
    const wrong = run('note', `table${hostile.clear}`, 'words');
    expect([kept.status, listed.status, json.status, wrong.status]).toEqual([0, 0, 0, 2]);
    // Signs that turn the direction of writing are left out when words come in; a terminal shows what is left of the others.
    expect(listed.stdout).toContain('Marn en');
    for (const { stdout, stderr } of [kept, listed, json, wrong]) expect(unsteady(stdout + stderr)).toBe(false);
    expect(JSON.parse(json.stdout).notes[0].words).not.toMatch(/[\u202a-\u202e\u2066-\u2069]/);
  });
});
