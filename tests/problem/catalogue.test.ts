import { expect, test } from 'vitest';
import { CATALOGUE } from '../../src/problem/index.ts';

test('codes are room/what-is-wrong, titles one sentence, explanations whole sentences', () => {
  for (const [code, { title, explain }] of Object.entries(CATALOGUE)) {
    expect(code).toMatch(/^[a-z]+\/[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(title, code).toMatch(/^[^A-Z].*[^.]$/);
    expect(explain, code).toMatch(/^\S.*\.$/s);
  }
});
