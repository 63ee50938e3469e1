/**
 * What the maker writes, checked. Lengths are quantities (`{ mm, written }`); nothing here knows files or lines.
 */
export type { ApronsSpec, BaseSpec, LegsBase, LegsSpec, PartsBase, PedestalBase, SlabEndsBase, StretchersSpec } from './base.ts';
export type { Choice, EffectiveSpec, ProposalInput, VariantInput } from './effective.ts';
export type {
  FinishSpec,
  Library,
  LoadCaseSpec,
  MakerSpec,
  MaterialSpec,
  OperationSpec,
  ShopRatesSpec,
  TermsSpec,
  TimberSpec,
  WoodSpec,
  WorkUnit,
} from './library.ts';
export type { FreePartSpec, JointKind, JointSpec, StateSpec } from './part.ts';
export type { Certainty, DeciderSpec, FreeLineSpec, OptionSpec, PartySpec, ProposalSpec, VariantSpec } from './proposal.ts';
export type { AccessSpec, ChairSpec, RoomSpec, Side } from './room.ts';
export type { ExtraWorkSpec, HardwareSpec, StockBoardSpec, TableSpec } from './table.ts';
export type { FixingSpec, OvalTop, RectangleTop, RoundTop, Sawn, TopSpec, UnderChamfer } from './top.ts';
export type { AnswerSpec, MeasureSpec, WishSpec } from './wish.ts';
