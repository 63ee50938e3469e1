/**
 * Kills a process at random moments while it adds entries with sealed words and files, issues revisions, some with a sealed
 * reason, hands a table over, makes editions of its papers, and erases a person, over and over. After each kill: what was told as done is there; nothing but what a run left undone is found; the next run
 * finishes it, and then nothing is found at all.
 *
 *     npx node tests/record/kill-many.mjs 1000 [seed]
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  addEntry,
  eraseRecords,
  finishInterrupted,
  issueRevision,
  makeEdition,
  readEntries,
  sha256Hex,
  verifyProposal,
  withLock,
} from '../../src/record/index.ts';

const shown = 'proposals/tarrow';
const killsPerProposal = 20;
/** A life ends so many acts after its begin, and so long after that: as many acts on a slow machine as on a fast one. */
const mostActs = 8;
const longestMs = 40;

/** Numbers from 0 to 1 that follow from a seed. @source Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003), 13, 17, 5 */
function chanceFrom(seed) {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const at = '2027-03-01T09:00:00Z';
const random = () => crypto.getRandomValues(new Uint8Array(16));

/** Hands the table over where it was not yet; else makes the next edition of its papers. */
async function papers(place) {
  const { n: of } = readEntries(place.folder).findLast(({ kind }) => kind === 'hand-over') ?? {};
  if (of === undefined)
    return addEntry(place, () => ({
      body: {
        ...{
          kind: 'hand-over',
          on: '2027-03-01',
          piece: 'RS-2027-01',
          finishedOn: '2027-02-20',
          finish: 'hardwax-oil',
          asBuilt: [],
          photographs: [],
        },
        acceptance: { inspected: true, defects: [], signed: 'left-unsigned' },
      },
    }));
  const make = async (edition, token) =>
    ['in/care.yaml', 'data/care.json', 'care/index.html', 'label/label.svg', 'papers/index.html', 'papers-other/index.html'].map(
      (path) => ({
        path,
        bytes: Buffer.from(`${path} ${edition} ${token} `.repeat(200)),
      }),
    );
  return makeEdition({ ...place, proposal: 'tarrow', program: 'p', on: '2027-03-01', of, random: random(), make });
}

/** One thing that a maker does, by chance. Gives how many entries the record then has. */
async function act(folder, chance) {
  const place = { folder, shown, at, zone: 'UTC' };
  const what = chance();
  const n = readEntries(folder).length + 1;
  if (what < 0.45) {
    const bytes = Buffer.alloc(1 + Math.floor(chance() * 4000), n);
    const path = `records/files/${n}-scan.png`;
    const body = {
      kind: 'attached',
      on: '2027-03-01',
      to: 1,
      what: 'other',
      file: { path, bytes: bytes.length, sha256: sha256Hex(bytes) },
    };
    const note = {
      body: { kind: 'note', on: '2027-03-01', how: 'visit' },
      sealed: { data: { person: 'maren', words: `word ${n}` }, random: random() },
    };
    return addEntry(place, () =>
      n === 1 || what < 0.3 ? note : { body, sealed: { data: { words: 'why' }, random: random() }, files: [{ path, bytes }] },
    );
  }
  if (what < 0.68) {
    const revision = `r${1 + readEntries(folder).filter(({ kind }) => kind === 'issued').length}`;
    const page = Array.from({ length: 6 }, (_, i) => ({ path: `page-${i}.html`, bytes: Buffer.alloc(3000, i) }));
    const inputs = [{ path: `${shown}/proposal.yaml`, bytes: Buffer.from(`revision: ${revision}`) }];
    const data = [{ path: 'client.json', bytes: Buffer.from('{}') }];
    const insisted = what < 0.56 ? { insisted: { codes: ['cli/price-below-floor'], because: `why ${n}`, random: random() } } : {};
    const make = async () => page;
    return issueRevision({ ...place, ...insisted, proposal: 'tarrow', revision, random: random(), program: 'p', inputs, data, make });
  }
  if (what < 0.88) return papers(place);
  return eraseRecords(place, { person: 'maren', names: [], on: '2027-03-01' });
}

/** The process that is killed: acts without end, and says after each act how far the record is. */
async function work(folder, seed) {
  const chance = chanceFrom(seed);
  process.stdout.write('ready\n');
  for (;;) {
    const { problems } = await act(folder, chance);
    if (problems.some(({ code }) => code !== 'record/nothing-to-erase')) {
      process.stdout.write(`failed ${JSON.stringify(problems)}\n`);
      return;
    }
    process.stdout.write(`done ${readEntries(folder).length}\n`);
  }
}

const chainOf = (folder) => {
  try {
    return readFileSync(join(folder, 'decisions.jsonl'), 'utf8');
  } catch {
    return '';
  }
};

/** Kills one process; gives what is wrong then, and whether the kill left something undone. */
async function killOnce(folder, chance) {
  const before = chainOf(folder);
  const child = spawn(process.execPath, [fileURLToPath(import.meta.url), '--work', folder, String(Math.floor(chance() * 2 ** 31))], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [acts, restMs] = [Math.floor(chance() * (mostActs + 1)), chance() * longestMs];
  let told = '';
  let isDue = false;
  child.stdout.on('data', (data) => {
    told += data;
    if (isDue || told.split('\n').length - 2 < acts) return;
    isDue = true;
    setTimeout(() => child.kill('SIGKILL'), restMs);
  });
  await once(child, 'close');
  const acknowledged = Math.max(0, ...[...told.matchAll(/^done (\d+)\n/gm)].map((match) => Number(match[1])));

  const wrong = [];
  if (told.includes('failed')) wrong.push(told.slice(told.indexOf('failed')));
  const found = verifyProposal(folder, shown, 'tarrow').problems;
  for (const { code, title } of found) if (code !== 'record/unfinished') wrong.push(`before recovery: ${title}`);
  const recovered = await withLock(folder, 'the records', async () => finishInterrupted(folder, shown));
  if ('problem' in recovered) wrong.push(recovered.problem.title);
  else for (const { title } of recovered.value.problems) wrong.push(`recovery: ${title}`);
  for (const { title } of verifyProposal(folder, shown, 'tarrow').problems) wrong.push(`after recovery: ${title}`);
  if (!chainOf(folder).startsWith(before)) wrong.push('an entry that was there has changed');
  if (readEntries(folder).length < acknowledged) wrong.push(`entry ${acknowledged} was told as done and is not there`);
  const entries = readEntries(folder);
  return { wrong, entries: entries.length, editions: entries.filter(({ kind }) => kind === 'care').length, leftUndone: found.length > 0 };
}

async function killMany(times, seed) {
  const chance = chanceFrom(seed);
  const sums = { kills: 0, leftUndone: 0, entries: 0, editions: 0 };
  for (let i = 0; i < times; ) {
    const workspace = mkdtempSync(join(tmpdir(), 'leafwright-kill-'));
    const folder = join(workspace, shown);
    mkdirSync(folder, { recursive: true });
    let [entries, editions] = [0, 0];
    for (let k = 0; k < killsPerProposal && i < times; k += 1, i += 1) {
      const after = await killOnce(folder, chance);
      sums.kills += 1;
      sums.leftUndone += after.leftUndone ? 1 : 0;
      ({ entries, editions } = after);
      if (after.wrong.length === 0) continue;
      console.error(`kill ${i + 1} of seed ${seed}, kept in ${workspace}:\n  ${after.wrong.join('\n  ')}`);
      return 1;
    }
    sums.entries += entries;
    sums.editions += editions;
    rmSync(workspace, { recursive: true, force: true });
  }
  console.log(
    `${sums.kills} kills, ${sums.leftUndone} of them left something undone, ${sums.entries} entries stand, ${sums.editions} of them editions; verify was content after each`,
  );
  return 0;
}

const [first = '30', ...rest] = process.argv.slice(2);
if (first === '--work') await work(rest[0], Number(rest[1]));
else process.exitCode = await killMany(Number(first), Number(rest[0] ?? 20270301));
