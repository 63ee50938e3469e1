#!/usr/bin/env node
/**
 * The launcher: plain JavaScript that runs on Node 18 and later. Finds a Node that can run the program's TypeScript and
 * runs `main.ts` in it with the same arguments, streams, signals and exit code.
 */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, realpathSync } from 'node:fs';
import module from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The first that can load Astro; from `plain` on Node strips types without being told to. */
const least = [22, 12];
const plain = { 22: 18, 23: 6 };

const here = dirname(realpathSync(fileURLToPath(import.meta.url)));
const root = join(here, '..', '..');
const strip = '--experimental-strip-types';

const numbersOf = (version) => version.replace(/^v/, '').split('.').map(Number);

function isEnough(version) {
  const [major = 0, minor = 0] = numbersOf(version);
  return major > least[0] || (major === least[0] && minor >= least[1]);
}

function isPlain(version) {
  const [major = 0, minor = 0] = numbersOf(version);
  return isEnough(version) && minor >= (plain[major] ?? 0);
}

function versionOf(file) {
  const { status, stdout } = spawnSync(file, ['--version'], { encoding: 'utf8' });
  return status === 0 ? stdout.trim() : '';
}

/** Where npm puts the platform packages: beside our own dependencies, or above us when installed as a dependency. */
function candidates() {
  const name = process.platform === 'win32' ? `node-win-${process.arch}` : `node-${process.platform}-${process.arch}`;
  const binary = process.platform === 'win32' ? join('bin', 'node.exe') : join('bin', 'node');
  return [join(root, 'node_modules'), join(root, '..')].map((modules) => join(modules, name, binary)).filter((file) => existsSync(file));
}

function findNode() {
  if (isEnough(process.version)) return process.execPath;
  return candidates().find((file) => isEnough(versionOf(file)));
}

const node = findNode();
if (node === undefined) {
  const isInstalled = existsSync(join(root, 'node_modules'));
  const mend = isInstalled ? 'install Node 24 from your system or from nodejs.org' : `run "npm ci" in ${root}`;
  process.stderr.write(
    `leafwright needs Node ${least.join('.')} or later; this is ${process.version} and none came with it: ${mend}, then try again.\n`,
  );
  process.exitCode = 2;
} else if (!existsSync(join(root, 'node_modules', 'zod')) && !existsSync(join(root, '..', 'zod'))) {
  process.stderr.write(`leafwright's packages are not installed: run "npm ci" in ${root}, then try again.\n`);
  process.exitCode = 2;
} else if (node === process.execPath && (isPlain(process.version) || process.execArgv.includes(strip))) {
  /** Keeps compiled sources in the system's temporary folder: a second run starts in half the time. */
  module.enableCompileCache?.();
  await import('./main.ts');
} else {
  const flags = isPlain(versionOf(node)) ? [] : [strip, '--disable-warning=ExperimentalWarning'];
  const child = spawn(node, [...flags, join(here, 'leafwright.mjs'), ...process.argv.slice(2)], { stdio: 'inherit' });
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  for (const signal of signals) process.on(signal, () => child.kill(signal));
  child.on('error', (error) => {
    process.stderr.write(`leafwright could not start ${node}: ${error.message}\n`);
    process.exitCode = 3;
  });
  child.on('exit', (code, signal) => {
    if (signal === null) process.exitCode = code ?? 3;
    else {
      for (const each of signals) process.removeAllListeners(each);
      process.kill(process.pid, signal);
    }
  });
}
