import { generateKeyPairSync, randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { readMaker } from '../../read/index.ts';
import { keyBits, makeKeyFile, openKeyFile } from '../../sign/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import type { Terminal } from '../terminal.ts';
import { findWorkspace } from '../workspace.ts';
import { inWorkTree, keyPassphrase, keyPath, openOwnKey, passphraseVariable, sharedAbove, signProblem } from './key-file.ts';
import { answering } from './papers.ts';

const schema = 'leafwright/key/1';
const years = 20;
const serialBytes = 16;

/** The name that goes into the certificate: as said, or the maker's. */
function ownName(values: Given['values']): { readonly name?: string; readonly problems: readonly Problem[] } {
  const said = values['name'];
  if (said !== undefined) return { name: said, problems: [] };
  const { maker, problems } = readMaker(findWorkspace(values['workspace']));
  if (maker === undefined) return { problems };
  return maker.invented
    ? {
        problems: [
          signProblem('no-name', 'templates/maker.yaml still holds the invented maker', {
            mend: 'write your own name there, or give it: --name "Your Name"',
          }),
        ],
      }
    : { name: maker.name, problems: [] };
}

function addYears(at: string, count: number): string {
  return `${String(Number(at.slice(0, 4)) + count).padStart(4, '0')}${at.slice(4).replace(/^-02-29/, '-02-28')}`;
}

function newKey({ values, switches }: Given, terminal: Terminal): ExitCode {
  const { refuse } = answering(schema, 'No key was made.', switches, terminal);
  const path = keyPath();
  const at = instantOf(values['as-of']);
  if (existsSync(path))
    return refuse([
      signProblem('key-exists', `there is a key already: ${path}`, {
        mend: 'see it: leafwright key show; for another, move that file away first: what was signed with it stays as it is',
      }),
    ]);
  const shared = sharedAbove(dirname(path));
  if (shared !== undefined) return refuse([inWorkTree(path, shared)]);
  const { name, problems } = ownName(values);
  if (name === undefined) return refuse(problems);
  const { privateKey } = generateKeyPairSync('rsa', {
    modulusLength: keyBits,
    privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
    publicKeyEncoding: { type: 'spki', format: 'pem' },
  });
  const passphrase = keyPassphrase();
  const bytes = makeKeyFile({
    privateKeyPem: privateKey,
    name,
    // From the begin of the day: what was approved earlier on it can be signed.
    from: `${at.slice(0, 10)}T00:00:00Z`,
    until: addYears(at, years),
    serial: randomBytes(serialBytes),
    passphrase,
  });
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  writeFileSync(path, bytes, { mode: 0o600, flag: 'wx' });
  return show({ switches, terminal, path, isNew: true, hasPassphrase: passphrase !== '' });
}

function show(told: {
  readonly switches: Given['switches'];
  readonly terminal: Terminal;
  readonly path: string;
  readonly isNew: boolean;
  readonly hasPassphrase: boolean;
}): ExitCode {
  const { switches, terminal, path, isNew, hasPassphrase } = told;
  const { refuse } = answering(schema, 'Nothing was changed.', switches, terminal);
  const { key, problems } = openOwnKey();
  if (key === undefined)
    return refuse(
      problems.length > 0 ? problems : [signProblem('no-key', `no key is set up: ${path} is not there`, { mend: 'leafwright key new' })],
    );
  const opensByItself = typeof openKeyFile(readFileSync(path), '') !== 'string';
  if (switches.has('json')) {
    const { certificateSha256, name, from, until } = key;
    terminal.say(
      JSON.stringify({ schema, file: path, name, from, until, certificateSha256, passphrase: !opensByItself, problems: [] }, undefined, 2),
    );
    return 0;
  }
  if (isNew) terminal.say(`A key and a certificate in the name of ${key.name} are in ${terminal.accent(path)}`);
  else terminal.say(`${path}: ${key.name}`);
  terminal.say(`  certificate   SHA-256 ${terminal.accent((key.certificateSha256.match(/.{8}/g) ?? []).join(' '))}`);
  terminal.say(`  holds         ${key.from.slice(0, 10)} to ${key.until.slice(0, 10)}`);
  if (opensByItself)
    terminal.say(`  passphrase    none: whoever can read the file can sign in your name; set ${passphraseVariable} before you make a key`);
  else if (hasPassphrase) terminal.say(`  passphrase    from ${passphraseVariable}; without it nobody can open the file again`);
  terminal.say('\nThe certificate signs itself: it shows that a file was not changed, and no third party says whose key it is.');
  terminal.say('Give its SHA-256 to your clients by another way than the file. Keep a copy of the file where you keep other keys.');
  terminal.say('\nNext: leafwright scope PROPOSAL signs what was approved');
  return 0;
}

/** `key`: sets up the key that signs scopes, or shows its certificate. */
export async function runKey(given: Given, terminal: Terminal): Promise<ExitCode> {
  const [what] = given.words;
  if (what === 'new') return newKey(given, terminal);
  if (what === 'show') {
    const { switches } = given;
    return show({ switches, terminal, path: keyPath(), isNew: false, hasPassphrase: keyPassphrase() !== '' });
  }
  throw new UsageFault(`leafwright key ${what} is none`, 'write leafwright key new, or leafwright key show');
}
