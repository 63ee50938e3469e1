import type { z } from 'zod';
import { SCHEMAS } from './schemas.ts';

/** A kind of file that a maker writes. */
export interface DocumentKind {
  /** Name of its JSON Schema. */
  readonly id: string;
  /** Where it lies. */
  readonly file: string;
  readonly title: string;
  /** What it is for: Markdown sentences. */
  readonly about: string;
  readonly schema: z.core.$ZodType;
}

/** Every kind of file, in the order of the reference page. */
export const DOCUMENTS: readonly DocumentKind[] = [
  {
    id: 'proposal',
    file: 'proposals/<slug>/proposal.yaml',
    title: 'Proposal',
    about: 'One commission: client, who decides, wishes, room, revision, price lines and payment.',
    schema: SCHEMAS.proposal.mm,
  },
  {
    id: 'table',
    file: 'proposals/<slug>/table.yaml',
    title: 'Table',
    about: 'The table that all variants share. A variant writes only what differs.',
    schema: SCHEMAS.table.mm,
  },
  {
    id: 'variant',
    file: 'proposals/<slug>/variants/<id>.yaml',
    title: 'Variant',
    about: "One design on offer. The file's name is its letter: `a.yaml` is design A, `a2.yaml` is A2.",
    schema: SCHEMAS.variant,
  },
  {
    id: 'hand-over',
    file: 'proposals/<slug>/hand-over.yaml',
    title: 'Hand-over',
    about:
      'What is written down when the table is brought. `leafwright hand-over` drafts it, then records it. Where `TODO` stands, something is still to be measured or written.',
    schema: SCHEMAS.handOver.mm,
  },
  {
    id: 'rates',
    file: 'templates/rates/<id>.yaml',
    title: 'Shop rates',
    about: 'What the shop costs and asks. Never shown to a client.',
    schema: SCHEMAS.rates,
  },
  { id: 'woods', file: 'templates/woods.yaml', title: 'Woods', about: "Laid over the program's own, key by key.", schema: SCHEMAS.woods },
  {
    id: 'materials',
    file: 'templates/materials.yaml',
    title: 'Materials',
    about: "Laid over the program's own, key by key.",
    schema: SCHEMAS.materials,
  },
  {
    id: 'finishes',
    file: 'templates/finishes.yaml',
    title: 'Finishes',
    about: "Laid over the program's own, key by key.",
    schema: SCHEMAS.finishes,
  },
  {
    id: 'load-cases',
    file: 'templates/load-cases.yaml',
    title: 'Load cases',
    about: "Laid over the program's own, key by key.",
    schema: SCHEMAS.loadCases,
  },
  {
    id: 'care',
    file: 'templates/care.yaml',
    title: 'Care rules',
    about:
      "What the care note says, and when. Laid over the program's own, rule by rule. A rule may also be a page `templates/care/<id>.md`: its keys as front matter, what it says below.",
    schema: SCHEMAS.care,
  },
  { id: 'maker', file: 'templates/maker.yaml', title: 'Maker', about: 'Who makes the tables. Taken whole.', schema: SCHEMAS.maker },
  {
    id: 'terms',
    file: 'templates/terms/<id>.yaml',
    title: 'Terms',
    about: 'Standing terms, named by the proposal. Taken whole.',
    schema: SCHEMAS.terms,
  },
  {
    id: 'texts',
    file: 'templates/texts/<language>.yaml',
    title: 'Texts',
    about:
      "Words of pages and documents, by key. Laid over the wider language (`de` under `de-AT`; British English under every other English) and over the program's own.",
    schema: SCHEMAS.texts,
  },
];
