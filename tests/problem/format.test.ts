import { stripVTControlCharacters } from 'node:util';
import { expect, test } from 'vitest';
import type { Problem } from '../../src/problem/index.ts';
import { countProblems, formatProblem, formatProblems, orderProblems } from '../../src/problem/index.ts';

const thick: Problem = {
  code: 'spec/out-of-range',
  severity: 'error',
  title: 'the top is thicker than a table top can be',
  path: ['table', 'top', 'thickness'],
  found: '270 mm',
  allowed: '12 to 80 mm',
  mend: 'if 27 mm was meant, write thickness: 27 mm',
  place: {
    file: 'proposals/harbour-house/variants/b.yaml',
    line: 6,
    column: 14,
    length: 6,
    label: 'top.thickness',
    quote: [
      { line: 5, text: '  width: 850 mm' },
      { line: 6, text: '  thickness: 270 mm' },
    ],
  },
};

const formOfThick = `error[spec/out-of-range]: the top is thicker than a table top can be
  proposals/harbour-house/variants/b.yaml:6:14  top.thickness
    5 |   width: 850 mm
  > 6 |   thickness: 270 mm
      |              ^^^^^^ found 270 mm
  allowed: 12 to 80 mm
  to mend: if 27 mm was meant, write thickness: 27 mm
`;

function at(file: string, line: number, severity: Problem['severity'] = 'error'): Problem {
  return {
    code: 'read/x',
    severity,
    title: `${file} ${line}`,
    path: [],
    place: { file, line, column: 1, length: 1, label: '', quote: [] },
  };
}

test('the one form, to the letter', () => {
  expect(formatProblem(thick, { colour: false })).toBe(formOfThick);
});

test('colour paints code and marks and changes no letter', () => {
  const painted = formatProblem(thick, { colour: true });
  expect(painted).toContain('\u001b[1;31merror[spec/out-of-range]\u001b[0m');
  expect(stripVTControlCharacters(painted)).toBe(formOfThick);
});

test('without a place the path, what was found and other places are named', () => {
  const problem: Problem = {
    code: 'design/overlap',
    severity: 'warning',
    title: 'two parts overlap',
    path: ['table', 'parts', 'tray'],
    found: '3 mm',
    variant: 'B',
    also: [{ path: ['table', 'base'], note: 'the other part' }],
  };
  expect(formatProblem(problem, { colour: false })).toBe(
    'warning[design/overlap]: two parts overlap (design B)\n  table.parts.tray\n  found: 3 mm\n  also table.base: the other part\n',
  );
});

test('order by file, line and column; the placeless last', () => {
  const { place: _dropped, ...placeless } = thick;
  const ordered = orderProblems([placeless, at('b.yaml', 2), at('a.yaml', 9), at('a.yaml', 3)]);
  expect(ordered.map((p) => p.title)).toEqual(['a.yaml 3', 'a.yaml 9', 'b.yaml 2', thick.title]);
});

test('counting', () => {
  expect(countProblems([])).toBe('No problems.');
  expect(countProblems([at('a', 1)])).toBe('1 error in 1 file.');
  expect(countProblems([at('a', 1), at('b', 1), at('b', 2, 'warning')])).toBe('2 errors and 1 warning in 2 files.');
  expect(countProblems([at('a', 1, 'warning'), at('a', 2, 'warning')])).toBe('2 warnings in 1 file.');
});

test('twenty at most, errors before warnings then, and a count', () => {
  const many = [at('a', 0, 'warning'), ...Array.from({ length: 24 }, (_, i) => at('b', i + 1))];
  const text = formatProblems(many, { colour: false }, 'Nothing was written.');
  expect(text.match(/^error/gm)).toHaveLength(20);
  expect(text).not.toContain('warning[');
  expect(text.endsWith('\n\n... and 5 more.\n\n24 errors and 1 warning in 2 files. Nothing was written.\n')).toBe(true);
  expect(formatProblems([], { colour: false }, 'Nothing was written.')).toBe('');
});

test('what was written can not steer the terminal, and a long line is cut around the mark', () => {
  const long = `${'x'.repeat(300)}\u001b[31m${'y'.repeat(300)}`;
  const problem: Problem = {
    ...thick,
    found: 'a\u001b[2Jb\u202e',
    place: { ...at('a.yaml', 1).place, file: 'a.yaml', line: 1, column: 301, length: 5, label: '', quote: [{ line: 1, text: long }] },
  };
  const text = formatProblem(problem, { colour: false });
  expect(text).not.toContain('\u001b');
  expect(text).not.toContain('\u202e');
  const lines = text.split('\n');
  const caret = (lines[3] ?? '').indexOf('^');
  expect((lines[2] ?? '').slice(caret, caret + 5)).toBe('·[31m');
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(140);
});
