import { lossReasons } from '../../record/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { wordsGiven } from '../hearing/note.ts';
import { atDesk, dayOf, oneOf, recordEntry, saltOf } from '../record-desk.ts';
import { alreadyClosed, refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

/** `lost`: the enquiry came to nothing, and why. A revision that is issued later takes it up again. */
export async function runLost(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  return atDesk(given, terminal, async (desk) => {
    const reason = oneOf(lossReasons, values['reason'], '--reason');
    if (words[1] === undefined && values['file'] === undefined)
      throw new UsageFault('the words are missing', `in a sentence, why: leafwright lost ${desk.slug} --reason ${reason} "what they said"`);
    const said = wordsGiven(words[1], values['file'], `leafwright lost ${desk.slug} --reason ${reason}`);
    const on = dayOf(desk, values['on']);
    return recordEntry(
      desk,
      ({ standing: { closed, order } }) => {
        if (closed !== undefined) return { problems: [alreadyClosed(desk.slug, closed)] };
        if (order !== undefined)
          return {
            problems: [
              refusal('order-stands', `${desk.slug} is an order, so it can not be lost`, {
                found: `ordered on ${order.on}`,
                mend: `an order is cancelled: leafwright cancel ${desk.slug} --help`,
              }),
            ],
          };
        return { body: { kind: 'lost', on, reason }, sealed: { data: { words: said }, random: saltOf() } };
      },
      (entry) => [`entry ${entry.n}: ${desk.slug} is lost since ${on}; reason: ${reason}`],
    );
  });
}
