import { defineConfig } from 'vitest/config';

/**
 * Two workers: the tests share small machines with a browser, and the times are for such a machine that has much else to do.
 * Pictures and snapshots are never written where CI is set.
 */
export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  cacheDir: 'node_modules/.cache/vitest',
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/out/**', 'node_modules/**'],
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 240_000,
    hookTimeout: 480_000,
    benchmark: { include: ['tests/bench/*.bench.ts'], suppressExportGetterWarnings: true },
    coverage: { provider: 'v8', include: ['src/**/*.ts'], reportsDirectory: 'coverage' },
  },
});
