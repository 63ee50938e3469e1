import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { clientView, offerOf, termsText } from '../../src/client/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { offerSchema } from '../../src/record/standing/offer.ts';
import { checkReply, type Letter } from '../../src/reply/index.ts';
import { computed } from './commission.ts';

const source = computed();
const figures = figuresOf(source);
const offer = offerOf(source, figures);
/** One who pays and one who sees no price, each with a page. */
const twoPages = computed({
  pages: { payer: { audience: 'payer' }, viewer: { audience: 'no-price' } },
  deciders: { rule: 'all', people: { maren: { name: 'Maren Tollefsen' }, idris: { name: 'Idris Quill', page: 'viewer' } } },
});

describe('what a revision offers', () => {
  test('of a change to an order: the changed design as it was ordered, and nothing else', () => {
    const change = { of: 'r2', design: 'A', options: ['ceramic'], stage: 'glued', weeks: 3 } as const;
    const revision = { ...source.input.proposal.revision, change: { ...change, options: [...change.options] } };
    const changed = computed({ revision });
    const offered = offerOf(changed, figuresOf(changed));
    expect(offerSchema.parse(offered).change).toEqual({ of: 'r2', design: 'A', stage: 'glued' });
    expect(offered.designs.map(({ id, options, combinations }) => [id, options, combinations.map((one) => one.options)])).toEqual([
      ['A', ['ceramic'], [['ceramic']]],
    ]);
    const { letter } = clientView(changed, figuresOf(changed));
    expect(letter?.designs.map(({ id, combinations }) => [id, combinations.length])).toEqual([['A', 1]]);
  });

  test('of a change to an order: that the order stands until it is agreed, and of what is paid for those who see prices alone', () => {
    const change = { of: 'r2', design: 'A', options: ['ceramic'], stage: 'glued', weeks: 3 } as const;
    const revision = { ...source.input.proposal.revision, change: { ...change, options: [...change.options] } };
    const changed = computed({ revision });
    const stands = (audience: 'payer' | 'no-price'): string | undefined =>
      clientView(changed, figuresOf(changed), { audience }).revision.orderStands;
    expect(stands('payer')).toMatch(
      /^This is a change to your order of r2\. Until it is agreed, .* as it was ordered\. If the work has gone further .* once more\. What you have paid/,
    );
    expect(stands('no-price')).toMatch(/^This is a change to the order of r2\. Until it is agreed/);
    expect(stands('no-price')).not.toMatch(/paid|instalment/);
    expect(clientView(source, figures).revision.orderStands).toBeUndefined();
  });

  test('of a change to an order: no choice whose last stage is reached or whose last day is over', () => {
    const { date } = source.input.proposal.revision;
    const choices = [
      { says: 'Width of the top', lastStage: 'timber-bought' },
      { says: 'Round of the edge', lastStage: 'glued' },
      { says: 'Oil or varnish', lastStage: 'finished' },
      { says: 'Sheen', lastStage: 'before the first coat', lastDay: date },
      { says: 'Legs', lastStage: 'in my own words', lastDay: { ...date, year: date.year - 1 } },
    ];
    const said = (of: ReturnType<typeof computed>): readonly string[] =>
      clientView(of, figuresOf(of)).choices.map((one) => one.split(':')[0] ?? '');
    expect(said(computed({ choices }))).toEqual(['Width of the top', 'Round of the edge', 'Oil or varnish', 'Sheen', 'Legs']);
    const change = { of: 'r2', design: 'A', options: ['ceramic'], stage: 'glued', weeks: 3 } as const;
    const revision = { ...source.input.proposal.revision, change: { ...change, options: [...change.options] } };
    expect(said(computed({ choices, revision }))).toEqual(['Oil or varnish', 'Sheen']);
  });

  test('is read by the record, key by key, after a way through JSON', () => {
    expect(offerSchema.parse(JSON.parse(JSON.stringify(offer)))).toEqual(offer);
  });

  test('holds the designs on offer with every combination, and no names of people', () => {
    expect(offer.designs.map(({ id, name, options }) => [id, name, options])).toEqual([
      ['A', 'Reed', ['ceramic', 'stout']],
      ['B', 'Slab ends', []],
    ]);
    expect(offer.designs[0]?.combinations.map((one) => one.options)).toEqual([[], ['ceramic'], ['ceramic', 'stout'], ['stout']]);
    expect(JSON.stringify(offer)).not.toMatch(/Maren|Tollefsen|Idris|Quill|Mole End/);
  });

  test('totals are net and 20 % tax; instalments of 40 and 60 % add up to them, the first within a unit of its share', () => {
    const combinations = offer.designs.flatMap((design) => design.combinations);
    expect(combinations.length).toBe(5);
    for (const { netMinor, totalMinor, instalmentsMinor } of combinations) {
      expect(totalMinor).toBe(netMinor + Math.round(netMinor * 0.2));
      expect(instalmentsMinor.length).toBe(2);
      expect(instalmentsMinor.reduce((sum, one) => sum + one, 0)).toBe(totalMinor);
      expect(Math.abs((instalmentsMinor[0] ?? 0) - totalMinor * 0.4)).toBeLessThan(1);
    }
    // The option has a price of its own: 240.00 net, so 288.00 with tax.
    const [plain, ceramic] = offer.designs[0]?.combinations ?? [];
    expect((ceramic?.totalMinor ?? 0) - (plain?.totalMinor ?? 0)).toBe(28_800);
  });

  test('those who decide stand in the order of their ids, each with what they are shown', () => {
    expect(offer.people).toEqual([
      { id: 'idris', audience: 'payer' },
      { id: 'maren', audience: 'payer' },
    ]);
    const two = offerOf(twoPages, figures);
    expect(two.people.map(({ audience }) => audience)).toEqual(['no-price', 'payer']);
    expect(Object.keys(two.terms)).toEqual(['no-price', 'payer']);
    expect(Object.keys(offer.terms)).toEqual(['payer']);
  });

  test('terms are told by the SHA-256 of the text that the page shows', () => {
    for (const audience of ['payer', 'no-price'] as const) {
      const { terms } = clientView(source, figures, { audience });
      // By the other implementation of FIPS 180-4 at hand.
      const digest = createHash('sha256').update(termsText(terms), 'utf8').digest('hex');
      expect(offerOf(twoPages, figures).terms[audience]).toBe(digest);
    }
    const { terms } = clientView(source, figures);
    for (const { title } of terms.sections) expect(termsText(terms)).toContain(title);
    for (const { says, value } of terms.tolerances) expect(termsText(terms)).toContain(`${says}: ${value}`);
    const other = { ...terms, cancellation: [{ stage: 'cut', says: 'nothing is given back' }] };
    expect(termsText(other)).not.toBe(termsText(terms));
  });

  test('a letter made from it fits it', () => {
    const [design] = offer.designs;
    const [one] = design?.combinations.slice(2) ?? [];
    const letter: Letter = {
      verdict: 'yes',
      fingerprint: 'ab'.repeat(10),
      design: 'A',
      options: [true, true],
      total: { minor: one?.totalMinor ?? 0, currency: offer.currency },
      date: '2026-03-01',
      decider: 1,
      terms: offer.terms.payer?.slice(0, 8),
      name: 'M. Tollefsen',
      remark: '',
    };
    const offered = { ...offer, fingerprint: 'ab'.repeat(32) };
    const checked = checkReply(letter, [offered], '2026-03-02');
    expect(checked.mismatches).toEqual([]);
    expect(checked.person?.id).toBe('maren');
  });
});
