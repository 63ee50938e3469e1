/**
 * Brings the packages that package-lock.json names, where they are missing or others: plain JavaScript for Node 18 and
 * later, since it runs before there is anything else.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const bin = join(root, 'node_modules', '.bin');

/** Environment in which plain `node` is the one that came with the packages. */
export const environment = {
  ...process.env,
  PATH: `${bin}${delimiter}${process.env.PATH ?? ''}`,
  ASTRO_TELEMETRY_DISABLED: '1',
};

const readJson = (path) => JSON.parse(readFileSync(path, 'utf8'));

/** True where every package of the lock stands in node_modules in its version; those of other platforms and, if so asked, tools apart. */
export function isInstalled({ tools }) {
  const listed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(listed)) return false;
  const there = readJson(listed).packages;
  return Object.entries(readJson(join(root, 'package-lock.json')).packages).every(([path, { version, optional, dev, devOptional }]) => {
    if (path === '' || (!tools && (dev === true || devOptional === true))) return true;
    const found = there[path];
    return found === undefined ? optional === true || devOptional === true : found.version === version;
  });
}

/** Runs `npm ci` where it is needed; false, with a sentence on stderr, where that fails. */
export function install({ tools }) {
  if (isInstalled({ tools })) return true;
  process.stderr.write('Fetching packages with npm ci (once; about half a minute) ...\n');
  const wanted = ['ci', '--no-audit', '--no-fund', '--loglevel=error', ...(tools ? [] : ['--omit=dev'])];
  const npm = process.env.npm_execpath;
  const [command, args] = npm !== undefined && /\.c?js$/.test(npm) ? [process.execPath, [npm, ...wanted]] : ['npm', wanted];
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    shell: command === 'npm' && process.platform === 'win32',
  });
  if (status === 0) return true;
  process.stderr.write(
    `npm ci failed${error === undefined ? '' : ` (${error.message})`}: the packages could not be fetched. Check the network and try again.\n`,
  );
  return false;
}
