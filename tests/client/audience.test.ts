import { describe, expect, test } from 'vitest';
import { draftPages } from '../../src/cli/draft/issue-pages.ts';
import { clientView } from '../../src/client/index.ts';
import { computedUnder } from '../../src/compute.ts';
import type { Mark, Sheet } from '../../src/draw/index.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { type BrandSpec, pageOfDecider, pagesOf } from '../../src/spec/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { proposal } from '../fixtures.ts';
import { computed } from './commission.ts';

const brand: BrandSpec = { name: 'Ines Averill', email: 'ines@averill.example.invalid' };
const source = computed({
  pages: { payer: { audience: 'payer' }, viewer: { audience: 'no-price', level: 'agreed', brand, for: 'Jory Penhale' } },
});
const figures = figuresOf(source);
const { maker } = source.input.library;
const kernels = { measure: openFonts().measure };
const plain = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

/** Everything that can reach a file: the words, and the letterings of the drawings. */
const allOf = (view: object): string => plain(JSON.stringify({ ...view, texts: 0 }));

describe('what a level may not see is not there', () => {
  const levels = { sketch: 0, agreed: 0, full: 0 };
  const at = (level: keyof typeof levels) => clientView(source, figures, { audience: 'payer', level });
  /** Sections of parts in the order of the cutting list, width and thickness, as a drawing or a table letters them. */
  const sections = Object.values(figures.variants).flatMap(({ parts, offered }) =>
    offered ? parts.filter(({ role }) => role !== 'top').map(({ sizeMm }) => `${sizeMm.width} × ${sizeMm.thickness}`) : [],
  );
  const joints = Object.values(figures.variants).flatMap(({ takeoff }) => takeoff.hardware.map(({ says }) => says));

  test('sections and joints: at the level full alone', () => {
    expect(sections.length).toBeGreaterThan(4);
    expect(joints.length).toBeGreaterThan(0);
    const found = (level: keyof typeof levels, what: readonly string[]): readonly string[] =>
      what.filter((text) => allOf(at(level)).includes(text));
    expect(found('full', sections).length).toBeGreaterThan(4);
    expect(found('full', joints)).toEqual(joints);
    for (const level of ['sketch', 'agreed'] as const)
      expect([level, found(level, sections), found(level, joints)]).toEqual([level, [], []]);
  });

  test('how the top moves is said at every level, the width of another part only at full', () => {
    for (const level of ['sketch', 'agreed', 'full'] as const)
      expect([level, at(level).designs[0]?.movement[0]]).toEqual([level, expect.stringMatching(/^The top /)]);
    expect(at('full').designs.map(({ movement }) => movement.length)).toEqual([3, 3].map((n, i) => n + (i === 1 ? 1 : 0)));
  });

  test('drawings: a picture in a sketch, main sizes at agreed, the underside at full', () => {
    const drawn = (level: keyof typeof levels): readonly string[] =>
      Object.entries(at(level).designs[0] ?? {}).flatMap(([name, value]) =>
        typeof value === 'object' && value !== null && 'marks' in value ? [name] : [],
      );
    expect(drawn('sketch')).toEqual(['picture', 'small']);
    expect(drawn('agreed')).toEqual(['picture', 'small', 'front', 'side', 'plan', 'sheet']);
    expect(drawn('full')).toEqual(['picture', 'small', 'front', 'side', 'plan', 'underside', 'sheet']);
  });

  test('the drawings of agreed letter overall sizes and nothing else of the table', () => {
    const design = at('agreed').designs[0];
    const { length, width, height } = figures.variants.A?.overallMm ?? { length: 0, width: 0, height: 0 };
    const lettered = (sheet: Sheet | undefined): readonly string[] =>
      (sheet?.marks ?? []).flatMap((mark: Mark) => (mark.kind === 'text' && /^\d[\d,]*$/.test(mark.text) ? [mark.text] : []));
    expect(new Set([design?.front, design?.side, design?.plan].flatMap(lettered))).toEqual(new Set([length, width, height].map(String)));
  });
});

describe("a page under a designer's name", () => {
  const under = computedUnder(source, brand, kernels);
  const view = clientView(under, figures, { audience: 'no-price', level: 'agreed', for: 'Jory Penhale', isUnderBrand: true });

  test('holds nothing of the maker: words, drawings, ways to answer', () => {
    for (const text of [maker.name, maker.address, maker.email, maker.telephone]) {
      expect([text, allOf(clientView(source, figures)).includes(text)]).toEqual([text, true]);
      expect([text, allOf(view).includes(text)]).toEqual([text, false]);
    }
    const lettered = (sheet: Sheet | undefined): readonly string[] =>
      (sheet?.marks ?? []).flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(lettered(view.designs[0]?.sheet)).toContain('Ines Averill');
    expect(view.maker).toEqual({ name: 'Ines Averill', trade: '', address: '', email: 'ines@averill.example.invalid', telephone: '' });
    // Where there is no address, paper and withdrawal name the e-mail address.
    expect(allOf(view.consent ?? {})).not.toMatch(/ at \.| to \./);
  });

  test('is for who reads it, and calls nobody the maker', () => {
    expect([view.client, view.endClient]).toEqual([{ name: 'Jory Penhale' }, undefined]);
    expect([view.texts['page.maker'], view.texts['scope.maker'], view.texts['draw.maker']]).toEqual(['From', 'From', 'From']);
    expect(source.input.library.texts['page.maker']).toBe('The maker');
  });

  test('says whose the first person is and where an answer goes, as no page under the maker’s own name does', () => {
    expect(view.voice).toMatch(/^I make the table, and Ines Averill brings it to you: “I” is always the maker\. .*goes to Ines Averill,/);
    const [own, other] = draftPages(source, figures, kernels);
    expect([own.viewOf().voice, other?.viewOf().voice]).toEqual([undefined, view.voice]);
  });

  test('draws the same table: no mark differs but lettering', () => {
    const shapes = (sheet: Sheet | undefined) => sheet?.marks.filter(({ kind }) => kind !== 'text');
    const own = clientView(source, figures, { level: 'agreed' });
    expect(shapes(view.designs[0]?.sheet)).toEqual(shapes(own.designs[0]?.sheet));
    expect(view.designs[0]?.picture).toEqual(own.designs[0]?.picture);
  });
});

describe('pages of a proposal', () => {
  test('one as the revision says where none is named; else in order, with what they leave to the revision', () => {
    expect(pagesOf(proposal)).toEqual([{ id: 'client', audience: proposal.revision.audience, level: proposal.revision.level }]);
    expect(pagesOf(source.input.proposal).map(({ id, audience, level }) => [id, audience, level])).toEqual([
      ['payer', 'payer', source.input.proposal.revision.level],
      ['viewer', 'no-price', 'agreed'],
    ]);
  });

  test('somebody who decides is shown the page they name, else the first', () => {
    const { people } = proposal.deciders;
    const [first = ''] = Object.keys(people);
    const asked = {
      ...source.input.proposal,
      deciders: { rule: 'all' as const, people: { [first]: { name: 'A', page: 'viewer' }, other: { name: 'B' } } },
    };
    expect([pageOfDecider(asked, first).id, pageOfDecider(asked, 'other').id]).toEqual(['viewer', 'payer']);
  });
});
