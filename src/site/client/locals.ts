import type { CareView } from '../../care/index.ts';
import type { ClientView, PaperLine, PapersView } from '../../client/index.ts';

/** What a client page is rendered from. Handed over as `Astro.locals`. */
export interface ClientPageLocals {
  readonly view: ClientView;
  /** SVG of the drawings by `<design>/<drawing>`, e.g. `A/picture`, and the style sheet that colours them. */
  readonly svg: Readonly<Record<string, string>>;
  readonly sheetCss: string;
  readonly links: ClientLinks;
}

/** Files beside the page, relative to it, by design. A link that is not there is not shown. */
export interface ClientLinks {
  readonly scope: Readonly<Record<string, string>>;
  readonly sheet: Readonly<Record<string, string>>;
}

/** Drawings of a design that a page may show, by the field of `DesignView` that holds them. */
export const drawingNames = ['picture', 'small', 'front', 'side', 'plan', 'underside'] as const;
export type DrawingName = (typeof drawingNames)[number];

/** Key of a drawing's SVG in the locals. */
export function drawingKey(designId: string, name: DrawingName): string {
  return `${designId}/${name}`;
}

/** Empty in a frozen page; publication puts the state (open, superseded, closed ...) between the two, and changes nothing else. */
export const stateSlot = { open: '<!--leafwright:state-->', close: '<!--/leafwright:state-->' } as const;

/** What the page of a delivered table's papers is rendered from. */
export interface PapersPageLocals {
  readonly papers: PapersView;
  /** The papers, in the order in which they are listed. */
  readonly lines: readonly PaperLine[];
  /** The picture of the table; absent where its drawings were not kept. */
  readonly svg?: string;
  readonly sheetCss: string;
  /** False on a page that stands under another name: the care page names the maker. */
  readonly hasCarePage: boolean;
}

/** What the care page of a table is rendered from: nothing of a client, a price or a proposal can be in it. */
export interface CarePageLocals {
  readonly care: CareView;
  /** The days of its events as shown, in their order. */
  readonly eventDays: readonly string[];
  /** The table drawn apart, as SVG; absent where it does not come apart. */
  readonly apart?: string;
  readonly sheetCss: string;
  /** Files beside the page, relative to it: the note on paper and the calendar. */
  readonly links: { readonly pdf: string; readonly calendar: string };
}

/** Empty in frozen papers; publication puts the ways to other pages between each two, since links can be renewed. */
export const papersSlots = {
  care: { open: '<!--leafwright:care-->', close: '<!--/leafwright:care-->' },
  proposal: { open: '<!--leafwright:proposal-->', close: '<!--/leafwright:proposal-->' },
} as const;
