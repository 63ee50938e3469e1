/** Table + stock -> cutting list, timber, operations, hardware, finish. */
export type { CuttingLine, FinishLine, HardwareLine, OperationLine, TakeOff, TimberLine } from './take-off.ts';
