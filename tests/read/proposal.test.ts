import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { formatProblems, hasErrors } from '../../src/problem/index.ts';
import { locate, placeProblems, readProposal, readWorkspace } from '../../src/read/index.ts';
import { breakWorkspace, copyOfGood, workspacePath } from '../bad/workspace.ts';

const good = copyOfGood();
afterAll(good.remove);

const read = (root = good.root) => readProposal(root, 'harbour', { frozen: true });

describe('a good proposal', () => {
  const { input, sources } = read();

  test('every variant with every combination, the default first', () => {
    expect(
      input?.variants.map(({ variant, combinations }) => [variant.id, variant.name, combinations.map(({ choice }) => choice.join('+'))]),
    ).toEqual([
      ['A', 'Reed', ['usual', 'thin', 'thin+varnish', 'usual+varnish']],
      ['B', 'Slab ends', ['']],
    ]);
  });

  test('merged tables: shared, patched, optioned', () => {
    const [a, b] = input?.variants ?? [];
    expect(a?.combinations[0]?.table).toMatchObject({ finish: 'oil', top: { width: { mm: 820 }, thickness: { mm: 28 } } });
    const thin = a?.combinations.find(({ choice }) => choice.join('+') === 'thin+varnish');
    expect(thin?.table).toMatchObject({ finish: 'varnish', top: { width: { mm: 820 }, thickness: { mm: 25, written: '25' } } });
    expect(b?.combinations[0]?.table).toMatchObject({ top: { width: { mm: 800 } }, base: { kind: 'slab-ends' } });
    expect(b?.combinations[0]?.table.base).not.toHaveProperty('legs');
  });

  test('every file that was read, by its path, and nothing else', () => {
    expect(input?.files.map(({ path }) => path)).toEqual([
      'proposals/harbour/proposal.yaml',
      'proposals/harbour/table.yaml',
      'proposals/harbour/variants/a.yaml',
      'proposals/harbour/variants/b.yaml',
      'templates/finishes.yaml',
      'templates/load-cases.yaml',
      'templates/maker.yaml',
      'templates/materials.yaml',
      'templates/rates/bench.yaml',
      'templates/terms/plain.yaml',
      'templates/texts/en-GB.yaml',
      'templates/woods.yaml',
    ]);
    for (const { path, text } of input?.files ?? []) expect(text).toBe(readFileSync(join(good.root, path), 'utf8'));
  });

  test('the files it names are enough to read it again, with the same result', () => {
    const copy = copyOfGood();
    try {
      rmSync(join(copy.root, 'templates'), { recursive: true });
      rmSync(join(copy.root, 'proposals'), { recursive: true });
      for (const { path, text } of input?.files ?? []) {
        mkdirSync(join(copy.root, path, '..'), { recursive: true });
        writeFileSync(join(copy.root, path), text);
      }
      expect(read(copy.root).input).toEqual(input);
    } finally {
      copy.remove();
    }
  });

  test('places of paths, in the file where the value was written', () => {
    const at = (path: readonly (string | number)[], variant?: string) => {
      const place = locate(sources, path, variant);
      return place === undefined ? undefined : `${place.file.split('/').slice(-2).join('/')}:${place.line}:${place.column} ${place.label}`;
    };
    expect(at(['table', 'top', 'thickness'], 'A')).toBe('harbour/table.yaml:7:14 top.thickness');
    expect(at(['table', 'top', 'width'], 'B')).toBe('variants/b.yaml:6:17 top.width');
    expect(at(['table', 'base', 'slabs', 'width'], 'B')).toBe('variants/b.yaml:9:21 base.slabs.width');
    expect(at(['table', 'base'], 'A')).toBe('harbour/table.yaml:8:1 base');
    expect(at(['table', 'height'])).toBe('harbour/table.yaml:2:9 height');
    expect(at(['proposal', 'room', 'access', 0, 'width'])).toBe('harbour/proposal.yaml:14:45 room.access.0.width');
    expect(at(['variant', 'answers', 'w2'], 'B')).toBe('variants/b.yaml:4:3 answers.w2');
    expect(at(['library', 'woods', 'oak', 'densityKgM3'])).toBe('templates/woods.yaml:4:16 oak.densityKgM3');
    expect(at(['library', 'loadCases', 'lean'])).toBe('templates/load-cases.yaml:1:1 lean');
    expect(at(['table', 'fixing', 'kind'], 'A')).toBe('harbour/table.yaml:1:1 fixing.kind');
    expect(at(['nowhere'])).toBeUndefined();
  });

  test('problems of later rooms get their places, and keep those they have', () => {
    const problem = { code: 'design/x', severity: 'error', title: 't', path: ['table', 'top', 'width'], variant: 'B' } as const;
    const [placed] = placeProblems(sources, [{ ...problem, also: [{ path: ['table', 'height'], note: 'n' }] }]);
    expect(placed?.place?.file).toBe('proposals/harbour/variants/b.yaml');
    expect(placed?.also?.[0]?.place?.file).toBe('proposals/harbour/table.yaml');
    expect(placeProblems(sources, placed === undefined ? [] : [placed])).toEqual([placed]);
  });
});

describe('templates', () => {
  test("the workspace's are laid over the program's: woods by key, shop rates whole", () => {
    const copy = copyOfGood();
    try {
      cpSync(join(copy.root, 'templates'), join(copy.root, 'program/templates'), { recursive: true });
      writeFileSync(join(copy.root, 'templates/woods.yaml'), 'oak: { densityKgM3: 700 }\n');
      const { input } = read(copy.root);
      expect(input?.library.woods['oak']).toMatchObject({ densityKgM3: 700, botanical: 'Quercus robur' });
      expect(input?.library.woods['walnut']?.densityKgM3).toBe(640);
      expect(input?.files.map(({ path }) => path).filter((path) => path.includes('woods'))).toEqual([
        'program/templates/woods.yaml',
        'templates/woods.yaml',
      ]);
      writeFileSync(join(copy.root, 'templates/rates/bench.yaml'), 'currency: EUR\n');
      expect(hasErrors(read(copy.root).problems)).toBe(true);
    } finally {
      copy.remove();
    }
  });

  test('a workspace with proposals alone uses those of the program', () => {
    const copy = copyOfGood();
    try {
      rmSync(join(copy.root, 'templates'), { recursive: true });
      const { problems } = readProposal(copy.root, 'harbour');
      expect(problems.filter(({ code }) => code === 'read/no-file')).toEqual([]);
      expect(problems.map(({ title }) => title)).toContain('there is no file templates/rates/bench.yaml');
    } finally {
      copy.remove();
    }
  });
});

describe('names of proposals', () => {
  test('folders, by code unit, hidden ones left out', () => {
    const copy = copyOfGood();
    try {
      for (const name of ['zeta', 'Alpha', '.git', '_old']) mkdirSync(join(copy.root, 'proposals', name));
      writeFileSync(join(copy.root, 'proposals/notes.txt'), '');
      expect(readWorkspace(copy.root)).toEqual(['Alpha', 'harbour', 'zeta']);
      expect(readWorkspace(join(copy.root, 'nowhere'))).toEqual([]);
    } finally {
      copy.remove();
    }
  });

  test.each(['Alpha', 'two words', 'nul', 'com1', '../harbour', '-a', 'x'.repeat(41), 'müller', ''])('%j can not be one', (slug) => {
    const { input, problems } = readProposal(good.root, slug);
    expect(input).toBeUndefined();
    expect(problems.map(({ code }) => code)).toEqual(['read/bad-slug']);
  });
});

describe('whatever is done to a line', () => {
  const files = ['proposal.yaml', 'table.yaml', 'variants/a.yaml', 'variants/b.yaml', 'templates/rates/bench.yaml', 'templates/woods.yaml'];
  const slips: readonly ((line: string) => string | undefined)[] = [
    () => undefined,
    (line) => `${line}\n${line}`,
    (line) => ` ${line}`,
    (line) => `\t${line}`,
    (line) => line.replace(':', ''),
    (line) => line.replace(': ', ':'),
    (line) => line.replace(/\d+/, '1,5'),
    (line) => line.replace(/: [^{[]+$/, ': [1, {a: b}]'),
    (line) => line.replace(/: .*$/, ': { kind: null }'),
    (line) => line.slice(0, -2),
    (line) => line.replace(/[a-z]/, 'X'),
  ];

  test.each(files)('%s: it is read or refused with a place, never thrown', (name) => {
    const copy = copyOfGood();
    const path = join(copy.root, workspacePath(name));
    const text = readFileSync(path, 'utf8');
    const all = text.split('\n');
    let refused = 0;
    try {
      for (let i = 0; i < all.length - 1; i++) {
        for (const slip of slips.filter((_, index) => (index + i) % 4 === 0)) {
          const changed = all.flatMap((line, index) => (index === i ? [slip(line)].filter((one) => one !== undefined) : [line]));
          writeFileSync(path, changed.join('\n'));
          const { input, problems } = read(copy.root);
          expect(input === undefined).toBe(hasErrors(problems));
          for (const problem of problems) expect(problem.place, `${problem.code} ${problem.title}`).toBeDefined();
          expect(formatProblems(problems, { colour: false })).not.toContain('undefined');
          if (input === undefined) refused += 1;
        }
      }
      expect(refused).toBeGreaterThan(all.length / 2);
    } finally {
      copy.remove();
    }
  });
});

test('reading one proposal takes less than 50 ms of this thread, once warm; here with room for a slow machine', () => {
  for (let i = 0; i < 10; i++) read();
  const start = process.threadCpuUsage();
  for (let i = 0; i < 10; i++) read();
  expect(process.threadCpuUsage(start).user / 10_000).toBeLessThan(100);
});

test('a case of the broken specs is well formed', () => {
  const copy = copyOfGood();
  try {
    expect(() => breakWorkspace(copy.root, [{ head: 'table.yaml', body: '- not there\n' }])).toThrow('exactly once');
  } finally {
    copy.remove();
  }
});
