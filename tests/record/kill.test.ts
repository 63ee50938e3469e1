import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

/** A thousand kills are run by hand: `npx node tests/record/kill-many.mjs 1000`. */
test('killed at random moments: old or new state, and verify is content', () => {
  const script = fileURLToPath(new URL('kill-many.mjs', import.meta.url));
  const { status, stdout, stderr } = spawnSync(process.execPath, [script, '30'], { encoding: 'utf8' });
  expect([status, stderr]).toEqual([0, '']);
  const [, undone = '0', entries = '0', editions = '0'] =
    /^30 kills, (\d+) of them left something undone, (\d+) entries stand, (\d+) of them editions/.exec(stdout) ?? [];
  expect(Number(undone)).toBeGreaterThan(0);
  expect(Number(entries)).toBeGreaterThan(10);
  expect(Number(editions)).toBeGreaterThan(0);
});
