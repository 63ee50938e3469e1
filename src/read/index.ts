/**
 * Files to a checked proposal. In: a workspace folder and a slug. Out: the merged, checked input of the computation, or problems
 * that point at file, line and column. Reads files in `files.ts` alone; writes nothing.
 */
export { type CareRead, readCare } from './care.ts';
export { editYaml, type YamlEdit, YamlEditFault } from './edit.ts';
export { HAND_OVER_FILE, type HandOverRead, readHandOver } from './hand-over.ts';
export { readMaker, readTexts } from './library.ts';
export { type Mix, type MixOf, mixVariant, patchBetween } from './mix.ts';
export { type ProposalRead, type ReadOptions, readProposal, readWorkspace } from './proposal.ts';
export { locate, placeProblems, type Sources } from './sources.ts';
