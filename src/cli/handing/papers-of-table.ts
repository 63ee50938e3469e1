import type { CareView } from '../../care/index.ts';
import type { AnyEntry, EntryOf, IssuedOffer, NamedBytes, Standing } from '../../record/index.ts';
import type { Library, WoodSpec } from '../../spec/index.ts';
import type { Tools } from '../draft/produce.ts';

/** What the papers of a table are made of: its record, its care, and what the library says of its woods and finishes. */
export interface PapersRequest {
  /** The proposal's folder, and its name. */
  readonly folder: string;
  readonly slug: string;
  /** The day of the edition, `2027-02-14`: the statement is as of that day. */
  readonly today: string;
  readonly entries: readonly AnyEntry[];
  readonly offers: readonly IssuedOffer[];
  readonly standing: Standing;
  /** What was ordered, and the hand-over of it. */
  readonly confirmed: EntryOf<'confirmed'>;
  readonly handOver: EntryOf<'hand-over'>;
  /** Texts and finishes as they are frozen with the edition. */
  readonly library: Pick<Library, 'texts' | 'finishes'>;
  /** The woods of the table, the top's first. */
  readonly woods: readonly WoodSpec[];
  readonly care: CareView;
  /** The care note on paper; asked for again under the name of a page that stands under another one. */
  readonly carePdf: (view: CareView) => Promise<Uint8Array>;
  readonly tools: Tools;
}

/** Makes the papers of a table for every page of the ordered revision: `papers/...` for the first page, `papers-<page>/...` for the others. */
export type MakePapers = (request: PapersRequest) => Promise<readonly NamedBytes[]>;
