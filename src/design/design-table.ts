import type { Problem } from '../problem/index.ts';
import { nearestName } from '../problem/index.ts';
import { boundsMm } from '../solid/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { checkFreeParts, makeFreeParts } from './bases/free-parts.ts';
import { checkLegs, makeLegs } from './bases/legs.ts';
import { checkPedestal, makePedestal } from './bases/pedestal.ts';
import { checkRails, makeAprons, makeStretchers } from './bases/rails.ts';
import { checkSlabEnds, makeSlabEnds } from './bases/slab-ends.ts';
import type { BaseDraft, JointDraft, PartDraft } from './draft.ts';
import { fixTop } from './joints/fixing.ts';
import { checkFloor, checkTopCarried, checkUnjoined } from './joints/hold.ts';
import { jointOf, lettingIn } from './joints/joint.ts';
import { namedJoints, noContact } from './joints/named.ts';
import { type Pair, pairOf, surveyPairs } from './joints/survey.ts';
import { supportsOf } from './joints/top-contact.ts';
import { finishPart, withTypes } from './part.ts';
import { refuse } from './refuse.ts';
import { statesOf } from './states.ts';
import type { DesignResult, Part, Table } from './table.ts';
import { checkTop, topFacts, topPart } from './tops/top.ts';

const isError = (p: Problem): boolean => p.severity === 'error';

/**
 * The table that a spec describes: every part with its solid, place, grain and wood; joints with their contact; fixings; states.
 * Problems with code `design/...`; no table where one of them is an error. Pure.
 */
export function designTable(spec: EffectiveSpec): DesignResult {
  const { table, problems } = buildTable(spec);
  return { table, problems: once(problems) };
}

/** Mirror images and the two sides of a table say the same of one line: it is said once. */
const once = (problems: readonly Problem[]): readonly Problem[] =>
  problems.filter((p, i) => problems.findIndex((q) => q.code === p.code && q.found === p.found && q.path.join() === p.path.join()) === i);

function buildTable(spec: EffectiveSpec): DesignResult {
  const problems: Problem[] = [...checkSizes(spec)];
  if (problems.some(isError)) return { problems };
  const base = makeBase(spec, problems);
  const drafts = [topPart(spec), ...base.parts, ...makeFreeParts(spec)];
  problems.push(...checkStuff(spec, drafts));
  if (problems.some(isError)) return { problems };

  const parts = withTypes(drafts.map((draft) => finishPart(draft, spec.library)));
  const pairs = surveyPairs(parts);
  const top = topFacts(spec);
  const joints = findJoints(spec, parts, pairs, base.joints, problems);
  const joinedPairs = new Set(joints.map(({ pair }) => pair));
  const joined = (a: string, b: string): boolean => joinedPairs.has(pairOf(pairs, a, b) as Pair);
  const supports = supportsOf(top.partId, pairs);
  problems.push(...checkFloor(spec, parts, pairs));
  problems.push(...checkTopCarried(spec, parts, pairs, joined));
  problems.push(...checkUnjoined(spec, parts[0] as Part, pairs, supports, joined));
  const fixing = fixTop(spec, top, supports, problems);
  const states = statesOf(spec, parts, problems);
  if (problems.some(isError)) return { problems };

  const table: Table = {
    parts: lettingIn(parts, joints),
    joints: joints.map(({ draft, pair }) => jointOf(draft, pair)),
    fixing,
    states,
    top,
    overallMm: overallMm(parts),
    baseKind: spec.table.base.kind,
  };
  return { table, problems };
}

/** What can be told from the sizes alone, before anything is built. */
function checkSizes(spec: EffectiveSpec): readonly Problem[] {
  const { base } = spec.table;
  const ofTop = checkTop(spec);
  const ofParts = checkFreeParts(spec);
  switch (base.kind) {
    case 'legs':
      return [...ofTop, ...checkLegs(spec, base.legs), ...checkRails(spec, base), ...ofParts];
    case 'slab-ends':
      return [...ofTop, ...checkSlabEnds(spec, base), ...ofParts];
    case 'pedestal':
      return [...ofTop, ...checkPedestal(spec, base), ...ofParts];
    case 'parts':
      return [...ofTop, ...ofParts];
  }
}

function makeBase(spec: EffectiveSpec, problems: Problem[]): BaseDraft {
  const { base } = spec.table;
  switch (base.kind) {
    case 'legs': {
      const legs = makeLegs(spec, base.legs);
      const rails = [
        ...(base.aprons === undefined ? [] : [makeAprons(spec, base.aprons, legs, problems)]),
        ...(base.stretchers === undefined ? [] : [makeStretchers(spec, base.stretchers, legs, problems)]),
      ];
      return {
        parts: [...legs.map((l) => l.part), ...rails.flatMap((r) => r.parts)],
        joints: rails.flatMap((r) => r.joints),
      };
    }
    case 'slab-ends':
      return makeSlabEnds(spec, base);
    case 'pedestal':
      return makePedestal(spec, base);
    case 'parts':
      return { parts: [], joints: [] };
  }
}

/** Every wood and material must be in the library. */
function checkStuff(spec: EffectiveSpec, drafts: readonly PartDraft[]): readonly Problem[] {
  const { woods, materials } = spec.library;
  const seen = new Set<string>();
  return drafts.flatMap((draft) => {
    const shelf = draft.isMaterial === true ? materials : woods;
    if (shelf[draft.stuff] !== undefined || seen.has(draft.stuff)) return [];
    seen.add(draft.stuff);
    const names = Object.keys(shelf);
    const near = nearestName(draft.stuff, names);
    const what = draft.isMaterial === true ? 'material' : 'wood';
    return [
      refuse(
        draft.isMaterial === true ? 'design/unknown-material' : 'design/unknown-wood',
        `there is no ${what} of this name`,
        draft.from,
        {
          found: draft.stuff,
          allowed: names.join(', '),
          ...(near === undefined ? {} : { mend: `if ${near} was meant, write ${near}` }),
        },
      ),
    ];
  });
}

/** Joints of the base itself and of the maker's list, each with the pair that it holds. */
function findJoints(
  spec: EffectiveSpec,
  parts: readonly Part[],
  pairs: readonly Pair[],
  own: readonly JointDraft[],
  problems: Problem[],
): readonly { readonly draft: JointDraft; readonly pair: Pair }[] {
  const held = own.flatMap((draft) => {
    const pair = pairOf(pairs, draft.a, draft.b);
    if (pair === undefined) problems.push(noContact(spec, parts, [draft.a], [draft.b], draft.from));
    return pair === undefined ? [] : [{ draft, pair }];
  });
  const named = namedJoints(spec, parts, pairs, problems).map((draft) => ({ draft, pair: pairOf(pairs, draft.a, draft.b) as Pair }));
  return [...held, ...named];
}

function overallMm(parts: readonly Part[]): Table['overallMm'] {
  const boxes = parts.map((p) => boundsMm(p.solid, p.placement));
  const span = (i: 0 | 1 | 2): number => Math.max(...boxes.map((b) => b.maxMm[i])) - Math.min(...boxes.map((b) => b.minMm[i]));
  return { length: span(0), width: span(1), height: Math.max(...boxes.map((b) => b.maxMm[2])) };
}
