import { createHash } from 'node:crypto';
import {
  type Added,
  type Addition,
  type AnyBody,
  addEntry,
  type IssueRequest,
  issueRevision,
  makeEdition,
  type RecordPlace,
  readEntries,
  shortFingerprint,
} from '../../src/record/index.ts';
import { offerFor, thirds } from './story.ts';

const utf8 = (text: string): Uint8Array => Buffer.from(text, 'utf8');

/** A request to issue a small made-up revision, with stated clock and chance. */
export function request(folder: string, revision: string, more: Partial<IssueRequest> = {}): IssueRequest {
  return {
    folder,
    shown: 'proposals/tarrow',
    proposal: 'tarrow',
    revision,
    at: `2027-02-1${revision.slice(1)}T09:30:00Z`,
    zone: 'Europe/London',
    random: createHash('sha256').update(revision).digest().subarray(0, 16),
    program: 'leafwright 0.1.0',
    inputs: [
      { path: 'proposals/tarrow/proposal.yaml', bytes: utf8(`title: A table, ${revision}\n`) },
      { path: 'templates/woods.yaml', bytes: utf8('oak: {}\n') },
    ],
    data: [{ path: 'figures.json', bytes: utf8('{"massKg":41}') }],
    make: async (fingerprint) => [
      { path: 'index.html', bytes: utf8(`<p>${revision} ${shortFingerprint(fingerprint)}</p>`) },
      { path: 'files/scope-a.pdf', bytes: utf8(`%PDF-1.7 ${fingerprint}`) },
    ],
    ...more,
  };
}

/** Where and when an entry of the small made-up proposal is added. */
export const place = (folder: string, at: string): RecordPlace => ({ folder, shown: 'proposals/tarrow', at, zone: 'Europe/London' });

/** data/offer.json of the small made-up proposal. */
export function offerBytes(revision: string): Uint8Array {
  const { fingerprint: _fingerprint, n: _n, ...offer } = offerFor(revision, 0);
  return Buffer.from(JSON.stringify(offer), 'utf8');
}

/** A request whose revision can be answered: with data/offer.json and the view of the client. */
export const offered = (folder: string, revision: string, more: Partial<IssueRequest> = {}): IssueRequest =>
  request(folder, revision, {
    data: [
      { path: 'client.json', bytes: utf8('{"client":"Maren Tollefsen"}') },
      { path: 'figures.json', bytes: utf8('{"massKg":41}') },
      { path: 'offer.json', bytes: offerBytes(revision) },
    ],
    ...more,
  });

/** Adds an entry, dated an hour after the last one; sealed words with random bytes made of its number. */
export function add(
  folder: string,
  body: AnyBody,
  words?: NonNullable<Addition['sealed']>['data'],
  files?: Addition['files'],
): Promise<Added> {
  const last = readEntries(folder).at(-1);
  const at = last === undefined ? '2027-02-10T09:00:00Z' : new Date(Date.parse(last.at) + 3_600_000).toISOString().replace('.000', '');
  const random = createHash('sha256')
    .update(`seal ${last?.n ?? 0}`)
    .digest()
    .subarray(0, 16);
  return addEntry(place(folder, at), () => ({
    body,
    ...(words === undefined ? {} : { sealed: { data: words, random } }),
    ...(files === undefined ? {} : { files }),
  }));
}

const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A file as an entry holds it. */
export const heldAs = (path: string, bytes: Uint8Array) => ({ path, bytes: bytes.length, sha256: digest(bytes) });

/**
 * A proposal with an entry of every kind, told from a telephone call to the scan of a signature, a cancelled change and a
 * later revision as its last entry. Gives the number of each step by name.
 */
export async function tellAll(folder: string): Promise<Readonly<Record<string, number>>> {
  const at: Record<string, number> = {};
  const keep = async (name: string, added: Promise<Added>): Promise<void> => {
    const { entry, problems } = await added;
    if (entry === undefined || problems.length > 0) throw new Error(`${name}: ${JSON.stringify(problems)}`);
    at[name] = entry.n;
  };
  await keep(
    'note',
    add(
      folder,
      { kind: 'note', on: '2027-02-10', how: 'telephone', person: 'maren' },
      { person: 'maren', who: 'Maren', words: 'not like a school' },
    ),
  );
  const issued = await issueRevision(offered(folder, 'r1'));
  at['issued'] = 2;
  const fingerprint = issued.issued?.fingerprint ?? '';
  const chosen = { revision: 'r1', fingerprint, design: 'A', options: ['ceramic'], totalMinor: 634_800, currency: 'EUR' };
  const scan = utf8('a scan of a signature');
  const picture = utf8('a photograph of boards');
  const scope = utf8('%PDF-1.7 the scope with its approval');
  await keep('settled', add(folder, { kind: 'note-settled', note: 1, as: 'wish', wish: 'w9' }, { words: 'became wish w9' }));
  await keep(
    'evidence',
    add(
      folder,
      { kind: 'evidence', on: '2027-02-12', how: 'message', revision: 'r1', person: 'idris' },
      { person: 'idris', who: 'Idris', words: 'yes, the one with the thick legs' },
    ),
  );
  await keep('asked', add(folder, { kind: 'asked', on: '2027-02-12', person: 'idris', chosen, evidence: 4 }));
  const answer = { kind: 'answer', on: '2027-02-13', verdict: 'yes', revision: 'r1', fingerprint, chosen, terms: '7'.repeat(64) } as const;
  await keep(
    'maren',
    add(
      folder,
      { ...answer, person: 'maren', by: 'code' },
      { person: 'maren', name: 'Maren Tollefsen', remark: 'with ceramic', text: 'LW1-' },
    ),
  );
  await keep(
    'idris',
    add(
      folder,
      { ...answer, person: 'idris', by: 'paper', after: 5 },
      { person: 'idris', name: 'Idris Quill', remark: 'as Maren says', text: '' },
    ),
  );
  await keep(
    'attached',
    add(
      folder,
      { kind: 'attached', on: '2027-02-13', to: 7, what: 'paper-signature', file: heldAs('records/8-signature.png', scan) },
      undefined,
      [{ path: 'records/8-signature.png', bytes: scan }],
    ),
  );
  await keep(
    'sample',
    add(
      folder,
      {
        kind: 'sample',
        on: '2027-02-14',
        person: 'maren',
        sample: 'S-041',
        of: 'sample',
        verdict: 'yes',
        keeps: 'half-each',
        picture: heldAs('records/9-sample.jpg', picture),
      },
      { person: 'maren', words: 'less yellow' },
      [{ path: 'records/9-sample.jpg', bytes: picture }],
    ),
  );
  await keep(
    'scope',
    add(
      folder,
      { kind: 'scope', on: '2027-02-14', revision: 'r1', design: 'A', answers: [6, 7], file: heldAs('records/10-scope.pdf', scope) },
      undefined,
      [{ path: 'records/10-scope.pdf', bytes: scope }],
    ),
  );
  await keep(
    'confirmed',
    add(folder, {
      kind: 'confirmed',
      on: '2027-02-15',
      chosen,
      answers: [6, 7],
      instalmentsMinor: thirds(634_800),
      holdUntil: '2027-03-15',
    }),
  );
  await keep(
    'requested',
    add(folder, {
      kind: 'requested',
      on: '2027-02-15',
      number: '2027-014',
      instalment: 1,
      amountMinor: 253_920,
      currency: 'EUR',
      due: '2027-03-01',
    }),
  );
  await keep('paid', add(folder, { kind: 'paid', on: '2027-02-20', amountMinor: 253_920, currency: 'EUR', instalment: 1 }));
  await keep('stage', add(folder, { kind: 'stage', on: '2027-03-01', stage: 'glued' }, { reason: 'two days early' }));
  await keep(
    'cancelled',
    add(
      folder,
      { kind: 'cancelled', on: '2027-03-02', stage: 'glued', dueMinor: 400_000, currency: 'EUR' },
      { person: 'maren', reason: 'we move house' },
    ),
  );
  await keep('lost', add(folder, { kind: 'lost', on: '2027-03-03', reason: 'withdrawn' }, { words: 'moved' }));
  const last = await issueRevision(offered(folder, 'r2', { at: '2027-03-04T09:30:00Z' }));
  if (last.issued === undefined || last.problems.length > 0) throw new Error(JSON.stringify(last.problems));
  at['reissued'] = 17;
  return at;
}

/** An edition of the papers of the small made-up table: its care names nobody, the client's papers do. */
async function edition(folder: string, on: string, of: number): Promise<Added> {
  const last = readEntries(folder).at(-1);
  const made = await makeEdition({
    ...place(folder, new Date(Date.parse(last?.at ?? '') + 3_600_000).toISOString().replace('.000', '')),
    proposal: 'tarrow',
    program: 'leafwright 0.1.0',
    on,
    of,
    random: createHash('sha256').update('care').digest().subarray(0, 16),
    make: async (n, token) => [
      { path: 'in/templates/care.yaml', bytes: utf8('rules: {}\n') },
      { path: 'data/care.json', bytes: utf8(`{"edition":${n}}`) },
      { path: 'care/index.html', bytes: utf8(`<p>RS-2026-07, edition ${n}</p>`) },
      { path: 'care/care.ics', bytes: utf8('BEGIN:VCALENDAR') },
      { path: 'label/label-90x60.pdf', bytes: utf8(`%PDF-1.7 ${token}`) },
      { path: 'papers/index.html', bytes: utf8('<p>for Idris Quill</p>') },
      { path: 'papers-maren/index.html', bytes: utf8('<p>for Maren Tollefsen</p>') },
    ],
  });
  return made.edition === undefined ? { problems: made.problems } : { entry: made.edition.entry, problems: made.problems };
}

/** The table of the small made-up proposal is brought in vain, then handed over, and mended and refinished years later. */
export async function tellDelivery(folder: string): Promise<Readonly<Record<string, number>>> {
  const photograph = utf8('a photograph before loading');
  const paper = utf8('a scan of the paper that was signed at the door');
  const n = (readEntries(folder).at(-1)?.n ?? 0) + 1;
  const brought = {
    kind: 'hand-over',
    on: '2027-07-10',
    piece: 'RS-2026-07',
    finishedOn: '2027-06-26',
    finish: 'hardwax-oil',
    asBuilt: [],
    photographs: [],
  } as const;
  const held = heldAs(`records/files/${n + 6}-before-loading-1.jpg`, photograph);
  const photographOfGap = utf8('a photograph of a gap');
  const gap = heldAs(`records/files/${n + 12}-claim.jpg`, photographOfGap);
  const signed = heldAs(`records/files/${n + 6}-acceptance.pdf`, paper);
  const steps: readonly (() => Promise<Added>)[] = [
    () => add(folder, { kind: 'measured', on: '2027-03-08', what: 'moisture', when: 'glue-up', percent: [9.1, 9.5, 9.8] }),
    () => add(folder, { kind: 'measured', on: '2027-06-26', what: 'humidity', when: 'finish', percent: [48] }),
    () => add(folder, { kind: 'worked', on: '2027-06-28', operation: 'glue-up', hours: 3.5 }, { words: 'with a second pair of hands' }),
    () =>
      add(folder, {
        kind: 'used',
        on: '2027-06-28',
        what: 'offcut',
        wood: 'oak-european',
        lengthMm: 640,
        widthMm: 180,
        thicknessMm: 34,
        boards: 2,
        moisturePercent: 9,
      }),
    () =>
      add(folder, { ...brought, failed: { reason: 'no-way-in' }, storage: { from: '2027-07-10' } }, { words: 'the lift was out of order' }),
    () =>
      add(
        folder,
        { kind: 'note', on: '2027-07-11', how: 'message', person: 'maren' },
        { person: 'maren', who: 'Maren', words: 'that is fine' },
      ),
    () =>
      add(
        folder,
        {
          ...brought,
          on: '2027-07-17',
          finish: 'ceramic-over-hardwax',
          product: 'Tarn Hardwax 41 under Tarn Ceramic (invented)',
          batch: 'HWO 41-2207, C 6',
          baseFinish: { finish: 'hardwax-oil', product: 'Tarn Hardwax 41 (invented)', batch: 'HWO 41-2207' },
          otherFinish: [{ on: 'top', ordered: 'hardwax-oil', yes: n + 5 }],
          moisturePercent: [9.1, 9.5, 9.8],
          humidityPercent: { glueUp: 45, finish: 48, delivery: 52 },
          asBuilt: [
            { what: 'top.length', agreed: 2100, built: 2098.5, tolerance: 3, unit: 'mm' },
            { what: 'top.thickness', agreed: 28, built: 26.5, tolerance: 1, unit: 'mm', yes: n + 5 },
            { what: 'base.legs.footSize', agreed: 45, built: 45, tolerance: 1, unit: 'mm' },
          ],
          massKg: 52.5,
          photographs: [held],
          person: 'maren',
          acceptance: { inspected: true, defects: [{ by: '2027-08-01' }], signed: 'signed', paper: signed },
        },
        { person: 'maren', name: 'Maren Tollefsen', defects: ['scratch on the left end'] },
        [
          { path: held.path, bytes: photograph },
          { path: signed.path, bytes: paper },
        ],
      ),
    () => edition(folder, '2027-07-17', n + 6),
    () => add(folder, { kind: 'service', on: '2027-07-30', what: 'repair', of: n + 6, defects: [1] }, { words: 'rubbed out and oiled' }),
    () => add(folder, { kind: 'service', on: '2031-05-02', what: 'refinish', finish: 'ceramic-over-hardwax', batch: 'C 7' }),
    () => edition(folder, '2031-05-02', n + 9),
    () => add(folder, { kind: 'lesson', on: '2031-05-03' }, { words: 'oil the underside in the same week' }),
    () =>
      add(
        folder,
        {
          kind: 'claim',
          on: '2031-06-02',
          event: 'opened',
          of: n + 6,
          about: 'crack',
          person: 'maren',
          humidityPercent: 31,
          photographs: [gap],
        },
        { person: 'maren', words: 'a gap at the left end' },
        [{ path: gap.path, bytes: photographOfGap }],
      ),
    () =>
      add(
        folder,
        {
          ...{ kind: 'claim', on: '2031-06-09', event: 'looked-at', of: n + 12 },
          ...{ humidityPercent: 30, celsius: 21, moisturePercent: [6.1, 6.4], sizes: [{ what: 'top.width', mm: 792 }] },
        },
        { words: 'one joint has opened, the boards are sound' },
      ),
    () =>
      add(
        folder,
        { kind: 'claim', on: '2031-06-10', event: 'settled', of: n + 12, outcome: 'goodwill' },
        { words: 'closed at the next visit' },
      ),
  ];
  for (const step of steps) {
    const { entry, problems } = await step();
    if (entry === undefined || problems.length > 0) throw new Error(JSON.stringify(problems));
  }
  const claims = { claim: n + 12, looked: n + 13, settled: n + 14 };
  return {
    ...claims,
    failed: n + 4,
    yes: n + 5,
    delivered: n + 6,
    care: n + 7,
    repair: n + 8,
    refinish: n + 9,
    again: n + 10,
    lesson: n + 11,
  };
}
