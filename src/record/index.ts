/**
 * What was issued: frozen folders, their fingerprints and links, and the chain that anchors them. Writes only below a
 * proposal's own folder. Clock and random bytes are arguments; instants are UTC, whole seconds, RFC 3339.
 */

export type { Chain, ChainEntry, ChainLine, IssuedEntry } from './chain/chain.ts';
export {
  type AnyBody,
  type AnyEntry,
  type Body,
  type Chosen,
  type ClaimSubject,
  claimOutcomes,
  claimSubjects,
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
} from './chain/entries.ts';
export { entriesOf, readEntries } from './chain/read-entries.ts';
export { openSeal, type Seal, type SealedFile, saltBytes, sealFolder } from './chain/seal.ts';
export { canonicalJson, type Json, sha256Hex, shortFingerprint } from './disk/canonical.ts';
export { dayIn, notBefore } from './disk/day.ts';
export { type NamedBytes, replaceFile } from './disk/durable.ts';
export { readCareLink } from './disk/edition.ts';
export { withLock } from './disk/lock.ts';
export { isRevisionId } from './disk/revision.ts';
export { tokenBytes } from './disk/token.ts';
export { chainProblems } from './proof/check-chain.ts';
export { type VerifiedProposal, verifyProposal, verifyWorkspace } from './proof/verify.ts';
export { deliveryProblems, handOverFault, handOverProblems, isBeyond, maySayYes, serviceFault } from './standing/hand-over.ts';
export { type IssuedOffer, issuedOffers, type Offer, offerName, offerSchema } from './standing/offer.ts';
export { askedBy } from './standing/order.ts';
export { type RevisionState, revisionState } from './standing/revision-state.ts';
export type { Approval, ClaimStanding, InstalmentStanding, OpenDefect, Standing, Waiting } from './standing/standing.ts';
export { standingOf } from './standing/standing-of.ts';
export { type Added, type Addition, addEntry, type RecordPlace } from './writing/add.ts';
export { type CareEdition, careEditions, type Edition, type EditionRequest, makeEdition } from './writing/edition.ts';
export { type ErasedRecords, type Erasure, type ErasurePlan, eraseRecords, planErasure } from './writing/erase.ts';
export { type Issued, type IssueRequest, issueRevision, type OtherPage } from './writing/issue.ts';
export { frozenInputs, frozenOut, type IssuedPage, type IssuedRevision, issuedRevisions } from './writing/published.ts';
export { finishInterrupted } from './writing/recover.ts';
