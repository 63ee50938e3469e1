/**
 * `npm test`: brings what is missing (packages, a browser where that is possible), then formatting and lint, types, pages'
 * types, tests. The last line is `N passed, N failed`. Plain JavaScript for Node 18 and later.
 *
 *     CHROME_PATH=/path/to/browser     the browser to use
 *     LEAFWRIGHT_NO_BROWSER=1          leave out what needs one
 *     node tests/run.mjs tests/price   only these tests
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { environment, install, root } from '../src/cli/install.mjs';

const wantsBrowser = process.env.LEAFWRIGHT_NO_BROWSER !== '1';
const say = (line) => process.stdout.write(`${line}\n`);

function onPath(...names) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find((file) => existsSync(file));
}

function run(command, args, env) {
  const { status } = spawnSync(command, args, { cwd: root, stdio: 'inherit', env, shell: process.platform === 'win32' });
  return status === 0;
}

/** Debian's packages for what only tests use, where this is Debian and we may. */
function installFromDebian(packages) {
  if (packages.length === 0 || process.getuid?.() !== 0 || onPath('apt-get') === undefined) return;
  say(`Fetching ${packages.join(', ')} with apt-get ...`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const quiet = { stdio: ['ignore', 'ignore', 'inherit'], env };
  spawnSync('apt-get', ['update', '-qq'], quiet);
  spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], quiet);
}

const findBrowser = () =>
  process.env.CHROME_PATH ?? onPath('chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome.exe', 'msedge.exe');

function prepare() {
  const missing = [
    ...(wantsBrowser && findBrowser() === undefined ? ['chromium'] : []),
    ...(onPath('pdftotext') === undefined ? ['poppler-utils'] : []),
    ...(onPath('qpdf') === undefined ? ['qpdf'] : []),
  ];
  installFromDebian(missing);
  const browser = findBrowser();
  if (browser !== undefined || !wantsBrowser) return browser;
  say('No browser was found for the tests of pages: install Chromium, or name one with CHROME_PATH=/path/to/it, or leave these');
  say('tests out with LEAFWRIGHT_NO_BROWSER=1. They fail until then.');
  return undefined;
}

const results = join(root, 'tests', 'out', 'results.json');

/** Passed and failed tests of the JSON report; a file that could not be loaded, or a run that ended badly, counts as a failure. */
function countTests(endedWell) {
  if (!existsSync(results)) return { passed: 0, failed: 1, skipped: 0 };
  const report = JSON.parse(readFileSync(results, 'utf8'));
  const unloaded = report.testResults.filter(
    (file) => file.status === 'failed' && !file.assertionResults.some((one) => one.status === 'failed'),
  ).length;
  const failed = report.numFailedTests + unloaded;
  return {
    passed: report.numPassedTests,
    failed: failed === 0 && !endedWell ? 1 : failed,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

function testAll(only) {
  const browser = prepare();
  const env = { ...environment, CI: '1', ...(browser === undefined ? {} : { CHROME_PATH: browser }) };
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const steps =
    only.length > 0
      ? []
      : [
          ['Formatting and lint', 'biome', ['check', '--config-path', 'tests/lint.json', '.']],
          ['Types', 'tsc', ['--noEmit']],
          ['Types of the pages', 'astro', ['check', '--minimumFailingSeverity', 'warning']],
        ];
  for (const [says, command, args] of steps) {
    say(`\n${says}`);
    if (run(command, args, env)) counts.passed += 1;
    else {
      counts.failed += 1;
      say(`${says}: failed`);
    }
  }
  say('\nTests');
  mkdirSync(join(root, 'tests', 'out'), { recursive: true });
  rmSync(results, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`];
  const tests = countTests(run('vitest', ['run', '--config', 'tests/vitest.config.ts', ...reporters, ...only], env));
  counts.passed += tests.passed;
  counts.failed += tests.failed;
  if (tests.skipped > 0) say(`${tests.skipped} skipped`);
  say(`\n${counts.passed} passed, ${counts.failed} failed`);
  return counts.failed === 0;
}

if (!install({ tools: true })) {
  say('0 passed, 1 failed');
  process.exitCode = 1;
} else process.exitCode = testAll(process.argv.slice(2)) ? 0 : 1;
