import { execFileSync } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { configurationFolder } from '../../src/cli/order/key-file.ts';
import {
  type AnyBody,
  type AnyEntry,
  addEntry,
  canonicalJson,
  issuedOffers,
  issueRevision,
  type Json,
  readEntries,
  saltBytes,
  tokenBytes,
} from '../../src/record/index.ts';
import { checkSignature } from '../../src/sign/index.ts';
import { type Ended, runIn } from './run.ts';

/**
 * From an approval to a signed scope, requests for payment and a statement, with the first of the demo commissions. PDF files are read
 * by general tools (poppler, qpdf). People, prices and the bank are invented.
 */
const root = fileURLToPath(new URL('../../', import.meta.url));
const slug = 'tollefsen-quill';
let home = '';
let workspace = '';
let folder = '';

const runWith = (env: Readonly<Record<string, string>>, ...args: string[]): Promise<Ended> =>
  runIn(workspace, args, { LEAFWRIGHT_KEY_PASSPHRASE: undefined, XDG_CONFIG_HOME: join(home, 'config'), ...env });
const run = (...args: string[]): Promise<Ended> => runWith({}, ...args);
const tool = (name: string, ...args: string[]): string => execFileSync(name, args, { encoding: 'utf8' });
const words = (...path: string[]): string =>
  tool('pdftotext', '-layout', join(folder, ...path), '-').replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
const sha256 = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');
/** The message of a refusal as it is printed, to the character. */
const refused = async (result: Promise<Ended>): Promise<readonly [number, string, string]> => {
  const { status, stdout, stderr } = await result;
  return [status, stdout, stderr];
};

async function add(day: string, body: AnyBody, data?: Readonly<Record<string, string>>): Promise<AnyEntry> {
  const place = { folder, shown: `proposals/${slug}`, at: `${day}T09:00:00Z`, zone: 'Europe/Dublin' };
  const sealed = data === undefined ? {} : { sealed: { data, random: randomBytes(saltBytes) } };
  const { entry, problems } = await addEntry(place, () => ({ body, ...sealed }));
  if (entry === undefined) throw new Error(problems.map(({ title }) => title).join('\n'));
  return entry;
}

function chosen(options: readonly string[]) {
  const offer = issuedOffers(folder).at(-1);
  const design = offer?.designs[0];
  const combination = design?.combinations.find((one) => one.options.join() === options.join());
  if (offer === undefined || design === undefined || combination === undefined) throw new Error('the demo is not issued');
  const { revision, fingerprint, currency } = offer;
  return {
    chosen: { revision, fingerprint, design: design.id, options: [...options], totalMinor: combination.totalMinor, currency },
    combination,
  };
}

const yes = (day: string, person: string, name: string, options: readonly string[], remark: string) => {
  const { chosen: said } = chosen(options);
  const { revision, fingerprint } = said;
  const body = { kind: 'answer', on: day, person, verdict: 'yes', revision, fingerprint, chosen: said, by: 'code' } as const;
  return add(day, body, { person, name, remark, text: '' });
};

beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'leafwright-papers-'));
  workspace = join(home, 'bench');
  folder = join(workspace, 'proposals', slug);
  mkdirSync(join(workspace, 'templates'), { recursive: true });
  for (const name of ['proposal.yaml', 'table.yaml', 'variants'])
    cpSync(join(root, 'proposals', slug, name), join(folder, name), { recursive: true });
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe('before anything is agreed', () => {
  test('nothing issued: there is no scope to make and no order to ask money for', async () => {
    expect(await refused(run('scope', slug))).toEqual([
      1,
      '',
      `error[cli/not-approved]: nothing of ${slug} was issued yet
  to mend: leafwright issue ${slug}

1 error. Nothing was made.
`,
    ]);
    expect(await refused(run('request', slug, '--instalment', '1'))).toEqual([
      1,
      '',
      `error[cli/not-confirmed]: no order of ${slug} was confirmed yet
  to mend: leafwright confirm ${slug}

1 error. Nothing was requested.
`,
    ]);
    expect((await run('statement', slug)).stderr).toContain(`error[cli/not-confirmed]: no order of ${slug} was confirmed yet`);
  });

  test('an issued revision keeps the drawings of its scopes, by digest', async () => {
    const issued = await run('issue', slug, '--as-of', '2026-03-27');
    expect([issued.status, issued.stdout]).toEqual([0, expect.stringContaining('is issued and frozen')]);
    const { sheets } = JSON.parse(readFileSync(join(folder, 'issued/r3/data/sheets.json'), 'utf8')) as { sheets: Record<string, Json> };
    expect(Object.keys(sheets).length).toBe(2);
    for (const [digest, sheet] of Object.entries(sheets))
      expect(createHash('sha256').update(canonicalJson(sheet)).digest('hex')).toBe(digest);
  });

  test('one of two has said yes: the other is waited for', async () => {
    await yes('2026-03-29', 'maren', 'Maren Tollefsen', ['ceramic'], 'Please keep the sap line by the window.');
    expect(await refused(run('scope', slug, '--as-of', '2026-03-30'))).toEqual([
      1,
      '',
      `error[cli/not-approved]: ${slug} r3 is not approved yet
  found: no answer yet from idris
  to mend: record the answer: leafwright record ${slug}

1 error. Nothing was made.
`,
    ]);
  });
});

describe('the key', () => {
  const file = (): string => join(home, 'config', 'leafwright', 'key.p12');

  // @source XDG Base Directory Specification 0.8: XDG_CONFIG_HOME, else $HOME/.config, also where it is empty.
  test('lies in the configuration folder of the user', () => {
    expect(configurationFolder({ XDG_CONFIG_HOME: '/x' }, 'linux', '/home/ana')).toBe('/x/leafwright');
    expect(configurationFolder({ XDG_CONFIG_HOME: '' }, 'linux', '/home/ana')).toBe('/home/ana/.config/leafwright');
    expect(configurationFolder({ APPDATA: 'C:\\Roaming', XDG_CONFIG_HOME: '/x' }, 'win32', 'C:\\ana')).toMatch(/^C:\\Roaming.leafwright$/);
  });

  test('is refused among files that are shared', async () => {
    const { status, stderr } = await runWith({ XDG_CONFIG_HOME: join(workspace, 'mine') }, 'key', 'new', '--name', 'Ana Orlow');
    const path = join(workspace, 'mine', 'leafwright', 'key.p12');
    expect([status, stderr]).toEqual([
      1,
      `error[sign/key-in-work-tree]: ${path} would lie in a workspace
  found: ${workspace} is a workspace
  to mend: set XDG_CONFIG_HOME to a folder that is yours alone

1 error. No key was made.
`,
    ]);
    expect(existsSync(path)).toBe(false);
    mkdirSync(join(home, 'dotfiles', '.git'), { recursive: true });
    expect((await runWith({ XDG_CONFIG_HOME: join(home, 'dotfiles') }, 'key', 'new', '--name', 'Ana')).stderr).toContain(
      'would lie in a git work tree',
    );
  });

  test('is not made in the name of the invented maker, and none is shown where there is none', async () => {
    expect((await run('key', 'new')).stderr).toBe(
      `error[sign/no-name]: templates/maker.yaml still holds the invented maker
  to mend: write your own name there, or give it: --name "Your Name"

1 error. No key was made.
`,
    );
    expect((await run('key', 'show')).stderr).toBe(
      `error[sign/no-key]: no key is set up: ${file()} is not there\n  to mend: leafwright key new\n\n1 error. Nothing was changed.\n`,
    );
    const other = join(home, 'other', 'leafwright');
    mkdirSync(other, { recursive: true });
    writeFileSync(join(other, 'key.p12'), 'no key at all');
    expect((await runWith({ XDG_CONFIG_HOME: join(home, 'other') }, 'key', 'show')).stderr).toBe(
      `error[sign/not-a-key]: ${join(other, 'key.p12')} is no PKCS #12 file
  to mend: leafwright key new makes one; move this file away first

1 error. Nothing was changed.
`,
    );
    expect((await run('key', 'make')).stderr).toBe(
      'leafwright: leafwright key make is none\nwrite leafwright key new, or leafwright key show\n',
    );
  });

  test('is made once, for its user alone, under the passphrase of the environment', async () => {
    const env = { LEAFWRIGHT_KEY_PASSPHRASE: 'four planed boards' };
    const made = await runWith(env, 'key', 'new', '--name', 'Runa Stavely', '--as-of', '2026-01-05');
    expect([made.status, made.stderr]).toEqual([0, '']);
    expect(made.stdout).toMatch(/holds {9}2026-01-05 to 2046-01-05/);
    expect(made.stdout).toContain(
      'The certificate signs itself: it shows that a file was not changed, and no third party says whose key it is.',
    );
    if (process.platform !== 'win32') expect(statSync(file()).mode & 0o777).toBe(0o600);
    expect((await runWith(env, 'key', 'new', '--name', 'X')).stderr).toBe(
      `error[sign/key-exists]: there is a key already: ${file()}\n  to mend: see it: leafwright key show; for another, move that file away first: what was signed with it stays as it is\n\n1 error. No key was made.\n`,
    );
    const shown = JSON.parse((await runWith(env, 'key', 'show', '--json')).stdout);
    const pem = tool('openssl', 'pkcs12', '-in', file(), '-passin', 'pass:four planed boards', '-nodes', '-nokeys');
    writeFileSync(join(home, 'certificate.pem'), pem);
    const print = tool('openssl', 'x509', '-in', join(home, 'certificate.pem'), '-noout', '-fingerprint', '-sha256');
    expect(print.replaceAll(':', '').toLowerCase()).toContain(shown.certificateSha256);
    expect(shown).toMatchObject({ schema: 'leafwright/key/1', name: 'Runa Stavely', passphrase: true });
    expect((await run('key', 'show')).stderr).toBe(
      `error[sign/wrong-passphrase]: the passphrase does not open ${file()}
  found: LEAFWRIGHT_KEY_PASSPHRASE is not set
  to mend: set LEAFWRIGHT_KEY_PASSPHRASE for the run

1 error. Nothing was changed.
`,
    );
  });
});

describe('the scope of what was approved', () => {
  const env = { LEAFWRIGHT_KEY_PASSPHRASE: 'four planed boards' };
  const path = 'records/scope-r3-a.pdf';

  test('is not made without the key that is set up, unless that is asked for', async () => {
    await yes('2026-03-30', 'idris', 'Idris Quill', ['ceramic'], '');
    await add('2026-03-30', {
      kind: 'sample',
      on: '2026-03-30',
      person: 'maren',
      sample: 'S-041',
      of: 'sample',
      verdict: 'yes',
      keeps: 'half-each',
    });
    expect((await run('scope', slug, '--as-of', '2026-03-31')).stderr).toContain('error[sign/wrong-passphrase]');
    expect(existsSync(join(folder, path))).toBe(false);
  });

  test('is not signed by a certificate that did not hold when it was approved', async () => {
    const later = { XDG_CONFIG_HOME: join(home, 'later') };
    const made = await runWith(later, 'key', 'new', '--name', 'Runa Stavely', '--as-of', '2026-06-01');
    expect(made.stdout).toContain('passphrase    none: whoever can read the file can sign in your name');
    expect(await refused(runWith(later, 'scope', slug, '--as-of', '2026-06-02'))).toEqual([
      1,
      '',
      `error[sign/key-not-valid]: the certificate of your key does not hold on the day of the approval
  found: 2026-03-30
  allowed: 2026-06-01 to 2046-06-01
  to mend: leafwright scope ${slug} --unsigned

1 error. Nothing was made.
`,
    ]);
  });

  test('is not drawn anew where the drawings were not kept', async () => {
    const older = join(workspace, 'proposals', 'older');
    for (const name of ['proposal.yaml', 'table.yaml', 'variants']) cpSync(join(folder, name), join(older, name), { recursive: true });
    const kept = ['client.json', 'offer.json', 'figures.json'];
    await issueRevision({
      ...{
        folder: older,
        shown: 'proposals/older',
        proposal: 'older',
        revision: 'r3',
        at: '2026-03-27T12:00:00Z',
        zone: 'UTC',
        program: 'test',
      },
      page: 'client',
      random: randomBytes(tokenBytes),
      inputs: [],
      data: kept.map((path) => ({ path, bytes: readFileSync(join(folder, 'issued/r3/data', path)) })),
      make: async () => [{ path: 'index.html', bytes: Buffer.from('as it was') }],
    });
    const fingerprint = issuedOffers(older)[0]?.fingerprint ?? '';
    for (const [i, person] of ['maren', 'idris'].entries()) {
      const said = { ...chosen([]).chosen, fingerprint };
      const body = {
        kind: 'answer',
        on: '2026-03-28',
        person,
        verdict: 'yes',
        revision: 'r3',
        fingerprint,
        chosen: said,
        by: 'code',
      } as const;
      await addEntry({ folder: older, shown: 'older', at: `2026-03-28T1${i}:00:00Z`, zone: 'UTC' }, () => ({ body }));
    }
    expect(await refused(run('scope', 'older', '--unsigned', '--as-of', '2026-03-29'))).toEqual([
      1,
      '',
      `error[cli/drawings-not-kept]: the drawings of older r3 were not kept with it
  to mend: use its own scope, proposals/older/issued/r3/out/, with the answers as recorded

1 error. Nothing was made.
`,
    ]);
    rmSync(older, { recursive: true });
  });

  test('without prices is for those who were shown such a page', async () => {
    expect(await refused(run('scope', slug, '--without-price', '--as-of', '2026-03-31'))).toEqual([
      1,
      '',
      `error[cli/no-such-page]: ${slug} r3 has no page without prices
  to mend: leafwright scope ${slug}

1 error. Nothing was made.
`,
    ]);
  });

  test('is recorded by its digest and signed, valid by pdfsig, sound by qpdf', async () => {
    const made = await runWith(env, 'scope', slug, '--as-of', '2026-03-31');
    expect([made.status, made.stderr]).toEqual([0, '']);
    const entry = readEntries(folder).at(-1);
    const { certificateSha256 } = JSON.parse((await runWith(env, 'key', 'show', '--json')).stdout);
    const file = join(folder, path);
    expect(entry).toMatchObject({
      ...{ kind: 'scope', on: '2026-03-31', revision: 'r3', design: 'A', certificate: certificateSha256 },
      file: { path, bytes: statSync(file).size, sha256: sha256(file) },
    });
    const signature = tool('pdfsig', '-nocert', file);
    for (const says of ['Signature is Valid', 'Total document signed', 'Signer Certificate Common Name: Runa Stavely'])
      expect(signature).toContain(says);
    expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
    // The time of the last answer, not of the run.
    expect(checkSignature(readFileSync(file))).toMatchObject({ valid: true, certificateSha256, signedAt: '2026-03-30T09:00:00Z' });
  });

  test('holds who said yes, when and how, with the entries of the record; and what was chosen', () => {
    const text = words(path);
    const answers = readEntries(folder).filter(({ kind }) => kind === 'answer');
    const short = (entry: AnyEntry): string =>
      (
        createHash('sha256')
          .update(canonicalJson(entry as unknown as Json))
          .digest('hex')
          .slice(0, 20)
          .match(/.{5}/g) ?? []
      ).join(' ');
    for (const [i, name] of ['Maren Tollefsen', 'Idris Quill'].entries())
      expect(text).toMatch(new RegExp(`${name} +${29 + i} March 2026 +by reply code +${answers[i]?.n}, ${short(answers[i] as AnyEntry)}`));
    expect(text.replaceAll(/\s+/g, ' ')).toContain(
      'Maren Tollefsen wrote: “Please keep the sap line by the window.” The design and the price of this scope are without it.',
    );
    const { chosen: said, combination } = chosen(['ceramic']);
    const money = (minor: number): string => new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'EUR' }).format(minor / 100);
    expect(text).toContain(said.fingerprint.match(/.{8}/g)?.join(' '));
    for (const minor of [said.totalMinor, ...combination.instalmentsMinor]) expect(text).toContain(money(minor));
    expect(text).toMatch(/☑ +Ceramic/);
    expect(text).toContain('Approved by Maren Tollefsen on 30 March 2026; each of us keeps one half.');
  });

  test('leaves no box empty and no line to sign, and shows only its own design', () => {
    const text = words(path);
    expect(text).not.toMatch(/☐|Place, date|subject to sample/);
    expect(words('issued/r3/out/scope-a.pdf')).toMatch(/☐[\s\S]*Place, date/);
    expect(text).toContain('What I make it from');
  });

  test('stands: a second run makes nothing', async () => {
    const before = [readFileSync(join(folder, 'decisions.jsonl'), 'utf8'), sha256(join(folder, path))];
    const again = await runWith(env, 'scope', slug, '--as-of', '2026-05-01');
    expect([again.status, again.stdout]).toEqual([
      0,
      expect.stringContaining(`The scope stands as it was made on 2026-03-31: proposals/${slug}/${path}`),
    ]);
    expect([readFileSync(join(folder, 'decisions.jsonl'), 'utf8'), sha256(join(folder, path))]).toEqual(before);
  });
});

describe('a record that names a signature', () => {
  const forged = async (bytes: Uint8Array): Promise<string> => {
    const copy = join(home, 'copy', 'proposals', slug);
    rmSync(join(home, 'copy'), { recursive: true, force: true });
    cpSync(folder, copy, { recursive: true });
    const path = 'records/scope-r3-a-2.pdf';
    const sha = createHash('sha256').update(bytes).digest('hex');
    const file = { path, bytes: bytes.length, sha256: sha };
    const body = {
      kind: 'scope',
      on: '2026-04-01',
      revision: 'r3',
      design: 'A',
      answers: [2, 3],
      file,
      certificate: 'ab'.repeat(32),
    } as const;
    await addEntry({ folder: copy, shown: 'x', at: '2026-04-01T09:00:00Z', zone: 'UTC' }, () => ({ body, files: [{ path, bytes }] }));
    return (await run('verify', '--workspace', join(home, 'copy'))).stderr;
  };
  const name = `proposals/${slug}/records/scope-r3-a-2.pdf`;

  test('is proven against the file: no signature, another certificate, a signature that does not hold', async () => {
    const signed = readFileSync(join(folder, 'records/scope-r3-a.pdf'));
    expect(await forged(readFileSync(join(folder, 'issued/r3/out/scope-a.pdf')))).toContain(
      `error[record/signature-broken]: ${name} bears no signature`,
    );
    const { certificateSha256 } = checkSignature(signed);
    expect(await forged(signed)).toContain(
      `error[record/signature-broken]: ${name} is signed by another certificate than entry ${readEntries(folder).length + 1} names
  found: SHA-256 ${certificateSha256}
  allowed: SHA-256 ${'ab'.repeat(32)}
  to mend: take ${name} back from your copy or from git`,
    );
    const touched = Uint8Array.from(signed, (byte, i) => (i === 9 ? byte ^ 1 : byte));
    expect(await forged(touched)).toContain(`error[record/signature-broken]: ${name} was changed after it was signed`);
    expect((await run('verify')).stdout).toContain('Nothing that was issued has changed.');
  });
});

describe('money', () => {
  test('a confirmed order: an instalment is requested, with its number, its day and how to pay', async () => {
    const { chosen: said, combination } = chosen(['ceramic']);
    const answers = readEntries(folder).flatMap(({ kind, n }) => (kind === 'answer' ? [n] : []));
    await add('2026-04-01', {
      kind: 'confirmed',
      on: '2026-04-01',
      chosen: said,
      answers,
      instalmentsMinor: [...combination.instalmentsMinor],
      holdUntil: '2026-04-30',
    });
    const made = await run('request', slug, '--instalment', '1', '--number', '2026-011', '--as-of', '2026-04-02');
    expect([made.status, made.stderr]).toEqual([0, '']);
    expect(readEntries(folder).at(-1)).toMatchObject({
      ...{
        kind: 'requested',
        on: '2026-04-02',
        number: '2026-011',
        instalment: 1,
        amountMinor: combination.instalmentsMinor[0],
        currency: 'EUR',
      },
      due: '2026-04-16',
    });
    const text = words('outbox/request-2026-011.pdf');
    expect(text).toMatch(/Payment request\s+Instalment 1 of 3/);
    expect(text).toContain('Account XX00 TARR 0000 0000 0147');
    expect(text).toContain('not an invoice for tax');
    expect(text).toMatch(/Due +16 April 2026/);
    // No cost, no mark-up: the amounts of the paper are those of the offer.
    const amounts = [...text.matchAll(/€([\d,]+\.\d\d)/g)].map(([, one = '']) => Math.round(Number(one.replaceAll(',', '')) * 100));
    const [first = 0] = combination.instalmentsMinor;
    expect(new Set(amounts)).toEqual(new Set([said.totalMinor, first, said.totalMinor - first]));
  });

  test.each([
    [
      ['--instalment', '4'],
      'cli/no-such-instalment',
      `${slug} has no instalment 4`,
      `  allowed: 1 to 3\n  to mend: leafwright statement ${slug} lists them\n`,
    ],
    [
      ['--instalment', '2', '--due', '2026-04-01'],
      'cli/due-before-today',
      'the request would be due before it is made',
      '  found: 2026-04-01\n  to mend: write --due 2026-04-17\n',
    ],
    [
      ['--instalment', '2', '--number', '2026-011'],
      'cli/number-used',
      'number 2026-011 was used for instalment 1 on 2026-04-02',
      '  to mend: give it another number\n',
    ],
    [
      ['--instalment', '1'],
      'cli/instalment-requested',
      `instalment 1 of ${slug} was requested on 2026-04-02`,
      '  found: number 2026-011, due 2026-04-16\n  to mend: to remind, give the new request a number of its own: --number\n',
    ],
  ])('refused: %j', async (args, code, title, rest) => {
    const before = readFileSync(join(folder, 'decisions.jsonl'), 'utf8');
    expect(await refused(run('request', slug, ...args, '--as-of', '2026-04-03'))).toEqual([
      1,
      '',
      `error[${code}]: ${title}\n${rest}\n1 error. Nothing was requested.\n`,
    ]);
    expect(readFileSync(join(folder, 'decisions.jsonl'), 'utf8')).toBe(before);
  });

  test.each([
    [[], 'leafwright: which instalment is requested?\nwrite --instalment 1, or 2 and so on; several in one paper as 1,2\n'],
    [
      ['--instalment', '2,2'],
      'leafwright: which instalment is requested?\nwrite --instalment 1, or 2 and so on; several in one paper as 1,2\n',
    ],
    [['--instalment', '2', '--due', '2026-02-30'], 'leafwright: --due 2026-02-30 is no day\nwrite it as 2027-02-14\n'],
    [
      ['--instalment', '2', '--number', '../7'],
      'leafwright: --number ../7 can not be a number of a request\nletters, digits, full stop and hyphen, at most 40, as 2027-014\n',
    ],
  ])('a command line that can not be followed: %j', async (args, message) => {
    expect(await refused(run('request', slug, ...args))).toEqual([2, '', message]);
  });

  test('paid in part: the rest is asked for; paid in full: nothing', async () => {
    const { combination } = chosen(['ceramic']);
    const [first = 0] = combination.instalmentsMinor;
    await add('2026-04-09', { kind: 'paid', on: '2026-04-09', amountMinor: 50_000, currency: 'EUR', instalment: 1 });
    const { amountMinor, file } = JSON.parse(
      (await run('request', slug, '--instalment', '1', '--number', '2026-012', '--as-of', '2026-04-20', '--json')).stdout,
    );
    expect([amountMinor, file]).toEqual([first - 50_000, `proposals/${slug}/outbox/request-2026-012.pdf`]);
    expect(words('outbox/request-2026-012.pdf')).toMatch(/Paid of it so far +€500\.00/);
    await add('2026-04-21', { kind: 'paid', on: '2026-04-21', amountMinor: first - 50_000, currency: 'EUR', instalment: 1 });
    expect((await run('request', slug, '--instalment', '1', '--as-of', '2026-04-22')).stderr).toBe(
      `error[cli/instalment-paid]: instalment 1 of ${slug} is paid\n  to mend: what is open: leafwright statement ${slug}\n\n1 error. Nothing was requested.\n`,
    );
  });

  test('the statement adds up: due, paid and open, by instalment and by date', async () => {
    const { chosen: said, combination } = chosen(['ceramic']);
    const made = JSON.parse((await run('statement', slug, '--as-of', '2026-05-12', '--json')).stdout);
    const sum = (key: string): number =>
      made.instalments.reduce((total: number, one: Record<string, number>) => total + (one[key] ?? 0), 0);
    expect([sum('amountMinor'), sum('paidMinor'), sum('openMinor')]).toEqual([
      said.totalMinor,
      combination.instalmentsMinor[0],
      said.totalMinor - (combination.instalmentsMinor[0] ?? 0),
    ]);
    const text = words(`outbox/statement-2026-05-12.pdf`);
    const dates = [...text.matchAll(/^(\d+ April 2026) /gm)].map(([, day]) => day);
    expect(dates).toEqual(['2 April 2026', '9 April 2026', '20 April 2026', '21 April 2026']);
    const open = new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'EUR' }).format(
      (said.totalMinor - (combination.instalmentsMinor[0] ?? 0)) / 100,
    );
    expect(text).toMatch(new RegExp(`21 April 2026 +Payment for instalment 1 .*${open.replace('.', '\\.')}`));
  });

  test('several instalments in one paper: one number, one entry, one amount to pay', async () => {
    const [, second = 0, third = 0] = chosen(['ceramic']).combination.instalmentsMinor;
    const made = await run('request', slug, '--instalment', '3,2', '--as-of', '2026-05-13');
    expect([made.status, made.stderr]).toEqual([0, '']);
    expect(made.stdout).toContain(`Instalments 2 and 3 of 3 are requested under ${slug}-2-3, due 2026-05-27`);
    expect(made.stdout).toContain(`leafwright pay ${slug} --instalment 2 --amount ${(second / 100).toFixed(2)} and leafwright pay ${slug}`);
    expect(readEntries(folder).at(-1)).toMatchObject({
      ...{ kind: 'requested', number: `${slug}-2-3`, instalment: 2, amountMinor: second },
      also: [{ instalment: 3, amountMinor: third }],
    });
    const text = words(`outbox/request-${slug}-2-3.pdf`);
    const money = new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'EUR' }).format((second + third) / 100);
    expect(text).toContain('Instalment 3 of 3');
    expect(text).toMatch(new RegExp(`To pay now +${money.replace('.', '\\.')}`));
    expect((await run('request', slug, '--instalment', '3', '--as-of', '2026-05-14')).stderr).toContain('error[cli/instalment-requested]');
    const { movements } = JSON.parse((await run('statement', slug, '--as-of', '2026-05-14', '--json')).stdout);
    expect(movements.slice(-2).map(({ kind, instalment }: Record<string, unknown>) => [kind, instalment])).toEqual([
      ['requested', 2],
      ['requested', 3],
    ]);
  });

  test('after a cancellation no instalment is asked for, and the statement says what it left due', async () => {
    await add(
      '2026-05-20',
      { kind: 'cancelled', on: '2026-05-20', stage: 'ordered', dueMinor: 60_000, currency: 'EUR' },
      { reason: 'They move abroad.' },
    );
    expect((await run('request', slug, '--instalment', '2', '--as-of', '2026-05-21')).stderr).toBe(
      `error[cli/order-closed]: ${slug} was cancelled on 2026-05-20
  to mend: what is still open: leafwright statement ${slug}

1 error. Nothing was requested.
`,
    );
    expect((await run('statement', slug, '--as-of', '2026-05-21')).status).toBe(0);
    const text = words('outbox/statement-2026-05-21.pdf');
    expect(text).toMatch(/Due by the stage reached, cancelled on 20 May 2026 +€600\.00/);
    expect(text).toContain('To be returned to you');
    expect(text).not.toContain('They move abroad');
  });
});
