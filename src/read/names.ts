import { nearestName, type Problem, type SpecPath } from '../problem/index.ts';
import type { BaseSpec, Library, ProposalSpec, TableSpec, VariantSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';

/** Longest list of known names that a message holds. */
const MOST_LISTED = 12;

function unknownName(what: string, name: string, path: SpecPath, known: readonly string[]): Problem {
  const holds = (one: string): boolean => one.includes(name.toLowerCase());
  const sorted = known.toSorted((a, b) => Number(holds(b)) - Number(holds(a)) || byCodeUnit(a, b));
  const near = nearestName(name, sorted);
  const key = String(path.at(-1) ?? '');
  const rest = sorted.length - MOST_LISTED;
  const listed = `${sorted.slice(0, MOST_LISTED).join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
  return {
    code: 'read/unknown-name',
    severity: 'error',
    title: `there is no ${what} called ${name}`,
    path,
    found: name,
    ...(sorted.length === 0 ? {} : { allowed: listed }),
    ...(near === undefined ? {} : { mend: typeof path.at(-1) === 'number' ? `write ${near}` : `write ${key}: ${near}` }),
  };
}

function ifUnknown(what: string, name: string | undefined, path: SpecPath, known: readonly string[]): readonly Problem[] {
  return name === undefined || known.includes(name) ? [] : [unknownName(what, name, path, known)];
}

/** Names in proposal.yaml that must stand elsewhere. Codes: `read/unknown-name`, `read/other-currency`. */
export function proposalNames(proposal: ProposalSpec, library: Library, variants: readonly string[]): readonly Problem[] {
  const taxes = [...new Set(['none', ...Object.keys(library.rates.taxes)])];
  const uses = [...new Set(Object.values(library.loadCases).flatMap((one) => one.uses))];
  const problems: Problem[] = [
    ...ifUnknown('tax', proposal.tax, ['proposal', 'tax'], taxes),
    ...ifUnknown('use with load cases', proposal.use, ['proposal', 'use'], uses),
  ];
  for (const [id, line] of Object.entries(proposal.lines)) {
    if (line.tax !== proposal.tax) problems.push(...ifUnknown('tax', line.tax, ['proposal', 'lines', id, 'tax'], taxes));
    line.variants?.forEach((name, index) => {
      problems.push(...ifUnknown('variant', name, ['proposal', 'lines', id, 'variants', index], variants));
    });
  }
  if (proposal.currency !== library.rates.currency) {
    problems.push({
      code: 'read/other-currency',
      severity: 'error',
      title: 'the shop rates are in another currency than the proposal',
      path: ['proposal', 'currency'],
      found: proposal.currency,
      allowed: `${library.rates.currency}, as in the shop rates ${proposal.rates}`,
      mend: `write currency: ${library.rates.currency}, or name other shop rates`,
    });
  }
  return problems;
}

/** Names in a variant's own words. Codes: `read/unknown-wish`, `read/unknown-name`; warning `read/no-answer`. */
export function variantNames(variant: VariantSpec, proposal: ProposalSpec): readonly Problem[] {
  const wishes = Object.keys(proposal.wishes);
  const problems: Problem[] = [];
  for (const id of Object.keys(variant.answers)) {
    if (wishes.includes(id)) continue;
    const near = nearestName(id, wishes);
    problems.push({
      code: 'read/unknown-wish',
      severity: 'error',
      title: `an answer is given to a wish ${id} that nobody has`,
      path: ['variant', 'answers', id],
      ...(wishes.length === 0 ? {} : { allowed: wishes.join(', ') }),
      mend: near === undefined ? 'add the wish to proposal.yaml, or take the answer out' : `write ${near}`,
    });
  }
  const options = Object.keys(variant.options);
  for (const [id, option] of Object.entries(variant.options)) {
    option.excludes.forEach((name, index) => {
      problems.push(...ifUnknown('option', name, ['variant', 'options', id, 'excludes', index], options));
    });
  }
  if (!variant.offered) return problems;
  for (const [id, { measure }] of Object.entries(proposal.wishes)) {
    const result = variant.answers[id]?.result;
    if (measure.kind !== 'judgement' || result !== undefined) continue;
    problems.push({
      code: 'read/no-answer',
      severity: 'warning',
      title: `the wish ${id} is a matter of judgement and this variant does not judge it`,
      path: ['variant', 'answers'],
      mend: `add answers: { ${id}: { result: enough, says: ... } }`,
      also: [{ path: ['proposal', 'wishes', id], note: 'the wish' }],
    });
  }
  return problems;
}

/** Woods, finishes, materials and hardware that a table names. Code: `read/unknown-name`. */
export function tableNames(table: TableSpec, library: Library): readonly Problem[] {
  const woods = Object.keys(library.woods);
  const materials = Object.keys(library.materials);
  const finishes = Object.keys(library.finishes);
  const hardware = Object.keys(library.rates.hardware);
  const problems: Problem[] = [
    ...ifUnknown('wood', table.wood, ['table', 'wood'], woods),
    ...ifUnknown('wood', table.top.wood, ['table', 'top', 'wood'], woods),
    ...ifUnknown('finish', table.finish, ['table', 'finish'], finishes),
    ...ifUnknown('finish', table.baseFinish, ['table', 'baseFinish'], finishes),
  ];
  for (const { path, wood } of woodsOfBase(table.base)) problems.push(...ifUnknown('wood', wood, ['table', 'base', ...path], woods));
  if (table.base.kind === 'pedestal') {
    problems.push(...ifUnknown('material', table.base.ballast?.material, ['table', 'base', 'ballast', 'material'], materials));
  }
  for (const [id, part] of Object.entries(table.parts)) {
    problems.push(...ifUnknown('wood', part.wood, ['table', 'parts', id, 'wood'], woods));
    problems.push(...ifUnknown('material', part.material, ['table', 'parts', id, 'material'], materials));
  }
  for (const [id, board] of Object.entries(table.stock))
    problems.push(...ifUnknown('wood', board.wood, ['table', 'stock', id, 'wood'], woods));
  for (const [id, bought] of Object.entries(table.hardware)) {
    if (bought.price !== undefined) continue;
    const unknown = ifUnknown('hardware with a price', bought.kind, ['table', 'hardware', id, 'kind'], hardware);
    problems.push(...unknown.map((problem) => ({ ...problem, mend: problem.mend ?? 'add price: for one of them' })));
  }
  return problems;
}

interface WoodAt {
  readonly path: SpecPath;
  readonly wood: string | undefined;
}

function woodsOfBase(base: BaseSpec): readonly WoodAt[] {
  switch (base.kind) {
    case 'legs':
      return [
        { path: ['legs', 'wood'], wood: base.legs.wood },
        { path: ['aprons', 'wood'], wood: base.aprons?.wood },
        { path: ['stretchers', 'wood'], wood: base.stretchers?.wood },
      ];
    case 'slab-ends':
      return [
        { path: ['slabs', 'wood'], wood: base.slabs.wood },
        { path: ['stretcher', 'wood'], wood: base.stretcher?.wood },
      ];
    case 'pedestal':
      return [
        { path: ['post', 'wood'], wood: base.post.wood },
        { path: ['foot', 'wood'], wood: base.foot.wood },
        { path: ['head', 'wood'], wood: base.head.wood },
      ];
    case 'parts':
      return [];
  }
}

/** Woods that timber of the shop rates names. Code: `read/unknown-name`. */
export function libraryNames(library: Library): readonly Problem[] {
  const woods = Object.keys(library.woods);
  return Object.entries(library.rates.timber).flatMap(([id, { wood }]) =>
    ifUnknown('wood', wood, ['library', 'rates', 'timber', id, 'wood'], woods),
  );
}
