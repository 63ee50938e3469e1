/** Client documents as PDF bytes, from a `ClientView` alone: nothing here can reach a cost. */
export type { DocumentFonts } from './paint.ts';
export { writeScope } from './scope.ts';
