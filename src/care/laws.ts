import type { Problem } from '../problem/index.ts';
import type { CareBook, CareRule, FinishSpec } from '../spec/index.ts';
import { contradictionProblem, pathOfRule } from './check-note.ts';
import { classesOf, meetsFinish } from './facts.ts';
import { promiseIn } from './promises.ts';
import { contradictions } from './things.ts';
import { CARE_NAMES, namesIn } from './words.ts';

/** What the rules are held against without a table: every finish of the library and the texts. */
export interface LawGrounds {
  readonly finishes: Readonly<Record<string, Pick<FinishSpec, 'classes'>>>;
  readonly texts: Readonly<Record<string, string>>;
  /** Rules that the maker wrote: where two contradict each other, the maker's is marked first. */
  readonly own?: ReadonlySet<string>;
}

/**
 * What is wrong with the rules whatever the table: pairs that can stand in one note and contradict each other (`care/contradiction`),
 * promises (`care/promise`), names that nothing ever fills (`care/unknown-name`), a step or stop outside the spills and a plain line
 * within them (`care/wrong-place`). Two rules can stand in one note where a finish of the library meets both and no fact that one
 * asks for is refused by the other; woods never part them, since a table may have several.
 */
export function careLaws(book: CareBook, { finishes, texts, own = new Set() }: LawGrounds): readonly Problem[] {
  const rules = Object.entries(book.rules);
  const classes = Object.values(finishes).map((finish) => finish.classes);
  const systems = classes.flatMap((top) => [top, ...classes.filter((base) => base !== top)].map((base) => ({ top, base })));
  const met = new Map(rules.map(([id, { when }]) => [id, systems.map(({ top, base }) => meets(book, when, top, base))]));
  const together = (a: string, b: string): boolean => {
    const second = met.get(b);
    return met.get(a)?.some((isMet, at) => isMet && second?.[at] === true) ?? false;
  };
  const pairs = rules.flatMap(([first, one], at) =>
    rules.slice(at).flatMap(([second, other]) => {
      const things = contradictions(one, other);
      if (things.length === 0 || !mayMeet(one, other) || !together(first, second)) return [];
      const [marked, also] = own.has(first) && !own.has(second) ? [first, second] : [second, first];
      return things.map((thing) => contradictionProblem(marked, also, thing));
    }),
  );
  return [...pairs, ...rules.flatMap(([id, rule]) => ruleLaws(id, rule, texts))];
}

function meets(book: CareBook, when: CareRule['when'], top: readonly string[], base: readonly string[]): boolean {
  return meetsFinish(book, when, { ...classesOf(top), anywhere: [...top, ...base] });
}

function mayMeet({ when: one }: CareRule, { when: other }: CareRule): boolean {
  const refuses = (a: CareRule['when'], b: CareRule['when']): boolean => (a?.with ?? []).some((fact) => b?.without?.includes(fact));
  return !refuses(one, other) && !refuses(other, one);
}

function ruleLaws(id: string, rule: CareRule, texts: Readonly<Record<string, string>>): readonly Problem[] {
  const words = texts[rule.says] ?? rule.says;
  const isSpill = rule.section.startsWith('spill-');
  const promise = promiseIn(words);
  const path = pathOfRule(id);
  const known: readonly string[] = CARE_NAMES;
  const problems: Problem[] = [];
  const say = (problem: Omit<Problem, 'severity'>): void => {
    problems.push({ severity: 'error', ...problem });
  };
  if (promise !== undefined)
    say({
      code: 'care/promise',
      title: 'a rule of care promises what a table can not keep',
      path: [...path, 'says'],
      found: promise,
      mend: 'say what is known instead',
    });
  for (const name of namesIn(words).filter((one) => !known.includes(one)))
    say({
      code: 'care/unknown-name',
      title: 'a rule of care has a name in braces that nothing fills',
      path: [...path, 'says'],
      found: `{${name}}`,
      allowed: known.map((one) => `{${one}}`).join(', '),
    });
  const allowed = isSpill ? ['step', 'stop'] : rule.section === 'first-days' ? ['line', 'spilt'] : ['line'];
  if (!allowed.includes(rule.as))
    say({
      code: 'care/wrong-place',
      title: isSpill
        ? 'a rule for a spill is neither a step nor when to stop'
        : rule.as === 'spilt'
          ? 'only a rule of the first days stands at the head of the spills'
          : 'only a rule for a spill is a step or when to stop',
      path: [...path, 'as'],
      found: rule.as,
      allowed: allowed.join(' or '),
    });
  return problems;
}
