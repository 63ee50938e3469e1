import { describe, expect, test } from 'vitest';
import { clientView } from '../../src/client/index.ts';
import type { ComputedProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import type { TermsSpec } from '../../src/spec/index.ts';
import { date, length } from '../fixtures.ts';
import { computed, planted } from './commission.ts';

/**
 * What consent to electronic form has to show, point by point.
 * @source Electronic Signatures in Global and National Commerce Act, 15 USC 7001(b) and (c)(1)(A) to (C)
 * @source Directive 2011/83/EU, Art. 9 and 16(c); Regulation (EU) 910/2014, Art. 25; 16 CFR 429
 */
const source = computed();
const figures = figuresOf(source);
const under = (consent: TermsSpec['consent'], audience: 'payer' | 'no-price' = 'payer') => {
  const { consent: _, ...terms } = source.input.library.terms;
  const library = { ...source.input.library, terms: consent === undefined ? terms : { ...terms, consent } };
  const changed: ComputedProposal = { ...source, input: { ...source.input, library } };
  const { consent: view } = clientView(changed, figures, { audience });
  if (view === undefined) throw new Error('no consent in the view');
  return view;
};
const said = (view: ReturnType<typeof under>): string =>
  [...view.rows, ...view.law].map(({ says, value }) => `${says}: ${value}`).join('\n');
const { address, email } = source.input.library.maker;

describe('consent to electronic form', () => {
  const text = `${under('us').sentence}\n${said(under('us'))}`;
  test.each([
    ['7001(b): nobody is forced to it', /need not answer electronically/],
    ['7001(c)(1)(B)(i): the right to have it on paper', /Paper is as good/],
    ['(B)(i): to withdraw the consent, and what follows from that', /paper from then on.*What was agreed before stays agreed/s],
    ['(B)(ii): what the consent covers', /This proposal alone/],
    [
      '(B)(iii): how to withdraw, and how to change an address',
      new RegExp(`Write to ${email} or to ${address}.*your own address changes`, 's'),
    ],
    ['(B)(iv): how to get a copy on paper, and its fee', /costs nothing.*on paper if you ask/s],
    ['(C)(i): hardware and software needed', /A browser for the page, a program that shows PDF files/],
    ['(C)(ii): that the reader could open the form', /I could open this page and its documents and can keep them/],
  ])('%s', (_, words) => expect(text).toMatch(words));

  test('claims no more for a typed name than it is', () => {
    expect(text).toContain('It does not prove who typed it.');
    expect(under('eu').note).toMatch(/version 2\. They are no legal advice/);
  });

  test('which law is told follows from the terms, and none where they state none', () => {
    expect(said(under('eu'))).toMatch(
      /910\/2014, Art\. 25.*2011\/83\/EU, Art\. 9.*generally does not apply.*Art\. 16\(c\)\).*the law of your country decides/s,
    );
    expect(said(under('eu'))).not.toMatch(/USC|CFR/);
    expect(text).toMatch(/15 USC 7001.*until midnight of the third business day.*16 CFR 429/s);
    expect(text).not.toMatch(/Directive|fourteen/);
    for (const none of ['none-stated', undefined] as const) expect(under(none).law).toEqual([]);
  });

  test('the right to withdraw is told to the one who pays alone; who sees no price agrees to none', () => {
    const view = under('eu', 'no-price');
    expect(said(view)).not.toContain('withdraw (Directive');
    expect(view.sentence).not.toMatch(/price|terms/);
    expect(under('eu').sentence).toMatch(/the price and the terms/);
  });
});

describe('the ground of a made-to-order contract', () => {
  const plain = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
  const rows = (over: Parameters<typeof computed>[0] = {}) => {
    const one = computed(over);
    const { consent } = clientView(one, figuresOf(one));
    return new Map((consent?.ground.rows ?? []).map(({ says, value }) => [says, plain(value)]));
  };

  test("lists the client's own room, way in, chairs and wishes with their targets", () => {
    const { room, wishes } = source.input.proposal;
    const ground = rows();
    const mm = new Intl.NumberFormat('en-GB');
    expect(ground.get('Room')).toContain(`${mm.format(room.length.mm)} × ${mm.format(room.width.mm)} mm`);
    for (const { says } of [...room.access, ...Object.values(room.obstacles), ...Object.values(wishes)])
      expect([...ground.keys()]).toContain(says);
    expect([...ground.values()]).toContain('at least 102 kg (1,000 N)');
    expect([...ground.values()]).not.toContain('');
  });

  test('says when the room was measured and how well, as far as that is known', () => {
    const { surveyedOn: _on, tolerance: _within, ...bare } = source.input.proposal.room;
    const value = (more: object): string => rows({ room: { ...bare, ...more } }).get('Room') ?? '';
    const surveyedOn = date(2026, 2, 14);
    const tolerance = length(10);
    expect(value({})).not.toMatch(/measured|±/);
    expect(value({ surveyedOn })).toMatch(/ mm, measured on 14 February 2026$/);
    expect(value({ tolerance })).toMatch(/ mm, ± 10 mm$/);
    expect(value({ surveyedOn, tolerance })).toMatch(/ mm, ± 10 mm, measured on 14 February 2026$/);
  });

  test('notes that the maker made on room and wishes stay in the workshop', () => {
    const text = JSON.stringify(under('eu'));
    for (const word of planted.words) expect(text).not.toContain(word);
  });

  test('a price that was wished for is not among what somebody without prices is shown', () => {
    const says = Object.values(source.input.proposal.wishes).find(({ measure }) => measure.kind === 'price')?.says;
    expect(says).toBeDefined();
    expect(under('eu').ground.rows.map((row) => row.says)).toContain(says);
    expect(under('eu', 'no-price').ground.rows.map((row) => row.says)).not.toContain(says);
  });

  test('warns that a choice among presets may not count, and that local law decides', () => {
    expect(under('eu').ground.presets).toMatch(/ready-made may not count as your own specification.*local law decides/);
  });
});
