/** Client pages: what they are rendered from, and the slot for a revision's state. The templates lie in `pages/` and `parts/`. */
export { sentencesOf } from './answer/of-view.ts';
export {
  type CarePageLocals,
  type ClientLinks,
  type ClientPageLocals,
  type DrawingName,
  drawingKey,
  drawingNames,
  type PapersPageLocals,
  papersSlots,
  stateSlot,
} from './locals.ts';
export { overKey } from './scale.ts';
