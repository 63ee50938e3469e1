import type { Table } from '../design/index.ts';
import type { Problem } from '../problem/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import type { Money } from '../units/index.ts';
import type { Assessment, Tipping } from './assessment.ts';
import { fitOf, fitProblems } from './fit.ts';
import { grainProblems } from './grain.ts';
import { movementProblems, movementsOf } from './movement.ts';
import { openOf } from './open.ts';
import { sayIn } from './say.ts';
import { partsIn } from './slice.ts';
import type { StandingState } from './steadiness.ts';
import { standIn, tippingOf } from './steadiness.ts';
import { supportOf } from './support.ts';
import { standsByItself } from './tip.ts';
import { weigh } from './weigh.ts';
import { answerWishes } from './wishes.ts';

/**
 * Everything that is known of a table before it is built: weight, tipping in every state, seasonal movement, how open it is, how it fits
 * the room, and the answers to the wishes. mm, kg, N, percent. `price` answers wishes about money; without it they are `not-computed`.
 * Assumes a rigid table on a rigid level floor that does not slide. A calculation, no test.
 * Problems: `assess/*` of `problem/codes/assess.ts`.
 */
export function assessTable(spec: EffectiveSpec, table: Table, price?: { readonly net: Money; readonly total: Money }): Assessment {
  const [first] = table.states;
  const parts = first === undefined ? table.parts : partsIn(table, first);
  const weight = weigh(parts);
  const support = supportOf(parts);
  const standing = table.states.map((state) => standIn(table, state));
  const movement = movementsOf(spec, table);
  const fit = fitOf(spec, table, parts, weight.massOf);
  const found = {
    ...weight,
    supportPolygonMm: support.polygonMm,
    supportArcs: support.arcs,
    contacts: support.contacts,
    tipping: standing.map((one) => tippingOf(one, table, spec.library.loadCases, spec.proposal.use)),
    movement,
    open: openOf(table, parts),
    fit,
  };
  const wishes = answerWishes({ spec, table, parts, standing, assessment: found, ...(price === undefined ? {} : { price }) });
  const problems = [
    ...standing.flatMap((one) => fallProblems(spec, one)),
    ...found.tipping.flatMap((tipping) => caseProblems(spec, tipping)),
    ...grainProblems(spec, table),
    ...movementProblems(spec, table, movement),
    ...fitProblems(spec, fit),
  ];
  return { ...found, wishes, problems };
}

function fallProblems(spec: EffectiveSpec, { stance, state }: StandingState): readonly Problem[] {
  if (standsByItself(stance)) return [];
  const [x, y] = stance.gravityMm;
  const say = sayIn(spec);
  return [
    {
      code: 'assess/falls-by-itself',
      severity: 'error',
      title: 'the table falls over by itself: its weight acts outside its feet',
      path: state.id === 'standing' ? ['table', 'base'] : ['table', 'states', state.id],
      found: `centre of gravity ${say.length(x)} along and ${say.length(y)} across from the middle of the top`,
      allowed: 'inside the outline of the feet',
      mend: 'move the feet outwards on that side, or add weight low on the other',
    },
  ];
}

/** A design on offer must reach the least factor of every screening check of its use; a design for the maker alone is warned about. */
function caseProblems(spec: EffectiveSpec, tipping: Tipping): readonly Problem[] {
  const say = sayIn(spec);
  return tipping.cases.flatMap((one): Problem[] => {
    if (one.result === 'enough' || one.safetyFactor === null) return [];
    const check = spec.library.loadCases[one.id];
    const refused = one.safetyFactor < one.least;
    const loads = [one.loadN > 0 ? `${say.force(one.loadN)} down` : '', one.pushN > 0 ? `${say.force(one.pushN)} sideways` : ''];
    return [
      {
        code: refused ? 'assess/below-least' : 'assess/below-wanted',
        severity: refused && spec.variant.offered ? 'error' : 'warning',
        title: refused
          ? 'the table tips too easily for its use to be offered'
          : 'the table tips more easily than the screening check wants',
        path: tipping.state === 'standing' ? ['table', 'base'] : ['table', 'states', tipping.state],
        found: `safety factor ${roundedDown(one.safetyFactor)} for "${check?.says ?? one.id}" (${loads.filter((l) => l !== '').join(' and ')}, state ${tipping.state})`,
        allowed: refused ? `at least ${one.least}` : `${one.wanted} wanted`,
        mend: refused
          ? 'move the feet outwards, make the base heavier or the top smaller; or write offered: false to keep it for yourself'
          : 'move the feet outwards, make the base heavier or the top smaller, or tell the client',
        also: [{ path: ['library', 'loadCases', one.id], note: 'the screening check' }],
      },
    ];
  });
}

function roundedDown(factor: number): string {
  return (Math.floor(factor * 100) / 100).toFixed(2);
}
