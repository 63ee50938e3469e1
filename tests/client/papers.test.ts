import { describe, expect, test } from 'vitest';
import { type ClientView, type DeliveredTable, paperLine, papersView } from '../../src/client/index.ts';
import { readProposal } from '../../src/read/index.ts';
import type { LengthStyle } from '../../src/units/index.ts';
import { viewFixture } from '../write/view-fixture.ts';
import { textsOf } from './commission.ts';

/** What a page's level and reader may see of a delivered table, and how it is told. People and figures are invented. */
const root = new URL('../../', import.meta.url).pathname;
const woods = readProposal(root, 'tollefsen-quill').input?.library.woods ?? {};
const oak = woods['oak-european'];
if (oak === undefined) throw new Error('no oak');

const delivered: DeliveredTable = {
  piece: 'AO-2027-03',
  finishedOn: '2027-05-28',
  deliveredOn: '2027-06-18',
  editionOn: '2027-06-20',
  asBuilt: [
    { what: 'top.length', agreedMm: 2100, builtMm: 2099, toleranceMm: 3 },
    { what: 'height', agreedMm: 745, builtMm: 750, toleranceMm: 3, yes: { person: 'maud', on: '2027-05-12' } },
    { what: 'top.thickness', agreedMm: 28, builtMm: 26.5, toleranceMm: 1, yes: { person: 'piet', on: '2027-05-13' } },
    { what: 'base.legs.footSize', agreedMm: 42, builtMm: 45, toleranceMm: 1 },
  ],
  inCare: { size: '2,099 × 820 × 750\u202fmm', mass: '42\u202fkg' },
  finish: { spec: { name: 'Hardwax oil' }, batch: '26-118' },
  otherFinish: [{ ordered: 'Varnish', person: 'piet', on: '2027-05-13' }],
  moisturePercent: [9],
  humidityPercent: { finish: 51 },
  timber: [],
  woods: [oak],
};

function papersFor(over: Partial<ClientView> = {}, show: LengthStyle = 'mm', of: Partial<DeliveredTable> = {}) {
  const fixture = viewFixture();
  const letter: ClientView['letter'] = {
    terms: '7'.repeat(64),
    people: [{ id: 'maud', place: 0, name: 'Maud Lamm' }],
    designs: [],
    instalments: [],
  };
  const page: ClientView = { ...fixture, letter, texts: textsOf('en-GB'), ...over };
  const [design] = page.designs;
  if (design === undefined) throw new Error('no design');
  return papersView({ ...delivered, ...of }, { page, design, isDrawn: true, show });
}
const spaced = (text: string): string => text.replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

describe('papers of a delivered table in words', () => {
  test('a page shows of sizes what its level does', () => {
    const sizes = (level: ClientView['level']): readonly string[] => papersFor({ level }).built.map(({ says }) => says);
    expect(sizes('full')).toEqual(['Length of the top', 'Height', 'Thickness of the top', 'Legs, at the floor']);
    expect(sizes('agreed')).toEqual(['Length of the top', 'Height', 'Thickness of the top']);
    expect(sizes('sketch')).toEqual(['Length of the top', 'Height']);
  });

  test('a yes is told with a name only where the page shows that person; one that nobody gave is told', () => {
    expect(papersFor().built.map(({ agreedBy }) => spaced(agreedBy))).toEqual([
      'within',
      'Maud Lamm, 12 May 2027',
      'agreed on 13 May 2027',
      'beyond it',
    ]);
    expect(JSON.stringify(papersFor({ letter: { terms: '', people: [], designs: [], instalments: [] } }).built)).not.toContain('Maud');
    expect(papersFor().finish).toEqual([
      ['The whole table', 'Hardwax oil; batch 26-118'],
      ['Ordered was', 'Varnish; agreed on 13 May 2027'],
    ]);
  });

  test('inches are told as on a rule; density in both units by NIST SP 811', () => {
    const [length, height] = papersFor({}, 'in').built;
    // 2,100 mm = 82.677 in, 2,099 mm = 82.638 in: 82 11/16 and 82 5/8 of a rule in 32nds. 5 mm = 0.197 in: 3/16.
    expect([length?.agreed, length?.built].map((text) => text?.replace(/\D+(\d+).(\d+)″/, ' $1/$2'))).toEqual(['82 11/16', '82⅝″']);
    expect(height?.difference).toContain('3⁄16″');
    const rows = (show: LengthStyle): string => spaced(JSON.stringify(papersFor({}, show).woods[0]?.rows));
    // 670 kg/m3 / 16.01846 = 41.8 lb/ft3.
    expect(rows('mm')).toContain('about 670 kg/m³ at 12 %');
    expect(rows('in')).toContain('about 42 lb/ft³ at 12 %');
    expect(rows('mm+in')).toContain('about 670 kg/m³ (42 lb/ft³)');
  });

  test('the size is told as built, and as agreed where that reads otherwise; as agreed alone where nothing was measured', () => {
    const [agreed] = papersFor({}, 'mm', { asBuilt: [] }).sizes;
    expect(agreed?.[0]).toBe('Agreed size');
    expect(papersFor({}, 'mm', { asBuilt: [] }).sizes).toHaveLength(1);
    expect(papersFor().sizes).toEqual([['Size as built', '2,099 × 820 × 750\u202fmm'], agreed]);
    // Ordinary spaces in place of those that do not break: it reads the same.
    const same = { size: (agreed?.[1] ?? '').replaceAll('\u00a0', ' '), mass: '' };
    expect(papersFor({}, 'mm', { inCare: same }).sizes).toEqual([['Size as built', agreed?.[1]]]);
    // The thickness alone is no overall size.
    expect(papersFor({}, 'mm', { asBuilt: delivered.asBuilt.slice(2) }).sizes).toEqual([agreed]);
  });

  test('the weight is that of the scale, where it was weighed', () => {
    expect(spaced(papersFor().mass)).toBe('42 kg, calculated and rounded up for whoever lifts it');
    expect(spaced(papersFor({}, 'mm', { massKg: 41.46 }).mass)).toBe('41.5 kg, on the scale');
    // 41.46 kg / 0.45359237 = 91.4 lb.
    expect(spaced(papersFor({}, 'in', { massKg: 41.46 }).mass)).toBe('91.4 lb, on the scale');
  });

  test('one board that was measured is one; a humidity that was not measured is not there', () => {
    expect(papersFor().baseline.map(([says, value]) => [says, spaced(value)])).toEqual([
      ['Moisture of the boards at glue-up', '9 % of dry mass, 1 board measured'],
      ['Humidity at finishing', '51 %'],
    ]);
  });

  test('a design that is drawn as standard says what was chosen', () => {
    const page: ClientView = { ...viewFixture(), texts: textsOf('en-GB') };
    const [design] = page.designs;
    if (design === undefined) throw new Error('no design');
    const offered = {
      ...{ id: 'A', name: 'Reed', combinations: [] },
      options: [{ id: 'ceramic', says: 'A ceramic coat over the oil' }],
    };
    const letter: ClientView['letter'] = { terms: '', people: [], designs: [offered], instalments: [] };
    const told = papersView(delivered, { page: { ...page, letter }, design, isDrawn: true, notDrawn: ['ceramic'], show: 'mm' });
    expect(told.standardShown).toContain('A ceramic coat over the oil');
    expect(papersFor().standardShown).toBeUndefined();
  });

  test('a line of the list has the kind and size of its file', () => {
    expect(paperLine(papersFor(), 'statement', 'statement.pdf', 26_632)).toEqual({
      href: 'statement.pdf',
      name: 'Statement',
      why: 'What was due and what was paid, up to 20 June 2027.',
      file: expect.stringMatching(/^PDF, 27.KB$/),
    });
    expect(paperLine(papersFor(), 'delivery-note', 'delivery-note.jpg', 10).file).toMatch(/^JPG, 1.KB$/);
  });

  test('holds no amount of money beside the page it is made for', () => {
    const { page: _page, design: _design, ...own } = papersFor();
    expect(JSON.stringify(own)).not.toMatch(/€|EUR|\$/);
  });
});
