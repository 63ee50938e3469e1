import type { Problem, SpecPath } from '../problem/index.ts';
import type { CareSectionId, CareThing } from '../spec/index.ts';
import { groundsOf } from './facts.ts';
import type { CareInput } from './input.ts';
import { type CareLine, type CareNote, linesOf } from './note.ts';
import { promiseIn } from './promises.ts';
import { isNeeded, MOST_LINES, MOST_STEPS, NOTE_SECTIONS, SPILLS } from './sections.ts';
import { contradictions } from './things.ts';
import { namesIn } from './words.ts';

/** Where a rule stands in the effective library. */
export function pathOfRule(id: string): SpecPath {
  return ['library', 'care', 'rules', id];
}

/** A contradiction of two rules over a thing, with both places. */
export function contradictionProblem(first: string, second: string, thing: CareThing): Problem {
  return {
    code: 'care/contradiction',
    severity: 'error',
    title:
      first === second
        ? 'a rule of care tells to use a thing and never to use it'
        : 'two rules of care that can stand in one note tell to use a thing and never to use it',
    path: pathOfRule(first),
    found: first === second ? thing : `${thing}, in ${first} and in ${second}`,
    ...(first === second ? {} : { also: [{ path: pathOfRule(second), note: 'says the opposite' }] }),
    mend: first === second ? 'take it out of use or of never' : `silence the other with ${second}: null, or say in when where each holds`,
  };
}

/**
 * What is wrong with a composed note. Codes: `care/contradiction`, `care/promise`, `care/unknown-name` (a name that nothing
 * fills), `care/no-line` (a part that this table needs has none), `care/too-many-lines`.
 */
export function checkNote(note: CareNote, input: CareInput): readonly Problem[] {
  return [...contradictionsIn(note, input), ...linesOf(note).flatMap(lineProblems), ...missing(note, input), ...tooMany(note)];
}

function contradictionsIn(note: CareNote, { book }: CareInput): readonly Problem[] {
  const telling = linesOf(note).filter(({ use, never }) => use.length + never.length > 0);
  const lines = [...new Map(telling.map((line) => [line.rule, line])).values()];
  const told = (line: CareLine) => ({ ...line, section: sectionOf(line) });
  const sectionOf = ({ rule }: CareLine): CareSectionId => book.rules[rule]?.section ?? 'never';
  return lines.flatMap((first, at) =>
    lines
      .slice(at)
      .flatMap((second) => contradictions(told(first), told(second)).map((thing) => contradictionProblem(second.rule, first.rule, thing))),
  );
}

function lineProblems({ rule, text }: CareLine): readonly Problem[] {
  const promise = promiseIn(text);
  const unknown = namesIn(text);
  return [
    ...(promise === undefined
      ? []
      : [
          {
            code: 'care/promise',
            severity: 'error' as const,
            title: 'a line of care promises what a table can not keep',
            path: pathOfRule(rule),
            found: promise,
            mend: 'say what is known instead',
          },
        ]),
    ...unknown.map((name) => ({
      code: 'care/unknown-name',
      severity: 'error' as const,
      title: 'a line of care has a name in braces that nothing fills for this table',
      path: pathOfRule(rule),
      found: `{${name}}`,
      mend: 'write another name, or say in when which tables have it',
    })),
  ];
}

function missing(note: CareNote, input: CareInput): readonly Problem[] {
  const grounds = groundsOf(input);
  const there = new Set<string>(note.sections.map(({ id }) => id));
  const spills = note.sections.find(({ id }) => id === 'spills')?.spills ?? [];
  const lacking = [
    ...NOTE_SECTIONS.filter((id) => id !== 'spills' && !there.has(id) && isNeeded(id, grounds)),
    ...SPILLS.filter((id) => {
      const spill = spills.find((one) => one.id === id);
      return spill === undefined || spill.steps.length === 0 || spill.stop.length === 0;
    }),
  ];
  return lacking.map((id) => ({
    code: 'care/no-line',
    severity: 'error',
    title: id.startsWith('spill-')
      ? 'the care note lacks a step, or when to stop and call, for a kind of spill'
      : 'the care note of this table lacks a part that it needs',
    path: ['library', 'care', 'rules'],
    found: id,
    mend: `add a rule with section: ${id}, or take back the null that silenced one`,
  }));
}

function tooMany(note: CareNote): readonly Problem[] {
  return note.sections.flatMap(({ id, lines, spills }) => {
    if (id !== 'spills') return lines.length > MOST_LINES[id] ? [tooManyProblem(id, lines, MOST_LINES[id], 'lines')] : [];
    return (spills ?? []).flatMap((spill) => [
      ...(spill.steps.length > MOST_STEPS ? [tooManyProblem(spill.id, spill.steps, MOST_STEPS, 'steps')] : []),
      ...(spill.stop.length > 1 ? [tooManyProblem(spill.id, spill.stop, 1, 'line to stop')] : []),
    ]);
  });
}

function tooManyProblem(id: string, lines: readonly CareLine[], most: number, what: string): Problem {
  const last = lines.at(-1)?.rule ?? '';
  return {
    code: 'care/too-many-lines',
    severity: 'error',
    title: 'a part of the care note has more lines than will be read',
    path: pathOfRule(last),
    found: `${lines.length} in ${id}: ${[...new Set(lines.map(({ rule }) => rule))].join(', ')}`,
    allowed: `at most ${most} ${what}`,
    mend: 'silence one of them with null, or replace one by its own id',
  };
}
