import { describe, expect, test } from 'vitest';
import { type IssuedOffer, standingOf, type WorkStage } from '../../src/record/index.ts';
import { choice, confirmed, entriesFor, issued, no, offerFor, paid, type Told, yes } from './story.ts';

const offers: readonly IssuedOffer[] = ['r1', 'r2', 'r3', 'r4'].map((revision, i) => offerFor(revision, i + 1));
const stand = (story: readonly Told[], today = '2027-03-01', given = offers) => standingOf(entriesFor(story), given, today);
const any = offers.map((offer): IssuedOffer => ({ ...offer, rule: 'any' }));

const A = (revision: string) => choice(revision, 'A', ['ceramic'], 634_800);
const B = (revision: string) => choice(revision, 'B', [], 645_000);

/** An order for r3 at 6,348.00, its deposit in. */
const order: readonly Told[] = [
  issued('2027-02-14', 'r3'),
  yes('2027-02-20', 'maren', A('r3')),
  yes('2027-02-22', 'idris', A('r3')),
  confirmed('2027-02-23', 'r3', 634_800, { answers: [2, 3] }),
  paid('2027-02-26', 1, 253_920),
];

describe('who has said yes to what', () => {
  test('nothing but an enquiry: nobody is waited for', () => {
    const standing = stand([{ kind: 'note', on: '2027-02-01', how: 'telephone' }]);
    expect(standing.stage).toBe('enquiry');
    expect(standing.waitingFor).toEqual([]);
    expect(standing.openNotes.map(({ n }) => n)).toEqual([1]);
    expect(standing.newest).toBeUndefined();
  });

  test('both are waited for from the day of issue; one from the day on which she was asked', () => {
    const story: readonly Told[] = [
      issued('2027-02-14', 'r1'),
      { kind: 'asked', on: '2027-02-18', person: 'maren', chosen: A('r1') },
      { kind: 'asked', on: '2027-02-19', person: 'maren', chosen: A('r1') },
    ];
    expect(stand(story).waitingFor).toEqual([
      { person: 'idris', since: '2027-02-14' },
      { person: 'maren', since: '2027-02-19' },
    ]);
  });

  test('both say yes to the same: approved, from the later of the two', () => {
    const { stage, approved, waitingFor } = stand(order.slice(0, 3));
    expect([stage, approved?.on, approved?.chosen.totalMinor, approved?.answers.map(({ n }) => n)]).toEqual([
      'approved',
      '2027-02-22',
      634_800,
      [2, 3],
    ]);
    expect(waitingFor).toEqual([]);
  });

  test('two who disagree approve nothing: no against yes, and yes against yes', () => {
    for (const other of [
      no('2027-02-16', 'idris', 'r1'),
      yes('2027-02-16', 'idris', B('r1')),
      yes('2027-02-16', 'idris', choice('r1', 'A', [])),
    ]) {
      const standing = stand([issued('2027-02-14', 'r1'), yes('2027-02-15', 'maren', A('r1')), other]);
      expect([standing.stage, standing.disagree, standing.approved]).toEqual(['proposed', true, undefined]);
    }
  });

  test('one who answers alone disagrees with nobody, and two who refuse agree, whatever they refuse', () => {
    expect(stand([issued('2027-02-14', 'r1'), no('2027-02-15', 'maren', 'r1')]).disagree).toBe(false);
    const both = stand([issued('2027-02-14', 'r1'), no('2027-02-15', 'maren', 'r1'), no('2027-02-15', 'idris', 'r1')]);
    expect([both.disagree, both.approved, both.waitingFor]).toEqual([false, undefined, []]);
    const apart = { ...no('2027-02-15', 'maren', 'r1'), design: 'A' };
    const other = { ...no('2027-02-15', 'idris', 'r1'), design: 'B' };
    expect(stand([issued('2027-02-14', 'r1'), apart, other]).disagree).toBe(false);
    const mix = { ...no('2027-02-16', 'idris', 'r1'), verdict: 'mix', design: 'A', base: 'B' } as const;
    expect(stand([issued('2027-02-14', 'r1'), apart, mix]).disagree).toBe(true);
  });

  test('who sees no price says yes to the design; the total comes from the other, or from the offer', () => {
    const blind = choice('r1', 'A', ['ceramic']);
    const one = stand([issued('2027-02-14', 'r1'), yes('2027-02-15', 'maren', A('r1')), yes('2027-02-16', 'idris', blind)]);
    expect(one.approved?.chosen.totalMinor).toBe(634_800);
    const none = stand([issued('2027-02-14', 'r1'), yes('2027-02-15', 'maren', blind), yes('2027-02-16', 'idris', blind)]);
    expect([none.approved?.chosen.totalMinor, none.approved?.chosen.currency]).toEqual([634_800, 'EUR']);
  });

  test('the later answer of the same person replaces the earlier', () => {
    const turned = [issued('2027-02-14', 'r1'), no('2027-02-15', 'idris', 'r1'), yes('2027-02-16', 'maren', A('r1'))];
    expect(stand(turned).disagree).toBe(true);
    expect(stand([...turned, yes('2027-02-17', 'idris', A('r1'))]).stage).toBe('approved');
    expect(stand([...turned, yes('2027-02-17', 'idris', A('r1')), no('2027-02-18', 'maren', 'r1')]).stage).toBe('proposed');
  });

  test('a newer revision asks all anew; an answer to the older one counts only where the maker insisted', () => {
    const twice = [...order.slice(0, 3), issued('2027-02-25', 'r4')];
    const standing = stand(twice);
    expect([standing.stage, standing.approved, standing.answers, standing.superseded]).toEqual(['proposed', undefined, {}, ['r3']]);
    const late = [...twice, yes('2027-02-26', 'maren', A('r3'))];
    expect(Object.keys(stand(late).answers)).toEqual([]);
    const insisted = [...twice, yes('2027-02-26', 'maren', A('r3'), { insisted: ['reply/superseded'] })];
    expect(Object.keys(stand(insisted).answers)).toEqual(['maren']);
    expect(stand([...insisted, yes('2027-02-27', 'idris', A('r4'))]).disagree).toBe(true);
  });

  test('any: the first yes is enough and a no beside it is heard but undoes nothing; two different yes are no approval', () => {
    const one = [issued('2027-02-14', 'r1'), yes('2027-02-15', 'maren', A('r1'))];
    expect(stand(one, undefined, any).approved?.on).toBe('2027-02-15');
    expect(stand([...one, no('2027-02-16', 'idris', 'r1')], undefined, any).approved?.on).toBe('2027-02-15');
    expect(stand([...one, yes('2027-02-16', 'idris', A('r1'))], undefined, any).approved?.on).toBe('2027-02-15');
    const differ = stand([...one, yes('2027-02-16', 'idris', B('r1'))], undefined, any);
    expect([differ.approved, differ.disagree]).toEqual([undefined, true]);
  });

  test('someone who does not decide approves nothing, and an id may be the name of anything', () => {
    expect(stand([issued('2027-02-14', 'r1'), yes('2027-02-15', 'carrier', A('r1'))], undefined, any).approved).toBeUndefined();
    const odd = offerFor('r1', 1, { people: [{ id: 'constructor', audience: 'payer' }] });
    expect(stand([issued('2027-02-14', 'r1')], undefined, [odd]).waitingFor).toEqual([{ person: 'constructor', since: '2027-02-14' }]);
  });

  test('what was offered runs out after its last day, and not once it is approved', () => {
    expect(stand(order.slice(0, 2), '2027-03-31').newest?.hasRunOut).toBe(false);
    expect(stand(order.slice(0, 2), '2027-04-01').newest?.hasRunOut).toBe(true);
    expect(stand(order.slice(0, 3), '2027-04-01').newest?.hasRunOut).toBe(false);
  });

  test('the day of issue is the maker’s: half past eleven at night in London is the next day in Auckland', () => {
    const entry = { ...entriesFor([issued('2027-02-14', 'r1')])[0], at: '2027-02-14T23:30:00Z', zone: 'Pacific/Auckland' } as const;
    expect(standingOf([entry as never], offers, '2027-03-01').newest?.issuedOn).toBe('2027-02-15');
    expect(standingOf([{ ...entry, zone: 'Nowhere/None' } as never], offers, '2027-03-01').newest?.issuedOn).toBe('2027-02-14');
  });
});

describe('order and money', () => {
  test('approved is not ordered; confirmed with the first instalment in full is', () => {
    expect(stand(order.slice(0, 4)).stage).toBe('approved');
    expect(stand([...order.slice(0, 4), paid('2027-02-25', 1, 253_919)]).stage).toBe('approved');
    const standing = stand(order);
    expect([standing.stage, standing.order?.on, standing.paidMinor, standing.openMinor]).toEqual([
      'ordered',
      '2027-02-26',
      253_920,
      380_880,
    ]);
    expect(standing.instalments.map(({ openMinor, paidOn }) => [openMinor, paidOn])).toEqual([
      [0, '2027-02-26'],
      [253_920, undefined],
      [126_960, undefined],
    ]);
    expect(standing.instalments[1]?.when).toBe('before the finish');
  });

  test('a deposit that came first: the order is as old as the confirmation', () => {
    const early = [...order.slice(0, 3), paid('2027-02-21', 1, 253_920), confirmed('2027-02-23', 'r3', 634_800)];
    expect(stand(early).order?.on).toBe('2027-02-23');
    const late = [...order.slice(0, 4), paid('2027-02-26', 1, 200_000), paid('2027-02-24', 1, 53_920)];
    expect(stand(late).order?.on).toBe('2027-02-26');
  });

  test('price and place are held to their day', () => {
    expect(stand(order.slice(0, 4), '2027-04-15').holdHasRunOut).toBe(false);
    expect(stand(order.slice(0, 4), '2027-04-16').holdHasRunOut).toBe(true);
    expect(stand(order, '2027-04-16').holdHasRunOut).toBe(false);
  });

  test('a revision issued before the order takes approval and confirmation back; one issued after it leaves the order', () => {
    const before = stand([...order.slice(0, 4), issued('2027-02-24', 'r4')]);
    expect([before.stage, before.confirmed, before.approved]).toEqual(['proposed', undefined, undefined]);
    const after = stand([...order, issued('2027-03-05', 'r4')]);
    expect([after.stage, after.order?.confirmed.n, after.waitingFor.length]).toEqual(['ordered', 4, 2]);
  });

  test('too much, and paid back: what is open follows, the order stands', () => {
    const over = stand([...order, paid('2027-02-27', 1, 10_000)]);
    expect([over.instalments[0]?.openMinor, over.instalments[0]?.paidOn, over.openMinor]).toEqual([-10_000, '2027-02-26', 370_880]);
    const back = stand([...order, paid('2027-02-27', 1, 10_000), paid('2027-02-28', 1, -10_000)]);
    expect([back.instalments[0]?.openMinor, back.instalments[0]?.paidOn]).toEqual([0, '2027-02-26']);
    const short = stand([...order, paid('2027-02-28', 1, -20_000)]);
    expect([short.stage, short.instalments[0]?.openMinor, short.instalments[0]?.paidOn]).toEqual(['ordered', 20_000, undefined]);
  });

  test('stages of the work, and a request with its number', () => {
    const work = stand([
      ...order,
      { kind: 'stage', on: '2027-03-10', stage: 'cut' },
      { kind: 'stage', on: '2027-03-15', stage: 'glued' },
      { kind: 'requested', on: '2027-03-16', number: '2027-014', instalment: 2, amountMinor: 253_920, currency: 'EUR', due: '2027-03-30' },
    ]);
    expect([work.stage, work.reached.map(({ stage }) => stage)]).toEqual(['glued', ['cut', 'glued']]);
    expect(work.instalments[1]?.requested).toEqual({ number: '2027-014', on: '2027-03-16', due: '2027-03-30' });
  });
});

describe('a change to the order', () => {
  const change = (totalMinor: number): readonly Told[] => [
    ...order,
    issued('2027-03-05', 'r4'),
    yes('2027-03-06', 'maren', choice('r4', 'A', ['ceramic'], totalMinor)),
    yes('2027-03-07', 'idris', choice('r4', 'A', ['ceramic'], totalMinor)),
    confirmed('2027-03-08', 'r4', totalMinor, { replaces: 4 }),
  ];

  test('that costs more waits until what the deposit became is in; until then the old order stands', () => {
    const waits = stand(change(700_000));
    expect([waits.order?.confirmed.n, waits.changeWaits?.n, waits.openMinor, waits.stage]).toEqual([4, 9, 380_880, 'ordered']);
    const still = stand([...change(700_000), paid('2027-03-09', 1, 26_000)]);
    expect(still.order?.confirmed.n).toBe(4);
    const taken = stand([...change(700_000), paid('2027-03-09', 1, 26_080)]);
    expect([taken.order?.confirmed.n, taken.order?.on, taken.changeWaits, taken.openMinor]).toEqual([9, '2027-03-09', undefined, 420_000]);
  });

  test('what is asked for one that waits is not asked of the order that stands; each total has its day', () => {
    const request = {
      kind: 'requested',
      on: '2027-03-08',
      number: '7',
      instalment: 1,
      amountMinor: 26_080,
      currency: 'EUR',
      due: '2027-03-22',
    };
    const waits = stand([...change(700_000), request as Told]);
    expect([waits.instalments[0]?.requested, waits.changeInstalments?.[0]?.requested?.due]).toEqual([undefined, '2027-03-22']);
    const taken = stand([...change(700_000), request as Told, paid('2027-03-09', 1, 26_080)]);
    expect(taken.instalments[0]?.requested?.due).toBe('2027-03-22');
    const totals = taken.orders.map(({ confirmed: { chosen }, on }) => [chosen.totalMinor, on]);
    expect([totals[0]?.[0], totals[1]]).toEqual([634_800, [700_000, '2027-03-09']]);
    expect(waits.orders).toHaveLength(1);
  });

  test('that costs less, or puts all it adds to later instalments, holds once it is confirmed', () => {
    const less = stand(change(600_000));
    expect([less.order?.confirmed.n, less.order?.on, less.openMinor]).toEqual([9, '2027-03-08', 346_080]);
    expect(less.instalments[0]?.openMinor).toBe(-13_920);
  });

  test('an instalment that was requested before it rose is asked for once more, with the rest alone, once what was asked is paid', () => {
    const requested = (on: string, amountMinor: number): Told => ({
      ...{ kind: 'requested', on, number: `n-${on}`, instalment: 2, amountMinor, currency: 'EUR', due: '2027-04-30' },
    });
    const [, ...later] = change(700_000).slice(order.length - 1);
    const taken = [...order, requested('2027-03-01', 253_920), ...later, paid('2027-03-09', 1, 26_080)];
    const second = (story: readonly Told[]) => stand(story, '2027-04-10').instalments[1];
    // 40 % of 7,000.00 is 2,800.00: the 2,539.20 that were asked for are waited for first.
    expect(second(taken)).toMatchObject({ amountMinor: 280_000, openMinor: 280_000, requested: { on: '2027-03-01' } });
    const paidAsAsked = [...taken, paid('2027-04-01', 2, 253_920)];
    expect(second(paidAsAsked)).toMatchObject({ openMinor: 26_080 });
    expect(second(paidAsAsked)?.requested).toBeUndefined();
    expect(second([...paidAsAsked, requested('2027-04-02', 26_080)])).toMatchObject({ requested: { on: '2027-04-02' } });
    expect(second([...paidAsAsked, paid('2027-04-03', 2, 26_080)])).toMatchObject({ openMinor: 0, requested: { on: '2027-03-01' } });
  });

  test('puts the work back to the stage that its offer names, on the day on which it takes the place of the order', () => {
    const given = (again?: 'ordered' | 'glued') =>
      offers.map(
        (offer): IssuedOffer =>
          offer.revision === 'r4'
            ? { ...offer, change: { of: 'r1', design: 'A', stage: 'glued', ...(again === undefined ? {} : { again }) } }
            : offer,
      );
    const stage = (word: WorkStage, on: string): Told => ({ kind: 'stage', on, stage: word });
    const upTo = (word: WorkStage): readonly Told[] => [...order, stage(word, '2027-03-05'), ...change(700_000).slice(order.length)];
    const taken = paid('2027-03-09', 1, 26_080);
    const how = (story: readonly Told[], again?: 'ordered' | 'glued') => {
      const { stage: now, againFrom, orders } = stand(story, '2027-03-20', given(again));
      return [now, againFrom, orders.map((one) => one.stage).join()];
    };
    expect(how(upTo('glued'), 'ordered')).toEqual(['glued', undefined, 'ordered']);
    expect(how([...upTo('glued'), taken], 'ordered')).toEqual(['ordered', 'glued', 'ordered,glued']);
    expect(how([...upTo('glued'), taken, stage('cut', '2027-03-12')], 'ordered')).toEqual(['cut', 'glued', 'ordered,glued']);
    expect(how([...upTo('glued'), taken, stage('glued', '2027-03-15')], 'ordered')).toEqual(['glued', undefined, 'ordered,glued']);
    expect(how([...upTo('finished'), taken], 'glued')).toEqual(['glued', 'finished', 'ordered,finished']);
    // Nothing that was done is done again; and a change of a record that is older than this says nothing of it.
    expect(how([...upTo('cut'), taken], 'glued')).toEqual(['cut', undefined, 'ordered,cut']);
    expect(how([...upTo('glued'), taken])).toEqual(['glued', undefined, 'ordered,glued']);
    // Priced from glued, and finished by the time: only what serves in the new table is known to be finished.
    expect(how([...upTo('finished'), taken])).toEqual(['glued', 'finished', 'ordered,finished']);
  });

  test('that is not confirmed, or is superseded while it waits, changes nothing', () => {
    expect(stand(change(700_000).slice(0, 8)).order?.confirmed.n).toBe(4);
    const dropped = stand([...change(700_000), issued('2027-03-12', 'r2'), paid('2027-03-13', 1, 26_080)]);
    expect([dropped.order?.confirmed.n, dropped.changeWaits]).toEqual([4, undefined]);
  });
});

describe('the end', () => {
  test('lost: nobody is waited for; a later revision opens it again', () => {
    const lost: readonly Told[] = [issued('2027-02-14', 'r1'), { kind: 'lost', on: '2027-02-20', reason: 'price' }];
    expect([stand(lost).closed, stand(lost).waitingFor]).toEqual([{ kind: 'lost', on: '2027-02-20', n: 2 }, []]);
    const again = stand([...lost, issued('2027-03-01', 'r2')]);
    expect([again.closed, again.waitingFor.length]).toEqual([undefined, 2]);
  });

  test('cancelled: what is open is what is due by the stage less what was paid', () => {
    const cancelled: readonly Told[] = [
      ...order,
      { kind: 'stage', on: '2027-03-10', stage: 'cut' },
      { kind: 'cancelled', on: '2027-03-12', stage: 'cut', dueMinor: 300_000, currency: 'EUR' },
    ];
    const standing = stand(cancelled);
    expect([standing.closed?.kind, standing.openMinor, standing.stage]).toEqual(['cancelled', 46_080, 'cut']);
    const again = stand([...cancelled, issued('2027-05-01', 'r4')]);
    expect([again.closed, again.order, again.stage, again.paidMinor, again.openMinor]).toEqual([undefined, undefined, 'proposed', 0, 0]);
  });

  test('money after the end makes no order', () => {
    const late = stand(
      [...order.slice(0, 4), { kind: 'lost', on: '2027-02-25', reason: 'silence' }, paid('2027-02-26', 1, 253_920)],
      '2027-05-01',
    );
    expect([late.order, late.openMinor, late.holdHasRunOut]).toEqual([undefined, -253_920, false]);
  });
});

/** @source the worked commissions: the dining table of two who both must say yes, from three refused designs to delivery */
test('three designs refused, one half agreed, one ordered at 6,348.00; 90 mm wider after glue-up is asked and comes to nothing', () => {
  const refused: readonly Told[] = [
    issued('2027-02-14', 'r1'),
    no('2027-02-16', 'maren', 'r1'),
    no('2027-02-17', 'idris', 'r1'),
    { kind: 'note', on: '2027-02-18', how: 'telephone', person: 'maren' },
  ];
  const first = stand(refused);
  expect([first.stage, first.disagree, first.waitingFor, first.openNotes.length]).toEqual(['proposed', false, [], 1]);
  const half = [
    ...refused,
    { kind: 'note-settled', note: 4, as: 'answered' } as const,
    issued('2027-02-25', 'r2'),
    yes('2027-02-26', 'maren', A('r2')),
    no('2027-02-27', 'idris', 'r2', 'A'),
  ];
  expect([stand(half).approved, stand(half).disagree, stand(half).openNotes]).toEqual([undefined, true, []]);
  const ordered = [
    ...half,
    issued('2027-03-03', 'r3'),
    yes('2027-03-04', 'maren', A('r3')),
    yes('2027-03-05', 'idris', A('r3')),
    confirmed('2027-03-06', 'r3', 634_800, { answers: [10, 11] }),
    paid('2027-03-09', 1, 253_920),
    { kind: 'stage', on: '2027-04-01', stage: 'glued' } as const,
  ];
  expect(stand(ordered).instalments.map(({ amountMinor }) => amountMinor)).toEqual([253_920, 253_920, 126_960]);
  const wider = [...ordered, issued('2027-04-05', 'r4'), yes('2027-04-06', 'maren', choice('r4', 'A', ['ceramic'], 720_000))];
  const asked = stand(wider);
  expect([asked.stage, asked.order?.confirmed.chosen.totalMinor, asked.waitingFor.map(({ person }) => person)]).toEqual([
    'glued',
    634_800,
    ['idris'],
  ]);
  const done = stand([
    ...wider,
    no('2027-04-07', 'idris', 'r4'),
    paid('2027-04-20', 2, 253_920),
    { kind: 'stage', on: '2027-05-02', stage: 'delivered' },
    paid('2027-05-03', 3, 126_960),
    { kind: 'stage', on: '2027-05-10', stage: 'accepted' },
  ]);
  expect([done.stage, done.disagree, done.openMinor, done.instalments.every(({ openMinor }) => openMinor === 0)]).toEqual([
    'accepted',
    true,
    0,
    true,
  ]);
});

/** @source the worked commissions: the desk of two who decide, one of whom sees no price */
test('the designer says no to the trestles that the translator likes; both take the slab end', () => {
  const people = [
    { id: 'lindqvaar', audience: 'payer' },
    { id: 'wren', audience: 'no-price' },
  ] as const;
  const desk = ['r1', 'r2'].map((revision, i) => offerFor(revision, i + 1, { people }));
  const liked = yes('2027-02-16', 'wren', choice('r1', 'B', []));
  const first: readonly Told[] = [issued('2027-02-14', 'r1'), liked, no('2027-02-17', 'lindqvaar', 'r1', 'B')];
  const differ = stand(first, undefined, desk);
  expect([differ.stage, differ.disagree, differ.approved]).toEqual(['proposed', true, undefined]);
  const both = [
    ...first,
    issued('2027-02-25', 'r2'),
    yes('2027-02-26', 'wren', choice('r2', 'A', [])),
    yes('2027-02-27', 'lindqvaar', choice('r2', 'A', [], 606_000)),
  ];
  expect([stand(both, undefined, desk).stage, stand(both, undefined, desk).approved?.chosen.totalMinor]).toEqual(['approved', 606_000]);
});

test('a sample is approved, then refused: the last word counts, of each person', () => {
  const sample = (on: string, person: string, verdict: 'yes' | 'no'): Told => ({
    kind: 'sample',
    on,
    person,
    sample: 'S-041',
    of: 'sample',
    verdict,
    keeps: 'half-each',
  });
  const story = [sample('2027-02-01', 'maren', 'yes'), sample('2027-02-02', 'idris', 'yes'), sample('2027-02-03', 'maren', 'no')];
  expect(stand(story).samples.map(({ person, verdict }) => [person, verdict])).toEqual([
    ['maren', 'no'],
    ['idris', 'yes'],
  ]);
});

test('a note is open until it is settled', () => {
  const story: readonly Told[] = [
    { kind: 'note', on: '2027-02-01', how: 'telephone' },
    { kind: 'note', on: '2027-02-02', how: 'visit' },
    { kind: 'note-settled', note: 1, as: 'wish', wish: 'w9' },
  ];
  expect(stand(story).openNotes.map(({ n }) => n)).toEqual([2]);
});
