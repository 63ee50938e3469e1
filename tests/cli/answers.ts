import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { parseCommandLine } from '../../src/cli/arguments.ts';
import { commands } from '../../src/cli/commands.ts';
import { runRecord } from '../../src/cli/hearing/record.ts';
import {
  type AnyEntry,
  type IssuedOffer,
  issuedOffers,
  issueRevision,
  type Offer,
  openSeal,
  readEntries,
  verifyProposal,
} from '../../src/record/index.ts';
import { type Letter, makeReply, optionBits } from '../../src/reply/index.ts';
import { request } from '../record/workshop.ts';

const command = commands.find(({ name }) => name === 'record');
const sources = new URL('../demos/revisions/tollefsen-quill/r1', import.meta.url).pathname;

/** Invented: the first demo's hand figures, 5,290 net and 20 % make 6,348.00. */
export const terms = { payer: '7'.repeat(64), 'no-price': '8'.repeat(64) };
export function offer(revision: string, over: Partial<Offer> = {}): Offer {
  return {
    format: 'leafwright/offer/1',
    proposal: 'tarrow',
    revision,
    language: 'en-GB',
    currency: 'EUR',
    date: '2027-02-11',
    validUntil: '2027-03-20',
    level: 'full',
    rule: 'all',
    people: [
      { id: 'idris', audience: 'payer' },
      { id: 'maren', audience: 'payer' },
    ],
    terms,
    designs: [
      {
        id: 'A',
        name: 'Reed',
        options: ['ceramic', 'pale', 'white'],
        combinations: [
          { options: [], netMinor: 505000, totalMinor: 606000, instalmentsMinor: [242400, 242400, 121200] },
          { options: ['ceramic'], netMinor: 529000, totalMinor: 634800, instalmentsMinor: [253920, 253920, 126960] },
          { options: ['pale'], netMinor: 515000, totalMinor: 618000, instalmentsMinor: [247200, 247200, 123600] },
        ],
      },
      {
        id: 'B',
        name: 'Trestle',
        options: [],
        combinations: [{ options: [], netMinor: 537500, totalMinor: 645000, instalmentsMinor: [258000, 258000, 129000] }],
      },
    ],
    instalments: [
      { percent: 40, when: 'with your yes' },
      { percent: 40, when: 'when the top is glued up' },
      { percent: 20, when: 'when it stands in your room' },
    ],
    ...over,
  };
}

/** What a command printed, and how it ended. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** A workspace with one proposal whose revisions are issued without drawing them. */
export function openBench() {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-answers-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', 'tarrow');
  cpSync(sources, folder, { recursive: true, filter: (path) => !/variants\/[b-z]\.yaml$/.test(path) });
  return {
    workspace,
    folder,
    issue: async (revision: string, over: Partial<Offer> = {}): Promise<IssuedOffer> => {
      const bytes = Buffer.from(JSON.stringify(offer(revision, over)), 'utf8');
      const { problems } = await issueRevision(request(folder, revision, { data: [{ path: 'offer.json', bytes }] }));
      const issued = issuedOffers(folder).find((one) => one.revision === revision);
      if (issued === undefined) throw new Error(`not issued: ${JSON.stringify(problems)}`);
      return issued;
    },
    record: async (...args: readonly string[]): Promise<Ran> => {
      if (command === undefined) throw new Error('there is no command record');
      const day = args.includes('--as-of') ? [] : ['--as-of', '2027-03-01'];
      const [out, err]: [string[], string[]] = [[], []];
      const code = await runRecord(parseCommandLine(command, ['tarrow', ...args, ...day, '--workspace', workspace]), {
        say: (line) => out.push(line),
        warn: (line) => err.push(line),
        colour: { out: false, err: false },
        accent: (text) => text,
        progress: () => {},
        settle: () => {},
      });
      return { code, out: out.join('\n'), err: err.join('\n') };
    },
    entries: (): readonly AnyEntry[] => readEntries(folder),
    sealed: (entry: AnyEntry | undefined) => (entry?.sealed === undefined ? undefined : openSeal(folder, entry.sealed)),
    outbox: (): readonly string[] => readdirSync(join(folder, 'outbox')).sort(),
    read: (...path: readonly string[]): string => readFileSync(join(folder, ...path), 'utf8'),
    problems: () => verifyProposal(folder, 'proposals/tarrow', 'tarrow').problems,
  };
}

/** The letter that the page of a revision makes. */
export function letterTo(issued: IssuedOffer, person: string, over: Partial<Letter> & { readonly on?: readonly string[] } = {}): Letter {
  const { on = ['ceramic'], ...rest } = over;
  const verdict = rest.verdict ?? 'yes';
  const design = issued.designs.find(({ id }) => id === (rest.design ?? 'A'));
  const place = issued.people.findIndex(({ id }) => id === person);
  const audience = issued.people[place]?.audience ?? 'payer';
  const total = design?.combinations.find(({ options }) => options.join() === on.join())?.totalMinor;
  const yes = {
    options: optionBits(design?.options ?? [], on),
    ...(total === undefined || audience === 'no-price' ? {} : { total: { minor: total, currency: issued.currency } }),
    terms: issued.terms[audience]?.slice(0, 8),
  };
  return {
    verdict,
    fingerprint: issued.fingerprint.slice(0, 20),
    design: 'A',
    options: [],
    ...(verdict === 'yes' ? yes : {}),
    date: '2027-03-01',
    decider: place,
    name: person === 'maren' ? 'Maren Tollefsen' : 'Idris Quill',
    remark: '',
    ...rest,
  };
}

/** The same as text, with its code. */
export const letterText = (letter: Letter): string =>
  makeReply(letter, { says: 'My answer.', nameLabel: 'Name', remarkLabel: 'I would add' });

/** Text as it comes back in a mail: words above it, quote marks before it. */
export const quotedUnder = (above: string, text: string): string =>
  `${above}\n\nOn Mon, 1 Mar 2027 at 09:30, Runa Stavely <runa@bench.example.invalid> wrote:\n\n${text
    .trimEnd()
    .split('\n')
    .map((line) => (line === '' ? '>' : `> ${line}`))
    .join('\n')}\n`;
