/**
 * What was issued: frozen folders, their fingerprints and links, and the chain that anchors them. Writes only below a
 * proposal's own folder. Clock and random bytes are arguments; instants are UTC, whole seconds, RFC 3339.
 */
export { type Added, type Addition, addEntry, entriesOf, type RecordPlace, readEntries } from './add.ts';
export { canonicalJson, type Json, sha256Hex, shortFingerprint } from './canonical.ts';
export type { Chain, ChainEntry, ChainLine, IssuedEntry } from './chain.ts';
export { dayIn, notBefore } from './day.ts';
export { type NamedBytes, replaceFile } from './durable.ts';
export {
  type AnyBody,
  type AnyEntry,
  type Body,
  type Chosen,
  type EntryKind,
  type EntryOf,
  entryBodies,
  type FailedDelivery,
  failedDeliveries,
  isLater,
  type LossReason,
  lossReasons,
  type Service,
  type Stage,
  services,
  stages,
  type Way,
  type WorkStage,
  ways,
  workStages,
} from './entries.ts';
export { type ErasedRecords, type Erasure, type ErasurePlan, eraseRecords, planErasure } from './erase.ts';
export { handOverFault, handOverProblems, isBeyond, serviceFault } from './hand-over.ts';
export { type Issued, type IssueRequest, issueRevision, type OtherPage } from './issue.ts';
export { withLock } from './lock.ts';
export { type IssuedOffer, issuedOffers, type Offer, offerName, offerSchema } from './offer.ts';
export { frozenInputs, frozenOut, type IssuedPage, type IssuedRevision, issuedRevisions } from './published.ts';
export { finishInterrupted } from './recover.ts';
export { isRevisionId } from './revision.ts';
export { type RevisionState, revisionState } from './revision-state.ts';
export { openSeal, type Seal, type SealedFile, saltBytes, sealFolder } from './seal.ts';
export type { Approval, InstalmentStanding, OpenDefect, Standing, Waiting } from './standing.ts';
export { standingOf } from './standing-of.ts';
export { tokenBytes } from './token.ts';
export { type VerifiedProposal, verifyProposal, verifyWorkspace } from './verify.ts';
