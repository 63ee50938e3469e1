import { claimSheet } from '../../client/index.ts';
import type { EntryOf } from '../../record/index.ts';
import { writeClaim } from '../../write/client/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { intoOutbox } from '../order/request.ts';
import { type Desk, lookNow, sayRefused } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import { claimNumber } from './claim-record.ts';
import { claimSource } from './claim-source.ts';
import { pageOf } from './delivery-note.ts';
import type { OrderedTable } from './ordered-table.ts';

const schema = 'leafwright/claim-sheet/1';

/** Prints a claim from what was recorded at the hand-over on: for the maker and the visit, or the copy that may leave; records nothing. */
export async function makeClaimPaper(
  desk: Desk,
  { values }: Given,
  ordered: OrderedTable,
  handOver: EntryOf<'hand-over'>,
): Promise<ExitCode> {
  const { sheet: forMaker, copy } = values;
  if (forMaker !== undefined && copy !== undefined) throw new UsageFault('--sheet and --copy are two papers', 'make one after the other');
  const isCopy = copy !== undefined;
  const n = claimNumber(copy ?? forMaker ?? '', isCopy ? '--copy' : '--sheet');
  const { entries, standing } = lookNow(desk);
  const claim = standing.claims.find(({ opened }) => opened.n === n);
  if (claim === undefined || standing.order === undefined)
    return sayRefused(desk, [
      refusal('claim-none', `entry ${n} of ${desk.slug} opens no claim`, {
        allowed: standing.claims.map(({ opened }) => opened.n).join(', ') || 'no claim is on record',
        mend: `see them: leafwright claim ${desk.slug}`,
      }),
    ]);
  const { library, proposal } = desk.input;
  const finishes = { ...ordered.care.spec.library.finishes, ...library.finishes };
  const source = claimSource({ folder: desk.folder, entries, standing, handOver, ordered, finishes }, claim);
  const { view: told, suffix } = pageOf(desk, standing.order.confirmed, values['page']);
  // What was frozen with an older revision has no words for this paper.
  const view = { ...told, texts: { ...library.texts, ...told.texts } };
  const sheet = claimSheet(source, { page: view, people: view.letter?.people ?? [], show: proposal.show, isCopy });
  const file = intoOutbox(desk, `claim-${n}${isCopy ? '-copy' : ''}${suffix}.pdf`, await writeClaim(view, sheet, openDocumentFonts()));
  if (desk.json) {
    desk.terminal.say(JSON.stringify({ schema, proposal: desk.slug, claim: n, isCopy, file, sheet, problems: [] }, undefined, 2));
    return 0;
  }
  desk.terminal.say(`The ${isCopy ? 'copy for the client' : 'sheet'} of the claim in entry ${n} is ${desk.terminal.accent(file)}`);
  desk.terminal.say(
    isCopy
      ? '  It holds what was recorded, measured, agreed and decided; none of your own remarks, and no cost.'
      : '  It holds your own remarks: for your hands alone. For the client there is --copy.',
  );
  return 0;
}
