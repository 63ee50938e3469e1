import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { CATALOGUE, formatProblems } from '../../src/problem/index.ts';
import { readHandOver, readProposal } from '../../src/read/index.ts';
import { breakWorkspace, copyOfGood, readCase } from './workspace.ts';

const FOLDER = new URL('./cases', import.meta.url).pathname;
const names = readdirSync(FOLDER).filter((name) => name.endsWith('.txt'));

function printed(root: string): string {
  const problems = [...readProposal(root, 'harbour', { frozen: true }).problems, ...readHandOver(root, 'harbour', 'mm').problems];
  return formatProblems(problems, { colour: false }, 'Nothing was written.');
}

test('the good workspace is good', () => {
  const { root, remove } = copyOfGood();
  try {
    expect(printed(root)).toBe('');
  } finally {
    remove();
  }
});

describe('each broken spec gives its exact message', () => {
  test.each(names)('%s', (name) => {
    const { sections, says } = readCase(readFileSync(join(FOLDER, name), 'utf8'));
    expect(says, 'the case has a message').not.toBe('');
    const { root, remove } = copyOfGood();
    try {
      breakWorkspace(root, sections);
      expect(printed(root)).toBe(says);
    } finally {
      remove();
    }
  });
});

test('there are at least forty, and every code of spec and read has one', () => {
  expect(names.length).toBeGreaterThanOrEqual(40);
  const all = names.map((name) => readFileSync(join(FOLDER, name), 'utf8')).join('\n');
  const elsewhere = ['read/bad-slug'];
  const codes = Object.keys(CATALOGUE).filter((code) => code.startsWith('spec/') || code.startsWith('read/'));
  expect(codes.filter((code) => !all.includes(`[${code}]`) && !elsewhere.includes(code))).toEqual([]);
});
