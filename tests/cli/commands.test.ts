import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commands } from '../../src/cli/commands.ts';
import { figuresSchema } from '../../src/figures/index.ts';
import { type Ended, runIn } from './run.ts';

const launcher = fileURLToPath(new URL('../../src/cli/leafwright.mjs', import.meta.url));

let workspace = '';
const at = (...parts: string[]): string => join(workspace, ...parts);
const read = (...parts: string[]): string => readFileSync(at(...parts), 'utf8');

/** Runs a command in the workspace, for a caller that is no terminal. */
const run = (...args: string[]): Promise<Ended> => runIn(workspace, args);

/** Changes a text in a file for the length of one check. */
async function withChange(path: string, from: string | RegExp, to: string, work: () => Promise<void>): Promise<void> {
  const before = read(path);
  const after = before.replace(from, to);
  expect(after).not.toBe(before);
  writeFileSync(at(path), after);
  try {
    await work();
  } finally {
    writeFileSync(at(path), before);
  }
}

/** Every file below a folder with the digest of its bytes. */
function digests(folder: string): Readonly<Record<string, string>> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .map((file) => [file.slice(folder.length + 1).replaceAll('\\', '/'), createHash('sha256').update(readFileSync(file)).digest('hex')]),
  );
}

/** One workspace for all, in the order in which a maker works. */
beforeAll(() => {
  workspace = mkdtempSync(join(tmpdir(), 'leafwright-cli-'));
});
afterAll(() => rmSync(workspace, { recursive: true, force: true }));

describe('a new maker, from nothing to an issued proposal', () => {
  const proposal = 'proposals/oak/proposal.yaml';

  test('outside a workspace every command says how to begin', async () => {
    for (const args of [['check'], ['build'], ['figures', 'oak'], ['issue', 'oak'], ['verify'], ['preview']]) {
      const { status, stderr, stdout } = await run(...args);
      expect([status, stdout, stderr]).toEqual([
        2,
        '',
        'leafwright: there is no folder proposals/ here or above\nto begin here: leafwright new my-first-table\n',
      ]);
    }
  });

  test.each(['dining', 'pedestal', 'desk'])(
    'new --from %s gives a proposal without errors, dated today, with no one in it',
    async (starter) => {
      const slug = starter === 'dining' ? 'oak' : starter;
      const { status, stdout, stderr } = await run('new', slug, '--from', starter, '--as-of', '2027-02-14');
      expect([status, stderr]).toEqual([0, '']);
      expect(stdout.trim().split('\n').at(-1)).toBe(
        `Next: write your client, room and wishes into proposals/${slug}/proposal.yaml, then: leafwright check ${slug}`,
      );
      const text = read('proposals', slug, 'proposal.yaml');
      expect(text).toMatch(/^ {2}id: r1$/m);
      expect(text).toMatch(/^ {2}date: "?2027-02-14"?$/m);
      expect(text).toMatch(/^ {2}validUntil: "?2027-03-16"?$/m);
      // Days of the worked example keep their distance to its revision: none of them has passed when it is begun.
      const days = [...text.matchAll(/(by|lastDay|surveyedOn): "?(\d{4}-\d\d-\d\d)/g)];
      expect(days.map(([, key, day]) => `${key} ${day}`)).toEqual(
        {
          dining: ['surveyedOn 2027-01-04', 'by 2027-05-09', 'lastDay 2027-04-21', 'lastDay 2027-04-21', 'lastDay 2027-03-03'],
          pedestal: ['surveyedOn 2027-01-10', 'by 2027-04-26', 'lastDay 2027-04-08', 'lastDay 2027-03-18'],
          desk: ['surveyedOn 2027-01-05', 'by 2027-02-28', 'by 2027-03-21', 'lastDay 2027-03-14', 'lastDay 2027-04-04'],
        }[starter],
      );
      expect(text).not.toMatch(/^invented:/m);
      for (const name of readdirSync(at('proposals', slug), { recursive: true, encoding: 'utf8' }).filter((one) => one.endsWith('.yaml')))
        expect(read('proposals', slug, name), name).not.toMatch(
          /Maren|Idris|Tollefsen|Quill|Odile|Bram|Farrant|Petra|Tobiah|Lindqvaar|\bWren\b/,
        );
      expect(text.split('\n').filter((line) => /^\s*#/.test(line)).length).toBeGreaterThan(4);
      const checked = await run('check', slug, '--as-of', '2027-02-14');
      expect([checked.status, checked.stderr.match(/^error/m)]).toEqual([0, null]);
      for (const code of ['placeholder', 'invented-maker', 'invented-rates']) expect(checked.stderr).toContain(`warning[cli/${code}]`);
      expect(stdout).toContain(`templates/rates/${{ dining: 'runa', pedestal: 'runa-usd', desk: 'runa-trade' }[starter]}.yaml`);
    },
  );

  test('new writes what git must know, and never over anything', async () => {
    expect(read('.gitignore')).toContain('dist/\n.cache/\n');
    expect(read('.gitattributes')).toBe(
      'proposals/*/handed-over/** -text\nproposals/*/issued/** -text\nproposals/*/records/** -text\nproposals/*/decisions.jsonl -text\n',
    );
    expect(await run('new', 'oak')).toMatchObject({ status: 2, stderr: expect.stringContaining('there is a proposal oak already') });
    expect(await run('new', 'OAK')).toMatchObject({ status: 2, stderr: expect.stringContaining('for example: leafwright new oak') });
    expect(await run('new', 'con')).toMatchObject({ status: 2 });
    expect(await run('new', '../elsewhere')).toMatchObject({ status: 2, stderr: expect.stringContaining('leafwright new elsewhere') });
    expect((await run('new', 'ash', '--from', 'dinning')).stderr).toContain('did you mean dining?');
    rmSync(at('proposals/pedestal'), { recursive: true });
    rmSync(at('proposals/desk'), { recursive: true });
  });

  test('is not issued while what a starter wrote for somebody stands: each place is named, with its line', async () => {
    for (const starter of ['dining', 'pedestal', 'desk']) {
      const slug = `not-yet-${starter}`;
      await run('new', slug, '--from', starter, '--as-of', '2027-02-14');
      const lines = read('proposals', slug, 'proposal.yaml').split('\n');
      const marked = /Client's name|Person \d|Street, town|name@example\.invalid|Name of the client behind/;
      const standing = lines.flatMap((line, i) => (marked.test(line) ? [i + 1] : []));
      const { status, stderr } = await run('issue', slug, '--as-of', '2027-02-15');
      const refused = stderr.split('\n\n').filter((block) => block.startsWith('error[cli/placeholder]'));
      const named = [...refused.join('\n').matchAll(/proposal\.yaml:(\d+):/g)].map(([, line]) => Number(line));
      expect([status, existsSync(at('proposals', slug, 'issued')), refused.length]).toEqual([1, false, 1]);
      expect(refused[0]).toMatch(/\^ found Client's name\n {2}to mend: write the names/);
      // A text over several lines is named by its first.
      const begin = (line: number): number => named.filter((one) => one <= line && line - one < 6).at(-1) ?? 0;
      expect(
        standing.filter((line) => !named.includes(line) && !/: [>|]-?$/.test(lines[begin(line) - 1] ?? '')),
        starter,
      ).toEqual([]);
      rmSync(at('proposals', slug), { recursive: true });
    }
  });

  test('what was invented is told until the maker has written their own', async () => {
    const told = async (): Promise<readonly string[]> =>
      [...(await run('check', 'oak', '--as-of', '2027-02-14')).stderr.matchAll(/\[cli\/([a-z-]+)\]/g)].map((one) => one[1] ?? '');
    expect((await told()).toSorted()).toEqual(['invented-maker', 'invented-rates', 'placeholder']);
    await withChange('templates/maker.yaml', 'invented: true', 'invented: false', () =>
      withChange('templates/rates/runa.yaml', 'hour: "57.93"', 'hour: "61.00"', () =>
        withChange(
          proposal,
          /Client's name|Person (\d) who decides|Street, town|name@example\.invalid/g,
          'Ada$1@harbour.example.invalid',
          async () => {
            // Rates of one's own have quotations of their own, and those of the starter have run out.
            expect(new Set(await told())).toEqual(new Set(['quotation-out']));
            await withChange('templates/rates/runa.yaml', /quotedOn: .*/g, 'quotedOn: 2027-02-01', async () =>
              expect(await told()).toEqual([]),
            );
          },
        ),
      ),
    );
    writeFileSync(
      at(proposal),
      read(proposal)
        .replace("Client's name", 'Ada and Bo Harbour')
        .replaceAll(/Person (\d) who decides/g, 'Ada Harbour the $1st')
        .replaceAll('Street, town', '2 Quay, Tarrowby')
        .replaceAll('name@example.invalid', 'ada@harbour.example.invalid'),
    );
  });

  test('new leaves nothing of a run that was cut off', async () => {
    mkdirSync(at('proposals/.making-ash/variants'), { recursive: true });
    writeFileSync(at('proposals/.making-ash/variants/z.yaml'), 'name: left over');
    expect((await run('new', 'ash')).status).toBe(0);
    expect(readdirSync(at('proposals/ash/variants'))).toEqual(['a.yaml', 'b.yaml', 'c.yaml']);
    expect(existsSync(at('proposals/.making-ash'))).toBe(false);
    rmSync(at('proposals/ash'), { recursive: true });
  });

  test('a slip is shown at its line, nothing is written, exit 1', async () => {
    await withChange(proposal, 'use: dining', 'use: dinning', async () => {
      const { status, stdout, stderr } = await run('build');
      expect([status, stdout]).toEqual([1, '']);
      expect(stderr).toContain('proposals/oak/proposal.yaml:');
      expect(stderr).toContain('Nothing was written.');
      expect(stderr).not.toContain('\u001b[');
      expect(existsSync(at('dist'))).toBe(false);
      const { problems } = JSON.parse((await run('check', '--json')).stdout).proposals[0];
      expect(problems[0]).toMatchObject({ severity: 'error', place: { file: proposal } });
      expect((await run('issue', 'oak')).stderr).toContain('Nothing was issued.');
      expect((await run('figures', 'oak')).stderr).toContain('Nothing was computed.');
    });
  });

  test('figures --json is the contract, of all designs or one', async () => {
    const figures = JSON.parse((await run('figures', 'oak', '--json')).stdout);
    expect(figuresSchema.parse(figures)).toMatchObject({ schema: 'leafwright/figures/1', proposal: 'oak', revision: 'r1' });
    expect(Object.keys(figures.variants)).toEqual(['A', 'B', 'C']);
    expect(Object.keys(JSON.parse((await run('figures', 'oak', '--json', '--variant', 'b')).stdout).variants)).toEqual(['B']);
    expect((await run('figures', 'oak', '--variant', 'F')).stderr).toContain('there are A, B, C');
    expect((await run('figures', 'oak', '--revision', 'r7')).stderr).toContain('oak has no revision r7');
    expect((await run('figures', 'oak')).stdout.split('\n').length).toBeGreaterThan(4);
  });

  test('a table that is refused still shows its figures, without a price that rests on an error', async () => {
    await withChange('proposals/oak/table.yaml', /^wood: .*$/m, 'wood: iroko', async () => {
      const { status, stdout, stderr } = await run('figures', 'oak', '--json');
      expect(status).toBe(1);
      expect(stderr).toContain('error[takeoff/no-timber]');
      expect(stderr).toContain('What could be computed is printed; nothing can be built or issued.');
      const { variants } = figuresSchema.parse(JSON.parse(stdout));
      expect(variants['A']?.massKg).toBeGreaterThan(30);
      expect(variants['A']?.tipping['standing']?.inside50?.loadN).toBeGreaterThan(500);
      expect(variants['A']).not.toHaveProperty('price');
      expect((await run('figures', 'oak')).stdout).toContain('no price');
    });
  });

  test('a design that is taken out is gone', async () => {
    for (const id of ['b', 'c']) rmSync(at('proposals/oak/variants', `${id}.yaml`));
    expect((await run('check')).stdout).toMatch(/oak +r1 +1 design /);
  });

  test('build: drafts are in the workshop, and nothing at all for the client', async () => {
    const { status, stdout } = await run('build', '--as-of', '2027-02-15');
    expect(status).toBe(0);
    expect(stdout).toMatch(/oak +draft of r1 +made anew +workshop\/oak\//);
    expect(stdout.trim().split('\n').at(-1)).toContain('Next: open dist/workshop/index.html');
    expect(Object.keys(digests(at('dist'))).filter((path) => path.startsWith('client/'))).toEqual([]);
    expect(read('dist/workshop/oak/draft/index.html')).not.toContain('Maren');
    expect(readdirSync(workspace).sort()).toEqual(['.cache', '.gitattributes', '.gitignore', 'dist', 'proposals', 'templates']);
  });

  test('build again: the same bytes, nothing made; also without the cache', async () => {
    const first = digests(at('dist'));
    const { files } = JSON.parse((await run('build', '--json', '--as-of', '2027-02-15')).stdout);
    expect((await run('build', '--as-of', '2027-02-15')).stdout).toContain('unchanged');
    expect(files.map((file: { path: string }) => file.path.replace('dist/', '')).sort()).toEqual(Object.keys(first).sort());
    expect(digests(at('dist'))).toEqual(first);
    rmSync(at('.cache'), { recursive: true });
    expect((await run('build', '--as-of', '2027-02-15')).stdout).toContain('made anew');
    expect(digests(at('dist'))).toEqual(first);
  });

  test('issue freezes it once; build publishes the very files, with the state filled in', async () => {
    expect(await run('issue', 'oak', '--revision', 'r2')).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('the draft of oak is r1, not r2'),
    });
    const outcome = await run('issue', 'oak', '--as-of', '2027-02-15', '--json');
    const issued = JSON.parse(outcome.stdout);
    expect([outcome.status, issued.revision]).toEqual([0, 'r1']);
    expect(await run('issue', 'oak')).toMatchObject({ status: 1, stderr: expect.stringContaining('record/already-issued') });

    const frozen = digests(at('proposals/oak/issued/r1/out'));
    expect(read('proposals/oak/issued/r1/out/index.html')).toContain(issued.fingerprint.slice(0, 5));
    expect((await run('build', '--as-of', '2027-02-16')).status).toBe(0);
    const published = digests(at('dist/client', issued.token));
    expect(Object.keys(published)).toEqual(Object.keys(frozen));
    expect(Object.keys(frozen).filter((path) => published[path] !== frozen[path])).toEqual(['index.html']);
    const empty = '<!--leafwright:state--><!--/leafwright:state-->';
    const slot = /<!--leafwright:state-->[\s\S]*<!--\/leafwright:state-->/;
    expect(read('dist/client', issued.token, 'index.html').replace(slot, empty)).toBe(read('proposals/oak/issued/r1/out/index.html'));
    expect(JSON.parse((await run('figures', 'oak', '--revision', 'r1', '--json')).stdout).revision).toBe('r1');
    expect(await run('verify')).toMatchObject({ status: 0, stdout: expect.stringContaining('ends at entry 1') });
  });

  test('a change after it was issued is told, and touches nothing that was', async () => {
    const frozen = digests(at('proposals/oak/issued'));
    await withChange(proposal, 'title: Dining table', 'title: Longer dining table', async () => {
      expect((await run('check')).stderr).toContain('these files were changed after r1 was issued');
      expect((await run('build')).status).toBe(0);
    });
    expect(digests(at('proposals/oak/issued'))).toEqual(frozen);
  });

  test('a second revision takes the place of the first, whose page says so', async () => {
    await withChange(proposal, /^ {2}id: r1$/m, '  id: r2', async () => {
      expect((await run('issue', 'oak', '--as-of', '2027-02-20')).status).toBe(0);
      const { proposals } = JSON.parse((await run('build', '--json', '--as-of', '2027-02-21')).stdout);
      const [first, second] = proposals[0].issued;
      expect([first.state, second.state]).toEqual([{ kind: 'superseded', by: 'r2', isOpen: true }, { kind: 'open' }]);
      expect(read('dist/client', first.token, 'index.html')).toContain('A newer proposal has taken the place of this one');
      expect(read('dist/client', second.token, 'index.html')).not.toContain('A newer proposal');
      // The slot of the older page alone leads to the newer one, for the same reader; nothing leads back.
      const naming = (own: { readonly token: string }, other: { readonly token: string }): readonly string[] =>
        Object.keys(digests(at('dist/client', own.token))).filter((path) => read('dist/client', own.token, path).includes(other.token));
      expect([naming(first, second), naming(second, first)]).toEqual([['index.html'], []]);
      expect(read('dist/client', first.token, 'index.html').split(second.token)).toHaveLength(2);
    });
    expect((await run('verify', 'oak')).stdout).toContain('ends at entry 2');
  });

  test('verify names a flipped byte and exits 1; build still works', async () => {
    const scope = readdirSync(at('proposals/oak/issued/r1/out')).find((name) => name.endsWith('.pdf')) ?? '';
    const path = at('proposals/oak/issued/r1/out', scope);
    const before = readFileSync(path);
    const after = Buffer.from(before);
    after[1000] = (after[1000] ?? 0) ^ 1;
    writeFileSync(path, after);
    const { status, stderr } = await run('verify');
    expect([status, stderr]).toEqual([1, expect.stringContaining(`proposals/oak/issued/r1/out/${scope} was changed after it was issued`)]);
    expect(JSON.parse((await run('verify', '--json')).stdout)).toMatchObject({ schema: 'leafwright/verify/1', proven: false });
    writeFileSync(path, before);
    expect((await run('verify')).status).toBe(0);
  });

  test('another workspace is named with --workspace', async () => {
    const other = mkdtempSync(join(tmpdir(), 'leafwright-cli-'));
    try {
      cpSync(at('proposals'), join(other, 'proposals'), { recursive: true });
      expect((await run('check', '--workspace', other)).status).toBe(0);
      expect((await run('check', '--workspace', join(other, 'nowhere'))).stderr).toContain('has no folder proposals/');
    } finally {
      rmSync(other, { recursive: true, force: true });
    }
  });
});

describe('preview', () => {
  test('serves the workshop, builds anew on a change, keeps the last good pages on a slip, ends on a signal', async () => {
    const child = spawn(process.execPath, [launcher, 'preview', '--port', '0'], { cwd: workspace, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.setEncoding('utf8').on('data', (text: string) => {
        said += text;
      });
    const until = async (pattern: RegExp): Promise<string> => {
      for (let tries = 0; tries < 400; tries += 1) {
        const found = pattern.exec(said)?.[0];
        if (found !== undefined) return found;
        await new Promise((done) => setTimeout(done, 50));
      }
      throw new Error(`preview never said ${pattern}; it said\n${said}`);
    };
    try {
      const url = await until(/http:\/\/127\.0\.0\.1:\d+\//);
      const page = async (): Promise<string> => (await fetch(`${url}workshop/oak/draft/`)).text();
      expect((await fetch(url)).url).toBe(`${url}workshop/`);
      expect(await page()).toContain('Dining table');
      said = '';
      const before = read('proposals/oak/proposal.yaml');
      writeFileSync(at('proposals/oak/proposal.yaml'), before.replace('title: Dining table', 'title: Table for the long room'));
      await until(/built in/);
      expect(await page()).toContain('Table for the long room');
      said = '';
      writeFileSync(at('proposals/oak/proposal.yaml'), before.replace('use: dining', 'use: dinning'));
      await until(/The pages are as they were\./);
      expect(await page()).toContain('Table for the long room');
      said = '';
      writeFileSync(at('proposals/oak/proposal.yaml'), before);
      await until(/built in/);
      said = '';
      writeFileSync(at('proposals/oak/proposal.yaml'), before.replace('title: Dining table', 'title: Table for the hall'));
      await until(/warning\[cli\/draft-is-issued\][\s\S]*built in/);
      said = '';
      writeFileSync(at('proposals/oak/proposal.yaml'), before.replace('title: Dining table', 'title: Table for the kitchen'));
      await until(/built in/);
      expect(said, 'what was said before is counted, not said again').toMatch(/^3 warnings as before\.\nbuilt in [\d.]+ s\n$/);
      said = '';
      writeFileSync(at('proposals/oak/proposal.yaml'), before);
      await until(/built in/);
      said = '';
      const maker = read('templates/maker.yaml');
      writeFileSync(at('templates/maker.yaml'), maker.replace('name: Runa Stavely', 'name: Another Bench'));
      await until(/built in/);
      expect(await page()).toContain('Another Bench');
      said = '';
      const rates = read('templates/rates/runa.yaml');
      writeFileSync(at('templates/rates/runa.yaml'), 'hour: [');
      await until(/templates\/rates\/runa\.yaml:1:\d+[\s\S]*The pages are as they were\./);
      writeFileSync(at('templates/rates/runa.yaml'), rates);
      writeFileSync(at('templates/maker.yaml'), maker);
    } finally {
      child.kill('SIGTERM');
      expect(await once(child, 'exit')).toEqual([0, null]);
    }
  });

  test('a taken or impossible port is one sentence', async () => {
    expect((await run('preview', '--port', 'http')).stderr).toContain('--port http is no port');
  });
});

describe('every command', () => {
  test.each(commands.map((command) => [command.name]))('%s --help ends in an example that can be followed', async (name) => {
    const { status, stdout, stderr } = await run(name, '--help');
    expect([status, stderr]).toEqual([0, '']);
    const example = /For example:\n\n {2}leafwright (.+)\n/.exec(stdout)?.[1] ?? '';
    expect(example.split(' ')[0]).toBe(name);
    expect((await run('help', name)).stdout).toBe(stdout);
  });
  test('an unknown one, none, the version', async () => {
    expect(await run('isue')).toMatchObject({ status: 2, stderr: expect.stringContaining('did you mean issue?') });
    expect(await run()).toMatchObject({ status: 2, stdout: expect.stringContaining('leafwright COMMAND') });
    expect((await run('--version')).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
