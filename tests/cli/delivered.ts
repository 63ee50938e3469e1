import { join } from 'node:path';
import PDFDocument from 'pdfkit';
import type { CareView } from '../../src/care/index.ts';
import { openTools } from '../../src/cli/draft/produce.ts';
import { makePapers } from '../../src/cli/handing/papers-of-table.ts';
import { readProposal } from '../../src/read/index.ts';
import {
  addEntry,
  type Body,
  issuedOffers,
  type Json,
  makeEdition,
  type NamedBytes,
  readEntries,
  saltBytes,
  standingOf,
} from '../../src/record/index.ts';
import type { Library } from '../../src/spec/index.ts';

/** A table is handed over and its papers are frozen: without its care, which has tests of its own. Everything is invented. */
export interface Delivery {
  readonly workspace: string;
  readonly slug: string;
  readonly on: string;
  readonly handOver?: Partial<Body<'hand-over'>>;
  /** What lies apart of it. */
  readonly sealed?: Readonly<Record<string, Json>>;
  readonly files?: readonly NamedBytes[];
}

const date = (iso: string) => {
  const [year = 0, month = 0, day = 0] = iso.split('-').map(Number);
  return { year, month, day };
};

function careFixture(piece: string, on: string, { maker, texts }: Library): CareView {
  const day = date(on);
  const dates = { lightUseOver: day, lightUseFrom: day, curedOn: day, curedFrom: day, firstCheckOn: day, refreshFrom: day, refreshTo: day };
  return {
    format: 'leafwright/care/1',
    paper: 'a4',
    dateIso: '2026-07-17',
    language: 'en-GB',
    texts,
    piece,
    title: 'Table in oak',
    edition: 1,
    date: on,
    finished: on,
    delivered: on,
    madeIn: day,
    maker: { name: maker.name, trade: '', address: maker.address, telephone: maker.telephone ?? '', email: maker.email, isInvented: true },
    woods: [{ name: 'European oak' }],
    finish: { name: 'Hardwax oil' },
    size: '2,099 × 800 × 750\u202fmm',
    mass: '41\u202fkg',
    note: { finish: 'Hardwax oil', dates, sections: [] },
    events: [],
  };
}

/** A page that says whose table it is to care for. */
export function carePaper({ maker }: { readonly maker: Pick<CareView['maker'], 'name' | 'address' | 'email'> }): Promise<Uint8Array> {
  const { promise, resolve } = Promise.withResolvers<Uint8Array>();
  const doc = new PDFDocument({ info: { CreationDate: new Date(0) } });
  const chunks: Uint8Array[] = [];
  doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
  doc.on('end', () => resolve(Buffer.concat(chunks)));
  doc.text(`Care, by ${maker.name}, ${maker.address}, ${maker.email}`);
  doc.end();
  return promise;
}

const random = (byte: number): Uint8Array => new Uint8Array(saltBytes).fill(byte);

/** Records a hand-over and freezes the papers of the table as an edition; throws where one of them is refused. */
export async function deliver({ workspace, slug, on, handOver, sealed, files }: Delivery): Promise<void> {
  const folder = join(workspace, 'proposals', slug);
  const { input, problems: unread } = readProposal(workspace, slug);
  if (input === undefined) throw new Error(JSON.stringify(unread));
  const place = { folder, shown: slug, at: `${on}T12:00:00Z`, zone: 'Europe/Dublin' };
  const body: Body<'hand-over'> = {
    kind: 'hand-over',
    on,
    piece: 'RS-2026-07',
    finishedOn: on,
    finish: 'hardwax-oil',
    asBuilt: [],
    photographs: [],
    acceptance: { inspected: true, defects: [], signed: 'signed' },
    ...handOver,
  };
  const added = await addEntry(place, () => ({
    body,
    ...(files === undefined ? {} : { files }),
    ...(sealed === undefined ? {} : { sealed: { data: sealed, random: random(5) } }),
  }));
  const { entry } = added;
  if (entry?.kind !== 'hand-over') throw new Error(JSON.stringify(added.problems));
  const make = async (): Promise<readonly NamedBytes[]> => {
    const entries = readEntries(folder);
    const offers = issuedOffers(folder);
    const standing = standingOf(entries, offers, on);
    const { order } = standing;
    if (order === undefined) throw new Error(`${slug} is no order`);
    return makePapers({
      ...{ folder, slug, today: on, entries, offers, standing, confirmed: order.confirmed, handOver: entry },
      library: input.library,
      show: input.proposal.show,
      woods: ['oak-european', 'ash-european'].filter((id) => input.library.woods[id] !== undefined),
      care: careFixture(body.piece, on, input.library),
      carePdf: carePaper,
      tools: openTools(),
    });
  };
  const made = await makeEdition({ ...place, proposal: slug, program: 'test', on, of: entry.n, random: random(7), make });
  if (made.edition === undefined) throw new Error(JSON.stringify(made.problems));
}
