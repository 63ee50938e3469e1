import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { parseCommandLine } from '../../src/cli/arguments.ts';
import { commands } from '../../src/cli/commands.ts';
import { type ClientView, clientView, offerOf } from '../../src/client/index.ts';
import { type ComputedProposal, computeProposal } from '../../src/compute.ts';
import { figuresOf } from '../../src/figures/index.ts';
import { readProposal } from '../../src/read/index.ts';
import {
  type AnyBody,
  type AnyEntry,
  type IssuedOffer,
  issuedOffers,
  issueRevision,
  readEntries,
  type WorkStage,
} from '../../src/record/index.ts';
import { openFonts } from '../../src/write/index.ts';
import { add, request } from '../record/told.ts';

const root = new URL('../..', import.meta.url).pathname;
const slug = 'tollefsen-quill';
const { measure } = openFonts();

/** Offers by the texts of the drafts that they were computed from: most tests issue the same one. */
const offers = new Map<string, Uint8Array>();
const offerBytes = (computed: ComputedProposal): Uint8Array => Buffer.from(JSON.stringify(offerOf(computed, figuresOf(computed))), 'utf8');

/** What a command printed, and how it ended. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The first of the worked commissions with its r3 issued, without pages, as a workspace of its own. */
export async function changeBench() {
  const workspace = mkdtempSync(join(tmpdir(), 'leafwright-change-'));
  onTestFinished(() => rmSync(workspace, { recursive: true, force: true }));
  const folder = join(workspace, 'proposals', slug);
  mkdirSync(folder, { recursive: true });
  for (const name of ['proposal.yaml', 'table.yaml', 'variants'])
    cpSync(join(root, 'proposals', slug, name), join(folder, name), { recursive: true });

  const read = (name: string): string => readFileSync(join(folder, name), 'utf8');
  const edit = (name: string, from: string | RegExp, to: string): void => {
    const before = read(name);
    const after = before.replace(from, to);
    if (after === before) throw new Error(`${name} does not hold ${from}`);
    writeFileSync(join(folder, name), after);
  };
  const computeDraft = () => {
    const { input, problems } = readProposal(workspace, slug);
    if (input === undefined) throw new Error(problems.map(({ title }) => title).join('\n'));
    const { computed, problems: later } = computeProposal(input, { measure });
    if (computed === undefined) throw new Error(later.map(({ title }) => title).join('\n'));
    return { input, computed };
  };
  const issue = async (revision: string): Promise<IssuedOffer> => {
    const { input } = readProposal(workspace, slug);
    if (input === undefined) throw new Error('the draft can not be read');
    const text = input.files.map(({ path, text: own }) => `${path}\n${own}`).join('\n');
    const bytes = offers.get(text) ?? offerBytes(computeDraft().computed);
    offers.set(text, bytes);
    const { problems: refused } = await issueRevision(
      request(folder, revision, {
        proposal: slug,
        shown: `proposals/${slug}`,
        inputs: input.files.map((file) => ({ path: file.path, bytes: Buffer.from(file.text, 'utf8') })),
        data: [{ path: 'offer.json', bytes }],
      }),
    );
    const offer = issuedOffers(folder).find((one) => one.revision === revision);
    if (offer === undefined) throw new Error(`not issued: ${JSON.stringify(refused)}`);
    return offer;
  };
  const record = async (body: AnyBody): Promise<AnyEntry> => {
    const { entry, problems } = await add(folder, body);
    if (entry === undefined) throw new Error(JSON.stringify(problems));
    return entry;
  };
  /** Both have said yes, it is confirmed. */
  const confirm = async (offer: IssuedOffer, options: readonly string[], more: object = {}): Promise<void> => {
    const combination = offer.designs[0]?.combinations.find((one) => one.options.join() === options.join());
    if (combination === undefined) throw new Error('no such combination');
    const chosen = {
      revision: offer.revision,
      fingerprint: offer.fingerprint,
      design: 'A',
      options,
      totalMinor: combination.totalMinor,
      currency: 'EUR',
    };
    for (const person of ['maren', 'idris'])
      await record({
        kind: 'answer',
        on: '2027-02-20',
        person,
        verdict: 'yes',
        revision: offer.revision,
        fingerprint: offer.fingerprint,
        chosen,
        by: 'code',
      });
    const { instalmentsMinor } = combination;
    await record({ kind: 'confirmed', on: '2027-02-21', chosen, answers: [], instalmentsMinor, holdUntil: '2027-03-15', ...more });
  };
  return {
    workspace,
    folder,
    read,
    edit,
    issue,
    /** The draft as the client will see it. */
    view: (): ClientView => {
      const { computed } = computeDraft();
      return clientView(computed, figuresOf(computed));
    },
    record,
    confirm,
    /** r3 as ordered: design A with the ceramic coat, 6,258.00, the first instalment paid; and the stages that are reached. */
    order: async (...reached: readonly WorkStage[]): Promise<void> => {
      const offer = await issue('r3');
      await confirm(offer, ['ceramic']);
      await record({ kind: 'paid', on: '2027-02-22', amountMinor: 250320, currency: 'EUR', instalment: 1 });
      for (const stage of reached) await record({ kind: 'stage', on: '2027-03-01', stage });
    },
    draft: (widthMm: number): void => {
      edit('proposal.yaml', 'id: r3', 'id: r4');
      edit('table.yaml', 'width: 800 mm', `width: ${widthMm} mm`);
    },
    run: async (name: string, ...args: readonly string[]): Promise<Ran> => {
      const command = commands.find((one) => one.name === name);
      if (command === undefined) throw new Error(`there is no command ${name}`);
      const day = args.includes('--as-of') ? [] : ['--as-of', '2027-03-10'];
      const [out, err]: [string[], string[]] = [[], []];
      const code = await command.run(parseCommandLine(command, [slug, ...args, ...day, '--workspace', workspace]), {
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
  };
}
