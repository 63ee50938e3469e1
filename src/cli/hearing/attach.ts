import type { AnyEntry, EntryOf } from '../../record/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, dayOf, deciderOf, oneOf, recordEntry, shownDay } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { isStillKept, keptFile, readFileToKeep } from './record-file.ts';

const kinds = ['paper-signature', 'photograph', 'letter', 'other'] as const;

/** What is said of a file: the entry that it belongs to, what it is, whose. */
interface Laid {
  readonly to: number;
  readonly what: (typeof kinds)[number];
  readonly person?: string;
}

/** The entry that lays the same bytes beside the same entry and says as much of them, while they are there. */
function laidBefore({ folder }: Desk, entries: readonly AnyEntry[], sha256: string, said: Laid): EntryOf<'attached'> | undefined {
  return entries
    .filter((entry) => entry.kind === 'attached')
    .findLast(
      ({ to, what, person, file }) =>
        to === said.to &&
        file.sha256 === sha256 &&
        (said.what === 'other' || said.what === what) &&
        (said.person === undefined || said.person === person) &&
        isStillKept(folder, file),
    );
}

/** `attach`: lays a file beside an entry of the record, told by its digest. */
export async function runAttach(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  return atDesk(given, terminal, async (desk) => {
    const kept = readFileToKeep(words[1] ?? '');
    const to = Number(values['to']);
    if (!Number.isInteger(to) || to < 1)
      throw new UsageFault(
        values['to'] === undefined ? '--to is missing' : `--to ${values['to']} is no entry`,
        'write the number of the entry that it belongs to, as --to 14',
      );
    const what = oneOf(kinds, values['what'] ?? 'other', '--what');
    const person = values['who'] === undefined ? undefined : deciderOf(desk, values['who']);
    if (what === 'paper-signature' && person === undefined)
      throw new UsageFault('--who is missing: whose signature is it?', 'write --who and an id');
    const on = dayOf(desk, values['on']);
    return recordEntry(
      desk,
      ({ entries }) => {
        const last = entries.at(-1)?.n ?? 0;
        if (!entries.some(({ n }) => n === to))
          return {
            problems: [
              refusal('no-entry', `there is no entry ${to}`, {
                ...(last === 0 ? {} : { allowed: `1 to ${last}` }),
                mend: `the workshop page of ${desk.slug} lists them`,
              }),
            ],
          };
        const { named, file } = keptFile(entries, what, kept);
        const before = laidBefore(desk, entries, named.sha256, { to, what, ...(person === undefined ? {} : { person }) });
        if (before !== undefined)
          return {
            known: before,
            says: () => [
              `this file lies beside entry ${to} already, as entry ${before.n} of ${shownDay(desk, before.on)}, so nothing was written`,
              `  ${before.file.path}`,
            ],
          };
        return { body: { kind: 'attached', on, to, what, ...(person === undefined ? {} : { person }), file: named }, files: [file] };
      },
      (entry) =>
        entry.kind === 'attached'
          ? [`entry ${entry.n}: ${entry.file.path}, ${entry.file.bytes} bytes, belongs to entry ${to}`, `  SHA-256   ${entry.file.sha256}`]
          : [],
    );
  });
}
