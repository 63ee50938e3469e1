import type { Problem } from '../problem/index.ts';
import type { EffectiveSpec, StockBoardSpec } from '../spec/index.ts';
import { byCodeUnit, formatLength } from '../units/index.ts';
import { PANEL_OVER_WIDTH_MM, roughPieceM3 } from './cutting-list.ts';
import type { CuttingLine } from './take-off.ts';

/**
 * Wood for a heated room is worked at 8 to 10 %; above this it is not ready.
 *
 * @source common practice.
 */
export const READY_MOISTURE_PERCENT = 12;

/** Planing away more than this share of a board is waste that no maker would plan; common practice. */
const THICKEST_BOARD_RATIO = 1.6;
/** The boards of one panel are of one thickness, within this share of the timber chosen for it; common practice. */
const PANEL_THICKNESS_RATIO = 0.2;
/** What is left over counts as a board again from this size on. */
const LEAST_LEFTOVER_MM = { length: 250, width: 40 };

interface Piece {
  readonly id: string;
  readonly wood: string;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly thicknessMm: number;
  readonly owned: boolean;
  /** No fault, or the maker has said what is usable beside it. */
  readonly clear: boolean;
}

/** The rough volume in m3 that the owned boards cover, by type of part. */
export interface OwnStock {
  readonly coveredM3: Readonly<Record<string, number>>;
  readonly problems: readonly Problem[];
}

/**
 * Lays the cutting list on the boards that the maker owns or the client brings: panels first, then the longest and widest pieces, each from
 * the smallest board that holds it, with the shop's allowances and kerf. What remains of a board is used again. Boards that are too wet do
 * not count; a board with a fault and no usable size does not count for the top, whose face would show it.
 * Problems, all warnings: `takeoff/board-not-ready`, `takeoff/top-short-of-boards`.
 */
export function useOwnStock(spec: EffectiveSpec, cuttingList: readonly CuttingLine[], topId: string): OwnStock {
  const entries = Object.entries(spec.table.stock);
  const wet = entries.filter(([, board]) => isWet(board));
  const problems: Problem[] = wet.map(([id, board]) => notReady(id, board));
  let boards = entries.filter(([, board]) => !isWet(board)).flatMap(([id, board]) => piecesOf(id, board));
  const coveredM3: Record<string, number> = {};
  for (const line of cuttingList.toSorted((a, b) => Number(b.boards > 1) - Number(a.boards > 1) || sizeOf(b) - sizeOf(a))) {
    const isTop = line.partIds.includes(topId);
    const used = line.boards > 1 ? layPanels(spec, line, boards, isTop) : layPieces(spec, line, boards);
    if (isTop && line.boards > 1) problems.push(...shortOfBoards(spec, line, boards));
    boards = used.left;
    coveredM3[line.type] = used.coveredM3;
  }
  return { coveredM3, problems };
}

interface Laid {
  readonly coveredM3: number;
  readonly left: Piece[];
}

function layPanels(spec: EffectiveSpec, line: CuttingLine, boards: readonly Piece[], isTop: boolean): Laid {
  const { kerf, width } = spec.library.rates.allowances;
  let left = [...boards];
  let covered = 0;
  const neededMm = line.finishedMm.width + PANEL_OVER_WIDTH_MM;
  for (let panel = 0; panel < line.count * line.layers; panel += 1) {
    let openMm = neededMm;
    for (const board of panelBoards(spec, line, left, isTop).filter((b) => b.owned)) {
      if (openMm <= 0) break;
      const takenMm = Math.min(openMm, board.widthMm - width.mm);
      left = without(left, board, line.roughMm.length, takenMm + width.mm, kerf.mm);
      openMm -= takenMm;
    }
    covered += Math.min(1, (neededMm - openMm) / neededMm);
  }
  return { coveredM3: (covered / (line.count * line.layers)) * line.netM3, left };
}

function layPieces(spec: EffectiveSpec, line: CuttingLine, boards: readonly Piece[]): Laid {
  const { kerf, thickness } = spec.library.rates.allowances;
  let left = [...boards];
  let laid = 0;
  const leastMm = line.finishedMm.thickness / line.layers + thickness.mm;
  for (let piece = 0; piece < line.count * line.layers; piece += 1) {
    const board = left
      .filter((b) => b.owned && b.wood === line.wood && b.thicknessMm >= leastMm && b.thicknessMm <= leastMm * THICKEST_BOARD_RATIO)
      .filter((b) => b.lengthMm >= line.roughMm.length && b.widthMm >= line.roughMm.width)
      .toSorted((a, b) => a.lengthMm * a.widthMm * a.thicknessMm - b.lengthMm * b.widthMm * b.thicknessMm)[0];
    if (board === undefined) break;
    left = without(left, board, line.roughMm.length, line.roughMm.width, kerf.mm);
    laid += 1;
  }
  return { coveredM3: (laid / line.layers) * roughPieceM3(line), left };
}

/** Boards long and thick enough for a panel, the shortest first. */
function panelBoards(spec: EffectiveSpec, line: CuttingLine, boards: readonly Piece[], clearOnly: boolean): readonly Piece[] {
  const { thickness, width } = spec.library.rates.allowances;
  const leastMm = line.finishedMm.thickness / line.layers + thickness.mm;
  return boards
    .filter((b) => b.wood === line.wood && b.thicknessMm >= leastMm && b.lengthMm >= line.roughMm.length && b.widthMm > width.mm)
    .filter((b) => Math.abs(b.thicknessMm - line.roughMm.thickness) <= line.roughMm.thickness * PANEL_THICKNESS_RATIO)
    .filter((b) => !clearOnly || b.clear)
    .toSorted((a, b) => a.lengthMm - b.lengthMm || byCodeUnit(a.id, b.id));
}

/** Takes one piece off the corner of a board and puts back what is left along it and beside it. */
function without(boards: readonly Piece[], board: Piece, lengthMm: number, widthMm: number, kerfMm: number): Piece[] {
  const along = { ...board, lengthMm: board.lengthMm - lengthMm - kerfMm };
  const beside = { ...board, lengthMm, widthMm: board.widthMm - widthMm - kerfMm };
  const left = [along, beside].filter((b) => b.lengthMm >= LEAST_LEFTOVER_MM.length && b.widthMm >= LEAST_LEFTOVER_MM.width);
  return [...boards.filter((b) => b !== board), ...left];
}

function piecesOf(id: string, board: StockBoardSpec): readonly Piece[] {
  const piece: Piece = {
    id,
    wood: board.wood,
    lengthMm: (board.usableLength ?? board.length).mm,
    widthMm: (board.usableWidth ?? board.width).mm,
    thicknessMm: board.thickness.mm,
    owned: board.owned,
    clear: board.faults === undefined || board.usableLength !== undefined || board.usableWidth !== undefined,
  };
  return Array.from({ length: board.count }, () => ({ ...piece }));
}

function shortOfBoards(spec: EffectiveSpec, line: CuttingLine, boards: readonly Piece[]): readonly Problem[] {
  const all = panelBoards(spec, line, boards, false);
  const clear = all.filter((b) => b.clear);
  if (all.length === 0) return [];
  const haveMm = clear.reduce((sum, b) => sum + b.widthMm - spec.library.rates.allowances.width.mm, 0);
  const neededMm = line.finishedMm.width + PANEL_OVER_WIDTH_MM;
  if (haveMm >= neededMm) return [];
  const shown = { style: spec.proposal.show, locale: spec.proposal.language };
  const faulty = [...new Set(all.filter((b) => !b.clear).map((b) => b.id))];
  return [
    {
      code: 'takeoff/top-short-of-boards',
      severity: 'warning',
      title: 'the clear boards on hand do not make up the width of the top',
      path: ['table', 'stock'],
      found: `${formatLength(Math.floor(haveMm), shown)} usable after straightening edges, number of boards: ${clear.length}`,
      allowed: `at least ${formatLength(Math.ceil(neededMm), shown)}, of which ${formatLength(PANEL_OVER_WIDTH_MM, shown)} for cutting to size`,
      mend:
        faulty.length > 0
          ? `use ${faulty.join(', ')} with the fault on show and put the client's yes on record, or buy one more board`
          : 'buy one more board',
      also: faulty.map((id) => ({ path: ['table', 'stock', id, 'faults'], note: 'its fault would show in the top' })),
    },
  ];
}

function notReady(id: string, board: StockBoardSpec): Problem {
  return {
    code: 'takeoff/board-not-ready',
    severity: 'warning',
    title: `board ${id} is too wet to be worked and is not counted as stock`,
    path: ['table', 'stock', id, 'moisture'],
    found: board.moisture?.written,
    allowed: `at most ${READY_MOISTURE_PERCENT} %`,
    mend: 'dry it further, or buy this part of the timber',
  };
}

const isWet = (board: StockBoardSpec): boolean => board.moisture !== undefined && board.moisture.percent > READY_MOISTURE_PERCENT;
const sizeOf = (line: CuttingLine): number => line.roughMm.length * line.roughMm.width * line.roughMm.thickness;
