import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, dayOf, deciderOf, oneOf, recordEntry } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { keptFile, readFileToKeep } from './record-file.ts';

const kinds = ['paper-signature', 'photograph', 'letter', 'other'] as const;

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
        return { body: { kind: 'attached', on, to, what, ...(person === undefined ? {} : { person }), file: named }, files: [file] };
      },
      (entry) =>
        entry.kind === 'attached'
          ? [`entry ${entry.n}: ${entry.file.path}, ${entry.file.bytes} bytes, belongs to entry ${to}`, `  SHA-256   ${entry.file.sha256}`]
          : [],
    );
  });
}
