import type { ProposalInput } from '../spec/index.ts';
import type { ClientView, ConsentView } from './client-view.ts';
import { keepFigures } from './keep-figures.ts';
import type { Shown } from './shown.ts';
import type { Words } from './words.ts';

type Row = ConsentView['rows'][number];

const row = (says: string, value: string): Row => ({ says, value });

function roomValue({ room }: ProposalInput['proposal'], shown: Shown, words: Words): string {
  const sizes = shown.sizes([room.length.mm, room.width.mm]);
  const values = {
    sizes,
    ...(room.surveyedOn === undefined ? {} : { date: shown.date(room.surveyedOn) }),
    ...(room.tolerance === undefined ? {} : { tolerance: shown.length(room.tolerance.mm) }),
  };
  if (room.surveyedOn !== undefined) return words.say(`consent.ground-room-${room.tolerance === undefined ? 'surveyed' : 'both'}`, values);
  return room.tolerance === undefined ? sizes : words.say('consent.ground-room-tolerance', values);
}

/** The survey: room, what stands out into it, the way in, chairs. The maker's own notes on the room stay in the workshop. */
function survey(proposal: ProposalInput['proposal'], shown: Shown, words: Words): readonly Row[] {
  const { room, chairs } = proposal;
  const rows = [row(words.say('consent.ground-room'), roomValue(proposal, shown, words))];
  for (const { says, depth } of Object.values(room.obstacles))
    rows.push(row(keepFigures(says), words.say('consent.ground-obstacle', { depth: shown.length(depth.mm) })));
  for (const step of room.access) {
    const width = shown.length(step.width.mm);
    const high = 'height' in step ? step.height : undefined;
    const value =
      high === undefined
        ? words.say('consent.ground-width', { width })
        : words.say('consent.ground-opening', { width, height: shown.length(high.mm) });
    rows.push(row(keepFigures(step.says), value));
  }
  if (chairs !== undefined) {
    const { count, seat, arm, width } = chairs;
    const values = { count, seat: shown.length(seat.mm), width: shown.length(width.mm) };
    const value =
      arm === undefined
        ? words.say('consent.ground-chairs-value', values)
        : words.say('consent.ground-chairs-arms', { ...values, arm: shown.length(arm.mm) });
    rows.push(row(words.say('consent.ground-chairs'), value));
  }
  return rows;
}

/** Each wish in the client's own words, with its target where it has one. */
function wished(wishes: ClientView['wishes'], words: Words): readonly Row[] {
  return wishes.map(({ says, answers }) =>
    row(says, Object.values(answers).find(({ target }) => target !== undefined)?.target ?? words.say('consent.ground-as-said')),
  );
}

/**
 * What generally is to be shown of electronic consent and distance selling, in the words of the texts.
 *
 * @source E-SIGN Act, 15 USC 7001(c): paper option, withdrawal and its effect, coverage, contact, copies, what is needed to read;
 * Directive 2011/83/EU, Art. 9 and 16(c); Regulation (EU) 910/2014, Art. 25; 16 CFR 429
 */
export function consentView(
  { proposal, library }: ProposalInput,
  wishes: ClientView['wishes'],
  seesPrice: boolean,
  shown: Shown,
  words: Words,
): ConsentView {
  const { maker, terms } = library;
  const reach = { address: maker.address === '' ? maker.email : maker.address, email: maker.email };
  const labelled = (name: string): Row => row(words.say(`consent.${name}-label`), words.say(`consent.${name}`, reach));
  const version = words.say('consent.version');
  const law = terms.consent ?? 'none-stated';
  const electronic = law === 'none-stated' ? [] : [row(words.say('consent.law-label'), words.say(`consent.${law}-electronic`))];
  // Who sees no price orders nothing: the right is told to the one who pays.
  const told = seesPrice ? { eu: ['eu-withdrawal'], us: ['us-home'], 'none-stated': [] }[law] : [];
  return {
    version,
    sentence: words.say(seesPrice ? 'consent.sentence' : 'consent.sentence-no-price'),
    ground: {
      says: words.say('consent.ground'),
      rows: [...survey(proposal, shown, words), ...wished(wishes, words)],
      presets: words.say('consent.presets'),
    },
    rows: ['paper', 'withdraw', 'covers', 'needs', 'identity'].map(labelled),
    law: [...electronic, ...told.map(labelled)],
    note: words.say('consent.version-note', { version }),
  };
}
