import { type ClientOptions, type ClientView, clientView, type DesignView } from '../../client/index.ts';
import { type ComputedProposal, computedUnder, computedWith, type Kernels } from '../../compute.ts';
import { type Figures, figuresOf } from '../../figures/index.ts';
import type { Problem } from '../../problem/index.ts';
import { type PageOf, pagesOf } from '../../spec/index.ts';
import { textsBelow } from './texts-below.ts';

/** What is known of a view beside its page: what froze it, what came before. */
export type PageOptions = Omit<ClientOptions, 'audience' | 'level' | 'for'>;

/** One page of a revision, before it is made. */
export interface DraftPage {
  readonly page: PageOf;
  /** What its reader may see. */
  readonly viewOf: (options?: PageOptions) => ClientView;
  /** Its designs with every other choice of options than the standard one, as that reader may see them. */
  readonly choices: () => readonly ChoiceView[];
}

/** A design with a choice of options that is not the standard one: what is agreed where somebody chooses it. */
export interface ChoiceView {
  readonly design: string;
  /** Ids of the options that are on, sorted by code unit. */
  readonly options: readonly string[];
  readonly view: DesignView;
}

/**
 * The pages of a proposal, first one first: each view is made for its reader, drawings under the name that stands on the page.
 * `all` holds for every view.
 */
export function draftPages(
  computed: ComputedProposal,
  figures: Figures,
  kernels: Kernels,
  all: PageOptions = {},
): readonly [DraftPage, ...DraftPage[]] {
  const draft = (page: PageOf): DraftPage => {
    const source = page.brand === undefined ? computed : computedUnder(computed, page.brand, kernels);
    const { audience, level, for: reader } = page;
    const own: ClientOptions = {
      audience,
      level,
      ...(reader === undefined ? {} : { for: reader }),
      isUnderBrand: page.brand !== undefined,
    };
    return {
      page,
      viewOf: (options = {}) => clientView(source, figures, { ...all, ...options, ...own }),
      choices: () => choiceViews(source, own, kernels),
    };
  };
  const [first, ...others] = pagesOf(computed.input.proposal);
  return [draft(first), ...others.map(draft)];
}

function choiceViews(source: ComputedProposal, own: ClientOptions, kernels: Kernels): readonly ChoiceView[] {
  return source.variants
    .filter(({ standard }) => standard.spec.variant.offered)
    .flatMap((variant) =>
      variant.combinations
        .filter(({ choice }) => choice.join() !== variant.standard.choice.join())
        .map((chosen): ChoiceView => {
          const computed = computedWith(source, variant, chosen, kernels);
          const [view] = clientView(computed, figuresOf(computed), own).designs;
          if (view === undefined) throw new Error(`design ${variant.id} is not on offer with ${chosen.choice.join(' and ')}`);
          return { design: variant.id, options: chosen.choice, view };
        }),
    );
}

/** Every text of a view but the fixed ones of the language. */
const textsIn = (view: object): readonly string[] => textsBelow({ ...view, texts: undefined }).map(({ text }) => text);

/** Characters shown on either side of what is found. */
const AROUND = 24;
/** Shorter than this nothing is told from any other word. */
const TELLING = 4;

const escaped = (text: string): string => text.replaceAll(/[\\^$.*+?()[\]{}|]/g, '\\$&');

/** An amount in a currency as somebody writes it: sign or code before or after the figures. */
function amountPattern(language: string, currency: string): RegExp {
  const signs = (['symbol', 'narrowSymbol', 'code'] as const).map(
    (currencyDisplay) =>
      new Intl.NumberFormat(language, { style: 'currency', currency, currencyDisplay })
        .formatToParts(1)
        .find(({ type }) => type === 'currency')?.value ?? currency,
  );
  const sign = [...new Set(signs)].map(escaped).join('|');
  return new RegExp(`(?:${sign})\\s?\\d|\\d\\s?(?:${sign})`, 'u');
}

function excerpt(text: string, at: number, length: number): string {
  const [from, to] = [Math.max(0, at - AROUND), Math.min(text.length, at + length + AROUND)];
  return `“${from > 0 ? '…' : ''}${text.slice(from, to).trim()}${to < text.length ? '…' : ''}”`;
}

interface Forbidden {
  readonly what: string;
  readonly mend: string;
  readonly find: RegExp;
}

function forbiddenOn({ audience, brand }: PageOf, { input }: ComputedProposal): readonly Forbidden[] {
  const { client, currency, language } = input.proposal;
  const { maker } = input.library;
  const own = Object.values(brand ?? {}).map((text) => text.toLowerCase());
  const reach = 'take it out, or out of the proposal, and write it where only the payer reads';
  const words = (texts: readonly (string | undefined)[], what: string, mend: string): readonly Forbidden[] =>
    texts.flatMap((text) =>
      text === undefined || text.length < TELLING || own.some((shown) => shown.includes(text.toLowerCase()))
        ? []
        : [{ what, mend, find: new RegExp(escaped(text), 'iu') }],
    );
  return [
    ...(brand === undefined
      ? []
      : words(
          [maker.name, maker.address, maker.email, maker.telephone, maker.site, maker.form],
          'who makes it',
          `write it without the name: the page stands under that of ${brand.name}`,
        )),
    ...(audience === 'payer' ? [] : words([client.address, client.email, client.telephone], "the payer's address", reach)),
    ...(audience === 'payer' ? [] : [{ what: 'a price', mend: reach, find: amountPattern(language, currency) }]),
  ];
}

/** What the maker's own words on a page tell that its reader may not see. Code: `cli/page-tells`. */
export function pageLeaks(pages: readonly DraftPage[], computed: ComputedProposal): readonly Problem[] {
  return pages.flatMap(({ page, viewOf }) => {
    const texts = textsIn(viewOf());
    return forbiddenOn(page, computed).flatMap(({ what, mend, find }): readonly Problem[] => {
      const told = texts.find((text) => find.test(text));
      const hit = told === undefined ? null : find.exec(told);
      if (told === undefined || hit === null) return [];
      const title = `the page ${page.id} would tell ${what}`;
      return [
        {
          code: 'cli/page-tells',
          severity: 'error',
          title,
          path: ['proposal', 'pages', page.id],
          found: excerpt(told, hit.index, hit[0].length),
          mend,
        },
      ];
    });
  });
}
