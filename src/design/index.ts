/** Spec -> Table: parts with solid, grain frame and wood; joints; fixing; states. Lengths in mm, table's frame; pure. */
export { designTable } from './design-table.ts';
export { partMassKg, partVolume } from './part.ts';
export type { DesignResult, Fixing, GrainFrame, Joint, Part, PartRole, Table, TableState } from './table.ts';
