/**
 * One table -> cutting list, timber, hours, hardware, finish. Sizes in mm, volumes in m3 and board feet, areas in m2, full precision.
 * Assumes the parts' sizes along the grain as `design/` gives them; nothing here knows money beyond which prices must exist.
 */
export { againFrom, broughtBy } from './brought.ts';
export { type ChangeHours, type ChangeTimber, type ChangeWork, changeWork } from './change.ts';
export { listCuts, PANEL_OVER_WIDTH_MM } from './cutting-list.ts';
export { DRIVERS, perimeterMm } from './drivers.ts';
export { boughtThings, type LostThing, type ThingAnew } from './lost-things.ts';
export {
  BOARD_FOOT_M3,
  boardFeetOf,
  boardFeetOfM3,
  grossOf,
  lossOfGross,
  piecesPerBar,
  surfaceMeasure,
  tallyBoardFeet,
} from './lumber.ts';
export { stageOfOperation, USUAL_STAGES } from './operation-stage.ts';
export { READY_MOISTURE_PERCENT, useOwnStock } from './own-stock.ts';
export type { PartFates } from './part-fates.ts';
export { partFates } from './part-fates.ts';
export type { TakenTable } from './part-share.ts';
export { type BoardsDone, type OperationDone, type PlanAndDone, planAndDone, type TimberDone, type WorkDone } from './plan-and-done.ts';
export { type Brought, byStage, furthestStage, LEAST_M3, type Progress, stageOfWhole, timberOnRack } from './progress.ts';
export { CLOSE_ENOUGH, LEAST_TABLES, median, type ProposedRate, proposedRates } from './proposed-rates.ts';
export { HOURS_MAY_DIFFER, USUAL_FINISHING_SHARE } from './sanity.ts';
export { litresOf } from './surfaces.ts';
export { takeOff } from './take.ts';
export type { CuttingLine, FinishLine, HardwareLine, OperationLine, TakeOff, TimberLine } from './take-off.ts';
export { chooseTimber, LONG_PART_FROM_MM } from './timber-choice.ts';
