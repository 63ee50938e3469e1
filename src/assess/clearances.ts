import type { Table } from '../design/index.ts';
import type { RoomSpec, Side } from '../spec/index.ts';

/**
 * Free floor from the table's edge to the wall, or to what stands out from it, mm. The maker says how far the table stands from a wall on
 * at most one of each pair of opposite sides; where nothing is said it stands in the middle.
 */
export function clearancesOf(room: RoomSpec, table: Table): Readonly<Record<Side, number>> {
  const pair = (low: Side, high: Side, roomMm: number, tableMm: number): readonly [number, number] => {
    const freeMm = roomMm - tableMm;
    const lowMm = room.stands[low]?.mm;
    const highMm = room.stands[high]?.mm;
    if (lowMm !== undefined) return [lowMm, freeMm - lowMm];
    return highMm === undefined ? [freeMm / 2, freeMm / 2] : [freeMm - highMm, highMm];
  };
  const [left, right] = pair('left', 'right', room.length.mm, table.overallMm.length);
  const [front, back] = pair('front', 'back', room.width.mm, table.overallMm.width);
  const standsOut = (side: Side): number =>
    Math.max(0, ...Object.values(room.obstacles).map((obstacle) => (obstacle.side === side ? obstacle.depth.mm : 0)));
  return {
    left: left - standsOut('left'),
    right: right - standsOut('right'),
    front: front - standsOut('front'),
    back: back - standsOut('back'),
  };
}
