import type { DecimalText, Length, Mass, Percent } from '../units/index.ts';
import type { BaseSpec } from './base.ts';
import type { FreePartSpec, JointSpec, StateSpec } from './part.ts';
import type { FixingSpec, TopSpec } from './top.ts';

/** Bought things counted by piece. A price here overrides the shop's. */
export interface HardwareSpec {
  readonly kind: string;
  readonly count: number;
  readonly price?: DecimalText;
  readonly mass?: Mass;
  readonly says?: string;
}

/** The maker's own boards that this table must come from. */
export interface StockBoardSpec {
  readonly wood: string;
  readonly length: Length;
  readonly width: Length;
  readonly thickness: Length;
  readonly count: number;
  /** What is left of it clear of checks, sapwood and wane; the sawn size where absent. */
  readonly usableLength?: Length;
  readonly usableWidth?: Length;
  readonly moisture?: Percent;
  readonly faults?: string;
  /** Paid already or brought by the client: adds no cost. */
  readonly owned: boolean;
}

/** Work that no driver counts: the maker says the hours. */
export interface ExtraWorkSpec {
  readonly says: string;
  readonly hours: { readonly low: number; readonly mid: number; readonly high: number };
}

/** The table of one variant: table.yaml, the variant's patch and the chosen options, merged and checked. */
export interface TableSpec {
  readonly wood: string;
  /** Overall height. */
  readonly height: Length;
  readonly top: TopSpec;
  readonly base: BaseSpec;
  readonly parts: Readonly<Record<string, FreePartSpec>>;
  readonly joints: Readonly<Record<string, JointSpec>>;
  readonly fixing: FixingSpec;
  readonly states: Readonly<Record<string, StateSpec>>;
  readonly finish: string;
  /** Another finish for the base. */
  readonly baseFinish?: string;
  readonly hardware: Readonly<Record<string, HardwareSpec>>;
  readonly stock: Readonly<Record<string, StockBoardSpec>>;
  readonly work: Readonly<Record<string, ExtraWorkSpec>>;
}
