import { existsSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { type KeyRefusal, openKeyFile, type SigningKey } from '../../sign/index.ts';

const keyName = 'key.p12';

/** Where the passphrase of the key is read from. */
export const passphraseVariable = 'LEAFWRIGHT_KEY_PASSPHRASE';

type Environment = Readonly<Record<string, string | undefined>>;

/** The user's configuration folder of this program. @source XDG Base Directory Specification 0.8; Windows known folder RoamingAppData */
export function configurationFolder(env: Environment, platform: string, home: string): string {
  const set = (value: string | undefined): value is string => value !== undefined && value !== '';
  if (platform === 'win32') return join(set(env['APPDATA']) ? env['APPDATA'] : join(home, 'AppData', 'Roaming'), 'leafwright');
  return join(set(env['XDG_CONFIG_HOME']) ? env['XDG_CONFIG_HOME'] : join(home, '.config'), 'leafwright');
}

/** The key's file on this machine, there or not. */
export const keyPath = (): string => join(configurationFolder(process.env, process.platform, homedir()), keyName);

/** The passphrase from the environment; empty where none is set. */
export const keyPassphrase = (): string => process.env[passphraseVariable] ?? '';

export function signProblem(code: string, title: string, more: Partial<Problem> = {}): Problem {
  return { code: `sign/${code}`, severity: 'error', title, path: [], ...more };
}

/** The folder above, or this one, that is shared: a git work tree or a workspace; nothing where there is none. */
export function sharedAbove(folder: string): { readonly folder: string; readonly what: 'git work tree' | 'workspace' } | undefined {
  for (let at = resolve(folder); ; at = dirname(at)) {
    if (existsSync(join(at, '.git'))) return { folder: at, what: 'git work tree' };
    if (existsSync(join(at, 'proposals'))) return { folder: at, what: 'workspace' };
    if (at === dirname(at)) return undefined;
  }
}

const refusals: Readonly<Record<KeyRefusal, (path: string) => Problem>> = {
  'not-a-key-file': (path) =>
    signProblem('not-a-key', `${path} is no PKCS #12 file`, { mend: 'leafwright key new makes one; move this file away first' }),
  'no-rsa-key': (path) => signProblem('not-a-key', `${path} holds no RSA key`, { mend: 'other kinds of keys can not be used here' }),
  'no-certificate': (path) =>
    signProblem('not-a-key', `${path} holds no certificate of its key`, { mend: 'export key and certificate together' }),
  'wrong-passphrase': (path) =>
    signProblem('wrong-passphrase', `the passphrase does not open ${path}`, {
      found: keyPassphrase() === '' ? `${passphraseVariable} is not set` : `what ${passphraseVariable} holds`,
      mend: `set ${passphraseVariable} for the run`,
    }),
};

/** The maker's key where one is set up, or why it can not be used. Codes: `sign/key-in-work-tree not-a-key wrong-passphrase`. */
export function openOwnKey(): { readonly key?: SigningKey; readonly problems: readonly Problem[] } {
  const path = keyPath();
  if (!existsSync(path)) return { problems: [] };
  const shared = sharedAbove(dirname(path));
  if (shared !== undefined) return { problems: [inWorkTree(path, shared)] };
  const opened = openKeyFile(readFileSync(path), keyPassphrase());
  return typeof opened === 'string' ? { problems: [refusals[opened](path)] } : { key: opened, problems: [] };
}

/** Refuses a key that lies where others get at it. */
export function inWorkTree(path: string, shared: { readonly folder: string; readonly what: string }): Problem {
  return signProblem('key-in-work-tree', `${path} would lie in a ${shared.what}`, {
    found: `${shared.folder} is a ${shared.what}`,
    mend: `set ${process.platform === 'win32' ? 'APPDATA' : 'XDG_CONFIG_HOME'} to a folder that is yours alone`,
  });
}
