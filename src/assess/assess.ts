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
    ...looseTopProblems(table),
    ...grainProblems(spec, table),
    ...movementProblems(spec, table, movement),
    ...fitProblems(spec, table, fit),
  ];
  return { ...found, wishes, problems };
}

function fallProblems(spec: EffectiveSpec, { stances, state }: StandingState): readonly Problem[] {
  const falling = stances.findIndex((stance) => !standsByItself(stance));
  const stance = stances[falling];
  if (stance === undefined) return [];
  const [x, y] = stance.gravityMm;
  const say = sayIn(spec);
  const where = `centre of gravity ${say.length(x)} along and ${say.length(y)} across from the middle of the top`;
  return [
    {
      code: 'assess/falls-by-itself',
      severity: 'error',
      title:
        falling === 0
          ? 'the table falls over by itself: its weight acts outside its feet'
          : 'the loose top falls off its base by itself: its weight acts outside what carries it',
      path: state.id === 'standing' ? ['table', 'base'] : ['table', 'states', state.id],
      found: where,
      allowed: falling === 0 ? 'inside the outline of the feet' : 'inside the outline of what carries the top',
      mend:
        falling === 0
          ? 'move the feet outwards on that side, or add weight low on the other'
          : 'move the bearers outwards on that side, or fix the top',
    },
  ];
}

/** A top that only lies there is worth a word in any case: it can be pushed or lifted off. */
function looseTopProblems(table: Table): readonly Problem[] {
  if (table.fixing.kind !== 'loose') return [];
  return [
    {
      code: 'assess/loose-top',
      severity: 'warning',
      title: 'the top lies loose on its base: it can tip, slide or be lifted off by itself',
      path: table.fixing.from,
      found: 'kind: loose',
      mend: 'hold the top with buttons, slotted-screws or figure-eights, or tell the client how it is held',
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
