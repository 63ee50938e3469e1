import type { Problem } from '../problem/index.ts';
import type { WorkUnit } from '../spec/index.ts';

export interface CuttingLine {
  readonly type: string;
  readonly name: string;
  readonly partIds: readonly string[];
  readonly wood: string;
  readonly count: number;
  readonly finishedMm: { readonly length: number; readonly width: number; readonly thickness: number };
  /** Tenons beyond the shoulders, both ends together: the length to cut is the finished length and these. */
  readonly tenonsMm: number;
  /** Boards glued to make one: 1 for a single piece. */
  readonly boards: number;
  /** Rough size of one board, with allowances. */
  readonly roughMm: { readonly length: number; readonly width: number; readonly thickness: number };
  /** Key in `rates.timber`, or absent where nothing sawn is thick enough. */
  readonly timber?: string;
  /** Laminated from more layers because no sawn board is thick enough: 1 for none. */
  readonly layers: number;
  readonly netM3: number;
}

export interface TimberLine {
  readonly timber: string;
  readonly wood: string;
  readonly thicknessMm: number;
  /** Rough size of the pieces, before yield. */
  readonly netM3: number;
  readonly netBoardFeet: number;
  readonly additionPercent: number;
  readonly grossM3: number;
  readonly grossBoardFeet: number;
  /** Covered by boards that the maker owns or the client brings. */
  readonly ownedM3: number;
  readonly toBuyM3: number;
  readonly toBuyBoardFeet: number;
}

export interface OperationLine {
  /** Key in `rates.operations`, or `own-work/<id>` for the maker's own hours. */
  readonly id: string;
  readonly says: string;
  /** What it was counted from, e.g. `8 joints`, `3.44 m² of surface`. */
  readonly driver: string;
  readonly quantity: number;
  readonly per: WorkUnit | 'own';
  readonly hours: { readonly low: number; readonly mid: number; readonly high: number };
  readonly finishing: boolean;
}

export interface HardwareLine {
  readonly kind: string;
  readonly says: string;
  readonly count: number;
  /** Key in rates, or the table's own entry. */
  readonly from: 'rates' | 'table';
  readonly id: string;
}

export interface FinishLine {
  readonly finish: string;
  readonly surface: 'top' | 'base' | 'underside';
  readonly areaM2: number;
  readonly coats: number;
  readonly litres: number;
}

export interface TakeOff {
  readonly cuttingList: readonly CuttingLine[];
  readonly timber: readonly TimberLine[];
  readonly operations: readonly OperationLine[];
  readonly hardware: readonly HardwareLine[];
  readonly finish: readonly FinishLine[];
  /** Skin less glued contact less floor contact, the underside of the top included. */
  readonly finishAreaM2: number;
  readonly undersideAreaM2: number;
  readonly hours: { readonly low: number; readonly mid: number; readonly high: number };
  readonly finishingShare: number;
  readonly problems: readonly Problem[];
}
