import { describe, expect, test } from 'vitest';
import { clientView } from '../../src/client/index.ts';
import { computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { clientSheets, openPages } from '../../src/site/index.ts';
import { openFonts, sheetCss, sheetToSvg } from '../../src/write/index.ts';
import { demos, readDemo } from '../demos/load.ts';
import { amountsIn, wordsOf } from './page-words.ts';

/** The wall again, on every revision of the demo commissions: their own costs, hours, rates and mark-ups. */

const pages = openPages();
const { measure } = openFonts();
const revisions = Object.entries(demos).flatMap(([slug, ids]) => ids.map((id) => [slug, id] as const));

async function pageOf(slug: string, revision: string) {
  const { input } = readDemo(slug, revision);
  const result = input === undefined ? undefined : computeProposal(input, { measure });
  if (result?.computed === undefined) throw new Error(`${slug} ${revision} can not be computed`);
  const figures = figuresOf(result.computed);
  const view = clientView(result.computed, figures);
  const svg = Object.fromEntries(clientSheets(view).map(({ key, idPrefix, sheet }) => [key, sheetToSvg(sheet, { idPrefix })]));
  const html = await pages.renderClientPage(view, { svg, sheetCss: sheetCss(), links: { scope: {}, sheet: {} } });
  return { html, view, figures, library: result.computed.input.library, proposal: result.computed.input.proposal };
}

describe.each(revisions)('%s %s', (slug, revision) => {
  test('shows its designs and nothing that belongs to the workshop', async () => {
    const { html, view, figures, library, proposal } = await pageOf(slug, revision);
    const said = wordsOf(html).replaceAll(/(\d),(?=\d{3})/g, '$1');
    for (const design of view.designs) expect(said).toContain(design.name);
    const shown = new Set(amountsIn(wordsOf(html)));

    const { rates } = library;
    const words = [
      ...Object.keys(rates.timber),
      ...Object.values(rates.operations).map((operation) => operation.says),
      ...Object.values(proposal.lines).flatMap((line) => (line.shown ? [] : [line.says])),
      ...Object.values(library.finishes).map((finish) => finish.source),
      ...Object.values(figures.variants).flatMap((variant) => (variant.offered ? [] : [variant.name])),
    ].filter((word) => word.length > 6);
    expect(words.length).toBeGreaterThan(10);
    expect(words.filter((word) => html.includes(word))).toEqual([]);

    const minor = Object.values(figures.variants).flatMap(({ price }) => [
      price.costMinor,
      ...price.build.map((line) => line.amountMinor).filter((amount) => amount > 2000),
    ]);
    expect(minor.length).toBeGreaterThan(20);
    expect(minor.filter((amount) => shown.has(amount) && !isShownAnyway(amount, figures))).toEqual([]);
    expect(said).not.toMatch(/(?<![\d.])57\.93(?!\d)/);

    const factors = [...Object.values(rates.markUp), rates.contingency, rates.leastMargin].map(({ percent }) => 1 + percent / 100);
    const amounts = figuresShown(figures);
    const found = amounts.flatMap((a) =>
      amounts.flatMap((b) =>
        factors.filter((factor) => b < a && Math.abs(a / b - factor) * b < 1).map((factor) => `${a} / ${b} = ${factor}`),
      ),
    );
    expect(found).toEqual([]);
  });
});

type Figures = ReturnType<typeof figuresOf>;

/** A line of the build-up may equal a line that is shown by right, such as delivery. */
function isShownAnyway(amount: number, figures: Figures): boolean {
  return Object.values(figures.variants).some(({ price }) =>
    price.lines.some((line) => line.amountMinor === amount || line.eachMinor === amount),
  );
}

/** Amounts of one design's price that could be divided by each other: its lines, net and total. */
function figuresShown(figures: Figures): readonly number[] {
  const amounts = Object.values(figures.variants).flatMap(({ price, offered }) =>
    offered ? [...price.lines.map((line) => line.amountMinor), price.netMinor] : [],
  );
  return [...new Set(amounts)].filter((amount) => amount > 0);
}
