import { type CareEdition, careEditions, type IssuedRevision, type NamedBytes } from '../../record/index.ts';
import type { WorkshopDelivery } from '../../site/workshop/index.ts';
import { clientHref } from '../draft/produce.ts';

/** Folder of the labels beside the workshop page of a proposal. */
export const labelFolder = 'label';

/** The newest edition of the papers of a table, where one was made. */
export const newestEdition = (folder: string): CareEdition | undefined => careEditions(folder).at(-1);

/** Folder in an edition of what belongs to a page of the ordered revision, by the page's own folder: `out` has `papers`. */
export const papersFolderOf = (pageFolder: string): string => `papers${pageFolder.slice('out'.length)}`;

/** The labels to print, which are for the maker alone; none where they were not made or were erased. */
export const labelsOf = ({ filesOf }: CareEdition): readonly NamedBytes[] => filesOf('label').filter(({ path }) => path.endsWith('.pdf'));

/** `Label, 74 × 52 mm` of `label-74x52.pdf`. */
function labelName(path: string): string {
  const [, width, height] = /(\d+)x(\d+)\.pdf$/.exec(path) ?? [];
  return width === undefined ? path : `Label, ${width} \u00d7 ${height} mm`;
}

/**
 * Ways from the workshop page of a proposal to what its newest edition publishes: the care of the table, the papers of each page of
 * the ordered revision, the labels. None leads to what was erased.
 */
export function papersLinks(edition: CareEdition, ordered: IssuedRevision | undefined): NonNullable<WorkshopDelivery['table']>['ways'] {
  const { token, filesOf } = edition;
  const pages = ordered?.pages ?? [];
  return [
    ...(filesOf('care').length === 0 ? [] : [{ says: 'Care of the table', href: `${clientHref(token)}index.html` }]),
    ...pages.flatMap((page, i) =>
      filesOf(papersFolderOf(page.folder)).length === 0
        ? []
        : [
            {
              says: i === 0 ? "The client's papers" : `The papers of page ${page.page}`,
              href: `${clientHref(page.token)}papers/index.html`,
            },
          ],
    ),
    ...labelsOf(edition).map(({ path }) => ({ says: labelName(path), href: `${labelFolder}/${path}` })),
  ];
}
