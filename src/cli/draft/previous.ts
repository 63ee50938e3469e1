import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { earlierDesign, type PreviousRevision } from '../../client/index.ts';
import type { ComputedProposal } from '../../compute.ts';
import { designTable, type Table } from '../../design/index.ts';
import { drawOverlay, type Overlay } from '../../draw/index.ts';
import { type Figures, figuresSchema, type VariantFigures } from '../../figures/index.ts';
import { readProposal } from '../../read/index.ts';
import { issuedOffers, issuedRevisions, readEntries } from '../../record/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { proposalFolder } from '../workspace.ts';
import { nextRound } from './rounds.ts';

const numberOf = (revision: string): number => Number(revision.slice(1));

/** The figures that were frozen with an issued revision; undefined where this program can not read them. */
export function frozenFigures(folder: string, revision: string): Figures | undefined {
  const file = join(folder, 'issued', revision, 'data', 'figures.json');
  if (statSync(file, { throwIfNoEntry: false })?.isFile() !== true) return undefined;
  try {
    const read = figuresSchema.safeParse(JSON.parse(readFileSync(file, 'utf8')));
    return read.success && Object.values(read.data.variants).every(({ price }) => price !== undefined) ? (read.data as Figures) : undefined;
  } catch {
    return undefined;
  }
}

/** What was written when a revision was issued, as this program reads it; undefined where it can not. */
function frozenInput(folder: string, slug: string, revision: string): ProposalInput | undefined {
  return readProposal(join(folder, 'issued', revision, 'in'), slug, { frozen: true }).input;
}

/** A part's place and size agree to this. */
const SAME_MM = 0.01;
const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_MM;

interface PartPlace {
  readonly id: string;
  readonly sizeMm: { readonly length: number; readonly width: number; readonly thickness: number };
  readonly originMm: readonly number[];
}

const ofTable = (table: Table): readonly PartPlace[] =>
  table.parts.map(({ id, sizeMm, placement }) => ({ id, sizeMm, originMm: placement.originMm }));
const ofFigures = (figures: VariantFigures): readonly PartPlace[] =>
  figures.parts.map(({ id, sizeMm, placement: { originMm } }) => ({ id, sizeMm, originMm: [originMm.x, originMm.y, originMm.z] }));

/** Whether two tables have the same parts, of the same sizes, in the same places. */
function isSame(a: readonly PartPlace[], b: readonly PartPlace[]): boolean {
  return (
    a.length === b.length &&
    a.every((part, i) => {
      const other = b[i];
      if (other === undefined || other.id !== part.id) return false;
      const { length, width, thickness } = part.sizeMm;
      const sizes = isNear(length, other.sizeMm.length) && isNear(width, other.sizeMm.width) && isNear(thickness, other.sizeMm.thickness);
      return sizes && part.originMm.every((mm, axis) => isNear(mm, other.originMm[axis] ?? Number.NaN));
    })
  );
}

/** The table of a design as it was issued, if this program still makes it as the frozen figures say that it was. */
function formerTable(input: ProposalInput, id: string, figures: VariantFigures): Table | undefined {
  const found = input.variants.find(({ variant }) => variant.id === id);
  const spec = found?.combinations.find(({ isDefault }) => isDefault)?.table;
  if (found === undefined || spec === undefined) return undefined;
  const { table } = designTable({ proposal: input.proposal, variant: found.variant, table: spec, library: input.library });
  return table !== undefined && isSame(ofTable(table), ofFigures(figures)) ? table : undefined;
}

function overlays(computed: ComputedProposal, figures: Figures, input: ProposalInput): Readonly<Record<string, Overlay>> {
  const { library } = computed.input;
  const say = (key: string): string => library.texts[key] ?? key;
  return Object.fromEntries(
    computed.variants.flatMap(({ id, standard: { spec, table } }) => {
      const earlier = earlierDesign(id, spec.variant.from, figures.variants);
      const then = earlier === undefined ? undefined : figures.variants[earlier];
      if (!spec.variant.offered || earlier === undefined || then === undefined) return [];
      const former = formerTable(input, earlier, then);
      if (former === undefined || isSame(ofTable(table), ofTable(former))) return [];
      const words = (view: 'front' | 'side') => ({
        title: `${id} ${spec.variant.name}: ${say(`page.${view}`)}`,
        description: `${say(`page.${view}`)}. ${say('changed.title')}.`,
      });
      return [[id, drawOverlay(table, former, library, { front: words('front'), side: words('side') })] as const];
    }),
  );
}

/**
 * The revision issued before the one that a proposal is the draft of, for telling what changed. Undefined for a first one,
 * and where the older figures can not be read any more. A design whose older table can not be made as it was has no overlay.
 */
export function previousRevision(workspace: string, computed: ComputedProposal): PreviousRevision | undefined {
  const { slug, proposal } = computed.input;
  const folder = proposalFolder(workspace, slug);
  const before = issuedRevisions(folder).findLast(({ revision }) => numberOf(revision) < numberOf(proposal.revision.id));
  const figures = before === undefined ? undefined : frozenFigures(folder, before.revision);
  if (before === undefined || figures === undefined) return undefined;
  const input = frozenInput(folder, slug, before.revision);
  const entries = readEntries(folder);
  const own = entries.findIndex((entry) => entry.kind === 'issued' && entry.revision === proposal.revision.id);
  const round = nextRound(proposal, own === -1 ? entries : entries.slice(0, own), issuedOffers(folder))?.n;
  return {
    id: before.revision,
    ...(round === undefined ? {} : { round }),
    figures,
    overlays: input === undefined ? {} : overlays(computed, figures, input),
  };
}
