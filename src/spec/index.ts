/**
 * What the maker writes: one schema for each file, from which types, messages, JSON Schemas and the reference page come.
 * In: plain values, every scalar as the text in the file. Out: checked values with quantities (`{ mm, written }`), or problems.
 * Nothing here knows files or lines.
 */
export type { ApronsSpec, BaseSpec, LegsBase, LegsSpec, PartsBase, PedestalBase, SlabEndsBase, StretchersSpec } from './base.ts';
export {
  CARE_FACTS,
  CARE_SECTIONS,
  CARE_THINGS,
  type CareBook,
  type CareFact,
  type CareRule,
  type CareSectionId,
  type CareThing,
} from './care.ts';
export { type Checked, checkSpec } from './check.ts';
export { DOCUMENTS, type DocumentKind } from './documents.ts';
export type { Choice, EffectiveSpec, ProposalInput, VariantInput } from './effective.ts';
export type { FinishSpec } from './finish.ts';
export { fixedByChange, fixedToChoice, variantsInPlay } from './fixed-choice.ts';
export { type HandOverSpec, TO_FILL_IN } from './hand-over.ts';
export { jsonSchemaOf } from './json-schema.ts';
export { libraryLaws, proposalLaws, tableLaws, variantLaws } from './laws.ts';
export type { Library } from './library.ts';
export type { LoadCaseSpec } from './load-case.ts';
export type { CancellationRule, MakerSpec, TermsSpec } from './maker.ts';
export { movementRangeMm } from './movement-range.ts';
export { type BrandSpec, type PageOf, pageOfDecider, pagesOf } from './page.ts';
export { type FreePartSpec, GLUED_JOINTS, type JointKind, type JointSpec, type StateSpec } from './part.ts';
export type { Certainty, DeciderSpec, FreeLineSpec, OrderChangeSpec, PartySpec, ProposalSpec } from './proposal.ts';
export { completeProposal } from './proposal.ts';
export type { ChangeRatesSpec, OperationSpec, ShopRatesSpec, TimberSpec, WorkUnit } from './rates.ts';
export { USUAL_CHANGE_RATES } from './rates.ts';
export { referencePage } from './reference.ts';
export type { AccessSpec, ChairSpec, RoomSpec, Side } from './room.ts';
export { SCHEMAS } from './schemas.ts';
export { ID, ID_IN_WORDS } from './shape.ts';
export { isReached, STAGES, type StageWord, WORK_STAGES } from './stage.ts';
export type { ExtraWorkSpec, HardwareSpec, StockBoardSpec, TableSpec } from './table.ts';
export { TOLERANCE_OF, type ToleranceOf, termsLaws, toleranceMm } from './tolerance.ts';
export type { FixingSpec, OvalTop, RectangleTop, RoundTop, Sawn, TopSpec, UnderChamfer } from './top.ts';
export type { OptionSpec, VariantSpec } from './variant.ts';
export { type VariantFile, variantOf } from './variant.ts';
export type { AnswerSpec, MeasureSpec, WishSpec } from './wish.ts';
export type { MaterialSpec, WoodSpec } from './wood.ts';
