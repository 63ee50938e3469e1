import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { formatProblems } from '../../problem/index.ts';
import { type Erasure, type ErasurePlan, eraseRecords, planErasure } from '../../record/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { atDesk, type Desk, deciderOf, lookNow, nameOf, sayRefused } from '../record-desk.ts';
import { aligned, type Terminal } from '../terminal.ts';
import { type Drafts, deleteDrafts, draftsOf, filesBelow } from './drafts.ts';

/** Places that the maker clears by hand. */
interface Remaining {
  readonly where: string;
  readonly why: string;
}

/** What somebody is called in prose: the whole name, and the first name where it is no bare initial. */
function calledOf(name: string): readonly string[] {
  const [first = ''] = name.split(/\s+/);
  return [...new Set([name, ...(first.length >= 3 ? [first] : [])])];
}

/** A name as a word of its own, whatever its case. */
function holdsName(text: string, names: readonly string[]): boolean {
  return names.some((name) => {
    const pattern = name.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
    return new RegExp(`(?<![\\p{L}\\p{N}])${pattern}(?![\\p{L}\\p{N}])`, 'iu').test(text);
  });
}

/** Working files that hold the name, with their lines, and what was made and is made anew. */
function remaining(
  { folder, shown, workspace }: Desk,
  names: readonly string[],
  mentions: readonly number[],
  drafts: Drafts,
): readonly Remaining[] {
  const own = filesBelow(folder)
    .filter((path) => /\.ya?ml$/.test(path) && !/^(?:issued|records|outbox)\//.test(path))
    .flatMap((path): readonly Remaining[] => {
      const lines = readFileSync(join(folder, ...path.split('/')), 'utf8').split('\n');
      const found = lines.flatMap((line, i) => (holdsName(line, names) ? [i + 1] : []));
      if (found.length === 0) return [];
      return [
        { where: `${shown}/${path}`, why: `names the person in line ${found.slice(0, 6).join(', ')}${found.length > 6 ? ' ...' : ''}` },
      ];
    });
  const others = mentions.map((n): Remaining => ({ where: `entry ${n}`, why: "somebody else's words, in which the name stands" }));
  const outbox = drafts.rest.map(({ path, why }): Remaining => ({ where: `${shown}/${path}`, why }));
  const made = ['dist', '.cache'].filter((name) => existsSync(join(workspace, name)));
  return [
    ...own,
    ...others,
    ...outbox,
    ...made.map((name): Remaining => ({ where: `${name}/`, why: 'made from it; leafwright build makes it anew' })),
    { where: 'elsewhere', why: 'copies, git history, mail, what was uploaded: yours to clear' },
  ];
}

/** Files of one folder are told together. */
function gathered(files: readonly string[]): readonly (readonly string[])[] {
  const count = (pattern: RegExp): number => files.filter((file) => pattern.test(file)).length;
  const rows: readonly (readonly [number, string])[] = [
    [count(/^records\/(?!files\/)/), 'sealed words of the person'],
    [count(/^records\/files\//), 'files beside the record'],
    [count(/^outbox\//), 'drafts in outbox/ that are to the person alone'],
    ...[...new Set(files.flatMap((file) => /^issued\/(r\d+)\//.exec(file)?.[1] ?? []))].map((revision): readonly [number, string] => [
      files.filter((file) => file.startsWith(`issued/${revision}/`)).length,
      `files and folders of ${revision}: what you wrote and what the client got; its page goes with them`,
    ]),
    [
      count(/^handed-over\//),
      `${count(/^handed-over\//) === 1 ? 'folder' : 'folders'} of the client's papers of the table; its care, label and care link name nobody and stay`,
    ],
  ];
  return rows.filter(([number]) => number > 0).map(([number, says]) => [String(number), says]);
}

function say(desk: Desk, erasure: Erasure, { files, mentions }: ErasurePlan, drafts: Drafts, isDone: boolean): void {
  const { terminal, slug } = desk;
  const rest = remaining(desk, erasure.names, mentions, drafts);
  if (desk.json) {
    const { person } = erasure;
    terminal.say(
      JSON.stringify(
        { schema: 'leafwright/erased/1', proposal: slug, person, erased: isDone, files, drafts: drafts.own, mentions, remains: rest },
        undefined,
        2,
      ),
    );
    return;
  }
  terminal.say(isDone ? `erased from the records of ${slug}:` : `would be erased from the records of ${slug}, for good:`);
  for (const row of aligned(gathered([...files, ...drafts.own]))) terminal.say(row);
  terminal.say('\nremains, and still proves: the chain, its digests, offers and figures, with ids and no names');
  terminal.say('\nremains, and is not touched:');
  for (const row of aligned(rest.map(({ where, why }) => [where, why]))) terminal.say(row);
  terminal.say(
    isDone
      ? '\nNext: leafwright verify, then leafwright build and upload dist/client anew'
      : `\nNothing was erased. Next: the same with --yes`,
  );
}

/** `erase`: says what of a person's data would go and what remains; with `--yes` it goes. */
export async function runErase(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { values, switches } = given;
  return atDesk(given, terminal, async (desk) => {
    const person = deciderOf(desk, values['person'], '--person');
    const erasure = { person, names: calledOf(nameOf(desk, person)), on: desk.today };
    const { folder, shown, at, zone } = desk;
    const plan = planErasure(folder, lookNow(desk).entries, erasure);
    const drafts = await draftsOf(desk, person, (text) => holdsName(text, erasure.names));
    if (!switches.has('yes') && plan.files.length + drafts.own.length > 0) {
      say(desk, erasure, plan, drafts, false);
      return 0;
    }
    /** Drafts that a killed run left behind are deleted without another entry: nothing of the record goes with them. */
    if (plan.files.length === 0 && drafts.own.length > 0) {
      deleteDrafts(folder, drafts.own);
      say(desk, erasure, plan, drafts, true);
      return 0;
    }
    const done = await eraseRecords({ folder, shown, at, zone }, erasure);
    if (done.entry === undefined) return sayRefused(desk, done.problems);
    deleteDrafts(folder, drafts.own);
    if (done.problems.length > 0 && !desk.json) terminal.warn(formatProblems(done.problems, { colour: terminal.colour.err }));
    say(desk, erasure, done, drafts, true);
    return 0;
  });
}
