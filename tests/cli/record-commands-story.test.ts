import { expect, test } from 'vitest';
import { letterText, letterTo } from './answers.ts';
import { openRecordBench } from './record-bench.ts';

/**
 * The first of the worked commissions, played with the commands. Amounts by hand: 5,290.00 net and 20 % make 6,348.00; 40, 40
 * and 20 per cent of it are 2,539.20, 2,539.20 and 1,269.60. People, prices and tax are invented.
 */
test('two who must both say yes: from a telephone note to the accepted table', async () => {
  const bench = openRecordBench();
  const stage = async (day: string): Promise<{ readonly stage: string; readonly next: string; readonly [key: string]: unknown }> => {
    const { schema, proposals } = JSON.parse((await bench.run('status --json', day)).out);
    expect(schema).toBe('leafwright/status/1');
    return proposals[0];
  };

  expect(await stage('2027-02-10')).toMatchObject({ stage: 'enquiry', next: 'issue the first revision', waitingFor: [], openMinor: 0 });
  await bench.run(['note', 'tarrow', "C's weight with A's air", '--who', 'idris', '--how', 'telephone'], '2027-02-10');
  expect(await stage('2027-02-10')).toMatchObject({ next: 'answer note 1', openNotes: [1] });
  await bench.run(['note', 'tarrow', '--settle', '1', '--as', 'draft', 'thinner legs, wider set'], '2027-02-11');

  const first = await bench.issue('r1');
  expect(await stage('2027-02-12')).toMatchObject({
    stage: 'proposed',
    revision: 'r1',
    validUntil: '2027-03-20',
    next: 'wait for the answer of idris and maren since 2027-02-11',
    waitingFor: [
      { person: 'idris', name: 'Idris Quill', since: '2027-02-11' },
      { person: 'maren', name: 'Maren Tollefsen', since: '2027-02-11' },
    ],
  });

  /** They disagree: nothing is approved, nothing can be confirmed. */
  await bench.record(letterText(letterTo(first, 'maren', { date: '2027-02-11' })), '--as-of', '2027-02-11');
  await bench.record(letterText(letterTo(first, 'idris', { design: 'B', on: [], date: '2027-02-11' })), '--as-of', '2027-02-11');
  expect(await stage('2027-02-11')).toMatchObject({
    stage: 'proposed',
    disagree: true,
    next: 'issue the next revision: idris and maren disagree',
  });
  expect((await bench.run('confirm tarrow', '2027-02-11')).code).toBe(1);

  /** The next revision: what was said of the first counts no more. */
  const second = await bench.issue('r2');
  expect(await stage('2027-02-13')).toMatchObject({ stage: 'proposed', disagree: false, revision: 'r2' });
  for (const person of ['maren', 'idris'])
    await bench.record(letterText(letterTo(second, person, { date: '2027-02-20' })), '--as-of', '2027-02-20');
  expect(await stage('2027-02-20')).toMatchObject({ stage: 'approved', next: 'confirm' });

  /** Approved is not ordered; confirmed is not ordered; the first instalment makes the order. */
  expect((await bench.run('stage tarrow timber-bought', '2027-02-21')).code).toBe(1);
  expect((await bench.run('confirm tarrow --hold 2027-03-10', '2027-02-21')).code).toBe(0);
  expect(await stage('2027-02-22')).toMatchObject({
    stage: 'approved',
    heldUntil: '2027-03-10',
    openMinor: 634_800,
    next: 'request instalment 1',
  });
  expect((await stage('2027-03-11'))['hasRunOut']).toBe(true);
  expect((await bench.run('pay tarrow --instalment 1 --amount 2539.20 --on 2027-03-01', '2027-03-02')).out).toContain(
    'this makes the order, on 2027-03-01',
  );
  expect(await stage('2027-03-02')).toMatchObject({ stage: 'ordered', openMinor: 380_880, next: 'buy the timber' });

  for (const [day, reached, next] of [
    ['2027-03-05', 'timber-bought', 'cut the parts'],
    ['2027-03-20', 'cut', 'glue up'],
    ['2027-03-28', 'glued', 'request instalment 2'],
  ] as const) {
    expect((await bench.run(`stage tarrow ${reached}`, day)).code).toBe(0);
    expect(await stage(day)).toMatchObject({ stage: reached, next });
  }
  await bench.run('pay tarrow --instalment 2 --amount 2539.20', '2027-04-01');
  await bench.run('stage tarrow finished', '2027-04-20');
  await bench.run(['stage', 'tarrow', 'delivered', '--insist', 'without papers'], '2027-05-02');
  expect(await stage('2027-05-02')).toMatchObject({ stage: 'delivered', openMinor: 126_960, next: 'request instalment 3' });
  await bench.run('pay tarrow --instalment 3 --amount 1269.60', '2027-05-05');
  expect((await bench.run(['stage', 'tarrow', 'accepted', '--insist', 'without papers'], '2027-05-06')).out).not.toContain('Next:');
  expect(await stage('2027-05-06')).toMatchObject({ stage: 'accepted', openMinor: 0, next: '' });

  expect((await bench.run('status', '2027-05-06')).out).toBe(
    '  proposal   stage      valid until   money open   notes\n  tarrow     accepted\n      nothing to do',
  );
  expect(bench.problems()).toEqual([]);
  expect(bench.read('decisions.jsonl')).not.toMatch(/Tollefsen|Quill|thinner/);
});

test('status fits 80 columns with long names and large sums', async () => {
  const bench = openRecordBench();
  await bench.approved({ proposal: 'tarrow' });
  await bench.run('confirm tarrow');
  await bench.run(['note', 'tarrow', 'x'.repeat(300), '--who', 'maren']);
  const { out } = await bench.run('status', '2027-06-01');
  expect(out.split('\n').every((line) => line.length <= 80)).toBe(true);
  expect(out).toContain('2027-03-15, over');
});
