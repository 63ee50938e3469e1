import type { ProposalSpec } from '../spec/index.ts';
import { keepFigures } from './keep-figures.ts';
import type { Words } from './words.ts';

/** When a table is ready, in the maker's words; of a change to an order with the weeks that it adds, as an estimate. */
export function readyText(own: string, { revision: { change } }: ProposalSpec, words: Words): string {
  if (change === undefined || change.weeks === 0) return keepFigures(own);
  return keepFigures(words.count('change.adds-weeks', change.weeks, { own, of: change.of }));
}

/** The stage up to which something can be chosen: a stage of the record in the language of the proposal, else the maker's own words. */
export function lastStageText(lastStage: string, words: Words): string {
  const key = `stage.${lastStage}`;
  return words.has(key) ? words.say('choice.before', { stage: words.say(key) }) : lastStage;
}
