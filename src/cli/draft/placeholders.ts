import { readFileSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { programRoot } from '../program.ts';

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

/** Sentences of the maker in which somebody is still called as a starter calls them. */
const textsOf = ({ understood, wishes }: ProposalInput['proposal']): readonly string[] =>
  [understood, ...Object.values(wishes).map(({ says }) => says)].flatMap((text) => text.match(/\bPerson \d+\b/g) ?? []);

const peopleTexts = (people: ProposalInput['proposal']['deciders']['people']) =>
  Object.values(people).flatMap(({ name, email }) => [name, email]);

function partiesProblem(proposal: ProposalInput['proposal']): readonly Problem[] {
  const { client, endClient, deciders, pages } = proposal;
  const readers = Object.values(pages).flatMap(({ brand, for: reader }) => [
    ...(brand === undefined ? [] : [brand]),
    ...(reader === undefined ? [] : [{ name: reader, address: undefined, email: undefined }]),
  ]);
  const parties = [client, ...(endClient === undefined ? [] : [endClient]), ...readers];
  const texts = [...parties.flatMap(({ name, address, email }) => [name, address, email]), ...peopleTexts(deciders.people)];
  const standing = [...new Set([...texts.filter((text) => isPlaceholder(text)), ...textsOf(proposal)])];
  if (standing.length === 0) return [];
  return [
    {
      code: 'cli/placeholder',
      severity: 'warning',
      title: 'people of this proposal still have the names, addresses or e-mail addresses of a starter',
      path: ['proposal', 'client', 'name'],
      found: standing.join('; '),
      mend: 'write those of your own client before you issue it, or take the lines out',
    },
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
  return [...partiesProblem(input.proposal), ...makerProblem(input.library), ...ratesProblem(workspace, input)];
}
