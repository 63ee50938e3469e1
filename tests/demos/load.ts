import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Assessment } from '../../src/assess/index.ts';
import { assessTable } from '../../src/assess/index.ts';
import type { Table } from '../../src/design/index.ts';
import { designTable } from '../../src/design/index.ts';
import type { Price } from '../../src/price/index.ts';
import { choiceWithoutFixedPrices, priceTable } from '../../src/price/index.ts';
import type { Problem } from '../../src/problem/index.ts';
import { readProposal } from '../../src/read/index.ts';
import type { EffectiveSpec, ProposalInput, VariantInput } from '../../src/spec/index.ts';
import type { TakeOff } from '../../src/takeoff/index.ts';
import { takeOff } from '../../src/takeoff/index.ts';

/** The demo commissions: every older revision, then the draft that lies in `proposals/`. */
export const demos = {
  'tollefsen-quill': ['r1', 'r2', 'r3'],
  farrant: ['r1', 'r2'],
  'lindqvaar-wren': ['r1', 'r2'],
  'marl-ockley': ['r1'],
} as const;

interface Read {
  readonly input?: ProposalInput;
  readonly problems: readonly Problem[];
}

const reads = new Map<string, Read>();

/** A demo's revision as read, with whatever was found. */
export function readDemo(slug: string, revision: string): Read {
  const key = `${slug}/${revision}`;
  const read = reads.get(key) ?? readFresh(slug, revision);
  reads.set(key, read);
  return read;
}

function readFresh(slug: string, revision: string): Read {
  const older = join('tests/demos/revisions', slug, revision);
  if (!existsSync(older)) return readProposal('.', slug);
  const root = mkdtempSync(join(tmpdir(), 'leafwright-demo-'));
  try {
    mkdirSync(join(root, 'proposals'));
    cpSync(older, join(root, 'proposals', slug), { recursive: true });
    return readProposal(root, slug);
  } finally {
    rmSync(root, { recursive: true });
  }
}

export interface Computed {
  readonly spec: EffectiveSpec;
  readonly table: Table;
  readonly taken: TakeOff;
  readonly price: Price;
  readonly assessment: Assessment;
  readonly problems: readonly Problem[];
}

/** Everything but the drawings of one spec; throws with the problems where it is impossible. */
export function computeSpec(spec: EffectiveSpec, options: readonly string[] = [], without?: Price): Computed {
  const designed = designTable(spec);
  if (designed.table === undefined) throw new Error(designed.problems.map((p) => `${p.title} (${p.found ?? ''})`).join('\n'));
  const taken = takeOff(spec, designed.table);
  const price = priceTable(spec, taken, options, without);
  const assessment = assessTable(spec, designed.table, price);
  const problems = [...designed.problems, ...taken.problems, ...price.problems, ...assessment.problems];
  return { spec, table: designed.table, taken, price, assessment, problems };
}

const specOf = (input: ProposalInput, { variant, combinations }: VariantInput, options: readonly string[]): EffectiveSpec => {
  const table = combinations.find(({ choice }) => choice.join(' ') === options.join(' '))?.table;
  if (table === undefined) throw new Error(`variant ${variant.id} has no combination "${options.join(' ')}"`);
  return { proposal: input.proposal, variant, table, library: input.library };
};

const known = new Map<string, Computed>();

/** `slug/revision/variant` with these options on and no others. */
export function computeDemo(of: string, options: readonly string[] = []): Computed {
  const key = `${of} ${options.join(' ')}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const [slug = '', revision = '', id = ''] = of.split('/');
  const { input } = readDemo(slug, revision);
  const variant = input?.variants.find((one) => one.variant.id === id);
  if (input === undefined || variant === undefined) throw new Error(`${of} can not be read`);
  const base = choiceWithoutFixedPrices(variant.variant, options);
  const without = base === undefined ? undefined : computeDemo(of, base).price;
  const computed = computeSpec(specOf(input, variant, options), options, without);
  known.set(key, computed);
  return computed;
}
