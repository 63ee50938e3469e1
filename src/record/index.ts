/**
 * What was issued: frozen folders, their fingerprints and links, and the chain that anchors them. Writes only below a
 * proposal's own folder. Clock and random bytes are arguments; instants are UTC, whole seconds, RFC 3339.
 */
export { canonicalJson, type Json, sha256Hex, shortFingerprint } from './canonical.ts';
export type { Chain, ChainEntry, ChainLine, IssuedEntry } from './chain.ts';
export type { NamedBytes } from './durable.ts';
export { type Issued, type IssueRequest, issueRevision } from './issue.ts';
export { withLock } from './lock.ts';
export { frozenInputs, frozenOut, type IssuedRevision, issuedRevisions, type RevisionState } from './published.ts';
export { finishInterrupted } from './recover.ts';
export { isRevisionId } from './revision.ts';
export { tokenBytes } from './token.ts';
export { type VerifiedProposal, verifyProposal, verifyWorkspace } from './verify.ts';
