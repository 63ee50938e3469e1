import type { Problem } from '../../problem/index.ts';
import { type Body, type ClaimStanding, claimOutcomes, claimSubjects, type EntryOf, type Json, type Standing } from '../../record/index.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { type Desk, dayOf, deciderOf, oneOf, type Prepared, recordEntry, saltOf } from '../record-desk.ts';
import { refusal, remark } from '../refusal.ts';
import { refuseFileName } from '../words-or-file.ts';
import { topAcrossPath } from './as-built.ts';
import { broughtPhotograph, keptPhotograph } from './brought-photograph.ts';
import { measuredNow } from './claim-measured.ts';
import { warrantyOf } from './claim-source.ts';
import type { OrderedTable } from './ordered-table.ts';

type Claim = Body<'claim'>;
/** What is said of a claim: that there is one, what was found, or what becomes of it. */
type Said =
  | { readonly event: 'opened'; readonly about: NonNullable<Claim['about']>; readonly person?: string; readonly who?: string }
  | { readonly event: 'looked-at'; readonly of: number }
  | { readonly event: 'settled'; readonly of: number; readonly outcome: NonNullable<Claim['outcome']> };

/** The number of the entry that opened a claim. Throws a UsageFault. */
export function claimNumber(said: string, option: string): number {
  const n = Number(said);
  if (Number.isSafeInteger(n) && n > 0) return n;
  throw new UsageFault(`${option} ${said} is no entry`, `write the number of the entry that opened the claim, as ${option} 31`);
}

function saidOf(desk: Desk, { values }: Given): Said {
  const { look, settle } = values;
  if (look !== undefined && settle !== undefined) throw new UsageFault('--look and --settle are two entries', 'write one after the other');
  const stray = (['about', 'who', 'name'] as const).find((name) => values[name] !== undefined);
  if ((look !== undefined || settle !== undefined) && stray !== undefined)
    throw new UsageFault(`--${stray} goes with a claim that is opened`, 'whose it is, and what about, was said then');
  if (values['as'] !== undefined && settle === undefined) throw new UsageFault('--as goes with --settle', 'say which claim: --settle 31');
  if (look !== undefined) return { event: 'looked-at', of: claimNumber(look, '--look') };
  if (settle !== undefined)
    return { event: 'settled', of: claimNumber(settle, '--settle'), outcome: oneOf(claimOutcomes, values['as'], '--as') };
  const who = values['name']?.normalize('NFC').trim();
  if (who !== undefined && values['who'] !== undefined) throw new UsageFault('--who and --name are two people', 'name one of them');
  return {
    event: 'opened',
    about: oneOf(claimSubjects, values['about'], '--about'),
    ...(values['who'] === undefined ? {} : { person: deciderOf(desk, values['who']) }),
    ...(who === undefined || who === '' ? {} : { who }),
  };
}

/** What a claim is gone on with from, or why it can not be. Codes: `cli/claim-before claim-none claim-settled`. */
function groundOf(
  { slug }: Desk,
  { claims }: Standing,
  delivered: EntryOf<'hand-over'>,
  said: Said,
  on: string,
): readonly Problem[] | ClaimStanding | undefined {
  const early = (from: string, what: string): readonly Problem[] => [
    refusal('claim-before', `${on} comes before ${what}`, { allowed: `${from} or later`, mend: `write --on and the day of it` }),
  ];
  if (said.event === 'opened') return on < delivered.on ? early(delivered.on, `the hand-over on ${delivered.on}`) : undefined;
  const claim = claims.find(({ opened }) => opened.n === said.of);
  if (claim === undefined)
    return [
      refusal('claim-none', `entry ${said.of} of ${slug} opens no claim`, {
        allowed: claims.length === 0 ? 'no claim is on record' : claims.map(({ opened }) => opened.n).join(', '),
        mend: claims.length === 0 ? `open one: leafwright claim ${slug} "..." --about crack` : `see them: leafwright claim ${slug}`,
      }),
    ];
  const { opened, settled } = claim;
  if (settled !== undefined)
    return [
      refusal('claim-settled', `the claim in entry ${opened.n} is settled`, {
        found: `${(settled.outcome ?? '').replaceAll('-', ' ')} on ${settled.on}, entry ${settled.n}`,
        mend: 'what comes up anew is a claim of its own',
      }),
    ];
  return on < opened.on ? early(opened.on, `the claim was opened, on ${opened.on}`) : claim;
}

/** What is worth knowing before a claim is settled. */
function unseenRemarks(claim: ClaimStanding | undefined, said: Said): readonly Problem[] {
  if (said.event !== 'settled' || said.outcome === 'withdrawn' || claim === undefined || claim.lookedAt.length > 0) return [];
  return [
    remark('claim-unseen', 'the claim is settled, and nothing is on record of anybody having looked at the table', {
      mend: `what was seen can not be added later: next time first --look ${claim.opened.n}`,
    }),
  ];
}

function told(
  desk: Desk,
  entry: EntryOf<'claim'>,
  said: Said,
  { piece, on }: EntryOf<'hand-over'>,
  ordered: OrderedTable,
): readonly string[] {
  const { slug } = desk;
  if (said.event === 'opened') {
    const until = warrantyOf(ordered.care.spec.library.terms, on)?.until;
    return [
      `entry ${entry.n}: a claim of piece ${piece} is opened, on ${entry.on}: ${said.about}`,
      ...(until === undefined
        ? []
        : [`  agreed until  ${until}${entry.on > until ? ', which is over; rights by law may last longer' : ''}`]),
      `  its sheet     leafwright claim ${slug} --sheet ${entry.n}`,
    ];
  }
  if (said.event === 'looked-at')
    return [
      `entry ${entry.n}: the claim in entry ${said.of} was looked at, on ${entry.on}`,
      `  its sheet     leafwright claim ${slug} --sheet ${said.of}`,
    ];
  const isMended = said.outcome === 'covered' || said.outcome === 'goodwill';
  return [
    `entry ${entry.n}: the claim in entry ${said.of} is settled, on ${entry.on}: ${said.outcome.replaceAll('-', ' ')}`,
    `  a copy        leafwright claim ${slug} --copy ${said.of}`,
    ...(isMended ? [`  once it is put right: leafwright service ${slug} repair "..."`] : []),
  ];
}

/** Opens a claim, keeps what was found when it was looked at, or settles it with its reason. */
export async function recordClaim(desk: Desk, given: Given, ordered: OrderedTable, delivered: EntryOf<'hand-over'>): Promise<ExitCode> {
  const { words, values } = given;
  refuseFileName(words[1], `leafwright claim ${words[0]}`);
  const said = saidOf(desk, given);
  const text = words[1]?.normalize('NFC').trim() ?? '';
  if (text === '')
    throw new UsageFault(
      said.event === 'settled'
        ? 'there is no reason: why is it settled like this?'
        : 'there are no words: what is wrong, or what was found?',
      `for example: leafwright claim ${words[0]} "the top has opened at its left end" --about crack`,
    );
  const on = dayOf(desk, values['on']);
  const measured = measuredNow(desk, values, topAcrossPath(ordered.care.table), ordered);
  const photograph = broughtPhotograph(values['photograph']);
  return recordEntry(
    desk,
    ({ entries, standing }): Prepared => {
      const ground = groundOf(desk, standing, delivered, said, on);
      if (Array.isArray(ground)) return { problems: ground as readonly Problem[] };
      const { named, files } = keptPhotograph(entries, 'claim', photograph);
      const { event } = said;
      const body: Claim = {
        ...{ kind: 'claim', on, event, of: event === 'opened' ? delivered.n : said.of },
        ...(event === 'opened' ? { about: said.about } : {}),
        ...(event === 'opened' && said.person !== undefined ? { person: said.person } : {}),
        ...(event === 'settled' ? { outcome: said.outcome } : {}),
        ...measured,
        ...named,
      };
      const data: Record<string, Json> = {
        ...(event === 'opened' && said.person !== undefined ? { person: said.person } : {}),
        ...(event === 'opened' && said.who !== undefined ? { who: said.who } : {}),
        words: text,
      };
      const remarks = unseenRemarks(ground as ClaimStanding | undefined, said);
      return { body, ...files, sealed: { data, random: saltOf() }, warnings: [...remarks, ...(photograph?.problems ?? [])] };
    },
    (entry) => (entry.kind === 'claim' ? told(desk, entry, said, delivered, ordered) : []),
  );
}
