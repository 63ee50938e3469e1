import type { Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import type { EffectiveSpec, WoodSpec } from '../spec/index.ts';
import type { Movement } from './assessment.ts';
import { changeByCoefficientMm, changeByShrinkageMm, equilibriumMoisturePercent, straightLinePercent } from './moisture.ts';
import { sayIn } from './say.ts';

/** A panel at least this wide across the grain is looked at even when it is one board, mm: common practice. */
const widePanelMm = 250;

/** Added to the travel of a slot each way, mm: common practice. */
const slotMarginMm = 1;

/** Moisture that wood takes on in the room's driest and dampest month, percent: Wood Handbook Eq. 4-5. */
export function roomMoisture(spec: EffectiveSpec): { readonly lowPercent: number; readonly highPercent: number } {
  const { humidity, temperature } = spec.proposal.room;
  return {
    lowPercent: equilibriumMoisturePercent(temperature.celsius, humidity.low.percent),
    highPercent: equilibriumMoisturePercent(temperature.celsius, humidity.high.percent),
  };
}

/**
 * Change of a dimension across the grain between the room's extremes: Eq. 13-2 while both moistures lie in 6 to 14 %, else Eq. 13-3
 * where the wood's shrinkage is published, else Eq. 13-2 beyond its range (a warning says so).
 */
export function changeOf(
  wood: WoodSpec,
  sawn: 'flat' | 'quarter',
  acrossMm: number,
  lowPercent: number,
  highPercent: number,
): Pick<Movement, 'changeMm' | 'equation' | 'byEquation'> {
  const coefficient = sawn === 'flat' ? wood.changeTangential : wood.changeRadial;
  const shrinkagePercent = sawn === 'flat' ? wood.shrinkTangentialPercent : wood.shrinkRadialPercent;
  const eq132Mm = changeByCoefficientMm(acrossMm, coefficient, lowPercent, highPercent);
  if (shrinkagePercent === undefined) return { changeMm: eq132Mm, equation: 'Eq. 13-2', byEquation: { eq132Mm } };
  const eq133Mm = changeByShrinkageMm(acrossMm, shrinkagePercent, lowPercent, highPercent);
  const straight = lowPercent >= straightLinePercent.low && highPercent <= straightLinePercent.high;
  return { changeMm: straight ? eq132Mm : eq133Mm, equation: straight ? 'Eq. 13-2' : 'Eq. 13-3', byEquation: { eq132Mm, eq133Mm } };
}

/** Seasonal movement of the top and of every wide or glued-up panel, with the slots that the top's fixings need. */
export function movementsOf(spec: EffectiveSpec, table: Table): readonly Movement[] {
  const { lowPercent, highPercent } = roomMoisture(spec);
  return table.parts.flatMap((part) => {
    const wood = part.wood === undefined ? undefined : spec.library.woods[part.wood];
    if (wood === undefined || part.wood === undefined || !isPanel(part, table)) return [];
    const acrossMm = part.id === table.top.partId ? table.top.acrossGrainMm : part.sizeMm.width;
    const change = changeOf(wood, part.sawn, acrossMm, lowPercent, highPercent);
    const reachMm = part.id === table.top.partId ? fixingReachMm(table) : undefined;
    const slot = reachMm === undefined ? {} : { slotMm: (change.changeMm * reachMm) / acrossMm + slotMarginMm };
    return [
      {
        partId: part.id,
        wood: part.wood,
        acrossMm,
        sawn: part.sawn,
        moistureLowPercent: lowPercent,
        moistureHighPercent: highPercent,
        ...change,
        ...slot,
      },
    ];
  });
}

function isPanel(part: Part, table: Table): boolean {
  return part.id === table.top.partId || part.boards > 1 || part.sizeMm.width >= widePanelMm;
}

/** Farthest fixing from the line that stays fixed, mm across the grain: the middle of the top. Absent where nothing slides or nothing is fixed. */
function fixingReachMm(table: Table): number | undefined {
  const { kind, pointsMm } = table.fixing;
  if (kind === 'rigid' || kind === 'loose' || pointsMm.length === 0) return undefined;
  return Math.max(...pointsMm.map((p) => Math.abs(table.top.grainAlong === 'x' ? p.yMm : p.xMm)));
}

/** Warnings of the equations' ranges, and of a wide flat-sawn top over a heated floor. */
export function movementProblems(spec: EffectiveSpec, table: Table, movements: readonly Movement[]): readonly Problem[] {
  const problems: Problem[] = [];
  const { room } = spec.proposal;
  const top = movements.find((m) => m.partId === table.top.partId);
  const outside = movements.find(
    (m) =>
      m.byEquation.eq133Mm === undefined &&
      (m.moistureLowPercent < straightLinePercent.low || m.moistureHighPercent > straightLinePercent.high),
  );
  if (outside !== undefined) {
    problems.push({
      code: 'assess/moisture-beyond-range',
      severity: 'warning',
      title:
        'the room is drier or damper than the equation for seasonal movement covers, and this wood has no published shrinkage for the other one',
      path: ['proposal', 'room', 'humidity'],
      found: `${outside.moistureLowPercent.toFixed(1)} to ${outside.moistureHighPercent.toFixed(1)} % moisture in the wood`,
      allowed: `${straightLinePercent.low} to ${straightLinePercent.high} %`,
      mend: `take the movement as a lower bound, or give the wood ${outside.wood} its shrinkage`,
    });
  }
  if (room.underfloorHeating && top !== undefined && top.sawn === 'flat' && top.acrossMm >= wideTopMm) {
    problems.push({
      code: 'assess/flat-sawn-over-heating',
      severity: 'warning',
      title: 'a wide flat-sawn top over underfloor heating dries from below, cups and may open',
      path: ['table', 'top', 'sawn'],
      found: `flat-sawn, ${sayIn(spec).length(top.acrossMm)} across the grain`,
      mend: 'write sawn: quarter, use narrower boards, or agree a limit for the floor temperature in writing',
    });
  }
  return problems;
}

/** A top this wide across the grain over a heated floor is worth a warning, mm: common practice. */
const wideTopMm = 600;
