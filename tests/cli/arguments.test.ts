import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { findCommand, parseCommandLine } from '../../src/cli/arguments.ts';
import { instantOf } from '../../src/cli/clock.ts';
import { type Command, UsageFault } from '../../src/cli/command.ts';
import { commandGroups, commands } from '../../src/cli/commands.ts';
import { commandHelp, programHelp } from '../../src/cli/help.ts';
import { dayIn } from '../../src/record/index.ts';

const root = join(import.meta.dirname, '../..');

const command: Command = {
  name: 'figures',
  says: 'print what was computed',
  words: 'PROPOSAL',
  count: [1, 1],
  options: { workspace: { says: 'the folder', value: 'DIR' }, json: { says: 'data' }, revision: { says: 'which', value: 'rN' } },
  example: ['leafwright figures harbour-house', 'prints it'],
  run: async () => 0,
};

const fault = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof UsageFault) return `${error.message} | ${error.mend}`;
    throw error;
  }
  return 'no fault';
};

describe('a command line', () => {
  test('gives words, values and switches, in any order', () => {
    const given = parseCommandLine(command, ['--json', 'harbour-house', '--workspace', '/bench', '--revision=r2']);
    expect(given.words).toEqual(['harbour-house']);
    expect(given.values).toEqual({ workspace: '/bench', revision: 'r2' });
    expect([...given.switches]).toEqual(['json']);
  });
  test('after -- everything is a word', () => {
    expect(parseCommandLine(command, ['--', '--json']).words).toEqual(['--json']);
  });
  test.each([
    [['a', '--jsno'], 'leafwright figures has no option --jsno; did you mean --json? | leafwright figures --help shows what it takes'],
    [['a', '--colour'], 'leafwright figures has no option --colour | leafwright figures --help shows what it takes'],
    [['a', '--constructor'], 'leafwright figures has no option --constructor | leafwright figures --help shows what it takes'],
    [['a', '-x'], 'leafwright figures has no option -x | leafwright figures --help shows what it takes'],
    [['a', '--workspace'], '--workspace needs a value: --workspace DIR | leafwright figures --help shows what it takes'],
    [['a', '--workspace='], '--workspace needs a value: --workspace DIR | leafwright figures --help shows what it takes'],
    [['a', '--workspace', '--json'], '--workspace needs a value: --workspace DIR | leafwright figures --help shows what it takes'],
    [['a', '--json=yes'], '--json takes no value | leafwright figures --help shows what it takes'],
    [['a', '--revision', 'r1', '--revision', 'r2'], '--revision is given twice | leafwright figures --help shows what it takes'],
    [['a', 'b'], 'leafwright figures can not use "b" | leafwright figures --help shows what it takes'],
    [[], 'leafwright figures needs PROPOSAL | for example: leafwright figures harbour-house'],
  ])('%j is refused in one sentence', (args, expected) => {
    expect(fault(() => parseCommandLine(command, args))).toBe(expected);
  });
  test('help needs no words', () => {
    expect(parseCommandLine(command, ['-h']).switches.has('help')).toBe(true);
  });
  test('an unknown command names the nearest', () => {
    expect(findCommand('figures', [command])).toBe(command);
    expect(fault(() => findCommand('figurse', [command]))).toBe(
      'there is no command figurse; did you mean figures? | leafwright --help lists them',
    );
    expect(fault(() => findCommand('paint', [command]))).toBe('there is no command paint | leafwright --help lists them');
  });
});

describe('help', () => {
  test('of a command shows every option and an example', () => {
    const help = commandHelp(command);
    for (const text of [
      'leafwright figures PROPOSAL [options]',
      '--workspace DIR   the folder',
      '--json',
      'leafwright figures harbour-house',
    ])
      expect(help).toContain(text);
  });
  test('of the program lists its commands in groups, on one left edge', () => {
    const other: Command = { ...command, name: 'key', words: '', says: 'set up the key' };
    const help = programHelp(
      [
        { title: 'Make', commands: [command] },
        { title: 'Proof', commands: [other] },
      ],
      '1.2.3',
    );
    expect(help).toContain('\nMake\n  figures PROPOSAL   print what was computed\n\nProof\n  key                set up the key\n');
  });
  test('no line of any help is wider than 80 columns', () => {
    const helps = [programHelp(commandGroups, '1.2.3'), ...commands.map(commandHelp)];
    expect(helps.flatMap((help) => help.split('\n')).filter((line) => line.length > 80)).toEqual([]);
  });
});

describe('--as-of', () => {
  test.each([
    ['2027-02-14', '2027-02-14T12:00:00Z'],
    ['2027-02-14T09:30:00Z', '2027-02-14T09:30:00Z'],
    ['2028-02-29', '2028-02-29T12:00:00Z'],
  ])('%s is %s', (said, instant) => {
    expect(instantOf(said)).toBe(instant);
  });
  test.each([
    ['Pacific/Auckland', '2028-02-29T00:00:00Z'],
    ['Pacific/Kiritimati', '2028-02-29T00:00:00Z'],
    ['Etc/GMT+12', '2028-02-29T12:00:00Z'],
    ['Europe/Dublin', '2028-02-29T12:00:00Z'],
  ])('2028-02-29 is that day for a maker in %s', (zone, instant) => {
    const workspace = mkdtempSync(join(tmpdir(), 'zone-'));
    mkdirSync(join(workspace, 'templates'));
    const maker = readFileSync(join(root, 'templates/maker.yaml'), 'utf8').replace(/^timeZone: .*$/m, `timeZone: ${zone}`);
    writeFileSync(join(workspace, 'templates/maker.yaml'), maker);
    expect(instantOf('2028-02-29', workspace)).toBe(instant);
    expect(dayIn(instant, zone)).toBe('2028-02-29');
  });
  test.each(['2027-02-30', '14.2.2027', 'tomorrow', '2027-2-1', '', '2027-02-14T25:00:00Z'])('%j is refused', (said) => {
    expect(fault(() => instantOf(said))).toContain('is no date');
  });
  test('silent, it is the clock in whole seconds', () => {
    expect(Math.abs(Date.parse(instantOf(undefined)) - Date.now())).toBeLessThan(2000);
    expect(instantOf(undefined)).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/);
  });
});
