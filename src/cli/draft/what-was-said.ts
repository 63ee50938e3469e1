import { type AnyEntry, type EntryOf, openSeal, type Way } from '../../record/index.ts';
import { withoutHiddenSigns } from '../../units/index.ts';

/** Begins each line that `revise` wrote: until the maker has rewritten all of them the revision is not issued, since what one reader said stands there and another may not see it. */
export const changesTodo = 'TODO:';

/** Whether any such line still stands there. */
export const isTodo = (words: string | undefined): boolean => words?.split('\n').some((line) => /^\s*(?:- )?TODO:/.test(line)) ?? false;

const ways: Readonly<Record<Way, string>> = {
  visit: 'on a visit',
  telephone: 'by telephone',
  message: 'by message',
  letter: 'by letter',
  other: '',
};

function sealedText(folder: string, entry: AnyEntry, fields: readonly string[]): Readonly<Record<string, string>> {
  const opened = entry.sealed === undefined ? 'gone' : openSeal(folder, entry.sealed);
  if (typeof opened === 'string') return {};
  return Object.fromEntries(
    fields.flatMap((field) => {
      const value = opened.data[field];
      return typeof value === 'string' ? [[field, withoutHiddenSigns(value)]] : [];
    }),
  );
}

/** Most characters of what was said that stand in a draft: a line or two. */
const mostSaid = 160;

/** Words in quotation marks on one line; of long ones the beginning, and where the rest is. */
function quoted(words: string | undefined, { n }: AnyEntry): string {
  const said = words?.trim().replaceAll(/\s+/g, ' ') ?? '';
  if (said === '') return '';
  if (said.length <= mostSaid) return `: “${said}”`;
  const cut = said.slice(0, mostSaid);
  const whole = cut.replace(/\s+\S*$/, '');
  return `: “${(whole === cut ? cut.toWellFormed().replace(/\ufffd$/, '') : whole).replace(/[\s,;:]+$/, '')} …” (the rest: entry ${n})`;
}

function verdict({ verdict: said, chosen, design, base }: EntryOf<'answer'>): string {
  if (said === 'mix') return `the top of ${design ?? '?'} with the base of ${base ?? '?'}`;
  if (said === 'no') return design === undefined ? 'no' : `no to ${design}`;
  const options = chosen === undefined || chosen.options.length === 0 ? '' : ` with ${chosen.options.join(', ')}`;
  return `yes to ${chosen?.design ?? '?'}${options}`;
}

function lineOf(folder: string, entry: AnyEntry, nameOf: (person: string) => string): string | undefined {
  const parts = (all: readonly (string | undefined)[]): string => all.filter((part) => part !== undefined && part !== '').join(', ');
  if (entry.kind === 'answer') {
    const { name = '', remark, own } = sealedText(folder, entry, ['name', 'remark', 'own']);
    const beside = quoted(own, entry).replace(/^: /, ', and beside it ');
    return `${parts([name === '' ? nameOf(entry.person) : name, entry.on, verdict(entry)])}${quoted(remark, entry)}${beside}`;
  }
  if (entry.kind !== 'note' && entry.kind !== 'evidence') return undefined;
  const { who, words } = sealedText(folder, entry, ['who', 'words']);
  const by = who ?? (entry.person === undefined ? undefined : nameOf(entry.person));
  const [wish, design] = entry.kind === 'note' ? [entry.wish, entry.design] : [];
  const about = parts([wish === undefined ? undefined : `wish ${wish}`, design === undefined ? undefined : `design ${design}`]);
  return `${parts([by, entry.on, ways[entry.how], about === '' ? undefined : `of ${about}`])}${quoted(words, entry)}`;
}

/** What was said since the newest revision was issued: answers with their remarks, notes, plain words; one line each. Erased words are left out. */
export function whatWasSaid(folder: string, entries: readonly AnyEntry[], nameOf: (person: string) => string): readonly string[] {
  const newest = entries.findLast(({ kind }) => kind === 'issued')?.n ?? 0;
  return entries.flatMap((entry) => (entry.n < newest ? [] : (lineOf(folder, entry, nameOf) ?? [])));
}

/** Markdown for `revision.changes`, to be rewritten by the maker; as YAML source text. */
export function changesDraft(revision: string, said: readonly string[]): string {
  const lines = [
    `${changesTodo} say in your own words what is different from ${revision}, and why. What was said of ${revision}:`,
    '',
    ...(said.length === 0 ? ['nothing is on record'] : said).map((line) => `- ${changesTodo} ${line}`),
  ];
  return ['|', ...lines.map((line) => (line === '' ? '' : `  ${line}`))].join('\n');
}
