import { mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { fault, openRecordBench } from './record-bench.ts';
import { runHere } from './run.ts';

/** What stands for words and does not hold them, whose words they are, and a clock that runs back. People are invented. */
function fileWith(name: string, bytes: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), 'leafwright-words-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  writeFileSync(join(folder, name), bytes);
  return join(folder, name);
}

test('the name of a file is not what was said in it', async () => {
  const bench = openRecordBench();
  await bench.issue('r1');
  const path = fileWith('letter', Buffer.from('Yes, the round one.'));
  expect(await fault(bench.record(path))).toBe(
    `"${path}" is the name of a file, not what was said\nleafwright record tarrow --file ${path}`,
  );
  expect(await fault(bench.run(['note', 'tarrow', 'post/letter.txt']))).toBe(
    '"post/letter.txt" is the name of a file, not what was said\nthere is no such file here; if you meant one: leafwright note tarrow --file post/letter.txt',
  );
  expect(bench.entries().map(({ kind }) => kind)).toEqual(['issued']);
});

test('plain words are somebody’s, so that they can be erased', async () => {
  const bench = openRecordBench();
  await bench.issue('r1');
  expect(await fault(bench.record('Yes, the round one.'))).toBe(
    'whose words are these?\nsay it: --who idris or --who maren; what somebody else said is a note: leafwright note tarrow --file mail.txt --who "Their Name"',
  );
});

test('words may be longer than a name of a file can be', async () => {
  const bench = openRecordBench();
  const words = 'ж'.repeat(190);
  expect((await bench.run(['note', 'tarrow', words])).code).toBe(0);
  expect(bench.sealed(bench.entries()[0])).toMatchObject({ data: { words } });
});

test('a link to itself and a name that is too long are the maker’s to mend', async () => {
  const bench = openRecordBench();
  const loop = join(bench.workspace, 'loop.pdf');
  symlinkSync(loop, loop);
  const attach = (file: string) => runHere(['attach', 'tarrow', file, '--to', '1', '--workspace', bench.workspace]);
  expect(await attach(loop)).toEqual({
    status: 2,
    stdout: '',
    stderr: `leafwright: ${loop} is a link that leads back to itself (ELOOP)\n`,
  });
  const long = join(bench.workspace, `${'a'.repeat(300)}.pdf`);
  expect((await attach(long)).stderr).toBe(`leafwright: ${long} is longer than the name of a file can be (ENAMETOOLONG)\n`);
});

test('a note takes text alone, without the signs that a terminal obeys', async () => {
  const bench = openRecordBench();
  const binary = fileWith('call.dat', Uint8Array.of(0xff, 0x00, 0x41));
  expect(await fault(bench.run(['note', 'tarrow', '--file', binary]))).toBe(
    `${binary} is no text\nsave it as text in UTF-8, or attach it to a note: leafwright attach --help`,
  );
  expect(await fault(bench.run(['note', 'tarrow', '--file', tmpdir()]))).toBe(
    `there is no file ${tmpdir()}\nname a text file: --file mail.txt`,
  );
  await bench.run(['note', 'tarrow', 'one\r\ntwo\u001b[31m\tthree']);
  const [note] = bench.entries();
  expect(bench.sealed(note)).toMatchObject({ data: { words: 'one\ntwo[31m\tthree' } });
});

test('a clock that runs back makes no earlier day', async () => {
  const bench = openRecordBench();
  await bench.run(['note', 'tarrow', 'first'], '2027-03-05');
  const { err } = await bench.run(['note', 'tarrow', 'second'], '2020-01-01');
  expect(err).toContain('warning[record/clock-back]');
  expect(bench.entries().map((entry) => 'on' in entry && entry.on)).toEqual(['2027-03-05', '2027-03-05']);
});
