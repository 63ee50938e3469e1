import { type AnyEntry, type EntryOf, sha256Hex } from '../../record/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, dayOf, deciderOf, nameOf, oneOf, recordEntry, saltOf } from '../record-desk.ts';
import { remark } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { sealedWords } from './note.ts';
import { type FileToKeep, keptFile, readFileToKeep } from './record-file.ts';

const keeps = ['client', 'maker', 'half-each', 'nobody'] as const;
const keepsSays: Readonly<Record<(typeof keeps)[number], string>> = {
  client: 'the client keeps it',
  maker: 'the maker keeps it',
  'half-each': 'each keeps one half',
  nobody: 'nobody keeps it',
};

type Said = Pick<EntryOf<'sample'>, 'person' | 'sample' | 'of' | 'verdict' | 'keeps'> & {
  /** As far as the maker said them. */
  readonly on: string | undefined;
  readonly words: string;
  readonly picture: FileToKeep | undefined;
};

/** What the same person said of the same sample last, where it is the same again and nothing new comes with it. */
function knownSample(folder: string, entries: readonly AnyEntry[], said: Said): EntryOf<'sample'> | undefined {
  const last = entries.findLast(
    (entry): entry is EntryOf<'sample'> =>
      entry.kind === 'sample' && entry.person === said.person && entry.of === said.of && entry.sample === said.sample,
  );
  if (last === undefined || last.verdict !== said.verdict || last.keeps !== said.keeps) return undefined;
  const isNew =
    (said.on !== undefined && said.on !== last.on) ||
    (said.words !== '' && said.words !== sealedWords(folder, last).words) ||
    (said.picture !== undefined && sha256Hex(said.picture.bytes) !== last.picture?.sha256);
  return isNew ? undefined : last;
}

/** `sample`: somebody who decides has approved or refused a sample or boards. */
export async function runSample(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const sample = (words[1] ?? '').normalize('NFC').trim();
    if (sample === '' || sample.length > 40)
      throw new UsageFault('a sample has a mark of 1 to 40 characters', 'write it as it stands on the sample: S-041');
    if (switches.has('yes') === switches.has('no')) throw new UsageFault('say --yes or --no', 'one of them: was it approved or refused?');
    const person = deciderOf(desk, values['who']);
    const verdict = switches.has('yes') ? 'yes' : 'no';
    const of = oneOf(['sample', 'boards'] as const, values['of'] ?? 'sample', '--of');
    const kept = oneOf(keeps, values['keeps'] ?? (of === 'boards' ? 'maker' : 'half-each'), '--keeps');
    const picture = values['picture'] === undefined ? undefined : readFileToKeep(values['picture']);
    if (picture !== undefined && !/^\.(?:jpe?g|png|webp|heic|tiff?)$/.test(picture.ending))
      throw new UsageFault(`${values['picture']} is no picture`, 'a photograph ends in .jpg, .png, .webp, .heic or .tif');
    const said = values['words'] ?? '';
    const on = dayOf(desk, values['on']);
    const offered = desk.input.proposal.sample?.id;
    return recordEntry(
      desk,
      ({ entries }) => {
        const known = knownSample(desk.folder, entries, {
          person,
          sample,
          of,
          verdict,
          keeps: kept,
          on: values['on'],
          words: said,
          picture,
        });
        if (known !== undefined) return { known };
        const file = picture === undefined ? undefined : keptFile(entries, of, picture);
        const other =
          of === 'sample' && offered !== undefined && offered !== sample
            ? [
                remark('other-sample', `the proposal names sample ${offered}, not ${sample}`, {
                  mend: 'write the mark of the right one into sample.id of proposal.yaml',
                }),
              ]
            : [];
        return {
          body: { kind: 'sample', on, person, sample, of, verdict, keeps: kept, ...(file === undefined ? {} : { picture: file.named }) },
          sealed: { data: { person, words: said }, random: saltOf() },
          ...(file === undefined ? {} : { files: [file.file] }),
          warnings: other,
        };
      },
      (entry) => [
        `entry ${entry.n}: ${of === 'boards' ? `boards ${sample}` : `sample ${sample}`} ${verdict === 'yes' ? 'approved' : 'refused'} by ${nameOf(desk, person)} on ${on}; ${keepsSays[kept]}`,
        ...(entry.kind === 'sample' && entry.picture !== undefined ? [`  picture   ${entry.picture.path}`] : []),
      ],
    );
  });
}
