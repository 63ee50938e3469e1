import { readFileSync, statSync } from 'node:fs';
import { nearestName } from '../../problem/index.ts';
import { type EntryOf, openSeal, type Standing, type Way, ways } from '../../record/index.ts';
import { turningSigns, withoutHiddenSigns } from '../../units/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { atDesk, type Desk, dayOf, lookNow, type Now, nameOf, oneOf, type Prepared, recordEntry, saltOf } from '../record-desk.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { refuseFileName } from '../words-or-file.ts';
import { turnedWords } from './reply-problem.ts';

const fates = ['wish', 'draft', 'answered', 'dropped'] as const;
type Fate = (typeof fates)[number];
const fateSays: Readonly<Record<Fate, string>> = {
  wish: 'became wish',
  draft: 'went into the draft',
  answered: 'was answered',
  dropped: 'was dropped',
};

/** Most characters of one note. */
const mostCharacters = 20_000;

/**
 * What the maker typed, or a text file, or what is piped in, without signs that can not be seen. Throws a UsageFault for none, both,
 * one too long, and the name of a file.
 *
 * @param leftOut is told the names of the signs that would have turned the direction of reading
 */
export function wordsGiven(
  typed: string | undefined,
  file: string | undefined,
  command: string,
  leftOut: (signs: readonly string[]) => void = () => {},
): string {
  if (typed !== undefined && file !== undefined) throw new UsageFault('words and --file were both given', 'give one of them');
  refuseFileName(typed, command);
  if (file !== undefined && file !== '-' && /\.(?:pdf|png|jpe?g|heic)$/i.test(file))
    throw new UsageFault(`${file} is no text`, `attach it to a note: leafwright attach --help`);
  const given = (typed ?? (file === undefined ? '' : readText(file)))
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll(commandSigns, '')
    .toWellFormed();
  const text = withoutHiddenSigns(given).normalize('NFC').trim();
  const signs = turningSigns(given);
  if (signs.length > 0) leftOut(signs);
  if (text === '') throw new UsageFault('the words are missing', 'write them in quotes, or name a text file: --file mail.txt');
  if (text.length > mostCharacters) throw tooLong();
  return text;
}

/** Signs that a terminal would obey; a tab and the end of a line are none of them. */
const commandSigns = /[\p{Cc}--[\t\n]]/gv;

const tooLong = (): UsageFault => new UsageFault(`the words are longer than ${mostCharacters} characters`, 'attach them as a file instead');

/** The text of a file, or of what is piped in. Throws a UsageFault for what is no file, too large, or no text. */
function readText(file: string): string {
  const shown = file === '-' ? 'what was piped in' : file;
  const noText = new UsageFault(`${shown} is no text`, 'save it as text in UTF-8, or attach it to a note: leafwright attach --help');
  if (file !== '-') {
    const found = statSync(file, { throwIfNoEntry: false });
    if (found?.isFile() !== true) throw new UsageFault(`there is no file ${file}`, 'name a text file: --file mail.txt');
  }
  const bytes = readFileSync(file === '-' ? 0 : file);
  if (bytes.includes(0)) throw noText;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw noText;
  }
}

/** Whose words they are: somebody who decides, by id or name; else the name as written; the maker where nobody is said. */
function speaker(desk: Desk, said: string | undefined): { readonly person?: string; readonly who: string } {
  const { people } = desk.input.proposal.deciders;
  if (said === undefined) return { who: desk.input.library.maker.name };
  const known = Object.keys(people).find((id) => id === said || people[id]?.name === said);
  if (known !== undefined) return { person: known, who: nameOf(desk, known) };
  const near = /^[a-z0-9-]+$/.test(said) ? nearestName(said, Object.keys(people)) : undefined;
  if (near !== undefined)
    throw new UsageFault(`nobody here is called ${said}; did you mean ${near}?`, 'for somebody else write the name with a capital');
  return { who: said.normalize('NFC') };
}

function knownWish(desk: Desk, wish: string | undefined): void {
  const wishes = Object.keys(desk.input.proposal.wishes);
  if (wish === undefined || wishes.includes(wish)) return;
  const near = nearestName(wish, wishes);
  throw new UsageFault(`there is no wish ${wish}${near === undefined ? '' : `; did you mean ${near}?`}`, `there are ${wishes.join(', ')}`);
}

function designOf(desk: Desk, said: string | undefined): string | undefined {
  if (said === undefined) return undefined;
  const known = new Set([
    ...desk.input.variants.map(({ variant }) => variant.id),
    ...desk.offers.flatMap(({ designs }) => designs.map(({ id }) => id)),
  ]);
  const design = said.toUpperCase();
  if (known.has(design)) return design;
  throw new UsageFault(`there is no design ${said}`, `there are ${[...known].sort().join(', ')}`);
}

async function addNote(desk: Desk, { words, values }: Given): Promise<ExitCode> {
  let signs: readonly string[] = [];
  const said = wordsGiven(words[1], values['file'], `leafwright note ${desk.slug}`, (found) => {
    signs = found;
  });
  const { person, who } = speaker(desk, values['who']);
  const { wish } = values;
  knownWish(desk, wish);
  const design = designOf(desk, values['design']);
  const how: Way = values['how'] === undefined ? (values['file'] === undefined ? 'other' : 'message') : oneOf(ways, values['how'], '--how');
  const on = dayOf(desk, values['on']);
  const body = {
    kind: 'note' as const,
    on,
    how,
    ...(person === undefined ? {} : { person }),
    ...(wish === undefined ? {} : { wish }),
    ...(design === undefined ? {} : { design }),
  };
  const data = { ...(person === undefined ? {} : { person }), who, words: said };
  return recordEntry(
    desk,
    () => ({ body, sealed: { data, random: saltOf() }, warnings: turnedWords(desk.slug, signs) }),
    (entry) => [`note ${entry.n} of ${who}, ${on}, is kept; it is open until you settle it`],
  );
}

async function settleNote(desk: Desk, { words, values }: Given): Promise<ExitCode> {
  const number = Number(values['settle']);
  if (!Number.isInteger(number) || number < 1)
    throw new UsageFault(`--settle ${values['settle']} is no note`, 'write its number, as --settle 12');
  const as = oneOf(fates, values['as'], '--as');
  const said = wordsGiven(words[1], values['file'], `leafwright note ${desk.slug}`);
  const { wish } = values;
  if (as === 'wish' && wish === undefined) throw new UsageFault('--as wish needs --wish', 'name the wish that it became: --wish w9');
  if (as !== 'wish' && wish !== undefined) throw new UsageFault(`--wish goes with --as wish, not with --as ${as}`);
  knownWish(desk, wish);
  const prepare = ({ entries, standing }: Now): Prepared => {
    if (!entries.some(({ n, kind }) => n === number && kind === 'note')) {
      const notes = entries.filter(({ kind }) => kind === 'note').map(({ n }) => n);
      return {
        problems: [
          refusal('no-note', `entry ${number} is no note`, {
            ...(notes.length === 0 ? {} : { allowed: `one of ${notes.join(', ')}` }),
            mend: `leafwright note ${desk.slug} lists them`,
          }),
        ],
      };
    }
    if (!standing.openNotes.some(({ n }) => n === number))
      return { problems: [refusal('note-settled', `note ${number} is settled already`, { mend: 'add a new note for what is new' })] };
    const body = { kind: 'note-settled' as const, note: number, as, ...(wish === undefined ? {} : { wish }) };
    return { body, sealed: { data: { words: said }, random: saltOf() } };
  };
  return recordEntry(desk, prepare, (_entry, _before, after) => [
    `note ${number} ${fateSays[as]}${wish === undefined ? '' : ` ${wish}`}; ${openCount(after)}`,
  ]);
}

const openCount = ({ openNotes }: Standing): string =>
  openNotes.length === 0 ? 'no note is open' : openNotes.length === 1 ? '1 note is open' : `${openNotes.length} notes are open`;

const textIn = (value: unknown): string => (typeof value === 'string' ? withoutHiddenSigns(value) : '');

/** What was sealed with an entry: by whom, and all that was said, beside it, and why it was recorded; or what became of them. */
export function sealedWords(
  folder: string,
  { sealed }: { readonly sealed?: EntryOf<'note'>['sealed'] },
): { readonly who?: string; readonly words: string } {
  const opened = sealed === undefined ? undefined : openSeal(folder, sealed);
  if (opened === undefined) return { words: '' };
  if (opened === 'gone') return { words: '(erased)' };
  if (opened === 'changed') return { words: '(changed since: leafwright verify says where)' };
  const { data } = opened;
  /** A code that came alone is sealed with an empty name. */
  const who = textIn(data['who'] ?? data['name']);
  const said = [textIn(data['words']), textIn(data['remark'])].filter((one) => one !== '');
  const own = textIn(data['own']);
  const reason = textIn(data['reason']);
  const beside = own === '' ? [] : [`beside the letter: ${own}`];
  const why = reason === '' ? [] : [said.length + beside.length === 0 ? reason : `recorded because: ${reason}`];
  return { ...(who === '' ? {} : { who }), words: [...said, ...beside, ...why].join('\n') };
}

/** A note as it is listed and printed as data. */
interface ListedNote {
  readonly n: number;
  readonly on: string;
  readonly how: Way;
  readonly who: string;
  readonly words: string;
  readonly wish?: string;
  readonly design?: string;
  readonly open: boolean;
  readonly became?: { readonly as: Fate; readonly wish?: string; readonly words: string };
}

function listNotes(desk: Desk): ExitCode {
  const { entries } = lookNow(desk);
  const settled = new Map(entries.flatMap((entry) => (entry.kind === 'note-settled' ? [[entry.note, entry] as const] : [])));
  const notes = entries.flatMap((entry): readonly ListedNote[] => {
    if (entry.kind !== 'note') return [];
    const { who = entry.person ?? '', words } = sealedWords(desk.folder, entry);
    const end = settled.get(entry.n);
    const { n, on, how, wish, design } = entry;
    return [
      {
        n,
        on,
        how,
        who,
        words,
        ...(wish === undefined ? {} : { wish }),
        ...(design === undefined ? {} : { design }),
        open: end === undefined,
        ...(end === undefined
          ? {}
          : {
              became: { as: end.as, ...(end.wish === undefined ? {} : { wish: end.wish }), words: sealedWords(desk.folder, end).words },
            }),
      },
    ];
  });
  const sorted = [...notes.filter(({ open }) => open), ...notes.filter(({ open }) => !open)];
  const { terminal } = desk;
  if (desk.json) {
    terminal.say(JSON.stringify({ schema: 'leafwright/notes/1', proposal: desk.slug, notes: sorted }, undefined, 2));
    return 0;
  }
  if (sorted.length === 0) terminal.say(`there is no note yet; for example: leafwright note ${desk.slug} "No, not that" --how telephone`);
  for (const { n, on, how, who, words, wish, design, open, became } of sorted) {
    const about = [wish === undefined ? '' : `wish ${wish}`, design === undefined ? '' : `design ${design}`].filter((one) => one !== '');
    terminal.say(
      `  ${String(n).padStart(3)}   ${[on, who, how === 'other' ? '' : how, ...about].filter((one) => one !== '').join(', ')}${open ? '; open' : ''}`,
    );
    for (const line of words.split('\n')) terminal.say(`        ${line}`.trimEnd());
    if (became !== undefined)
      terminal.say(
        `        ${fateSays[became.as]}${became.wish === undefined ? '' : ` ${became.wish}`}: ${became.words.replaceAll('\n', ' ')}`,
      );
  }
  const first = sorted[0];
  if (first?.open === true) terminal.say(`\nNext: leafwright note ${desk.slug} --settle ${first.n} --as answered "what you answered"`);
  return 0;
}

/** `note`: keeps what was said, settles it, or lists what there is. */
export async function runNote(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  return atDesk(given, terminal, async (desk) => {
    if (values['settle'] !== undefined) return settleNote(desk, given);
    if (values['as'] !== undefined) throw new UsageFault('--as goes with --settle', 'say which note: --settle 12');
    return words[1] === undefined && values['file'] === undefined ? listNotes(desk) : addNote(desk, given);
  });
}
