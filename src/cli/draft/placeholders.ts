import { readFileSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { ComputedProposal } from '../../compute.ts';
import type { Problem } from '../../problem/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { programRoot } from '../program.ts';
import { textsBelow } from './texts-below.ts';

/** What `new` writes where a starter has an invented person. */
export const placeholders = {
  client: "Client's name",
  endClient: 'Name of the client behind them',
  person: (n: number): string => `Person ${n} who decides`,
  inText: (n: number): string => `Person ${n}`,
  address: 'Street, town',
  email: 'name@example.invalid',
} as const;

const isPlaceholder = (text: string | undefined): boolean =>
  text !== undefined &&
  ([placeholders.client, placeholders.endClient, placeholders.address, placeholders.email].some((one) => one === text) ||
    /^Person \d+ who decides$/.test(text));

/** What of a starter stands in a text: a name, an address, or somebody in a sentence still called as a starter calls them. */
function standsIn(text: string): readonly string[] {
  return isPlaceholder(text) ? [text] : [...new Set(text.match(/\bPerson \d+\b/g) ?? [])];
}

interface Standing {
  readonly path: Problem['path'];
  readonly found: readonly string[];
}

/** Where a placeholder stands below a value of the spec. */
const standing = (value: unknown, path: Problem['path']): readonly Standing[] =>
  textsBelow(value, path)
    .map((one) => ({ path: one.path, found: standsIn(one.text) }))
    .filter(({ found }) => found.length > 0);

/** One problem for all of these places: the first is marked, the others are named with their lines. */
function leftProblem(left: readonly Standing[], severity: Problem['severity'], variant?: string): readonly Problem[] {
  const [first, ...others] = left;
  if (first === undefined) return [];
  return [
    {
      code: 'cli/placeholder',
      severity,
      title: 'what a starter wrote for somebody still stands, and would go out to the client',
      path: first.path,
      found: first.found.join('; '),
      mend: 'write the names, addresses and e-mail addresses of your own client, or take the lines out',
      also: others.map(({ path, found }) => ({ path, note: found.join('; ') })),
      ...(variant === undefined ? {} : { variant }),
    },
  ];
}

/** Where a real commission would be issued with what `new` wrote for somebody. Code: `cli/placeholder`. */
export function placeholdersLeft({ input, variants }: ComputedProposal): readonly Problem[] {
  if (input.proposal.invented) return [];
  const offered = variants.filter(({ standard }) => standard.spec.variant.offered);
  return [
    ...leftProblem(standing(input.proposal, ['proposal']), 'error'),
    ...offered.flatMap(({ id, standard: { spec } }) =>
      leftProblem([...standing(spec.variant, ['variant']), ...standing(spec.table, ['table'])], 'error', id),
    ),
  ];
}

function makerProblem({ maker }: ProposalInput['library']): readonly Problem[] {
  if (!maker.invented) return [];
  return [
    {
      code: 'cli/invented-maker',
      severity: 'warning',
      title: 'the maker is invented, and every page says so',
      path: ['library', 'maker', 'invented'],
      found: maker.name,
      mend: 'write your own name and address into templates/maker.yaml and take out the line invented: true',
    },
  ];
}

/** The program's own rates, taken from it or copied unchanged. */
export function hasInventedRates({ proposal, files }: ProposalInput): boolean {
  const name = `templates/rates/${proposal.rates}.yaml`;
  const program = join(programRoot, ...name.split('/'));
  if (statSync(program, { throwIfNoEntry: false })?.isFile() !== true) return false;
  const text = readFileSync(program, 'utf8');
  return files.some((file) => file.path.endsWith(name) && file.text === text);
}

/** On a clone the program's own rates are the demos', so others need another name. */
function ratesProblem(workspace: string, input: ProposalInput): readonly Problem[] {
  if (!hasInventedRates(input)) return [];
  const name = `templates/rates/${input.proposal.rates}.yaml`;
  const isClone = realpathSync(workspace) === realpathSync(programRoot);
  return [
    {
      code: 'cli/invented-rates',
      severity: 'warning',
      title: 'the shop rates are those of an invented shop, and so are all prices',
      path: ['library', 'rates', 'hour'],
      mend: isClone
        ? `copy ${name} to a name of your own, write your figures into it, and its name after rates:`
        : `write your own figures into ${name} of your workspace`,
    },
  ];
}

/** Warnings where a real commission still holds what was invented for a starter. Codes: `cli/placeholder cli/invented-maker cli/invented-rates`. */
export function placeholderProblems(workspace: string, input: ProposalInput): readonly Problem[] {
  if (input.proposal.invented) return [];
  return [
    ...leftProblem(standing(input.proposal, ['proposal']), 'warning'),
    ...makerProblem(input.library),
    ...ratesProblem(workspace, input),
  ];
}
