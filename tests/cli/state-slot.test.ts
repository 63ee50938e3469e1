import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { publishRevisions } from '../../src/cli/make/publish.ts';
import { readProposal } from '../../src/read/index.ts';
import { type AnyBody, type IssuedOffer, issuedOffers, issuedRevisions, issueRevision, readEntries } from '../../src/record/index.ts';
import { stateSlot } from '../../src/site/client/index.ts';
import { add, makeWorkspace, request } from '../record/workshop.ts';

/** The slot of two pages, the one of the payer and one without prices, while a change of their order is out. All is invented. */
const utf8 = (text: string): Uint8Array => Buffer.from(text, 'utf8');
const today = readProposal(new URL('../..', import.meta.url).pathname, 'tollefsen-quill').input?.library.texts ?? {};
const frozenTexts = { 'page.size': 'Size', 'changed.price': 'Price, tax included' };

const combination = (minor: number) => ({ options: ['pale'], netMinor: minor, totalMinor: minor, instalmentsMinor: [minor] });
const offerBytes = (revision: string, rule: 'all' | 'any'): Uint8Array =>
  utf8(
    JSON.stringify({
      format: 'leafwright/offer/1',
      proposal: 'tarrow',
      revision,
      language: 'en-GB',
      currency: 'EUR',
      date: '2027-02-11',
      validUntil: '2027-03-20',
      level: 'full',
      rule,
      people: [
        { id: 'ann', audience: 'payer' },
        { id: 'bo', audience: 'no-price' },
      ],
      terms: {},
      designs: [{ id: 'A', name: 'Reed', options: ['pale'], combinations: [combination(500_000)] }],
      instalments: [{ percent: 100, when: 'now' }],
    }),
  );

type Audience = 'payer' | 'no-price';
type More = Readonly<Record<string, unknown>>;

function viewBytes(revision: string, audience: Audience, client: string, more: More): Uint8Array {
  const seesPrice = audience === 'payer';
  const [id, name] = seesPrice ? ['ann', 'Ann <b>'] : ['bo', 'Bo'];
  return utf8(
    JSON.stringify({
      language: 'en-GB',
      audience,
      texts: frozenTexts,
      client: { name: client },
      maker: { name: seesPrice ? 'Runa' : 'Ann', email: 'runa@bench.example.invalid' },
      revision: { id: revision, ordinal: `Proposal ${revision}`, date: '11 February 2027', validUntil: '20 March 2027' },
      letter: {
        people: [{ id, place: 0, name }],
        designs: [
          {
            id: 'A',
            name: 'Reed',
            options: [{ id: 'pale', says: 'a pale oil' }],
            combinations: [{ options: ['pale'], ...(seesPrice ? { total: { minor: 500_000, shown: '€5,000.00' } } : {}) }],
          },
        ],
      },
      changed: {
        designs: [
          {
            rows: [
              ...(seesPrice ? [{ label: 'Price, tax included', before: '€5,000', now: '€5,600' }] : []),
              { label: 'Size', before: '2,100 mm', now: '2,200 mm' },
            ],
          },
        ],
      },
      ...more,
    }),
  );
}

/** `knows`: its style takes the slot's word for a letter that is not asked for. */
async function bench(rule: 'all' | 'any' = 'all', knows = true) {
  const { folder } = makeWorkspace();
  const style = knows ? '<style>.standing[data-answers="shut"] ~ .reply {}</style>' : '';
  const html = `${style}<main>${stateSlot.open}${stateSlot.close}<section id="answer"></section></main>`;
  const make = async () => [{ path: 'index.html', bytes: utf8(html) }];
  const issue = async (
    revision: string,
    {
      client = 'Ann',
      pages = ['payer', 'no-price'],
      more = {},
    }: { client?: string; pages?: readonly [Audience, Audience]; more?: More } = {},
  ): Promise<IssuedOffer> => {
    const random = createHash('sha256').update(`viewer ${revision}`).digest().subarray(0, 16);
    await issueRevision(
      request(folder, revision, {
        page: 'payer',
        others: [{ page: 'viewer', random, make }],
        data: [
          { path: 'offer.json', bytes: offerBytes(revision, rule) },
          { path: 'client.json', bytes: viewBytes(revision, pages[0], client, more) },
          { path: 'client-viewer.json', bytes: viewBytes(revision, pages[1], client, more) },
        ],
        make,
      }),
    );
    const offer = issuedOffers(folder).find((one) => one.revision === revision);
    if (offer === undefined) throw new Error('not issued');
    return offer;
  };
  const record = async (body: AnyBody): Promise<void> => {
    const { entry, problems } = await add(folder, body);
    if (entry === undefined) throw new Error(JSON.stringify(problems));
  };
  const say = async ({ revision, fingerprint }: IssuedOffer, person: string, on: string, verdict: 'yes' | 'no'): Promise<void> => {
    const chosen = { revision, fingerprint, design: 'A', options: ['pale'], totalMinor: 500_000, currency: 'EUR' };
    await record({ kind: 'answer', on, person, verdict, revision, fingerprint, ...(verdict === 'yes' ? { chosen } : {}), by: 'code' });
  };
  const yes = async (offer: IssuedOffer): Promise<void> => {
    for (const person of ['ann', 'bo']) await say(offer, person, '2027-02-20', 'yes');
  };
  const order = async (offer: IssuedOffer): Promise<void> => {
    await yes(offer);
    const answers = readEntries(folder).flatMap(({ kind, n }) => (kind === 'answer' ? [n] : []));
    const chosen = {
      revision: offer.revision,
      fingerprint: offer.fingerprint,
      design: 'A',
      options: ['pale'],
      totalMinor: 500_000,
      currency: 'EUR',
    };
    await record({ kind: 'confirmed', on: '2027-02-21', chosen, answers, instalmentsMinor: [500_000], holdUntil: '2027-03-15' });
    await record({ kind: 'paid', on: '2027-02-22', amountMinor: 500_000, currency: 'EUR', instalment: 1 });
  };
  /** The slot of a page, and the tokens of all pages as `r1/payer`. */
  const slots = (day: string) => {
    const revisions = issuedRevisions(folder, day);
    const files = new Map(publishRevisions(folder, revisions, today).map(({ path, bytes }) => [path, Buffer.from(bytes).toString()]));
    const pages = revisions.flatMap(({ revision, pages: all }) => all.map(({ page, token }) => [`${revision}/${page}`, token] as const));
    const slotOf = (name: `${string}/${string}`): string => {
      const page = files.get(`client/${new Map(pages).get(name)}/index.html`) ?? '';
      return page.slice(page.indexOf(stateSlot.open) + stateSlot.open.length, page.indexOf(stateSlot.close));
    };
    return { slotOf, tokens: new Map(pages) };
  };
  return { issue, say, yes, order, slots };
}

test('the page of the order tells of a change on offer and leads each reader to the page for them', async () => {
  const { issue, order, slots } = await bench();
  await order(await issue('r1'));
  await issue('r2');
  const { slotOf, tokens } = slots('2027-03-01');
  const [payer, viewer] = [slotOf('r1/payer'), slotOf('r1/viewer')];
  expect(payer).toContain('<div class="standing" data-answers="shut" data-yes><p>What was agreed here is ordered, since 22 February 2027.');
  expect(payer).toContain(
    'Design A, <bdi>Reed</bdi>. Chosen with it: <bdi>a pale oil</bdi>. €5,000.00 in all. <bdi>Ann &lt;b&gt;</bdi> said yes on 20 February 2027.',
  );
  expect(payer).toContain(
    '<p>A change to this order is on offer (Proposal r2, 11 February 2027). <bdi>Size</bdi>: 2,200 mm instead of 2,100 mm. The whole would come to €5,600. Your order stands until all have agreed, I have confirmed it and what it adds is paid.</p>',
  );
  expect(payer).toContain(`<p><a href="../${tokens.get('r2/payer')}/index.html">Open the change, and answer it</a></p>`);
  expect(viewer).toContain(`<a href="../${tokens.get('r2/viewer')}/index.html">`);
  expect(viewer).toContain('The order stands until all have agreed and I have confirmed it.');
  // Nothing of the other page: no amount, no other reader, no way to it.
  expect(viewer).not.toMatch(/€|5,[06]00|Ann/);
  expect([viewer.includes(tokens.get('r2/payer') ?? '-'), payer.includes(tokens.get('r2/viewer') ?? '-')]).toEqual([false, false]);
  expect(slotOf('r2/payer')).toBe('<div class="standing" data-answers="open"><p>I hold this proposal open until 20 March 2027.</p></div>');
});

test('where one yes is enough, it says so; a change that ran out or was agreed is told as that', async () => {
  const either = await bench('any');
  await either.order(await either.issue('r1'));
  const r2 = await either.issue('r2');
  expect(either.slots('2027-03-01').slotOf('r1/payer')).toContain('Your order stands until it is agreed, I have confirmed it');
  const over = either.slots('2027-03-21').slotOf('r1/payer');
  expect(over).toContain('was on offer until 20 March 2027 (Proposal r2, 11 February 2027). Your order stands as it is.</p>');
  expect(over).not.toContain('answer it');
  await either.yes(r2);
  expect(either.slots('2027-03-01').slotOf('r1/payer')).toContain('Your order stands until I have confirmed it and what it adds is paid.');
});

test('a superseded page names the newer one and leads each reader to the one for them, and to no other', async () => {
  const { issue, slots } = await bench();
  await issue('r1');
  await issue('r2');
  const { slotOf, tokens } = slots('2027-03-01');
  for (const name of ['payer', 'viewer'] as const) {
    const slot = slotOf(`r1/${name}`);
    expect(slot).toContain('(Proposal r2, 11 February 2027): please answer that one. This page stays as it was issued.</p>');
    expect(slot).toContain(`<p><a href="../${tokens.get(`r2/${name}`)}/index.html">Open the newer proposal</a></p>`);
    expect([...tokens].filter(([, token]) => slot.includes(token)).map(([to]) => to)).toEqual([`r2/${name}`]);
    // Nobody said yes to it: how a yes is said is not told any more.
    expect(slot).toContain('data-answers="shut">');
  }
  expect(slots('2027-03-21').slotOf('r1/payer')).not.toContain('please answer');
});

test('where the newer page may be for somebody else, its link is not handed on', async () => {
  const { issue, slots } = await bench();
  await issue('r1');
  await issue('r2', { client: 'Cay' });
  const { slotOf, tokens } = slots('2027-03-01');
  for (const name of ['payer', 'viewer'] as const) {
    expect(slotOf(`r1/${name}`)).toContain('is in the message that I sent with it');
    for (const token of tokens.values()) expect(slotOf(`r1/${name}`)).not.toContain(token);
  }
});

test('a yes that is on record keeps on its page how it was said, for those who said it', async () => {
  const { issue, say, slots } = await bench();
  const r1 = await issue('r1');
  await say(r1, 'bo', '2027-02-14', 'yes');
  await say(r1, 'ann', '2027-02-15', 'no');
  await issue('r2');
  const { slotOf } = slots('2027-03-01');
  expect([slotOf('r1/payer').includes('data-yes'), slotOf('r1/viewer').includes('data-yes')]).toEqual([false, true]);
});

test('a page that was frozen before it could shut its letter says so in words', async () => {
  const asks = 'is not asked for any more';
  for (const knows of [true, false]) {
    const { issue, slots } = await bench('all', knows);
    await issue('r1');
    expect(slots('2027-03-01').slotOf('r1/payer')).not.toContain(asks);
    expect(slots('2027-03-21').slotOf('r1/payer').includes(asks)).toBe(!knows);
  }
});

test('where the page of a change may be for somebody else, it is told of and its link is not handed on', async () => {
  const { issue, order, slots } = await bench();
  await order(await issue('r1'));
  await issue('r2', { client: 'Cay' });
  const { slotOf, tokens } = slots('2027-03-01');
  for (const name of ['payer', 'viewer'] as const) {
    const slot = slotOf(`r1/${name}`);
    expect(slot).toContain('A change to this order is on offer (Proposal r2, 11 February 2027).');
    expect(slot).toContain('is in the message that I sent with it');
    for (const token of tokens.values()) expect(slot).not.toContain(token);
  }
});

test('a page of the same name for another reader is no way for this one', async () => {
  const swapped = { pages: ['no-price', 'payer'] } as const;
  const otherName = { more: { maker: { name: 'Cass', email: 'cass@studio.example.invalid' } } };
  for (const of of [swapped, otherName]) {
    const { issue, slots } = await bench();
    await issue('r1');
    await issue('r2', of);
    const { slotOf, tokens } = slots('2027-03-01');
    for (const page of ['r1/payer', 'r1/viewer'] as const) for (const token of tokens.values()) expect(slotOf(page)).not.toContain(token);
  }
});

test('a page tells answers to itself alone, and what its own order rests on', async () => {
  const { issue, say, order, slots } = await bench();
  const r1 = await issue('r1');
  await say(r1, 'ann', '2027-02-12', 'no');
  const r2 = await issue('r2');
  const over = slots('2027-03-21').slotOf('r2/payer');
  expect(over).toContain('<a href="mailto:runa@bench.example.invalid">');
  expect(over).not.toMatch(/said|Design A/);
  await order(r2);
  await say(r2, 'ann', '2027-02-25', 'no');
  const shut = slots('2027-03-01').slotOf('r1/payer');
  expect(shut).toContain('A newer proposal has taken the place of this one');
  expect(shut).not.toContain('please answer');
  await issue('r3');
  // What was agreed of the order is no answer to the change, and one that came after it was confirmed is none of its grounds.
  expect(slots('2027-03-21').slotOf('r3/payer')).not.toMatch(/said|Design A/);
  const ordered = slots('2027-03-01').slotOf('r2/payer');
  expect(ordered).toContain('said yes on 20 February 2027');
  expect(ordered).not.toContain('said no');
});

test('where one alone decides, nobody waits for all', async () => {
  const { issue, order, slots } = await bench();
  await order(await issue('r1'));
  await issue('r2', { more: { deciders: { names: ['Ann'] } } });
  expect(slots('2027-03-01').slotOf('r1/payer')).toContain('Your order stands until it is agreed, I have confirmed it');
});
