import type { ClientView, DesignView, RichText } from '../../src/client/index.ts';
import type { Mark, Sheet } from '../../src/draw/index.ts';

/** A client view built in code, long enough to fill pages. People and prices are invented. */

const words = (text: string): RichText => [{ kind: 'paragraph', runs: [{ text, strong: false, emphasis: false }] }];

function sheet(id: string, widthMm: number, heightMm: number): Sheet {
  const marks: Mark[] = [
    {
      kind: 'face',
      fill: '#d9c39a',
      stroke: 'outline',
      steps: [['M', 20, 20], ['L', widthMm - 20, 20], ['L', widthMm - 20, 26], ['L', 20, 26], ['Z']],
    },
    {
      kind: 'line',
      class: 'hidden',
      steps: [
        ['M', 30, 26],
        ['L', 30, heightMm - 30],
      ],
    },
    {
      kind: 'line',
      class: 'centre',
      steps: [
        ['M', widthMm / 2, 12],
        ['L', widthMm / 2, heightMm - 20],
      ],
    },
    {
      kind: 'line',
      class: 'outline',
      steps: [
        ['M', 40, heightMm - 30],
        ['A', 8, 8, 0, 0, 1, 56, heightMm - 30],
      ],
    },
    {
      kind: 'text',
      class: 'lettering',
      text: '2,100',
      atMm: [widthMm / 2, 12],
      sizeMm: 2.5,
      anchor: 'middle',
      angleDeg: 0,
      boxMm: { x: widthMm / 2 - 4, y: 9.5, width: 8, height: 3 },
    },
    {
      kind: 'text',
      class: 'lettering',
      text: '745',
      atMm: [12, heightMm / 2],
      sizeMm: 2.5,
      anchor: 'middle',
      angleDeg: -90,
      boxMm: { x: 9, y: heightMm / 2 - 3, width: 3, height: 6 },
    },
  ];
  return { id, title: `Drawing ${id}`, description: 'a table from the front', widthMm, heightMm, scale: 10, marks };
}

export function designFixture(id: string, name: string): DesignView {
  return {
    id,
    name,
    why: words('Slender legs, set well in, so that a chair finds its place at each end. The rail under the top is shallow.'),
    picture: sheet('picture', 120, 80),
    front: sheet('front', 160, 90),
    side: sheet('side', 90, 90),
    plan: sheet('plan', 160, 90),
    underside: sheet('underside', 160, 90),
    sheet: sheet('sheet', 297, 210),
    small: sheet('small', 90, 60),
    sizes: '2,100 × 820 × 745 mm',
    mass: 'about 41 kg',
    facts: [
      { label: 'Open underneath', value: '90 %' },
      { label: 'Tips from', value: '111 kg' },
      { label: 'Ready', value: 'late May' },
    ],
    price: {
      headline: '€5,880',
      total: '€5,880.00',
      totalNote: 'with tax, delivered',
      lines: [
        {
          says: 'The table, design A',
          certainty: 'fixed',
          amount: '€4,700.00',
          groups: [
            { says: 'Top', amount: '€2,400.00' },
            { says: 'Base', amount: '€2,300.00' },
          ],
        },
        { says: 'Delivery', certainty: 'fixed', amount: '€200.00', groups: [] },
      ],
      net: '€4,900.00',
      taxes: [{ says: 'Home goods tax, 20 %', amount: '€980.00' }],
      instalments: [
        { percent: '40 %', when: 'when you sign', amount: '€2,352.00' },
        { percent: '40 %', when: 'when the top is glued up', amount: '€2,352.00' },
        { percent: '20 %', when: 'at delivery', amount: '€1,176.00' },
      ],
      options: [{ id: 'ceramic', says: 'A ceramic coat over the oil', difference: '+ €288.00', isDefault: false }],
      combinations: [
        { options: [], says: 'Oiled', net: '€4,900.00', total: '€5,880.00' },
        { options: ['ceramic'], says: 'With a ceramic coat over the oil', net: '€5,140.00', total: '€6,168.00' },
      ],
    },
    materials: ['Top', 'Leg', 'Long rail', 'End rail'].map((part, i) => ({
      part,
      count: String([1, 4, 2, 2][i]),
      wood: 'European oak',
      origin: 'sawn in Tarrowby',
      finish: 'hardwax oil',
      size: '2,100 × 820 × 28 mm',
      amount: '0.048 m³',
    })),
    steadiness: {
      sentence:
        'On a hard, level floor it begins to tip when about 111 kg rests still 50 mm inside its end (calculated, not tested). It is a table, not a seat.',
      rows: [{ label: 'Push at the top’s height', value: '190 N', note: 'over the long side' }],
    },
    hardware: [],
    fit: [],
    movement: ['The top grows and shrinks by 8 to 13 mm across its width between a dry winter and a damp summer.'],
    care: {
      finish: 'Hardwax oil, two coats, satin',
      daily: 'Dust with a soft cloth.',
      spills: 'Blot within minutes.',
      never: 'No ammonia.',
      refresh: 'Once a year.',
      resists: 'Water: good.',
      cure: 'Light use after 48 hours.',
      wood: 'Boards differ in colour and grain. The sample governs.',
      cautions: ['Oily rags can heat up by themselves.'],
    },
    ready: 'late May',
    notes: [],
  };
}

export function viewFixture(): ClientView {
  return {
    format: 'leafwright/client/1',
    proposal: 'harbour-house',
    title: 'A table for the garden room',
    invented: true,
    language: 'en-GB',
    paper: 'a4',
    audience: 'payer',
    level: 'full',
    maker: { name: 'Ana Orlow', trade: 'tables', address: 'The Slip, Tarrowby', email: 'ana@example.invalid', telephone: '000 0000' },
    client: { name: 'Maud and Piet Lamm', address: 'Harbour House, Tarrowby' },
    deciders: { rule: 'all', names: ['Maud Lamm', 'Piet Lamm'], sentence: 'Maud Lamm and Piet Lamm, both' },
    revision: {
      id: 'r1',
      ordinal: 'First proposal',
      date: '14 February 2027',
      validUntil: '16 March 2027',
      dateIso: '2027-02-14',
      validUntilIso: '2027-03-16',
      fingerprint: '0a1b2 c3d4e 5f607 18293',
    },
    understood: words('Six of you daily, eight on Sundays.'),
    designs: [designFixture('A', 'Reed'), designFixture('B', 'Trestle')],
    wishes: [
      {
        id: 'w1',
        says: 'Six of us daily',
        answers: { A: { resultText: 'enough', result: 'enough', value: '6 places', target: 'at least 6' } },
      },
    ],
    supplied: ['Eight chairs'],
    exclusions: ['Taking the old table away'],
    assumptions: ['The floor is no more than 6 mm out of level over 3 m'],
    choices: ['The sheen of the oil: before the first coat'],
    leadTime: '10 weeks from the deposit',
    terms: {
      sections: ['Timber', 'Delivery', 'Payment', 'Copyright', 'Law'].map((title) => ({
        title,
        body: words(
          'Wood is a natural material. Boards differ in colour and grain, and the sample that each of us keeps governs what is accepted; small sound knots are part of it. '.repeat(
            5,
          ),
        ),
      })),
      tolerances: [
        { says: 'Length and width', value: '± 3 mm' },
        { says: 'Height', value: '± 3 mm' },
      ],
      changes: [
        { stage: 'before timber is bought', says: 'a new revision; nothing is lost' },
        { stage: 'after the top is glued', says: 'the top is lost and paid for' },
      ],
      cancellation: [{ stage: 'before timber is bought', says: 'the design hours are paid' }],
    },
    cautions: [
      'These are calculations on a drawing, no test. Follow your local codes; where the public uses the table, have it reviewed by a licensed engineer.',
    ],
    texts: {},
  };
}
