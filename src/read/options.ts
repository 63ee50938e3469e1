import type { Problem } from '../problem/index.ts';
import type { Choice, OptionSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import { overlapOf } from './merge.ts';
import { childAt, type Tree } from './tree.ts';

/** Most combinations of options of one variant: all are computed and shown in one table. */
const MOST_COMBINATIONS = 64;
/** Most half-made combinations that are kept while counting. */
const MOST_OPEN = 4096;

/** One allowed choice of options. */
export interface Combination {
  readonly choice: Choice;
  readonly isDefault: boolean;
}

/** All of them, or why there are none. */
export interface Combinations {
  readonly combinations: readonly Combination[];
  readonly problems: readonly Problem[];
}

type Options = Readonly<Record<string, OptionSpec>>;

/**
 * Every allowed choice of a variant's options, the default one first: one of each group, the others on or off, none that exclude
 * each other. `tree` is the variant's file, for its patches. Codes: `read/option-group`, `read/options-overlap`,
 * `read/options-conflict`, `read/too-many-combinations`, `read/unknown-name`.
 */
export function combine(options: Options, tree: Tree, variant: string): Combinations {
  const problem = (code: string, title: string, path: readonly string[], rest: Partial<Problem> = {}): Problem => ({
    code: `read/${code}`,
    severity: 'error',
    title,
    path: ['variant', 'options', ...path],
    variant,
    ...rest,
  });
  const problems = [...groupProblems(options, problem), ...overlapProblems(options, tree, problem)];
  if (problems.length > 0) return { combinations: [], problems };
  const standard = idsOf(options).filter((id) => options[id]?.default === true);
  const clash = standard.find((id) => standard.some((other) => excludes(options, id, other)));
  if (clash !== undefined) {
    const title = `${clash} is on by default together with an option that it excludes`;
    return { combinations: [], problems: [problem('options-conflict', title, [clash], { mend: 'write default: false for one of them' })] };
  }
  const choices = allowedChoices(options);
  if (choices === undefined || choices.length > MOST_COMBINATIONS) {
    const found = choices === undefined ? `more than ${MOST_OPEN}` : String(choices.length);
    const title = 'the options have too many combinations';
    const mend = 'put options into groups, let some exclude others, or offer fewer';
    return {
      combinations: [],
      problems: [problem('too-many-combinations', title, [], { found, allowed: `at most ${MOST_COMBINATIONS}`, mend })],
    };
  }
  const isDefault = (choice: Choice) => choice.join() === standard.join();
  const made = choices.map((choice) => ({ choice, isDefault: isDefault(choice) }));
  return { combinations: [...made.filter((one) => one.isDefault), ...made.filter((one) => !one.isDefault)], problems: [] };
}

type Make = (code: string, title: string, path: readonly string[], rest?: Partial<Problem>) => Problem;

function idsOf(options: Options): readonly string[] {
  return Object.keys(options).toSorted(byCodeUnit);
}

function excludes(options: Options, a: string, b: string): boolean {
  if (a === b) return false;
  const [one, other] = [options[a], options[b]];
  const sameGroup = one?.group !== undefined && one.group === other?.group;
  return sameGroup || one?.excludes.includes(b) === true || other?.excludes.includes(a) === true;
}

function groupProblems(options: Options, problem: Make): readonly Problem[] {
  const groups = new Map<string, string[]>();
  for (const id of idsOf(options)) {
    const group = options[id]?.group;
    if (group !== undefined) groups.set(group, [...(groups.get(group) ?? []), id]);
  }
  return [...groups].flatMap(([group, members]) => {
    const first = members[0] ?? '';
    const defaults = members.filter((id) => options[id]?.default === true);
    if (members.length < 2)
      return [
        problem('option-group', `the group ${group} has one option alone`, [first, 'group'], {
          mend: 'add the other one, or take group: out',
        }),
      ];
    if (defaults.length === 1) return [];
    const title = defaults.length === 0 ? `no option of the group ${group} is the default` : `the group ${group} has more than one default`;
    return [
      problem('option-group', title, [defaults[1] ?? first], { found: members.join(', '), mend: 'write default: true for one of them' }),
    ];
  });
}

function overlapProblems(options: Options, tree: Tree, problem: Make): readonly Problem[] {
  const ids = idsOf(options);
  const patchOf = (id: string) => childAt(childAt(childAt(tree, 'options'), id), 'patch');
  return ids.flatMap((a, index) =>
    ids.slice(index + 1).flatMap((b) => {
      const [one, other] = [patchOf(a), patchOf(b)];
      if (one === undefined || other === undefined || excludes(options, a, b)) return [];
      const overlap = overlapOf(one, other);
      if (overlap === undefined) return [];
      const title = `${a} and ${b} can be on together and both change ${overlap.path.join('.') || 'the table'}`;
      return [
        problem('options-overlap', title, [b, 'patch', ...overlap.path], {
          mend: `write excludes: [${a}] under ${b}, or put both into one group`,
          also: [{ path: ['variant', 'options', a, 'patch', ...overlap.path], note: `changed by ${a}` }],
        }),
      ];
    }),
  );
}

/** All choices, each sorted; `undefined` where there are too many to count. */
function allowedChoices(options: Options): readonly Choice[] | undefined {
  let choices: readonly Choice[] = [[]];
  const done = new Set<string>();
  for (const id of idsOf(options)) {
    const group = options[id]?.group;
    if (group !== undefined && done.has(group)) continue;
    if (group !== undefined) done.add(group);
    const members = group === undefined ? [id] : idsOf(options).filter((other) => options[other]?.group === group);
    const on = choices.flatMap((choice) =>
      members.filter((member) => !choice.some((other) => excludes(options, member, other))).map((member) => [...choice, member]),
    );
    choices = group === undefined ? [...choices, ...on] : on;
    if (choices.length > MOST_OPEN) return undefined;
  }
  return choices.map((choice) => choice.toSorted(byCodeUnit));
}
