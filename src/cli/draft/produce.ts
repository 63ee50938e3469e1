import type { ClientView, PreviousRevision } from '../../client/index.ts';
import type { ComputedProposal } from '../../compute.ts';
import { type Figures, figuresOf } from '../../figures/index.ts';
import type { Problem } from '../../problem/index.ts';
import { dayIn, type IssuedRevision, type NamedBytes } from '../../record/index.ts';
import { clientSheets, fontFiles, openPages, type Pages } from '../../site/index.ts';
import type { LineStanding, ProposalLine, RatesShown, WorkshopBench, WorkshopClaim, WorkshopRecord } from '../../site/workshop/index.ts';
import { pagesOf } from '../../spec/index.ts';
import { isoDate } from '../../units/index.ts';
import { type OutlineFonts, writeScope } from '../../write/client/index.ts';
import { type Fonts, openFonts, sheetCss, sheetToSvg } from '../../write/index.ts';
import { openDocumentFonts } from './fonts.ts';
import { draftPages } from './issue-pages.ts';

/** What has to be opened before anything can be made: fonts and the page templates. */
export interface Tools {
  readonly fonts: Fonts;
  readonly documents: OutlineFonts;
  readonly pages: Pages;
}

/** Opens everything once for a run. */
export function openTools(): Tools {
  return { fonts: openFonts(), documents: openDocumentFonts(), pages: openPages() };
}

const textFile = (path: string, text: string): NamedBytes => ({ path, bytes: Buffer.from(text, 'utf8') });

const scopeName = (design: string): string => `scope-${design.toLowerCase()}.pdf`;
const sheetName = (design: string): string => `drawing-${design.toLowerCase()}.svg`;

/** What a client gets of a revision: the page with its fonts, and a scope and a full sheet for each design. Paths below the link. */
export async function makeClientFiles(view: ClientView, tools: Tools): Promise<readonly NamedBytes[]> {
  const ids = view.designs.map((design) => design.id);
  const sheets = view.designs.flatMap(({ id, sheet }) => {
    if (sheet === undefined) return [];
    const options = { idPrefix: `sheet-${id.toLowerCase()}`, mode: 'file', outlineText: tools.fonts.outline, paper: true } as const;
    return [textFile(sheetName(id), sheetToSvg(sheet, options))];
  });
  const page = await tools.pages.renderClientPage(view, {
    svg: Object.fromEntries(clientSheets(view).map(({ key, idPrefix, sheet }) => [key, sheetToSvg(sheet, { idPrefix })])),
    sheetCss: sheetCss(),
    links: {
      scope: Object.fromEntries(ids.map((id) => [id, scopeName(id)])),
      sheet: Object.fromEntries(view.designs.flatMap(({ id, sheet }) => (sheet === undefined ? [] : [[id, sheetName(id)]]))),
    },
  });
  const scopes: NamedBytes[] = [];
  for (const id of ids) scopes.push({ path: scopeName(id), bytes: await writeScope(view, id, tools.documents) });
  return [textFile('index.html', page), ...fontFiles(), ...sheets, ...scopes];
}

/** Folder of a draft page below its proposal's. */
const draftFolder = (page: string, i: number): string => (i === 0 ? 'draft' : `draft-${page}`);

/** Folder of a link as seen from the workshop page of a proposal. */
export const clientHref = (token: string): string => `../../client/${token}/`;

/** What else the maker's pages say of a proposal: its record, what its table took, its claims. */
export interface WorkshopSaid {
  readonly record: WorkshopRecord;
  readonly bench?: WorkshopBench;
  readonly claims: readonly WorkshopClaim[];
}

function workshopPage(
  computed: ComputedProposal,
  figures: Figures,
  problems: readonly Problem[],
  issued: readonly IssuedRevision[],
  said: WorkshopSaid,
  tools: Tools,
) {
  const { input, variants } = computed;
  const { proposal, library } = input;
  const svg = variants.flatMap(({ id, drawings }) =>
    (['picture', 'sheet'] as const).map(
      (name) => [`${id}/${name}`, sheetToSvg(drawings[name], { idPrefix: `${id.toLowerCase()}-${name}` })] as const,
    ),
  );
  const hours = variants.flatMap(({ id, standard }) =>
    standard.spec.variant.hours === undefined ? [] : [[id, standard.spec.variant.hours] as const],
  );
  return tools.pages.renderWorkshopPage({
    slug: input.slug,
    title: proposal.title,
    client: proposal.client.name,
    language: proposal.language,
    revision: proposal.revision.id,
    date: isoDate(proposal.revision.date),
    validUntil: isoDate(proposal.revision.validUntil),
    ...(proposal.basedOn === undefined ? {} : { basedOn: proposal.basedOn }),
    show: proposal.show,
    figures,
    problems,
    wishes: Object.fromEntries(Object.entries(proposal.wishes).map(([id, wish]) => [id, wish.says])),
    ownHours: Object.fromEntries(hours),
    checks: Object.fromEntries(Object.entries(library.loadCases).map(([id, { says }]) => [id, says])),
    woods: Object.fromEntries(Object.entries(library.woods).map(([id, { name }]) => [id, name])),
    texts: library.texts,
    svg: Object.fromEntries(svg),
    sheetCss: sheetCss(),
    issued: issued.map(({ revision, at, fingerprint, token, made }) => ({
      id: revision,
      date: dayIn(at, library.maker.timeZone),
      fingerprint,
      href: `${clientHref(token)}index.html`,
      files: made.filter((path) => path.endsWith('.pdf')).map((path) => ({ says: path, href: clientHref(token) + path })),
    })),
    ...said,
    files: [
      ...pagesOf(proposal).map(({ id, for: reader = proposal.client.name }, i) => ({
        says: i === 0 ? 'Page as the client would see it' : `Page ${id}, as ${reader} would see it`,
        href: `${draftFolder(id, i)}/index.html`,
      })),
      { says: 'All figures', href: 'figures.json' },
    ],
    fonts: '../fonts',
    indexHref: '../index.html',
  });
}

/** What the maker gets of a draft: its workshop page and the page that the client would see. Paths below the proposal's folder. */
export async function makeWorkshopFiles(
  computed: ComputedProposal,
  problems: readonly Problem[],
  issued: readonly IssuedRevision[],
  said: WorkshopSaid,
  tools: Tools,
  previous?: PreviousRevision,
): Promise<readonly NamedBytes[]> {
  const figures = figuresOf(computed);
  const pages = draftPages(computed, figures, { measure: tools.fonts.measure }, previous === undefined ? {} : { previous });
  const drafts: NamedBytes[] = [];
  for (const [i, { page, viewOf }] of pages.entries())
    drafts.push(
      ...(await makeClientFiles(viewOf(), tools)).map(({ path, bytes }) => ({ path: `${draftFolder(page.id, i)}/${path}`, bytes })),
    );
  const claims: NamedBytes[] = [];
  const { title, language } = computed.input.proposal;
  for (const claim of said.claims) {
    const page = await tools.pages.renderWorkshopClaim({ title, language, claim, fonts: '../fonts', backHref: 'index.html' });
    claims.push(textFile(claim.href, page));
  }
  return [
    textFile('index.html', await workshopPage(computed, figures, problems, issued, said, tools)),
    ...claims,
    textFile('figures.json', `${JSON.stringify(figures, undefined, 2)}\n`),
    ...drafts,
  ];
}

/** A proposal's line in the list of all. */
export function proposalLine(
  computed: ComputedProposal,
  problems: readonly Problem[],
  issued: readonly IssuedRevision[],
  standing: LineStanding,
): ProposalLine {
  const { slug, proposal } = computed.input;
  return {
    slug,
    title: proposal.title,
    client: proposal.client.name,
    standing,
    revision: proposal.revision.id,
    date: isoDate(proposal.revision.date),
    validUntil: isoDate(proposal.revision.validUntil),
    href: `${slug}/index.html`,
    designs: computed.variants.map(({ id, standard }) => ({
      id,
      name: standard.spec.variant.name,
      totalMinor: standard.price.total.minor,
      hoursMid: standard.takeOff.hours.mid,
      marginPercent: standard.price.marginPercent,
    })),
    currency: proposal.currency,
    errors: problems.filter(({ severity }) => severity === 'error').length,
    warnings: problems.filter(({ severity }) => severity === 'warning').length,
    failed: false,
    issued: issued.map(({ revision }) => revision),
  };
}

/** The list of all proposals, and the fonts of every workshop page. Paths below `workshop/`. */
export async function makeIndexFiles(
  lines: readonly ProposalLine[],
  maker: string,
  language: string,
  rates: readonly RatesShown[],
  tools: Tools,
): Promise<readonly NamedBytes[]> {
  const page = await tools.pages.renderWorkshopIndex({ maker, language, proposals: lines, rates, fonts: 'fonts' });
  return [textFile('index.html', page), ...fontFiles()];
}
