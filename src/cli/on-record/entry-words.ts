import { type AnyEntry, askedBy, type Chosen, type EntryOf } from '../../record/index.ts';

/** How money is shown. */
export type Money = (currency: string, minor: number) => string;

const plain = (word: string): string => word.replaceAll('-', ' ');
const choice = ({ design, options }: Pick<Chosen, 'design' | 'options'>): string =>
  `design ${design}${options.length === 0 ? '' : ` with ${options.join(', ')}`}`;
const about = (wish: string | undefined, design: string | undefined): string =>
  [wish === undefined ? '' : ` on wish ${wish}`, design === undefined ? '' : ` on design ${design}`].join('');

function answer({ verdict, chosen, design, base, revision, by }: EntryOf<'answer'>, money: Money): string {
  const how = by === 'paper' ? ', on paper' : '';
  if (verdict === 'mix') return `wants the top of ${design ?? '?'} on the base of ${base ?? '?'}, of ${revision}${how}`;
  if (verdict === 'no') return `no to ${design === undefined ? revision : `design ${design} of ${revision}`}${how}`;
  if (chosen === undefined) return `yes to ${revision}${how}`;
  const total = chosen.totalMinor === undefined || chosen.currency === undefined ? '' : `, ${money(chosen.currency, chosen.totalMinor)}`;
  return `yes to ${choice(chosen)} of ${revision}${total}${how}`;
}

function said(entry: AnyEntry, money: Money): string {
  switch (entry.kind) {
    case 'note':
      return `note${entry.how === 'other' ? '' : `, ${entry.how}`}${about(entry.wish, entry.design)}`;
    case 'note-settled': {
      const became = { wish: 'became wish', draft: 'went into the draft', answered: 'was answered', dropped: 'was dropped' } as const;
      return `note ${entry.note} ${became[entry.as]}${entry.wish === undefined ? '' : ` ${entry.wish}`}`;
    }
    case 'issued':
      return `${entry.revision} issued`;
    case 'evidence':
      return `words about ${entry.revision}, ${entry.how}; no approval`;
    case 'asked':
      return `asked whether ${choice(entry.chosen)} of ${entry.chosen.revision} was meant`;
    case 'answer':
      return answer(entry, money);
    case 'sample':
      return `${entry.of} ${entry.sample} ${entry.verdict === 'yes' ? 'approved' : 'refused'}; kept: ${plain(entry.keeps)}`;
    case 'confirmed': {
      const { chosen, holdUntil, replaces } = entry;
      const change = replaces === undefined ? '' : ', a change to the order';
      return `confirmed ${choice(chosen)} of ${chosen.revision}, ${money(chosen.currency, chosen.totalMinor)}${change}; held until ${holdUntil}`;
    }
    case 'requested':
      return `${askedBy(entry)
        .map(({ instalment, amountMinor }) => `instalment ${instalment} requested, ${money(entry.currency, amountMinor)}`)
        .join('; ')}, number ${entry.number}, due ${entry.due}`;
    case 'paid':
      return entry.amountMinor < 0
        ? `${money(entry.currency, -entry.amountMinor)} of instalment ${entry.instalment} went back`
        : `${money(entry.currency, entry.amountMinor)} paid for instalment ${entry.instalment}`;
    case 'stage':
      return plain(entry.stage);
    case 'cancelled':
      return `cancelled at ${plain(entry.stage)}; due ${money(entry.currency, entry.dueMinor)}`;
    case 'lost':
      return `lost; reason: ${entry.reason}`;
    case 'attached':
      return `${plain(entry.what)} laid beside entry ${entry.to}`;
    case 'scope':
      return `scope of ${entry.revision}, design ${entry.design}, with its approval${entry.certificate === undefined ? '' : ', signed'}`;
    case 'hand-over': {
      const { failed, acceptance, piece } = entry;
      if (failed !== undefined) return `delivery of piece ${piece} failed: ${plain(failed.reason)}`;
      const defects = acceptance?.defects.length ?? 0;
      const listed = defects === 0 ? '' : `, ${defects} ${defects === 1 ? 'defect' : 'defects'} listed`;
      return `piece ${piece} handed over, finished on ${entry.finishedOn}; ${plain(acceptance?.signed ?? 'left-unsigned')}${listed}`;
    }
    case 'service':
      return `${entry.what}${entry.finish === undefined ? '' : `, now ${entry.finish}`}${entry.of === undefined ? '' : `, of the hand-over in entry ${entry.of}`}`;
    case 'claim': {
      const { event, of, about, outcome } = entry;
      if (event === 'opened') return `claim opened: ${about ?? 'other'}`;
      return event === 'looked-at' ? `claim in entry ${of} looked at` : `claim in entry ${of} settled: ${plain(outcome ?? 'withdrawn')}`;
    }
    case 'care':
      return `papers of the table, edition ${entry.edition}, after entry ${entry.of}`;
    case 'measured':
      return `${entry.what} ${plain(entry.when)}: ${entry.percent.map((percent) => `${percent} %`).join(', ')}`;
    case 'worked':
      return `${entry.hours} h on ${entry.operation}`;
    case 'used':
      return `${entry.what === 'used' ? 'used' : 'back to the rack'}: ${entry.boards} of ${entry.lengthMm} × ${entry.widthMm} × ${entry.thicknessMm} mm, ${entry.wood}`;
    case 'lesson':
      return 'a lesson for the next table';
    case 'erased':
      return `data of ${entry.person} erased, ${entry.files.length} files and folders`;
  }
}

/** What an entry says, for the maker, in one line without names. */
export function entryWords(entry: AnyEntry, money: Money): string {
  const against =
    'insisted' in entry && Array.isArray(entry.insisted) && entry.insisted.length > 0
      ? `; insisted against ${entry.insisted.join(', ')}`
      : '';
  return said(entry, money) + against;
}
