import {
  type AnyEntry,
  dayIn,
  type EntryOf,
  issuedOffers,
  issuedRevisions,
  readEntries,
  type Standing,
  standingOf,
} from '../../record/index.ts';
import type { LineStanding, WorkshopRecord } from '../../site/workshop/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { formatMoney } from '../../units/index.ts';
import { sealedWords } from '../hearing/note.ts';
import { stageSays } from '../order/stage.ts';
import { paidElsewhere } from '../order/statement.ts';
import { deliveryShown } from './delivery-shown.ts';
import { entryWords, type Money } from './entry-words.ts';
import { type Overview, overviewOf } from './overview.ts';

/** A record as the maker's pages show it. */
export interface RecordShown {
  readonly line: LineStanding;
  readonly record: WorkshopRecord;
}

const lineOf = ({
  stage,
  closed,
  validUntil,
  heldUntil,
  hasRunOut,
  waitingFor,
  currency,
  openMinor,
  openNotes,
  next,
  disagree,
}: Overview): LineStanding => ({
  stage: stageSays(stage),
  ...(closed === undefined
    ? {}
    : {
        closed: {
          says: `${closed.kind} on ${closed.on}${closed.reason === undefined ? '' : `; reason: ${closed.reason}`}`,
          ...(closed.words === undefined ? {} : { words: closed.words }),
        },
      }),
  ...(heldUntil === undefined && validUntil === undefined
    ? {}
    : { until: `${heldUntil === undefined ? 'valid' : 'held'} until ${heldUntil ?? validUntil}${hasRunOut ? ', over' : ''}` }),
  hasRunOut,
  disagree,
  waitingFor: waitingFor.map(({ name, since }) => ({ name, since })),
  ...(currency === undefined || openMinor === 0 ? {} : { open: { currency, minor: openMinor } }),
  openNotes: openNotes.length,
  next,
});

/** Whose an entry is: as sealed with it, else the name of its person. */
function byWhom(folder: string, entry: AnyEntry, nameOf: (id: string) => string): { readonly by?: string; readonly words?: string } {
  const { who, words } = sealedWords(folder, entry);
  const by = who ?? ('person' in entry && entry.kind !== 'erased' && typeof entry.person === 'string' ? nameOf(entry.person) : undefined);
  return { ...(by === undefined ? {} : { by }), ...(words === '' ? {} : { words }) };
}

function noteOf(folder: string, note: EntryOf<'note'>, nameOf: (id: string) => string): WorkshopRecord['openNotes'][number] {
  const { by = '', words = '' } = byWhom(folder, note, nameOf);
  return { n: note.n, on: note.on, who: by, words };
}

function accountOf(standing: Standing): WorkshopRecord['account'] {
  const { instalments, currency, paidMinor, returnedMinor, openMinor, closed } = standing;
  if (currency === undefined) return undefined;
  return {
    currency,
    instalments: instalments.map(({ instalment, when, amountMinor, paidMinor: paid, openMinor: open, requested, paidOn }) => ({
      instalment,
      when,
      amountMinor,
      paidMinor: paid,
      openMinor: open,
      ...(requested === undefined ? {} : { requested: `${requested.number}, due ${requested.due}` }),
      ...(paidOn === undefined ? {} : { paidOn }),
    })),
    elsewhereMinor: paidElsewhere(standing),
    paidMinor,
    returnedMinor,
    openMinor,
    ...(closed === undefined ? {} : { closed: { kind: closed.kind, on: closed.on, dueMinor: paidMinor + openMinor } }),
  };
}

/** The record of a proposal for its workshop page and its line in the list of all. `instant` is now, RFC 3339 in UTC. */
export function recordShown(folder: string, { slug, proposal, library }: ProposalInput, instant: string): RecordShown {
  const entries = readEntries(folder);
  const offers = issuedOffers(folder);
  const today = dayIn(instant, library.maker.timeZone);
  const standing = standingOf(entries, offers, today);
  const names = Object.fromEntries(Object.entries(proposal.deciders.people).map(([id, { name }]) => [id, name]));
  const nameOf = (id: string): string => names[id] ?? id;
  const money: Money = (currency, minor) => formatMoney({ currency, minor }, proposal.language);
  const words = (entry: AnyEntry): string => sealedWords(folder, entry).words;
  const line = lineOf(overviewOf({ proposal: slug, title: proposal.title, names, entries, standing, today, words }));
  const account = accountOf(standing);
  const { language, show } = proposal;
  const issued = standing.delivered === undefined ? [] : issuedRevisions(folder, today);
  const delivery = deliveryShown({ folder, standing, issued, finishes: library.finishes, shown: { language, show }, today, nameOf });
  return {
    line,
    record: {
      standing: line,
      entries: entries.map((entry) => ({
        n: entry.n,
        on: 'on' in entry && typeof entry.on === 'string' ? entry.on : dayIn(entry.at, entry.zone),
        what: entryWords(entry, money),
        ...byWhom(folder, entry, nameOf),
      })),
      openNotes: standing.openNotes.map((note) => noteOf(folder, note, nameOf)),
      samples: standing.samples.map(({ sample, of, verdict, keeps, person, on, picture }) => ({
        sample,
        of,
        verdict,
        keeps: keeps.replaceAll('-', ' '),
        by: nameOf(person),
        on,
        ...(picture === undefined ? {} : { picture: picture.path }),
      })),
      ...(delivery === undefined ? {} : { delivery }),
      ...(account === undefined ? {} : { account }),
    },
  };
}
