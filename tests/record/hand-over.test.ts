import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { nextEntry, readChain } from '../../src/record/chain/chain.ts';
import { listTree } from '../../src/record/disk/durable.ts';
import {
  type AnyBody,
  canonicalJson,
  entryBodies,
  eraseRecords,
  handOverProblems,
  isBeyond,
  type Json,
  openSeal,
  readEntries,
  revisionState,
  standingOf,
} from '../../src/record/index.ts';
import { verifyProposal } from '../../src/record/proof/verify.ts';
import { choice, confirmed, entriesFor, handOver, issued, offerFor, paid, type Told, yes } from './story.ts';
import { flipped, makeWorkspace, place, tellAll, tellDelivery } from './workshop.ts';

const offers = [offerFor('r1', 1)];
const stand = (story: readonly Told[], today = '2027-08-15') => standingOf(entriesFor(story), offers, today);
const chosen = choice('r1', 'A', ['ceramic'], 634_800);
/** An order at 6,348.00 in three instalments (2,539.20, 2,539.20, 1,269.60), of which so many are paid. */
const order = (paidUp: 1 | 2 | 3): readonly Told[] => [
  issued('2027-02-14', 'r1'),
  yes('2027-02-20', 'maren', chosen),
  yes('2027-02-22', 'idris', chosen),
  confirmed('2027-02-23', 'r1', 634_800, { answers: [2, 3] }),
  ...([253_920, 253_920, 126_960] as const).slice(0, paidUp).map((minor, i) => paid(`2027-0${3 + i}-01`, i + 1, minor)),
];
const signed = { inspected: true, defects: [], signed: 'signed' } as const;
const unsigned = { ...signed, signed: 'left-unsigned' } as const;
const mended = (defects: readonly number[], of: number): AnyBody => ({ kind: 'service', on: '2027-07-30', what: 'repair', of, defects });

describe('how a table stands that was brought', () => {
  test('signed for: delivered, accepted, and its care counts from the last coat', () => {
    const standing = stand([...order(3), handOver('2027-07-17', { finishedOn: '2027-06-26', acceptance: signed })]);
    expect(standing.stage).toBe('accepted');
    expect(standing.delivered?.n).toBe(8);
    expect(standing.accepted).toEqual({ on: '2027-07-17', n: 8 });
    expect(standing.care).toEqual({ finish: 'hardwax-oil', since: '2027-06-26', n: 8 });
    expect(revisionState('r1', 'r1', standing)).toEqual({ kind: 'delivered', on: '2027-07-17' });
  });

  test('left unsigned: delivered; accepted on the day on which the signed paper came', () => {
    const story = [...order(3), handOver('2027-07-17', { acceptance: unsigned })];
    expect([stand(story).stage, stand(story).accepted]).toEqual(['delivered', undefined]);
    const file = { path: 'records/9-paper.pdf', bytes: 1, sha256: '0'.repeat(64) };
    const came = stand([...story, { kind: 'attached', on: '2027-07-21', to: 8, what: 'paper-signature', file }]);
    expect([came.stage, came.accepted]).toEqual(['accepted', { on: '2027-07-21', n: 9 }]);
    expect(stand([...story, { kind: 'attached', on: '2027-07-21', to: 8, what: 'photograph', file }]).accepted).toBeUndefined();
  });

  test('brought in vain: not delivered, until it is', () => {
    const story = [...order(3), handOver('2027-07-10', { failed: { reason: 'no-way-in' } })];
    const standing = stand(story);
    expect([standing.stage, standing.delivered, standing.care]).toEqual(['ordered', undefined, undefined]);
    expect(standing.failedDeliveries.map(({ n }) => n)).toEqual([8]);
    expect(revisionState('r1', 'r1', standing)).toEqual({ kind: 'ordered', on: '2027-03-01' });
    expect(stand([...story, handOver('2027-07-17', { acceptance: signed })]).failedDeliveries).toHaveLength(1);
  });

  test('defects are open until a service puts them right, and late after their day', () => {
    const defects = [{ by: '2027-08-01' }, { by: '2027-08-15' }];
    const story = [...order(3), handOver('2027-07-17', { acceptance: { ...signed, defects } })];
    expect(stand(story).openDefects).toEqual([
      { n: 8, defect: 1, by: '2027-08-01', isLate: true },
      { n: 8, defect: 2, by: '2027-08-15', isLate: false },
    ]);
    expect(stand([...story, mended([1], 8)]).openDefects.map(({ defect }) => defect)).toEqual([2]);
    expect(stand([...story, mended([1, 2], 8)]).openDefects).toEqual([]);
  });

  test('a refinish changes its care from that day on; a visit and a repair do not', () => {
    const story = [...order(3), handOver('2027-07-17', { acceptance: signed })];
    const oiled = stand([...story, { kind: 'service', on: '2028-05-01', what: 'visit' }, mended([], 8)]);
    expect([oiled.care?.since, oiled.services.map(({ what }) => what)]).toEqual(['2027-02-01', ['visit', 'repair']]);
    const refinished: AnyBody = { kind: 'service', on: '2031-05-02', what: 'refinish', finish: 'shellac' };
    expect(stand([...story, refinished]).care).toEqual({ finish: 'shellac', since: '2031-05-02', n: 9 });
  });
});

describe('what stands against a hand-over', () => {
  const named = { slug: 'tarrow', language: 'en-GB' };
  const found = (story: readonly Told[], body: ReturnType<typeof handOver>) => handOverProblems(stand(story), body, named);
  const good = handOver('2027-07-17', { acceptance: signed });

  test('nothing, where it was ordered, paid and measured', () => expect(found(order(3), good)).toEqual([]));

  /** 6,348.00 less 2,539.20 twice leaves 1,269.60. */
  test('warns while a balance is open', () => {
    expect(found(order(2), good)).toEqual([
      {
        code: 'record/hand-over-balance',
        severity: 'warning',
        title: '€1,269.60 of this order is still open',
        path: [],
        mend: 'once it is in: leafwright pay tarrow --instalment 3 --amount ...',
      },
    ]);
  });

  test('refuses without an order, and says what would make one', () => {
    const refused = {
      code: 'record/hand-over-no-order',
      severity: 'error',
      title: 'tarrow is no order, so there is no table to hand over',
      path: [],
    };
    expect(found(order(1).slice(0, 3), good)).toEqual([{ ...refused, mend: 'first: leafwright confirm tarrow, and the first instalment' }]);
    expect(found(order(1).slice(0, 4), good)).toEqual([
      { ...refused, mend: 'first the first instalment: leafwright pay tarrow --instalment 1 --amount ...' },
    ]);
  });

  test('refuses what was cancelled, and a second hand-over', () => {
    const cancelled: Told = { kind: 'cancelled', on: '2027-06-01', stage: 'cut', dueMinor: 634_800, currency: 'EUR' };
    expect(found([...order(3), cancelled], good)).toEqual([
      {
        code: 'record/hand-over-closed',
        severity: 'error',
        title: 'tarrow is closed: there is nothing to hand over',
        path: [],
        found: 'cancelled on 2027-06-01',
        mend: 'a revision that is issued takes it up again: leafwright revise tarrow',
      },
    ]);
    expect(found([...order(3), good], good)).toEqual([
      {
        code: 'record/hand-over-again',
        severity: 'error',
        title: 'tarrow was handed over already',
        path: [],
        found: 'piece RS-2026-07 on 2027-07-17, entry 8',
        mend: 'a signature that came later: leafwright attach tarrow --to 8; work at the table is a service',
      },
    ]);
    expect(found([...order(3), handOver('2027-07-10', { failed: { reason: 'weather' } })], good)).toEqual([]);
  });

  test('refuses a difference beyond its tolerance without a yes, exactly at it takes it', () => {
    const difference = { what: 'top.length', agreed: 2100, built: 2096.5, tolerance: 2, unit: 'mm' } as const;
    expect(found(order(3), { ...good, asBuilt: [difference] })).toEqual([
      {
        code: 'record/hand-over-unagreed',
        severity: 'error',
        title: 'top.length was built beyond its tolerance, and nobody has said yes to it',
        path: ['library', 'handOver', 'asBuilt', 'top.length'],
        found: '2,096.5 mm where 2,100 mm was agreed',
        allowed: '2,098 mm to 2,102 mm',
        mend: 'ask, keep the answer with leafwright note tarrow "..." --who PERSON, and name its entry after yes:',
      },
    ]);
    expect(found(order(3), { ...good, asBuilt: [{ ...difference, yes: 2 }] })).toEqual([]);
    expect([1.7, 1.69, 2.3, 2.31].map((built) => isBeyond({ ...difference, agreed: 2, built, tolerance: 0.3 }))).toEqual([
      false,
      true,
      false,
      true,
    ]);
  });

  test('refuses another finish than was ordered without a yes', () => {
    const other = { ...good, otherFinish: [{ on: 'top', ordered: 'shellac' }] } as const;
    expect(found(order(3), other)).toEqual([
      {
        code: 'record/hand-over-other-finish',
        severity: 'error',
        title: 'the top bears another finish than was ordered, and nobody has said yes to it',
        path: ['library', 'handOver', 'finish'],
        found: good.finish,
        allowed: 'shellac',
        mend: 'ask, keep the answer with leafwright note tarrow "..." --who PERSON, and name its entry after yes:',
      },
    ]);
    expect(found(order(3), { ...other, otherFinish: [{ on: 'top', ordered: 'shellac', yes: 2 }] })).toEqual([]);
  });

  test.each<[string, Partial<typeof good>, string, (readonly (string | number)[])?]>([
    ['neither', { acceptance: undefined }, 'this hand-over says neither how the table was accepted nor why the delivery failed', []],
    ['both', { failed: { reason: 'damaged' } }, 'this hand-over says that the delivery failed, and how the table was accepted'],
    [
      'finished later',
      { finishedOn: '2027-07-18' },
      'this hand-over is of a table that was finished on 2027-07-18, after 2027-07-17',
      ['finished'],
    ],
    [
      'mended before',
      { acceptance: { ...signed, defects: [{ by: '2027-07-16' }] } },
      'this hand-over promises to put a defect right by 2027-07-16, before 2027-07-17',
      ['acceptance', 'defects', 0, 'by'],
    ],
    [
      'seen by nobody',
      { acceptance: { ...signed, inspected: false, defects: [{ by: '2027-08-01' }] } },
      'this hand-over lists defects of a table that was not inspected',
      ['acceptance', 'inspected'],
    ],
    [
      'stored backwards',
      { storage: { from: '2027-07-10', until: '2027-07-09' } },
      'this hand-over stores the table until 2027-07-09, before 2027-07-10',
      ['storage', 'until'],
    ],
  ])('refuses what can not be: %s', (_name, more, title, below) => {
    const body = Object.fromEntries(Object.entries({ ...good, ...more }).filter(([, value]) => value !== undefined)) as typeof good;
    expect(found(order(3), body)).toEqual([
      {
        code: 'record/hand-over-can-not-be',
        severity: 'error',
        title,
        path: below === undefined ? [] : ['library', 'handOver', ...below],
        mend: 'one of the two is wrong: mend it',
      },
    ]);
  });

  test('says what a later claim would miss', () => {
    const { batch: _batch, moisturePercent: _moisture, ...bare } = { ...good, photographs: [], humidityPercent: { finish: 48 } };
    expect(found(order(3), bare)).toEqual([
      {
        code: 'record/hand-over-bare',
        severity: 'warning',
        title: 'what a later claim would be measured by is not all there',
        path: [],
        found:
          'missing: photographs before loading; the batch of the finish; the moisture of the boards at glue-up; the humidity at glue-up; the humidity at delivery',
      },
    ]);
  });
});

describe('the entries', () => {
  const read = (more: object) => entryBodies['hand-over'].safeParse({ ...handOver('2027-07-17', { acceptance: signed }), ...more }).success;

  test.each<[string, object]>([
    ['a field too many', { mood: 'glad' }],
    ['a day that is none', { on: 'today' }],
    ['a piece number with words', { piece: 'the table of Maren' }],
    ['a piece number that climbs', { piece: '../x' }],
    ['wood wetter than wet', { moisturePercent: [140] }],
    ['air without a word for when', { humidityPercent: { summer: 50 } }],
    ['words where a path belongs', { asBuilt: [{ what: 'Maren’s top', agreed: 1, built: 1, tolerance: 0, unit: 'mm' }] }],
    ['a unit of its own', { asBuilt: [{ what: 'top.length', agreed: 1, built: 1, tolerance: 0, unit: 'hands' }] }],
    ['a signature of its own', { acceptance: { ...signed, signed: 'perhaps' } }],
    ['words of a defect, which are sealed', { acceptance: { ...signed, defects: [{ by: '2027-08-01', says: 'scratch' }] } }],
    ['a reason of its own', { acceptance: undefined, failed: { reason: 'she was out' } }],
  ])('are not: %s', (_name, more) => {
    expect(read({})).toBe(true);
    expect(read(more)).toBe(false);
  });

  async function whole() {
    const { folder } = makeWorkspace();
    await tellAll(folder);
    return { folder, at: await tellDelivery(folder) };
  }
  const look = (folder: string) => verifyProposal(folder, 'proposals/tarrow', 'tarrow');
  const chainPath = (folder: string): string => join(folder, 'decisions.jsonl');
  const forge = (folder: string, body: Readonly<Record<string, Json>>): void => {
    const entry = nextEntry(readChain(folder).head, { at: '2032-04-01T09:00:00Z', zone: 'Europe/London', kind: 'note', ...body });
    appendFileSync(chainPath(folder), `${canonicalJson(entry)}\n`);
  };

  test('are proven with their files; every bit of photograph and paper counts', async () => {
    const { folder, at } = await whole();
    expect(look(folder).problems).toEqual([]);
    for (const name of ['before-loading-1.jpg', 'acceptance.pdf']) {
      const path = join(folder, `records/files/${at['delivered']}-${name}`);
      const before = readFileSync(path);
      writeFileSync(path, flipped(path, 5));
      expect(look(folder).problems.map(({ title }) => title)).toEqual([
        `proposals/tarrow/records/files/${at['delivered']}-${name}, the file of entry ${at['delivered']}, was changed`,
      ]);
      writeFileSync(path, before);
    }
  });

  test('keep a defect’s words apart from the chain', async () => {
    const { folder, at } = await whole();
    expect(readFileSync(chainPath(folder), 'utf8')).not.toMatch(/scratch|Tollefsen|lift/);
    const entry = readEntries(folder).find(({ n }) => n === at['delivered']);
    expect(entry?.sealed === undefined ? undefined : openSeal(folder, entry.sealed)).toMatchObject({
      data: { defects: ['scratch on the left end'] },
    });
  });

  test('erasing who signed takes paper and words, leaves photographs and the proof', async () => {
    const { folder, at } = await whole();
    const paths = (): readonly string[] => listTree(join(folder, 'records')).map(({ path }) => path);
    await eraseRecords(place(folder, '2032-01-01T09:00:00Z'), { person: 'idris', names: ['Idris Quill'], on: '2032-01-01' });
    expect(paths()).toContain(`files/${at['delivered']}-acceptance.pdf`);
    expect(paths()).toContain(`files/${at['claim']}-claim.jpg`);
    await eraseRecords(place(folder, '2032-01-02T09:00:00Z'), { person: 'maren', names: ['Maren Tollefsen'], on: '2032-01-02' });
    expect(paths()).not.toContain(`files/${at['delivered']}-acceptance.pdf`);
    expect(paths()).toContain(`files/${at['delivered']}-before-loading-1.jpg`);
    // A photograph of a claim shows where the person lives.
    expect(paths()).not.toContain(`files/${at['claim']}-claim.jpg`);
    expect(look(folder).problems).toEqual([]);
  });

  const claim = { kind: 'claim', on: '2031-07-01', event: 'opened' } as const;
  const plain = { ...handOver('2031-06-01', { acceptance: signed }), photographs: [] } as unknown as Readonly<Record<string, Json>>;
  const difference = { what: 'top.length', agreed: 2100, built: 2090, tolerance: 2, unit: 'mm' };
  test.each<[string, Readonly<Record<string, Json>>, string]>([
    ['whole', plain, ''],
    ['unagreed', { ...plain, asBuilt: [difference] }, 'holds top.length beyond its tolerance without anybody’s yes'],
    ['agreed', { ...plain, asBuilt: [{ ...difference, yes: 23 }] }, ''],
    [
      'agreed by an issue',
      { ...plain, asBuilt: [{ ...difference, yes: 2 }] },
      'takes entry 2 for a yes to top.length, and nobody says yes there',
    ],
    ['agreed later', { ...plain, asBuilt: [{ ...difference, yes: 90 }] }, 'points to entry 90, which does not come before it'],
    ['against itself', { ...plain, failed: { reason: 'other' } }, 'says that the delivery failed, and how the table was accepted'],
    [
      'another finish unagreed',
      { ...plain, otherFinish: [{ on: 'top', ordered: 'shellac' }] },
      'holds the finish of the top otherwise than ordered without anybody’s yes',
    ],
    [
      'another finish agreed by an issue',
      { ...plain, otherFinish: [{ on: 'base', ordered: 'shellac', yes: 2 }] },
      'takes entry 2 for a yes to the finish of the base, and nobody says yes there',
    ],
    ['refinished with nothing', { kind: 'service', on: '2031-07-01', what: 'refinish' }, 'is a refinish and names no finish'],
    ['a visit that finishes', { kind: 'service', on: '2031-07-01', what: 'visit', finish: 'wax' }, 'names a finish and is a visit'],
    ['mended of nothing', { kind: 'service', on: '2031-07-01', what: 'repair', defects: [1] }, 'puts defects right and names no hand-over'],
    ['mended of a note', { kind: 'service', on: '2031-07-01', what: 'repair', of: 1 }, 'points to entry 1, which is not a hand-over'],
    [
      'mended of what was not listed',
      { kind: 'service', on: '2031-07-01', what: 'repair', of: 24, defects: [2] },
      'puts defect 2 right, and entry 24 lists 1',
    ],
    ['another claim', { ...claim, of: 24, about: 'warp' }, ''],
    ['a claim of a note', { ...claim, of: 1, about: 'warp' }, 'points to entry 1, which is not a hand-over'],
    ['a claim of a delivery that failed', { ...claim, of: 22, about: 'warp' }, 'is a claim of entry 22, where nothing was handed over'],
    [
      'a claim before the hand-over',
      { ...claim, on: '2027-07-16', of: 24, about: 'warp' },
      'is a claim of 2027-07-16, before the hand-over on 2027-07-17',
    ],
    ['a claim about nothing', { ...claim, of: 24 }, 'opens a claim and does not say what about'],
    ['looked at twice settled', { ...claim, event: 'looked-at', of: 30 }, 'goes on with the claim in entry 30, which entry 32 settled'],
    ['looked at what was looked at', { ...claim, event: 'looked-at', of: 31 }, 'goes on with entry 31, which opens no claim'],
    ['settled without saying how', { ...claim, event: 'settled', of: 30 }, 'settles a claim and does not say how'],
    [
      'opened and settled at once',
      { ...claim, of: 24, about: 'warp', outcome: 'covered' },
      'says what became of a claim that it does not settle',
    ],
  ])('verify: %s', async (_name, body, title) => {
    const { folder } = await whole();
    forge(folder, body);
    const found = look(folder).problems.map((problem) => problem.title);
    expect(found).toEqual(title === '' ? [] : [`proposals/tarrow/decisions.jsonl:33 ${title.replace('’', "'")}`]);
  });
});
