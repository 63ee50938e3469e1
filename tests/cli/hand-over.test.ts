/**
 * The hand-over from its draft to the record, as a maker goes through it. Tolerances come from the terms that were agreed (3 mm for
 * length, width and height, 1 mm for the thickness: the maker's own defaults, common practice).
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { recordShown } from '../../src/cli/on-record/workshop-record.ts';
import { readProposal } from '../../src/read/index.ts';
import { filledIn, openOrderedBench } from './hand-over-bench.ts';
import { fault, openRecordBench } from './record-bench.ts';

const day = '2027-07-02';
type Bench = Awaited<ReturnType<typeof openOrderedBench>>;

/** A bench with a sheet that is filled in, and changed as told. */
async function withSheet(...changes: readonly (readonly [string, string])[]): Promise<Bench> {
  const bench = await openOrderedBench();
  await bench.run('hand-over tarrow', day);
  bench.change(...filledIn, ...changes);
  return bench;
}
const handOvers = (bench: Bench) => bench.entries().filter(({ kind }) => kind === 'hand-over');

describe('the sheet', () => {
  test('is drafted with what is known, and nothing is recorded', async () => {
    const bench = await openOrderedBench({}, 2);
    await bench.run('stage tarrow finished --on 2027-06-10', '2027-06-12');
    const before = bench.entries().length;
    const ran = await bench.run('hand-over tarrow --on 2027-07-01', day);
    expect(ran).toEqual({
      code: 0,
      err: '',
      out: [
        'proposals/tarrow/hand-over.yaml is drafted, and nothing is recorded',
        '  piece         RS-2027-01',
        '  to fill in    12 places, marked TODO',
        '  money open    €1,269.60',
        '',
        'Next: fill it in at the delivery, then leafwright hand-over tarrow',
      ].join('\n'),
    });
    expect(bench.sheet()).toContain('finished: 2027-06-10 #');
    expect(bench.sheet()).toContain('delivered: 2027-07-01\n');
    expect(bench.sheet()).toContain('top.length: { built: TODO } # agreed: 2100 mm ± 3 mm, by the agreed terms');
    expect(bench.entries().length).toBe(before);
  });

  test('says what is still to be filled in, at its first line, and is not overwritten', async () => {
    const bench = await openOrderedBench();
    await bench.run('hand-over tarrow', day);
    bench.change(['finished: TODO', 'finished: 2027-06-10']);
    const before = bench.sheet();
    expect(await fault(bench.run('hand-over tarrow --on 2027-07-01', day))).toBe(
      '--on is for the draft, and the sheet is there\nwrite it into proposals/tarrow/hand-over.yaml',
    );
    expect(await fault(bench.run('hand-over tarrow --stored', day))).toBe('--stored goes with --failed\nthe sheet says the rest');
    expect(await fault(bench.run('hand-over tarrow --failed rain', day))).toMatch(/^--failed rain is not known/);
    const ran = await bench.run('hand-over tarrow', day);
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(
      /^error\[read\/to-fill-in\]: 13 places of the sheet are still to be filled in\n {2}proposals\/tarrow\/hand-over\.yaml:6:12 {2}delivered\n/,
    );
    expect(ran.err).toContain('found delivered, finish.product, finish.batch, glueUp.moisture,');
    expect(bench.sheet()).toBe(before);
    expect(handOvers(bench)).toEqual([]);
  });

  test('tells that what was measured after it was drafted need not be written a second time', async () => {
    const bench = await openOrderedBench();
    await bench.run('hand-over tarrow', day);
    const used = 'what leafwright measure recorded is used where its lines are out';
    expect((await bench.run('hand-over tarrow', day)).err).not.toContain(used);
    expect((await bench.run('measure tarrow humidity 48 --at glue-up', day)).code).toBe(0);
    expect((await bench.run('hand-over tarrow', day)).err).toContain(`where it may be left out; ${used}`);
  });

  test('takes over what was measured at the bench where it is silent', async () => {
    const bench = await openOrderedBench();
    await bench.run('measure tarrow moisture 8.9 9.2 9.4 --at glue-up --on 2027-05-02', '2027-05-03');
    await bench.run('measure tarrow humidity 46 --at glue-up --on 2027-05-02', '2027-05-03');
    await bench.run('measure tarrow humidity 51 --at finish --on 2027-06-10', '2027-06-10');
    await bench.run('hand-over tarrow', day);
    expect(bench.sheet()).toContain('# glueUp.moisture: taken from the record: 8.9 %, 9.2 %, 9.4 %');
    bench.change(...filledIn.filter(([from]) => !/moisture|finishing/.test(from)));
    await bench.run('hand-over tarrow', day);
    expect(handOvers(bench)[0]).toMatchObject({
      moisturePercent: [8.9, 9.2, 9.4],
      humidityPercent: { glueUp: 46, finish: 51, delivery: 55 },
    });
  });

  test.each<[string, readonly [string, string], RegExp]>([
    [
      'a size that the table has not',
      ['top.length: {', 'top.lenght: {'],
      /^error\[cli\/hand-over-no-size\]: the ordered table has no size top\.lenght\n {2}proposals\/tarrow\/hand-over\.yaml:\d+:3 {2}asBuilt\.top\.lenght\n[\s\S]*to mend: write top\.length:/,
    ],
    [
      'a tolerance wider than agreed',
      ['height: { built: 744 }', 'height: { built: 744, tolerance: 10 mm }'],
      /^error\[cli\/hand-over-wider\]: the tolerance of height is wider than the one that was agreed\n[\s\S]*found 10 mm\n {2}allowed: at most 3\u202fmm, by the agreed terms/,
    ],
    [
      'a finish that is none',
      ['is: hardwax-oil-ceramic', 'is: hardwax-oil-ceramik'],
      /^(?![\s\S]*another finish)error\[cli\/hand-over-no-finish\][\s\S]*write is: hardwax-oil-ceramic\n[\s\S]*\n1 error and 1 warning/,
    ],
    [
      'a day to come',
      ['delivered: 2027-07-01', 'delivered: 2027-07-03'],
      /cli\/hand-over-to-come[\s\S]*found 2027-07-03\n {2}allowed: at most 2027-07-02/,
    ],
    [
      'a day before the order',
      ['delivered: 2027-07-01', 'delivered: 2027-02-01'],
      /cli\/hand-over-too-early[\s\S]*allowed: 2027-03-01 or later/,
    ],
    [
      'finished after it was brought',
      ['finished: 2027-06-10', 'finished: 2027-07-02'],
      /record\/hand-over-can-not-be\]: this hand-over is of a table that was finished on 2027-07-02[^\n]*\n {2}proposals\/tarrow\/hand-over\.yaml:\d+:\d+ {2}finished\n/,
    ],
    [
      'a yes that was given to the order itself',
      ['height: { built: 744 }', 'height: { built: 752, yes: 2 }'],
      /cli\/hand-over-no-yes\]: entry 2 is a yes to what was ordered\n[\s\S]*found entry 2 is older than the order/,
    ],
    [
      'a photograph that is no picture',
      ['# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [words.jpg]'],
      /cli\/hand-over-no-file\]: this file is no picture, whatever its name says\n[\s\S]*found words\.jpg/,
    ],
    [
      'a moisture with a decimal comma',
      ['moisture: [8.9 %, 9.2 %]', 'moisture: [8,9 %, 9.2 %]'],
      /spec\/not-a-quantity\]: a comma parts a number in two[^\n]*\n[\s\S]*found 8,9 %\n[\s\S]*to mend: write 8\.9 %; or a space/,
    ],
    ['accepted by nobody who decides', ['  # by: idris', '  by: marem'], /cli\/hand-over-nobody[\s\S]*write by: maren/],
    [
      'a photograph that is not there',
      ['# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [front.jpg]'],
      /cli\/hand-over-no-file\]: a file that the sheet names is not there/,
    ],
    [
      'a path that climbs out',
      ['# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [../../front.jpg]'],
      /spec\/bad-text/,
    ],
  ])('is refused with its line: %s', async (_name, change, message) => {
    const bench = await withSheet(change);
    writeFileSync(join(bench.folder, 'words.jpg'), 'no picture');
    const ran = await bench.run('hand-over tarrow', day);
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(message);
    expect(ran.err).toContain('Nothing was recorded.');
    expect(handOvers(bench)).toEqual([]);
  });
});

test('a sheet that is empty says how to get another', async () => {
  const bench = await withSheet();
  writeFileSync(join(bench.folder, 'hand-over.yaml'), '');
  const ran = await bench.run('hand-over tarrow', day);
  expect([ran.code, ran.err]).toEqual([
    1,
    expect.stringMatching(/read\/empty-file[\s\S]*or take it away, and leafwright hand-over tarrow drafts it anew/),
  ]);
  expect(handOvers(bench)).toEqual([]);
});

describe('the entry', () => {
  test('holds the baseline; names and words lie apart; the same again records nothing', async () => {
    const bench = await withSheet(
      ['  # by: idris', '  by: maren'],
      [
        '  # defects:\n  #   - { says: What is wrong, by: 2027-10-15 }',
        '  defects:\n    - { says: A scratch beside the left end, by: 2027-07-20 }',
      ],
      ['# words: What else is to be kept.', 'words: The lift was small.'],
    );
    const ran = await bench.run('hand-over tarrow', day);
    expect([ran.code, ran.err]).toEqual([
      0,
      'warning[record/hand-over-bare]: what a later claim would be measured by is not all there\n  found: missing: photographs before loading\n\n1 warning.\n',
    ]);
    expect(ran.out.split('\n').slice(0, 8)).toEqual([
      'entry 8: piece RS-2027-01 of tarrow is handed over, on 2027-07-01',
      '  finished      2027-06-10, Hardwax oil with a ceramic coat, satin-matt, Tarn Hardwax 41 under Tarn Ceramic, batch A17, C6',
      '  measured      boards 8.9 %, 9.2 %; air 47 % at glue-up, 50 % at finishing, 55 % at delivery',
      '  as built      height 744 mm, agreed 745 mm ± 3 mm'.replaceAll(' mm', '\u202fmm'),
      '                length of the top 2,103 mm, agreed 2,100 mm ± 3 mm'.replaceAll(' mm', '\u202fmm'),
      '                width of the top 820 mm, as agreed'.replaceAll(' mm', '\u202fmm'),
      '                thickness of the top 27.5 mm, agreed 28 mm ± 1 mm'.replaceAll(' mm', '\u202fmm'),
      '  accepted      inspected; 1 defect to put right by 2027-07-20; left unsigned',
    ]);
    expect(ran.out).toContain('  papers        proposals/tarrow/handed-over/1, edition 1, ');
    expect(ran.out).toContain('Next: put defect 1 right by 2027-07-20');
    expect(bench.entries().at(-1)).toMatchObject({ kind: 'care', edition: 1, of: 8 });
    const { n: _n, prev: _prev, at: _at, zone: _zone, sealed: _sealed, ...body } = handOvers(bench)[0] as object as Record<string, unknown>;
    expect(body).toEqual({
      kind: 'hand-over',
      on: '2027-07-01',
      piece: 'RS-2027-01',
      finishedOn: '2027-06-10',
      finish: 'hardwax-oil-ceramic',
      product: 'Tarn Hardwax 41 under Tarn Ceramic',
      batch: 'A17, C6',
      moisturePercent: [8.9, 9.2],
      humidityPercent: { glueUp: 47, finish: 50, delivery: 55 },
      asBuilt: [
        { what: 'height', agreed: 745, built: 744, tolerance: 3, unit: 'mm' },
        { what: 'top.length', agreed: 2100, built: 2103, tolerance: 3, unit: 'mm' },
        { what: 'top.width', agreed: 820, built: 820, tolerance: 3, unit: 'mm' },
        { what: 'top.thickness', agreed: 28, built: 27.5, tolerance: 1, unit: 'mm' },
      ],
      photographs: [],
      person: 'maren',
      acceptance: { inspected: true, defects: [{ by: '2027-07-20' }], signed: 'left-unsigned' },
    });
    expect(bench.sealed(handOvers(bench)[0])).toEqual({
      data: { person: 'maren', words: 'The lift was small.', defects: ['A scratch beside the left end'] },
    });
    expect(bench.read('decisions.jsonl')).not.toMatch(/scratch|lift|Maren/);
    expect((await bench.run('hand-over tarrow', day)).out).toContain('on record already as entry 8');
    expect(handOvers(bench).length).toBe(1);
    bench.change(['A scratch beside', 'A dent beside']);
    expect((await bench.run('hand-over tarrow', day)).err).toContain('error[record/hand-over-again]: tarrow was handed over already');
    bench.change(['A dent beside', 'A scratch beside'], ['built: 744', 'built: 746']);
    expect((await bench.run('hand-over tarrow', day)).err).toContain('error[record/hand-over-again]: tarrow was handed over already');
    expect(bench.problems()).toEqual([]);
  });

  test('with a difference beyond its tolerance needs the entry of a yes', async () => {
    const bench = await withSheet(['built: 2103 mm', 'built: 2103.5 mm']);
    expect((await bench.run('hand-over tarrow', day)).err).toContain(
      'error[record/hand-over-unagreed]: top.length was built beyond its tolerance, and nobody has said yes to it',
    );
    bench.change(['built: 2103.5 mm', 'built: 2103.5 mm, yes: 1']);
    expect((await bench.run('hand-over tarrow', day)).err).toMatch(
      /error\[cli\/hand-over-no-yes\]: entry 1 is nobody's yes\n.*hand-over\.yaml:\d+:\d+ {2}asBuilt\.top\.length\.yes\n[\s\S]*found entry 1 is of the kind issued/,
    );
    await bench.run(['note', 'tarrow', 'Longer is fine.', '--who', 'maren'], day);
    bench.change(['yes: 1', 'yes: 8']);
    const ran = await bench.run('hand-over tarrow', day);
    expect(ran.out).toContain('beyond it; agreed to in entry 8');
    expect(handOvers(bench)[0]).toMatchObject({ asBuilt: [{}, { what: 'top.length', built: 2103.5, yes: 8 }, {}, {}] });
    expect(bench.problems()).toEqual([]);
  });

  test('with another finish than was ordered needs a yes as well', async () => {
    const bench = await withSheet(['  is: hardwax-oil-ceramic', '  is: hardwax-oil']);
    expect((await bench.run('hand-over tarrow', day)).err).toMatch(
      /error\[record\/hand-over-other-finish\]: the top bears another finish than was ordered[\s\S]*found hardwax-oil\n {2}allowed: hardwax-oil-ceramic/,
    );
    await bench.run(['note', 'tarrow', 'Oil alone, then.', '--who', 'idris'], day);
    bench.change(['  is: hardwax-oil #', '  yes: 8\n  is: hardwax-oil #']);
    expect((await bench.run('hand-over tarrow', day)).code).toBe(0);
    expect(handOvers(bench)[0]).toMatchObject({
      finish: 'hardwax-oil',
      otherFinish: [{ on: 'top', ordered: 'hardwax-oil-ceramic', yes: 8 }],
    });
    expect(bench.problems()).toEqual([]);
  });

  test('keeps photographs without place and device, and the signed paper; erasing who signed takes the paper', async () => {
    const bench = await openOrderedBench();
    await bench.run('hand-over tarrow', day);
    mkdirSync(join(bench.folder, 'photographs'));
    const jpeg = await sharp({ create: { width: 40, height: 30, channels: 3, background: '#987' } })
      .withExif({ IFD0: { Make: 'Tarn Optical' }, IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '53/1 20/1 30/1' } })
      .jpeg()
      .toBuffer();
    writeFileSync(join(bench.folder, 'photographs', 'front.jpg'), jpeg);
    writeFileSync(join(bench.folder, 'photographs', 'side.heic'), '\0\0\0\x18ftypheic\0\0\0\0mif1heic');
    writeFileSync(join(bench.folder, 'acceptance.pdf'), '%PDF-1.7 signed at the door');
    bench.change(
      ...filledIn,
      ['# photographs: [photographs/front.jpg, photographs/underside.jpg]', 'photographs: [photographs/front.jpg, photographs/side.heic]'],
      ['signed: false', 'signed: true'],
      ['  # by: idris', '  by: maren'],
      ['  # paper: acceptance.pdf', '  paper: acceptance.pdf'],
    );
    const ran = await bench.run('hand-over tarrow', day);
    expect(ran.err).toContain('warning[cli/photograph-as-it-is]: a photograph is kept with all that its camera wrote into it');
    const entry = handOvers(bench)[0];
    expect(entry).toMatchObject({
      photographs: [{ path: 'records/files/8-before-loading-1.jpg' }, { path: 'records/files/8-before-loading-2.heic' }],
      acceptance: { signed: 'signed', paper: { path: 'records/files/8-acceptance.pdf' } },
    });
    const kept = readFileSync(join(bench.folder, 'records', 'files', '8-before-loading-1.jpg'));
    expect((await sharp(kept).metadata()).exif).toBeUndefined();
    expect(await sharp(kept).raw().toBuffer()).toEqual(await sharp(jpeg).raw().toBuffer());
    expect(bench.problems()).toEqual([]);
    await bench.run('erase tarrow --person maren --yes', day);
    expect(existsSync(join(bench.folder, 'records', 'files', '8-acceptance.pdf'))).toBe(false);
    expect(existsSync(join(bench.folder, 'records', 'files', '8-before-loading-1.jpg'))).toBe(true);
    expect(bench.problems()).toEqual([]);
  });

  test('says what storage until the delivery costs, by the agreed terms alone', async () => {
    const bench = await withSheet(['acceptance:', 'storage: { from: 2027-06-12, until: 2027-06-30 }\nacceptance:']);
    expect((await bench.run('hand-over tarrow', day)).out).toContain(
      '  stored        from 2027-06-12 until 2027-06-30\n  its cost      free of charge until 2027-07-11, by the agreed terms\n',
    );
    expect(handOvers(bench)[0]).toMatchObject({ storage: { from: '2027-06-12', until: '2027-06-30' } });
  });

  test('warns while a balance is open, and says that it was signed without a paper', async () => {
    const bench = await openOrderedBench({}, 2);
    await bench.run('hand-over tarrow', day);
    bench.change(...filledIn, ['signed: false', 'signed: true']);
    const { code, err } = await bench.run('hand-over tarrow', day);
    expect(code).toBe(0);
    expect(err).toContain(
      'warning[record/hand-over-balance]: €1,269.60 of this order is still open\n  to mend: once it is in: leafwright pay tarrow --instalment 3 --amount ...',
    );
    expect(err).toContain('warning[cli/hand-over-no-paper]: it was signed for, and no paper of it is kept');
  });

  test('no number twice in a workspace', async () => {
    const bench = await withSheet();
    mkdirSync(join(bench.workspace, 'proposals', 'other'));
    writeFileSync(join(bench.workspace, 'proposals', 'other', 'hand-over.yaml'), 'piece: rs-2027-01\n');
    expect((await bench.run('hand-over tarrow', day)).err).toMatch(
      /error\[cli\/hand-over-piece-taken\]: another table has the number RS-2027-01\n[\s\S]*found the table of other/,
    );
  });
});

describe('a run that ended between the entry and the papers', () => {
  test('is told, and the same command makes them and adds no second hand-over', async () => {
    const bench = await withSheet();
    await bench.run('hand-over tarrow', day);
    const chain = join(bench.folder, 'decisions.jsonl');
    const lines = readFileSync(chain, 'utf8').trimEnd().split('\n');
    // As if killed: the entry is on the disk, a folder was begun beside, and nothing names it.
    writeFileSync(chain, `${lines.slice(0, -1).join('\n')}\n`);
    renameSync(join(bench.folder, 'handed-over', '1'), join(bench.folder, 'handed-over', '.making-1'));
    const status = JSON.parse((await bench.run('status tarrow --json', day)).out) as { proposals: readonly Record<string, unknown>[] };
    expect(status.proposals[0]).toMatchObject({ next: 'make the papers of RS-2027-01', delivered: { hasPapers: false } });
    expect((await bench.run('status tarrow', day)).out).toContain('RS-2027-01: left unsigned; papers not made');
    const again = await bench.run('hand-over tarrow', day);
    expect(again.code).toBe(0);
    expect(again.out).toMatch(/^on record already as entry 8\n {2}papers {8}proposals\/tarrow\/handed-over\/1, edition 1, /);
    expect(
      bench
        .entries()
        .map(({ kind }) => kind)
        .slice(7),
    ).toEqual(['hand-over', 'care']);
    expect(readdirSync(join(bench.folder, 'handed-over')).sort()).toEqual(['1', 'link.json']);
    expect(bench.problems()).toEqual([]);
  });
});

describe('a delivery', () => {
  test('is refused without an order and once it is closed, and nothing is drafted', async () => {
    const none = openRecordBench();
    expect(await none.run('hand-over tarrow', day)).toEqual({
      code: 1,
      out: '',
      err: 'error[record/hand-over-no-order]: tarrow is no order, so there is no table to hand over\n  to mend: first: leafwright confirm tarrow, and the first instalment\n\n1 error. Nothing was recorded.',
    });
    const bench = await openOrderedBench();
    await bench.run(['cancel', 'tarrow', '--who', 'maren', '--reason', 'they move', '--yes'], day);
    for (const line of ['hand-over tarrow', 'hand-over tarrow --failed weather --finished 2027-06-10', 'delivery-note tarrow'])
      expect(await bench.run(line, day), line).toMatchObject({
        code: 1,
        err: expect.stringContaining('error[record/hand-over-closed]: tarrow is closed'),
      });
    for (const { folder } of [none, bench]) expect(existsSync(join(folder, 'hand-over.yaml'))).toBe(false);
  });

  test('that failed is kept with reason and storage, costs what the terms say, and is tried again with the same number', async () => {
    const bench = await openOrderedBench();
    const words = ['hand-over', 'tarrow', 'Nobody answered the bell.', '--failed', 'nobody-there', '--on', '2027-06-20', '--stored'];
    const ran = await bench.run([...words, '--finished', '2027-06-10', '--piece', 'T-7'], '2027-06-21');
    expect(ran).toEqual({
      code: 0,
      err: '',
      out: [
        'entry 8: piece T-7 was brought on 2027-06-20 and not handed over: nobody there',
        '  stored        from 2027-06-20',
        '  its cost      free of charge until 2027-07-19, by the agreed terms',
        '',
        'Next: agree on another day for the delivery that failed on 2027-06-20; it is stored since 2027-06-20',
      ].join('\n'),
    });
    expect(bench.entries().at(-1)).toMatchObject({
      kind: 'hand-over',
      piece: 'T-7',
      finish: 'hardwax-oil-ceramic',
      failed: { reason: 'nobody-there' },
      storage: { from: '2027-06-20' },
    });
    expect(bench.sealed(bench.entries().at(-1))).toEqual({ data: { words: 'Nobody answered the bell.' } });
    expect((await bench.run('status tarrow', day)).out).toContain('brought in vain on 2027-06-20; stored since 2027-06-20');
    // The second one takes number and finishing day from the first.
    expect((await bench.run('hand-over tarrow --failed weather', '2027-06-28')).out).toContain('piece T-7 was brought on 2027-06-28');
    await bench.run('hand-over tarrow', day);
    expect(bench.sheet()).toContain('piece: T-7 #');
    bench.change(...filledIn);
    // Its storage ends with the delivery, and what it costs is told though the sheet is silent.
    expect(await bench.run('hand-over tarrow', day)).toMatchObject({
      code: 0,
      out: expect.stringContaining(
        '  stored        from 2027-06-20 until 2027-07-01\n  its cost      free of charge until 2027-07-19, by the agreed terms\n',
      ),
    });
    const status = JSON.parse((await bench.run('status tarrow --json', day)).out) as { proposals: readonly Record<string, unknown>[] };
    expect(status.proposals[0]).toMatchObject({ stage: 'delivered', delivered: { piece: 'T-7', on: '2027-07-01', entry: 10 } });
    expect(status.proposals[0]).not.toHaveProperty('storedSince');
    expect(bench.problems()).toEqual([]);
  });

  test('that was made: no stage of the work follows; a signature that comes later accepts it', async () => {
    const bench = await withSheet();
    await bench.run('hand-over tarrow', day);
    for (const stage of ['glued', 'finished', 'delivered', 'accepted'])
      expect((await bench.run(['stage', 'tarrow', stage, '--insist', 'so'], day)).err).toContain(
        'error[cli/stage-handed-over]: tarrow was handed over, so no stage of its work follows\n  found: piece RS-2027-01 on 2027-07-01, entry 8',
      );
    const scan = join(bench.workspace, 'scan.pdf');
    writeFileSync(scan, '%PDF-1.7 signed');
    await bench.run(['attach', 'tarrow', scan, '--to', '8', '--what', 'paper-signature', '--who', 'maren'], '2027-07-09');
    const status = JSON.parse((await bench.run('status tarrow --json', '2027-07-09')).out) as {
      proposals: readonly Record<string, unknown>[];
    };
    expect(status.proposals[0]).toMatchObject({ stage: 'accepted', delivered: { acceptedOn: '2027-07-09' } });
  });

  test('is shown on the workshop page with its words, and without those that were erased', async () => {
    const bench = await withSheet(
      ['  # by: idris', '  by: maren'],
      ['built: 27.5', 'built: 26.5, yes: 8'],
      [
        '  # defects:\n  #   - { says: What is wrong, by: 2027-10-15 }',
        '  defects:\n    - { says: A scratch, by: 2027-07-20 }\n    - { says: A dent, by: 2027-08-20 }',
      ],
    );
    await bench.run(['note', 'tarrow', 'Thinner is fine.', '--who', 'idris'], day);
    await bench.run('hand-over tarrow', day);
    const shown = () => {
      const { input } = readProposal(bench.workspace, 'tarrow');
      return input === undefined ? undefined : recordShown(bench.folder, input, '2027-08-01T12:00:00Z').record.delivery?.table;
    };
    const before = shown();
    expect(before).toMatchObject({ piece: 'RS-2027-01', entry: 9, by: 'Maren Tollefsen', papers: { edition: 1, isOfNow: true } });
    expect(before).not.toHaveProperty('signedOn');
    expect(before?.defects).toEqual([
      { says: 'A scratch', by: '2027-07-20', state: 'late' },
      { says: 'A dent', by: '2027-08-20', state: 'open' },
    ]);
    expect(before?.sizes.at(-1)).toEqual({
      what: 'Thickness of the top',
      agreed: '28\u202fmm',
      built: '26.5\u202fmm',
      tolerance: '± 1\u202fmm',
      yes: 8,
    });
    await bench.run('erase tarrow --person maren --yes', day);
    expect(shown()?.defects.map(({ says }) => says)).toEqual(['(erased)', '(erased)']);
    expect(bench.problems()).toEqual([]);
  });

  test('is told in data', async () => {
    const bench = await openOrderedBench();
    const drafted = JSON.parse((await bench.run('hand-over tarrow --json', day)).out) as Record<string, unknown>;
    expect(drafted).toMatchObject({
      schema: 'leafwright/hand-over-draft/1',
      sheet: 'proposals/tarrow/hand-over.yaml',
      piece: 'RS-2027-01',
    });
    expect(drafted['toFillIn']).toContain('asBuilt.top.length.built');
    const refused = JSON.parse((await bench.run('hand-over tarrow --json', day)).out) as {
      problems: readonly { code: string; place: object }[];
    };
    expect(refused.problems).toMatchObject([{ code: 'read/to-fill-in', place: { file: 'proposals/tarrow/hand-over.yaml', line: 5 } }]);
    bench.change(...filledIn);
    const recorded = JSON.parse((await bench.run('hand-over tarrow --json', day)).out) as Record<string, unknown>;
    expect(recorded).toMatchObject({ schema: 'leafwright/recorded/1', stage: 'delivered', entry: { kind: 'hand-over', n: 8 } });
  });
});
