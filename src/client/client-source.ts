import type { Drawings, Overlay } from '../draw/index.ts';
import type { Figures, PriceFigures, VariantFigures } from '../figures/index.ts';
import type { EffectiveSpec, ProposalInput } from '../spec/index.ts';

/** What a client view is made from: words, drawings and figures. `ComputedProposal` of compute.ts fits it. */
export interface ClientSource {
  readonly input: ProposalInput;
  readonly variants: readonly {
    readonly id: string;
    readonly standard: { readonly spec: EffectiveSpec };
    readonly drawings: Drawings;
  }[];
}

/** The revision issued before: what is new is told against it. */
export interface PreviousRevision {
  readonly id: string;
  /** Which round of revision follows it; absent where that is a change to an order. */
  readonly round?: number;
  /** Figures as they were frozen. */
  readonly figures: Figures;
  /** Drawings over each other, by the letter of the design as it is now; none where the older table can not be drawn as it was. */
  readonly overlays: Readonly<Record<string, Overlay>>;
}

export interface ClientOptions {
  readonly previous?: PreviousRevision;
  /** SHA-256 of the frozen revision in hex; absent in a draft. */
  readonly fingerprint?: string;
  /** End of the proposal's chain before it was issued: number of the last entry and its SHA-256 in hex. */
  readonly after?: { readonly n: number; readonly digest: string };
  /** Instead of what the revision says: a second page for someone who sees less. */
  readonly audience?: 'payer' | 'no-price';
  readonly level?: 'sketch' | 'agreed' | 'full';
  /** Who reads it, where that is another than the client. */
  readonly for?: string;
  /** The page stands under another name than the maker's: it then says whose the first person is. */
  readonly isUnderBrand?: boolean;
}

/** The figures of a design without anything private: what the rooms of this folder that make words may look at. */
export type ShownFigures = Omit<VariantFigures, 'takeoff' | 'price'> & {
  readonly cuttingList: VariantFigures['takeoff']['cuttingList'];
  readonly hardware: VariantFigures['takeoff']['hardware'];
};

/** The price as far as a client may see it: no build-up, no cost, no margin. */
export type ShownPrice = Omit<PriceFigures, 'build' | 'costMinor' | 'marginPercent'>;

/** One design on its way to the client. */
export interface ShownDesign {
  readonly id: string;
  readonly spec: EffectiveSpec;
  readonly drawings: Drawings;
  readonly figures: ShownFigures;
  readonly price: ShownPrice;
}

/** Names the figures that may go on; what is not named here can not be reached by the words of a page. */
export function shownFigures(all: VariantFigures): ShownFigures {
  return {
    name: all.name,
    offered: all.offered,
    overallMm: all.overallMm,
    top: all.top,
    parts: all.parts,
    massKg: all.massKg,
    centreOfGravityMm: all.centreOfGravityMm,
    supportPolygonMm: all.supportPolygonMm,
    supportArcs: all.supportArcs,
    tipping: all.tipping,
    movement: all.movement,
    open: all.open,
    fit: all.fit,
    wishes: all.wishes,
    cuttingList: all.takeoff.cuttingList,
    hardware: all.takeoff.hardware,
  };
}

/** Names what may be told of a price. */
export function shownPrice(all: PriceFigures): ShownPrice {
  return {
    currency: all.currency,
    lines: all.lines,
    netMinor: all.netMinor,
    taxes: all.taxes,
    totalMinor: all.totalMinor,
    instalments: all.instalments,
    options: all.options,
    combinations: all.combinations,
  };
}

/** The designs that are offered, in the order of the proposal, each with what may be looked at. */
export function shownDesigns(source: ClientSource, figures: Figures): readonly ShownDesign[] {
  return source.variants
    .filter((variant) => variant.standard.spec.variant.offered)
    .map((variant) => {
      const all = figures.variants[variant.id];
      if (all === undefined) throw new Error(`no figures for design ${variant.id}`);
      return {
        id: variant.id,
        spec: variant.standard.spec,
        drawings: variant.drawings,
        figures: shownFigures(all),
        price: shownPrice(all.price),
      };
    });
}
