/**
 * The reply code: made on the client's page or in a confirmation, read from whatever comes back. Pure, and small enough for
 * a browser. It finds slips of the hand; it proves nothing about who wrote it.
 */
export { type CheckedReply, checkReply, firmCodes, type Mismatch, type Offered, type Shown } from './check.ts';
export { type CodeContent, makeCode } from './code.ts';
export { heldWords, type Letter, optionBits, optionOrder, optionsOn } from './letter.ts';
export { makeReply, type ReadReply, type ReplyProblem, type ReplyWords, readReply } from './reply.ts';
export { compareSentences, type SentencesRead, wordsAround } from './sentences.ts';
export { sha256, sha256Text } from './sha256.ts';
