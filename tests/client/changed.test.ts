import { describe, expect, test } from 'vitest';
import { clientView, earlierDesign, type PreviousRevision } from '../../src/client/index.ts';
import { drawOverlay, type Overlay } from '../../src/draw/index.ts';
import { type Figures, figuresOf } from '../../src/figures/index.ts';
import { percent } from '../fixtures.ts';
import { computed, planted } from './commission.ts';

const source = computed();
const figures = figuresOf(source);
const plain = (text: string | undefined): string => (text ?? '').replaceAll(/[\u00a0\u2009\u202f]/g, ' ');

/** The figures as an older revision might have frozen them: one design heavier, wider and dearer, one that is gone since. */
function older(endsN?: number): Figures {
  const endsThen = <T extends object | null>(id: string, inside50: T): { readonly inside50?: T } =>
    endsN !== undefined && inside50 !== null && (id === 'left' || id === 'right') ? { inside50: { ...inside50, loadN: endsN } } : {};
  const { A, B } = figures.variants;
  if (A === undefined || B === undefined) throw new Error('the commission has no designs A and B');
  const standing = A.tipping['standing'];
  if (standing === undefined) throw new Error('no tipping figures');
  const then: Figures['variants'][string] = {
    ...A,
    name: 'Reed, straight',
    overallMm: { ...A.overallMm, width: A.overallMm.width + 40 },
    massKg: A.massKg + 5,
    tipping: {
      ...A.tipping,
      standing: {
        ...standing,
        edge: standing.edge === null ? null : { ...standing.edge, loadN: 700 },
        places: standing.places.map((place) => ({ ...place, ...endsThen(place.id, place.inside50) })),
      },
    },
    wishes: A.wishes.map((wish) => (wish.id === 'w3' ? { ...wish, result: 'not-enough', value: 800 } : wish)),
    price: { ...A.price, totalMinor: A.price.totalMinor + 12_300 },
  };
  return {
    ...figures,
    revision: 'r1',
    variants: { A: then, B, X: { ...B, name: 'Gone' }, Y: { ...B, name: 'Never shown', offered: false } },
  };
}

const previous: PreviousRevision = { id: 'r1', figures: older(), overlays: {} };
const view = clientView(source, figures, { previous });
const rowsOf = (id: string): readonly (readonly string[])[] =>
  (view.changed?.designs.find((design) => design.id === id)?.rows ?? []).map(({ label, before, now }) => [
    label,
    plain(before),
    plain(now),
  ]);

describe('what changed since the revision before', () => {
  test('tells of each design only what is shown differently, the older first', () => {
    const { A } = figures.variants;
    const massKg = A?.massKg ?? Number.NaN;
    const width = A?.overallMm.width ?? Number.NaN;
    const rows = rowsOf('A');
    expect(rows.map(([label]) => label)).toEqual([
      'Price, tax included',
      'Size',
      'Weight',
      'Begins to tip from, on the very edge',
      expect.stringMatching(/hoists|end/i),
    ]);
    // 700 N over 9.80665 m/s2 is 71.4 kg, rounded down.
    expect(rows[3]?.[1]).toBe('about 71 kg');
    expect(rows[1]?.[1]).toContain(`× ${width + 40} ×`);
    expect(rows[1]?.[2]).toContain(`× ${width} ×`);
    expect(rows[2]).toEqual(['Weight', `${Math.round(massKg + 5)} kg`, `${Math.round(massKg)} kg`]);
    expect(rows[4]?.[1]).toMatch(/^not enough: 81 kg \(800 N\)$/);
    expect(rows[4]?.[2]).toMatch(/^enough: /);
  });

  test('a figure that a wish tells with its answer stands there alone; the load on the very edge, where no other of tipping does', () => {
    const labels = (endsN: number): readonly string[] =>
      (clientView(source, figures, { previous: { ...previous, figures: older(endsN) } }).changed?.designs[0]?.rows ?? []).map(
        ({ label }) => label,
      );
    // The wish tells 800 N before; so does the load at the ends, and with 750 N it does not.
    expect(labels(750)).toContain('Tips at an end from');
    expect(labels(750)).not.toContain('Begins to tip from, on the very edge');
    expect(labels(800)).not.toContain('Tips at an end from');
    expect(labels(800)).not.toContain('Begins to tip from, on the very edge');
  });

  test('a design that stayed as it was says so; one that is gone is named, one that was never offered is not', () => {
    expect(view.changed?.designs.find(({ id }) => id === 'B')?.same).toBe('Nothing has changed in its sizes, its figures or its price.');
    expect(view.changed?.dropped).toEqual(['Design X, Gone, is no longer offered.']);
    expect(view.changed?.added).toEqual([]);
    expect(view.changed?.designs.find(({ id }) => id === 'A')?.was).toBe('was: Reed, straight');
    expect([view.changed?.before, view.changed?.now]).toEqual(['First proposal', expect.stringMatching(/proposal/)]);
  });

  test('a design grew from the one that it names, else from the one of its letter, and none from one that was not offered', () => {
    const { variants } = previous.figures;
    expect(earlierDesign('A', undefined, variants)).toBe('A');
    expect(earlierDesign('D', 'B', variants)).toBe('B');
    expect(earlierDesign('D', undefined, variants)).toBeUndefined();
    expect(earlierDesign('A', 'none', variants)).toBeUndefined();
    expect(earlierDesign('Y', undefined, variants)).toBeUndefined();
  });

  test('who sees no price is told of none, then or now', () => {
    const shown = clientView(source, figures, { previous, audience: 'no-price' });
    const text = JSON.stringify({ ...shown.changed, designs: shown.changed?.designs.map(({ over: _over, ...rest }) => rest) });
    expect(text).not.toMatch(/€|EUR|price/i);
    expect(shown.changed?.designs[0]?.rows.length).toBeGreaterThan(2);
  });

  test('nothing private of the older figures is on the way', () => {
    const text = JSON.stringify(view.changed);
    for (const word of planted.words) expect(text).not.toContain(word);
    expect(text).not.toMatch(/costMinor|marginPercent|build/);
    expect(text).not.toContain(String(previous.figures.variants['A']?.price.costMinor));
  });

  test('a first revision has nothing to tell', () => {
    expect(clientView(source, figures).changed).toBeUndefined();
  });
});

describe('rounds of revision', () => {
  const agreed = (included: number) => computed({ rounds: { included, fee: '180.00' as never } });
  const sentence = (included: number, round: number | undefined): string | undefined => {
    const made = agreed(included);
    const options = round === undefined ? {} : { previous: { ...previous, round } };
    return clientView(made, figuresOf(made), options).rounds?.sentence;
  };
  test('the page says how many there are, which one this is, and what the next one costs', () => {
    expect(sentence(2, undefined)).toBe(
      'The price includes 2 rounds of drawing after this proposal; each further one costs €216.00 with tax (€180.00 before tax).',
    );
    expect(sentence(1, undefined)).toBe(
      'The price includes 1 round of drawing after this proposal; each further one costs €216.00 with tax (€180.00 before tax).',
    );
    expect(sentence(2, 1)).toBe(
      'This is round 1 of 2 that the price includes; each further one costs €216.00 with tax (€180.00 before tax).',
    );
    expect(sentence(2, 2)).toBe('This is round 2 of 2 that the price includes; the next one costs €216.00 with tax (€180.00 before tax).');
    expect(sentence(2, 3)).toBe('This is round 3; the price includes 2. The next one costs €216.00 with tax (€180.00 before tax).');
    expect(view.rounds).toBeUndefined();
  });

  // 179.95 x 7 % = 12.5965, so 12.60; 179.95 + 12.60 = 192.55.
  test('the fee bears the tax of the proposal, rounded once; with none it is told alone', () => {
    const feeAt = (rate: number): string | undefined => {
      const made = computed({ rounds: { included: 0, fee: '179.95' as never } });
      const { library } = made.input;
      const taxes = { home: { says: 'home goods', percent: percent(rate) } };
      const input = { ...made.input, library: { ...library, rates: { ...library.rates, taxes } } };
      return clientView({ ...made, input }, figuresOf(made), { previous: { ...previous, round: 1 } }).rounds?.sentence;
    };
    expect(feeAt(7)).toBe('This is round 1; the price includes 0. The next one costs €192.55 with tax (€179.95 before tax).');
    expect(feeAt(0)).toBe('This is round 1; the price includes 0. The next one costs €179.95.');
  });
});

describe('one table drawn over another', () => {
  const standard = source.variants[0]?.standard;
  const other = source.variants[1]?.standard;
  if (standard === undefined || other === undefined) throw new Error('the commission has no two designs');
  const words = { front: { title: 'front', description: 'front' }, side: { title: 'side', description: 'side' } };
  const draw = (now: typeof standard, before: typeof standard): Overlay =>
    drawOverlay(now.table, before.table, standard.spec.library, words);

  test('both views share scale and floor line, and hold both tables whole', () => {
    const over = draw(standard, other);
    const { front, side } = over;
    if (side === undefined) throw new Error('there is no view from the side');
    expect([side.scale, side.heightMm]).toEqual([front.scale, front.heightMm]);
    for (const sheet of [front, side]) {
      const former = sheet.marks.filter((mark) => mark.kind === 'line' && mark.class === 'former');
      expect(former.length).toBeGreaterThan(0);
      for (const mark of sheet.marks)
        for (const step of mark.kind === 'text' || mark.kind === 'tick' ? [] : mark.steps) {
          if (step[0] === 'Z') continue;
          expect(Number(step.at(-2))).toBeGreaterThanOrEqual(-0.01);
          expect(Number(step.at(-2))).toBeLessThanOrEqual(sheet.widthMm + 0.01);
        }
    }
  });

  test('the outline of a table over itself has the overall size of the table', () => {
    const { front } = draw(standard, standard);
    const points = front.marks.flatMap((mark) =>
      mark.kind === 'line' && mark.class === 'former'
        ? mark.steps.flatMap((step): [number, number][] => (step[0] === 'Z' ? [] : [[Number(step.at(-2)), Number(step.at(-1))]]))
        : [],
    );
    const span = (axis: 0 | 1): number => Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis]));
    const { length, height } = standard.table.overallMm;
    expect(span(0) * (front.scale ?? 0)).toBeCloseTo(length, 1);
    expect(span(1) * (front.scale ?? 0)).toBeCloseTo(height, 1);
  });
});
