/** Spec -> Table: parts with solid, grain frame and wood; joints; fixing; states. */
export type { DesignResult, Fixing, GrainFrame, Joint, Part, PartRole, Table, TableState } from './table.ts';
