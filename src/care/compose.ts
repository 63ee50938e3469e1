import type { CareRule } from '../spec/index.ts';
import { careDates } from './dates.ts';
import { groundsOf, holds, woodsFor } from './facts.ts';
import type { CareInput } from './input.ts';
import type { CareLine, CareNote, CareNoteSectionId, CareSection, CareSpill, CareSpillId } from './note.ts';
import { NOTE_SECTIONS, SPILLS } from './sections.ts';
import { type CareValues, careValues, fillLines, sayText, woodValues } from './words.ts';

type NamedRule = readonly [id: string, rule: CareRule];

/**
 * The care note of one table: every rule that holds for its finish, woods, construction, place and dates, in the order of the
 * sections and, within one, of the rules. Parts without a line are left out; `checkNote` says whether one is missed. Throws where
 * the texts lack a title.
 */
export function composeCare(input: CareInput): CareNote {
  const grounds = groundsOf(input);
  const dates = careDates(input);
  const values = careValues(input, dates);
  const standing = Object.entries(input.book.rules).filter(([, { when }]) => holds(input.book, when, grounds));
  const of = (section: CareRule['section'], as: CareRule['as']): readonly CareLine[] =>
    standing.filter(([, rule]) => rule.section === section && rule.as === as).flatMap((rule) => linesOfRule(rule, input, values));
  const title = (id: CareNoteSectionId | CareSpillId): string => sayText(input, `care.title.${id}`);
  const spills = SPILLS.map((id): CareSpill => ({ id, title: title(id), steps: of(id, 'step'), stop: of(id, 'stop') })).filter(
    ({ steps, stop }) => steps.length + stop.length > 0,
  );
  const sections = NOTE_SECTIONS.flatMap((id): readonly CareSection[] => {
    // What holds of every spill while the finish hardens stands before the steps that it overrules.
    if (id === 'spills') return spills.length === 0 ? [] : [{ id, title: title(id), lines: of('first-days', 'spilt'), spills }];
    const lines = of(id, 'line');
    return lines.length === 0 ? [] : [{ id, title: title(id), lines }];
  });
  return { finish: input.finish.spec.name, dates, sections };
}

function linesOfRule([id, rule]: NamedRule, input: CareInput, values: CareValues): readonly CareLine[] {
  const words = input.texts[rule.says] ?? rule.says;
  const woods = /\{[Ww]oods\}/.test(words) ? woodValues(woodsFor(input.book, rule.when, input.woods), input.language) : {};
  const { use, never, source } = rule;
  return fillLines(words, { ...values, ...woods }).map((text): CareLine => ({ rule: id, text, use, never, source }));
}
