import { type CareTable, type CareView, inOrderOff } from '../../care/index.ts';
import { drawApart, type MeasureText, type Sheet } from '../../draw/index.ts';
import type { Problem } from '../../problem/index.ts';
import type { NamedBytes } from '../../record/index.ts';
import { fontFiles } from '../../site/index.ts';
import { isoDate } from '../../units/index.ts';
import {
  calendarFile,
  type LabelContent,
  type LabelSize,
  labelPdf,
  labelSvg,
  layOutLabel,
  measureWith,
  writeCare,
} from '../../write/client/index.ts';
import { sheetCss, sheetToSvg } from '../../write/index.ts';
import type { Tools } from '../draft/produce.ts';
import { refusal } from '../refusal.ts';

/** Names of the files of the care link, relative to its page. */
const files = { paper: 'care.pdf', calendar: 'care.ics' } as const;

const labels: Readonly<Record<LabelSize, string>> = { large: 'label-90x60', small: 'label-74x52' };

const text = (path: string, words: string): NamedBytes => ({ path, bytes: Buffer.from(words, 'utf8') });

/** The table drawn apart, its pieces numbered as the view lists them; undefined where it does not come apart. */
export function apartSheet(view: CareView, { table, assessment, spec }: CareTable, measure: MeasureText): Sheet | undefined {
  const { apart, texts } = view;
  if (apart === undefined) return undefined;
  const pieces = inOrderOff(table, assessment.fit.pieces).map(({ parts }, i) => ({ parts, mass: apart.pieces[i]?.mass ?? '' }));
  const description = apart.pieces.map(({ name, mass }, i) => `${i + 1}: ${name}, ${mass}`).join('; ');
  return drawApart(table, pieces, spec.library, measure, { title: texts['care.page.apart'] ?? view.title, description: `${description}.` });
}

/** The note on paper. */
export const carePaper = (view: CareView, apart: Sheet | undefined, tools: Pick<Tools, 'documents'>): Promise<Uint8Array> =>
  writeCare(view, tools.documents, apart);

/** What whoever has the table gets: page, paper, calendar. `at` is the instant of the edition, RFC 3339 in UTC. Paths below the care link. */
export async function careLinkFiles(
  view: CareView,
  apart: Sheet | undefined,
  at: string,
  tools: Pick<Tools, 'documents' | 'pages'>,
): Promise<readonly NamedBytes[]> {
  const page = await tools.pages.renderCarePage(view, {
    ...(apart === undefined ? {} : { apart: sheetToSvg(apart, { idPrefix: 'apart' }) }),
    sheetCss: sheetCss(),
    links: { pdf: files.paper, calendar: files.calendar },
  });
  const calendar = calendarFile({
    name: `${view.title}, ${view.piece}`,
    events: view.events.map(({ day, ...event }) => ({ ...event, day: isoDate(day) })),
    stampedAt: at,
    language: view.language,
  });
  return [
    text('index.html', page),
    ...fontFiles(),
    { path: files.paper, bytes: await carePaper(view, apart, tools) },
    { path: files.calendar, bytes: calendar },
  ];
}

/** Where the care of a table is found, for its label: below the maker's site, or the link alone where no site is written. */
export function careAddress(site: string | undefined, token: string): string | undefined {
  return site === undefined ? undefined : `${site}${site.endsWith('/') ? '' : '/'}${token}/`;
}

/**
 * Labels for under the top in two sizes, as PDF and as outlines; none without a site, since a label is for decades and its code needs
 * an address. Code: `cli/label-too-long`, a warning.
 */
export async function labelFiles(
  view: CareView,
  address: string,
  tools: Pick<Tools, 'documents'>,
): Promise<{ readonly files: readonly NamedBytes[]; readonly problems: readonly Problem[] }> {
  const { piece, woods, finish, madeIn, maker, texts, language } = view;
  const content: LabelContent = {
    piece,
    wood: woods.map(({ name }) => name).join(', '),
    finish: finish.name,
    made: madeIn,
    ...(view.isWeighed === true ? { weighs: view.mass } : {}),
    maker,
    careLink: address,
    care: [texts['label.care'] ?? ''],
    texts,
    language,
  };
  const made: NamedBytes[] = [];
  const problems: Problem[] = [];
  for (const size of ['large', 'small'] as const) {
    const layout = layOutLabel(content, size, measureWith(tools.documents));
    if ('fault' in layout) {
      problems.push({
        ...refusal(
          'label-too-long',
          `the label ${labels[size]} has no room for its ${layout.fault === 'link-too-long' ? 'address' : 'words'}`,
          {
            mend:
              layout.fault === 'link-too-long' ? 'write a shorter site into templates/maker.yaml' : 'shorten the maker’s trade or address',
          },
        ),
        severity: 'warning',
      });
      continue;
    }
    made.push({ path: `${labels[size]}.pdf`, bytes: await labelPdf(layout, tools.documents, isoDate(madeIn)) });
    made.push(text(`${labels[size]}.svg`, labelSvg(layout, tools.documents)));
  }
  return { files: made, problems };
}
