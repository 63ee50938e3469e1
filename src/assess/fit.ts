import type { Part, Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import type { Fit } from './assessment.ts';
import { clearancesOf } from './clearances.ts';
import { piecesOf } from './pieces.ts';
import { clearHeight, countPlaces, usualPlaces } from './places.ts';
import { sayIn } from './say.ts';
import { wayInOf } from './way-in.ts';

/** How the table sits in its room, how people sit at it, and how it comes in. */
export function fitOf(spec: EffectiveSpec, table: Table, parts: readonly Part[], massOf: Readonly<Record<string, number>>): Fit {
  const pieces = piecesOf(table, massOf);
  return {
    clearancesMm: clearancesOf(spec.proposal.room, table),
    clearHeightMm: clearHeight(spec, table, parts).clearHeightMm,
    places: countPlaces(spec, table, parts, usualPlaces(spec)),
    pieces,
    wayIn: wayInOf(spec.proposal.room.access, pieces, sayIn(spec)),
  };
}

/** The free space on two opposite sides and the table between them make up the room, or one of the three is wrong. */
function standsProblems(spec: EffectiveSpec, table: Table): Problem[] {
  const { room } = spec.proposal;
  const say = sayIn(spec);
  const pairs = [
    { low: 'left', high: 'right', roomMm: room.length.mm, tableMm: table.overallMm.length },
    { low: 'front', high: 'back', roomMm: room.width.mm, tableMm: table.overallMm.width },
  ] as const;
  return pairs.flatMap(({ low, high, roomMm, tableMm }): Problem[] => {
    const [lowMm, highMm] = [room.stands[low]?.mm, room.stands[high]?.mm];
    if (lowMm === undefined || highMm === undefined) return [];
    const overMm = lowMm + tableMm + highMm - roomMm;
    if (Math.abs(overMm) <= Math.max(1, room.tolerance?.mm ?? 0)) return [];
    return [
      {
        code: 'assess/stands-twice',
        severity: 'warning',
        title: 'the free space on two opposite sides and the table do not add up to the room',
        path: ['proposal', 'room', 'stands', high],
        found: `${say.length(Math.abs(overMm))} ${overMm > 0 ? 'more' : 'less'} than the room`,
        allowed: `${say.length(roomMm)} together; the ${low} is taken as written`,
        mend: `leave out ${high}`,
      },
    ];
  });
}

/** Errors of a table that does not fit its room; warnings of pieces that do not come in, or that need three people. */
export function fitProblems(spec: EffectiveSpec, table: Table, fit: Fit): readonly Problem[] {
  const problems: Problem[] = [...standsProblems(spec, table)];
  const say = sayIn(spec);
  const sides = Object.entries(fit.clearancesMm).filter(([, mm]) => mm < 0);
  for (const [side, mm] of sides.sort(([a], [b]) => byCodeUnit(a, b))) {
    problems.push({
      code: 'assess/room-too-small',
      severity: 'error',
      title: 'the table does not fit the room',
      path: ['proposal', 'room', side === 'left' || side === 'right' ? 'length' : 'width'],
      found: `${say.length(-mm)} too much at the ${side}`,
      allowed: `at least ${say.length(0)} from the edge to the wall or obstacle`,
      mend: 'make the table smaller, or correct the room or where the table stands',
    });
  }
  for (const step of fit.wayIn) {
    if (step.result !== 'does-not-pass' && step.result !== 'not-proven') continue;
    problems.push({
      code: step.result === 'does-not-pass' ? 'assess/way-in-blocked' : 'assess/way-in-not-proven',
      severity: 'warning',
      title:
        step.result === 'does-not-pass'
          ? 'a piece of the table does not pass on its way in'
          : 'it is not proven that every piece passes on its way in',
      path: ['proposal', 'room', 'access', step.index],
      found: step.why,
      mend: 'let the base come apart with knock-down joints, make the piece smaller, or carry a template through',
    });
  }
  for (const piece of fit.pieces) {
    if (piece.people === undefined || piece.people < 3) continue;
    problems.push({
      code: 'assess/heavy-piece',
      severity: 'warning',
      title: 'a piece is too heavy for two people',
      path: ['table'],
      found: `${piece.parts[0] ?? 'a piece'}: ${say.mass(piece.massKg)}`,
      allowed: `up to ${say.mass(50)} for two, by common practice`,
      mend: 'plan three people and a dolly, or let it come apart',
    });
  }
  return problems;
}
