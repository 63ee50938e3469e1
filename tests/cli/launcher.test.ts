import { type SpawnSyncReturns, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, onTestFinished, test } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const launcher = join(root, 'src/cli/leafwright.mjs');
/** Makes Node say that it is an old one. */
const old = ['--import', "data:text/javascript,Object.defineProperty(process,'version',{value:'v18.20.4'})"];

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'leafwright-launcher-'));
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
  return made;
}
const run = (args: readonly string[]): SpawnSyncReturns<string> => spawnSync(process.execPath, args, { encoding: 'utf8' });

/** A small program in the launcher's place, with a `main.ts` of the test's and packages as npm lays them out. */
function program(main: string, packages: readonly string[] = ['zod']): string {
  const at = folder();
  mkdirSync(join(at, 'src/cli'), { recursive: true });
  cpSync(launcher, join(at, 'src/cli/leafwright.mjs'));
  writeFileSync(join(at, 'src/cli/main.ts'), main);
  for (const name of packages) mkdirSync(join(at, 'node_modules', name), { recursive: true });
  return at;
}

/** Puts this very Node where npm puts the one for this platform. */
function bringNode(at: string): void {
  const name = process.platform === 'win32' ? `node-win-${process.arch}` : `node-${process.platform}-${process.arch}`;
  const binary = join(at, 'node_modules', name, 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
  mkdirSync(dirname(binary), { recursive: true });
  symlinkSync(process.execPath, binary);
}

const entry = (at: string): string => join(at, 'src/cli/leafwright.mjs');

describe('the launcher', () => {
  test('runs the program in the Node that runs it where that is new enough', () => {
    const at = program('const words: readonly string[] = process.argv.slice(2); console.log(words.join("+")); process.exitCode = 1;');
    const { stdout, status } = run([entry(at), 'build', '--json']);
    expect([stdout, status]).toEqual(['build+--json\n', 1]);
  });

  test('an old Node hands over to the one that came with the packages: arguments, streams, exit code', () => {
    const at = program('process.stdin.on("data", (d: Buffer) => process.stdout.write(process.version + d)); process.exitCode = 2;');
    bringNode(at);
    const { stdout, status } = spawnSync(process.execPath, [...old, entry(at)], { encoding: 'utf8', input: ' in' });
    expect([stdout, status]).toEqual([`${process.version} in`, 2]);
  });

  test('signals reach the program, and its end by one is told', async () => {
    const at = program('console.log("up"); setInterval((): void => {}, 1000);');
    bringNode(at);
    const child = spawn(process.execPath, [...old, entry(at)], { stdio: ['ignore', 'pipe', 'inherit'] });
    await once(child.stdout, 'data');
    child.kill('SIGTERM');
    expect(await once(child, 'exit')).toEqual([null, 'SIGTERM']);
  });

  test('started through a link elsewhere, as npm link makes it', () => {
    const at = program('console.log("here");');
    const link = join(folder(), 'leafwright');
    symlinkSync(entry(at), link);
    expect(run([link]).stdout).toBe('here\n');
  });

  test('one clear sentence where no Node fits, and where packages are missing', () => {
    const without = program('');
    expect(run([...old, entry(without)])).toMatchObject({
      status: 2,
      stderr: `leafwright needs Node 22.12 or later; this is v18.20.4 and none came with it: install Node 24 from your system or from nodejs.org, then try again.\n`,
    });
    const bare = program('', []);
    expect(run([...old, entry(bare)]).stderr).toContain(`run "npm ci" in ${bare}`);
    expect(run([entry(bare)])).toMatchObject({
      status: 2,
      stderr: `leafwright's packages are not installed: run "npm ci" in ${bare}, then try again.\n`,
    });
  });
});
