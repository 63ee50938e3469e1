import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { editYaml, type YamlEdit, YamlEditFault } from '../../src/read/index.ts';

const lines = (...all: readonly string[]): string => `${all.join('\n')}\n`;
const set = (text: string, path: string, value: string | undefined): string => editYaml(text, [{ path: path.split('.'), value }]);

describe('a YAML text edited in place', () => {
  const base = lines(
    '# head of the file',
    'title: A table   # as she calls it',
    '',
    '# the revision',
    'revision:',
    '  id: r1  # draft',
    '  date: 2026-02-20',
    '',
    'lines: {}',
    'top: { kind: rectangle, length: 2100 mm }',
  );

  test('a value on one line keeps its spacing and its comment', () => {
    expect(set(base, 'revision.id', 'r2')).toBe(base.replace('id: r1  # draft', 'id: r2  # draft'));
  });
  test('a block text takes the place of a value, and the other way round', () => {
    const long = set(base, 'revision.id', '|\n  First line.\n\n  - then this');
    expect(long).toBe(base.replace('id: r1  # draft', 'id: | # draft\n    First line.\n\n    - then this'));
    expect(set(long, 'revision.id', 'r1')).toBe(base.replace('r1  # draft', 'r1 # draft'));
  });
  test('a key that is not there is added below its group, before blank lines', () => {
    expect(set(base, 'revision.changes', '|\n  What is new.')).toBe(
      base.replace('date: 2026-02-20\n', 'date: 2026-02-20\n  changes: |\n    What is new.\n'),
    );
    expect(set(base, 'rounds.included', '2')).toBe(`${base}rounds:\n  included: 2\n`);
  });
  test('an empty group opens, a full one in braces takes one more', () => {
    expect(set(base, 'lines.round', '{ says: Another round, each: "180.00" }')).toBe(
      base.replace('lines: {}', 'lines:\n  round: { says: Another round, each: "180.00" }'),
    );
    expect(set(base, 'top.width', '800 mm')).toBe(base.replace('2100 mm }', '2100 mm, width: 800 mm }'));
    expect(set(base, 'top.edge', 'kind: round\nby: 3 mm')).toBe(base.replace('2100 mm }', '2100 mm, edge: { kind: round, by: 3 mm } }'));
  });
  test('a key is taken away with the comment above it; the head of the file stays', () => {
    expect(set(base, 'revision', undefined)).toBe(
      lines('# head of the file', 'title: A table   # as she calls it', '', '', 'lines: {}', 'top: { kind: rectangle, length: 2100 mm }'),
    );
    expect(set(base, 'title', undefined)).toBe(base.replace('title: A table   # as she calls it\n', ''));
    expect(set(base, 'top.kind', undefined)).toBe(base.replace('kind: rectangle, ', ''));
    expect(set(base, 'top.length', undefined)).toBe(base.replace(', length: 2100 mm', ''));
    expect(set('a:\n  b: 1\nc: 2\n', 'a.b', undefined)).toBe('a: {}\nc: 2\n');
    expect(set('list:\n  - a: 1\n    b: 2\n', 'list.0.a', undefined)).toBe('list:\n  - b: 2\n');
  });
  test('line ends stay as they are', () => {
    expect(set(base.replaceAll('\n', '\r\n'), 'revision.changes', '|\n  One.\n  Two.')).toBe(
      base.replace('date: 2026-02-20\n', 'date: 2026-02-20\n  changes: |\n    One.\n    Two.\n').replaceAll('\n', '\r\n'),
    );
    expect(set('a: 1', 'b', '2')).toBe('a: 1\nb: 2\n');
  });
  test('a byte order mark stays before the first line, and is no indentation', () => {
    expect(set(`\uFEFF${base}`, 'rounds.included', '2')).toBe(`\uFEFF${base}rounds:\n  included: 2\n`);
    expect(set('\uFEFFa: 1\nb: 2\n', 'a', '|\n  One.\n  Two.')).toBe('\uFEFFa: |\n  One.\n  Two.\nb: 2\n');
    expect(set('\uFEFFa: 1\nb: 2\n', 'a', undefined)).toBe('\uFEFFb: 2\n');
  });
  test('tabs that YAML allows stay; tabs as indentation are no sound YAML', () => {
    expect(set('a:\n  b:\t1\t# why\n', 'a.b', '2')).toBe('a:\n  b:\t2\t# why\n');
    expect(() => set('a:\n\tb: 1\n', 'a.b', '2')).toThrow(/^a\.b can not be edited: the text is not sound YAML at character \d+$/);
  });
  test('what can not be edited is said, and nothing is', () => {
    const faultOf = (text: string, path: string, value: string | undefined): string => {
      try {
        return set(text, path, value);
      } catch (fault) {
        expect(fault).toBeInstanceOf(YamlEditFault);
        return (fault as YamlEditFault).message;
      }
    };
    expect(faultOf(base, 'title.more', '1')).toBe('title.more can not be edited: what stands above more is no group of keys');
    expect(faultOf(base, 'rounds', undefined)).toBe('rounds can not be edited: there is no such key');
    expect(faultOf('a: &x { b: 1 }\nc: *x\n', 'a.b', '2')).toBe(
      'a.b can not be edited: it would change something else as well, such as what an alias stands for',
    );
    expect(faultOf('a: &x 1\nc: *x\n', 'a', '2')).toBe('a can not be edited: an alias would stand for nothing, or for too much');
    expect(faultOf('a: &x { b: 1 }\nc: *x\n', 'c.b', '2')).toBe('c.b can not be edited: an alias stands above it');
    expect(faultOf('a: [1\n', 'a', '2')).toMatch(/^a can not be edited: the text is not sound YAML at character \d+$/);
    expect(faultOf(base, 'title', '')).toBe('title can not be edited: the new value is empty');
    expect(faultOf('list: [1, 2]\n', 'list.2', '3')).toBe(
      'list.2 can not be edited: a place in a list can be replaced, not added or taken away',
    );
    expect(faultOf('only: 1\n', 'only', undefined)).toBe('only can not be edited: nothing would be left');
  });
});

/** Mulberry32: the same figures in every run. */
function chanceFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

type Plain = string | Plain[] | { [key: string]: Plain };
const plain = (text: string): Plain => (parse(text, { schema: 'failsafe' }) ?? {}) as Plain;
const isGroup = (value: Plain | undefined): value is { [key: string]: Plain } => typeof value === 'object' && !Array.isArray(value);

/** Paths of all keys, lists left out. */
const pathsOf = (value: Plain): readonly (readonly string[])[] =>
  isGroup(value) ? Object.entries(value).flatMap(([key, inner]) => [[key], ...pathsOf(inner).map((path) => [key, ...path])]) : [];

function editPlain(data: Plain, [key = '', ...rest]: readonly string[], value: Plain | undefined): Plain {
  const group = isGroup(data) ? { ...data } : {};
  if (rest.length > 0) group[key] = editPlain(group[key] ?? {}, rest, value);
  else if (value === undefined) delete group[key];
  else group[key] = value;
  return group;
}

const VALUES = [
  'r4',
  '2026-04-01',
  '"240.00"',
  "'it''s'",
  '28 mm',
  '{ kind: legs, size: 62 mm }',
  '[[0, 1], [2, 3]]',
  '|\n  Two lines\n  of words, with { braces }.\n',
  'kind: round\ndiameter: 1200 mm',
  '- one\n- two: 2\n  three: 3',
  'Words, and a comma',
  '>\n  folded\n  words\n',
];

/** YAML of the demos' shape at random: groups in blocks and braces, comments, blank lines, block texts, lists. */
function randomYaml(chance: () => number, indent = 0, depth = 0): string {
  const pick = <T>(all: readonly T[]): T => all[Math.floor(chance() * all.length)] as T;
  const space = ' '.repeat(indent);
  let text = '';
  for (let i = 0, count = 1 + Math.floor(chance() * 4); i < count; i++) {
    if (chance() < 0.3) text += `${space}# about ${i}: it's { odd\n`;
    if (chance() < 0.15) text += '\n';
    const comment = chance() < 0.2 ? `${pick([' ', '   '])}# why ${i}` : '';
    const key = `${pick(['id', 'top', 'says', 'lines', 'wood'])}-${i}`;
    const kind = chance();
    if (kind < 0.35 && depth < 3) text += `${space}${key}:${comment}\n${randomYaml(chance, indent + 2, depth + 1)}`;
    else if (kind < 0.45) text += `${space}${key}: |${comment}\n${space}  Some *words*\n\n${space}  # and more\n`;
    else if (kind < 0.55) text += `${space}${key}:\n${space}  - { a: 1, b: two }\n${space}  - three${comment}\n`;
    else if (kind < 0.7) text += `${space}${key}: ${pick(['{}', '[]', '{ a: 1, b: { c: "2" } }', '[1, two]'])}${comment}\n`;
    else
      text += `${space}${key}: ${pick(['plain words', '"quoted # text"', "'single'", '12 mm', `a long text\n${space}  over two lines`])}${comment}\n`;
  }
  if (chance() < 0.2) text += `${space}# the end of a group\n`;
  return text;
}

/** The lines of a text that an edit replaced: all but the common beginning and the common end. */
function replacedLines(before: string, after: string): readonly { readonly line: string; readonly key: string }[] {
  const [old, now] = [before.split('\n'), after.split('\n')];
  let key = '';
  const owned = old.map((line) => {
    key = /^([^\s#:][^:]*):/.exec(line)?.[1] ?? key;
    return { line, key };
  });
  let from = 0;
  while (from < old.length && old[from] === now[from]) from += 1;
  let to = 0;
  while (to < old.length - from && to < now.length - from && old.at(-1 - to) === now.at(-1 - to)) to += 1;
  return owned.slice(from, old.length - to);
}

/** Only lines of the key at the head of the path, and comments at its side, may have been touched. */
const touchesOnly = (before: string, after: string, top: string): boolean =>
  replacedLines(before, after).every(({ line, key }) => key === top || /^#/.test(line));

function tryEdits(text: string, chance: () => number, count: number): number {
  let now = text;
  let done = 0;
  for (let i = 0; i < count; i++) {
    const paths = pathsOf(plain(now));
    const path = paths[Math.floor(chance() * paths.length)];
    if (path === undefined) return done;
    const kind = chance();
    const at = kind < 0.7 ? path : [...path.slice(0, -1), `new-${i}`, ...(chance() < 0.4 ? ['deeper'] : [])];
    const value = kind < 0.25 ? undefined : (VALUES[Math.floor(chance() * VALUES.length)] ?? '1');
    const edit: YamlEdit = { path: at, value };
    if (value === undefined && Object.keys(plain(now)).length === 1 && at.length === 1) continue;
    const edited = editYaml(now, [edit]);
    expect(JSON.stringify(plain(edited)), JSON.stringify(edit)).toBe(
      JSON.stringify(editPlain(plain(now), at, value === undefined ? undefined : plain(value))),
    );
    expect(touchesOnly(now, edited, at[0] ?? ''), JSON.stringify(edit)).toBe(true);
    now = edited;
    done += 1;
  }
  return done;
}

describe('edits at random', () => {
  test('250 random texts say what the same edit on plain data says, and other keys keep their bytes', () => {
    let done = 0;
    for (let seed = 1; seed <= 250; seed++) {
      const chance = chanceFrom(seed);
      const text = randomYaml(chance);
      done += tryEdits(seed % 5 === 0 ? text.replaceAll('\n', '\r\n') : text, chance, 4);
    }
    expect(done).toBeGreaterThan(650);
  });
  test.each(['tollefsen-quill', 'farrant', 'lindqvaar-wren'])('the files of %s', (slug) => {
    for (const name of ['proposal.yaml', 'table.yaml', 'variants/a.yaml', 'variants/b.yaml']) {
      const text = readFileSync(new URL(`../../proposals/${slug}/${name}`, import.meta.url), 'utf8');
      for (let seed = 1; seed <= 6; seed++) tryEdits(text, chanceFrom(seed), 3);
    }
  });
});
