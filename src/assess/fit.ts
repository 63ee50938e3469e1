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

/** Errors of a table that does not fit its room; warnings of pieces that do not come in, or that need three people. */
export function fitProblems(spec: EffectiveSpec, fit: Fit): readonly Problem[] {
  const problems: Problem[] = [];
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
