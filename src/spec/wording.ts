import { z } from 'zod';
import { nearestName, type Problem, type SpecPath } from '../problem/index.ts';
import { homeOfKey } from './home.ts';
import { listed, NOTES, type Refusal } from './leaf.ts';
import { GROUPS, ID_IN_WORDS } from './shape.ts';
import { inside, isOptional, kindOf, schemaAt, unwrapped, valueAt } from './walk.ts';

type Issue = z.core.$ZodIssue;

/** Words one issue of zod as the maker's problem or problems; `root` comes before its path. */
export function wordIssue(schema: z.core.$ZodType, plain: unknown, issue: Issue, root: SpecPath): readonly Problem[] {
  const here = issue.path.map((key) => (typeof key === 'number' ? key : String(key)));
  const problem = (code: string, title: string, rest: Partial<Problem> = {}): Problem => ({
    code: `spec/${code}`,
    severity: 'error',
    title,
    path: [...root, ...here],
    ...rest,
  });
  const key = String(here.at(-1) ?? '');
  if (issue.code === 'custom') return [refusedField(refusalIn(issue), typeof here.at(-1) === 'number' ? undefined : key, problem)];
  if (issue.code === 'unrecognized_keys') return issue.keys.map((name) => unknownKey(schema, plain, here, name, root));
  if (issue.code === 'invalid_union') return [unknownKind(schema, plain, here, issue, problem)];
  if (issue.code === 'invalid_key') return [badId(key, problem)];
  const wanted = schemaAt(schema, here, plain);
  if (issue.code === 'invalid_type') return [wrongGroup(wanted, key, issue.input, problem)];
  if (issue.code === 'too_small' || issue.code === 'too_big') return [wrongCount(wanted, issue, problem)];
  return [problem('wrong-type', `${nounOf(wanted)} can not be read`)];
}

type Make = (code: string, title: string, rest?: Partial<Problem>) => Problem;

function refusalIn(issue: Issue & { readonly code: 'custom' }): Refusal {
  const refusal: unknown = issue.params?.['refusal'];
  if (typeof refusal === 'object' && refusal !== null && 'code' in refusal && 'noun' in refusal) return refusal as Refusal;
  throw new TypeError(`a field was refused without a reason: ${issue.message}`);
}

function refusedField(refusal: Refusal, key: string | undefined, problem: Make): Problem {
  const { noun, why, found, allowed } = refusal;
  const told = { ...(found === undefined ? {} : { found }), ...(allowed === undefined ? {} : { allowed }) };
  const line = (value: string) => (key === undefined ? value : `${key}: ${value}`);
  const type = refusal.type;
  switch (refusal.code) {
    case 'missing':
      return problem('missing', missing(noun), { ...told, ...(key === undefined ? {} : { mend: `add ${key}:` }) });
    case 'wrong-type':
      return problem('wrong-type', `one value is wanted for ${noun}`, told);
    case 'not-a-quantity': {
      const mend = type === undefined ? {} : { mend: `write ${type.split(' or ').map(line).join(' or ')}` };
      return problem('not-a-quantity', `${noun} can not be read: ${why}`, { ...told, ...mend });
    }
    case 'out-of-range': {
      const mend = type === undefined ? {} : { mend: `if ${type} was meant, write ${line(type)}` };
      return problem('out-of-range', `${noun} ${why}`, { ...told, ...mend });
    }
    case 'not-a-choice': {
      const near =
        type ?? (refusal.choices === undefined || found === undefined ? undefined : nearestName(unquoted(found), refusal.choices));
      return problem('not-a-choice', why === undefined ? `${found ?? 'this'} is not known for ${noun}` : `${noun} ${why}`, {
        ...told,
        ...(near === undefined ? {} : { mend: `write ${line(near)}` }),
      });
    }
    case 'bad-text':
      return problem('bad-text', `${noun} ${why}`, { ...told, ...(type === undefined ? {} : { mend: `write ${line(type)}` }) });
  }
}

/** `the height is missing`, `the instalments are missing`. */
function missing(noun: string): string {
  const head = noun.split(/ of | that | for | on |, /)[0] ?? noun;
  const isMany = /[^siu]s$/.test(head) && !/^(?:what|how|why|where|when|whether|which) /.test(noun);
  return `${noun} ${isMany ? 'are' : 'is'} missing`;
}

function unquoted(found: string): string {
  return found.replace(/^"|"$/g, '');
}

function unknownKey(schema: z.core.$ZodType, plain: unknown, here: SpecPath, name: string, root: SpecPath): Problem {
  const group = schemaAt(schema, here, plain);
  const known = group instanceof z.ZodObject ? Object.keys(group.def.shape) : [];
  const home = here.length === 0 && root.length === 1 ? homeOfKey(String(root[0]), name) : undefined;
  const moved = elsewhere(schema, here, plain, name);
  const near = moved === undefined ? nearestName(name, known) : undefined;
  return {
    code: 'spec/unknown-key',
    severity: 'error',
    title: `"${name}" is no key of ${nounOf(group)}`,
    path: [...root, ...here, name],
    allowed: listed(known),
    mend: home ?? moved ?? (near === undefined ? 'take it out, or write it as a comment after #' : `write ${near}`),
  };
}

/** Where a key belongs that the group does not have: further in, or to another kind of the same thing. */
function elsewhere(schema: z.core.$ZodType, here: SpecPath, plain: unknown, name: string): string | undefined {
  const has = (one: z.core.$ZodType | undefined): boolean => one instanceof z.ZodObject && Object.hasOwn(one.def.shape, name);
  const group = schemaAt(schema, here, plain);
  const value = here.reduce<unknown>((within, key) => valueAt(within, key), plain);
  const inner = group instanceof z.ZodObject ? Object.keys(group.def.shape).filter((key) => has(schemaAt(group, [key], value))) : [];
  if (inner.length > 0) return `indent it under ${listed(inner.map((key) => `${key}:`))}`;
  const union = beforeKind(schema, here, plain);
  const members = union instanceof z.ZodDiscriminatedUnion ? union.def.options.map(unwrapped) : [];
  const kinds = members.flatMap((member) => (has(member) ? (kindOf(member) ?? []) : []));
  return kinds.length === 0 ? undefined : `take it out: it belongs to kind: ${listed(kinds)}`;
}

/** The schema at a path, a union in it not yet settled by its kind. */
function beforeKind(schema: z.core.$ZodType, path: SpecPath, plain: unknown): z.core.$ZodType | undefined {
  const last = path.at(-1);
  if (last === undefined) return undefined;
  const parent = schemaAt(schema, path.slice(0, -1), plain);
  const found = parent === undefined ? undefined : inside(parent, last, undefined);
  return found === undefined ? undefined : unwrapped(found);
}

function unknownKind(
  schema: z.core.$ZodType,
  plain: unknown,
  here: SpecPath,
  issue: Issue & { readonly code: 'invalid_union' },
  problem: Make,
): Problem {
  const parent = here.slice(0, -1);
  const noun = nounOf(unionAt(schema, parent, plain));
  const known = 'options' in issue && Array.isArray(issue.options) ? issue.options.map(String) : [];
  const found = valueAt(
    parent.reduce<unknown>((value, key) => valueAt(value, key), plain),
    'kind',
  );
  if (typeof found !== 'string')
    return problem('missing', `${noun} does not say its kind`, { allowed: listed(known), mend: `add kind: ${known[0] ?? ''}` });
  const near = nearestName(found, known);
  return problem('unknown-kind', `"${found}" is no kind of ${noun}`, {
    found: `"${found}"`,
    allowed: listed(known),
    ...(near === undefined ? {} : { mend: `write kind: ${near}` }),
  });
}

function unionAt(schema: z.core.$ZodType, path: SpecPath, plain: unknown): z.core.$ZodType | undefined {
  return schemaAt(schema, path, plain);
}

function badId(key: string, problem: Make): Problem {
  const tidy = key
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40);
  return problem('bad-id', `"${key}" can not be an id`, { allowed: ID_IN_WORDS, ...(tidy === '' ? {} : { mend: `write ${tidy}` }) });
}

function wrongGroup(wanted: z.core.$ZodType | undefined, key: string, input: unknown, problem: Make): Problem {
  const noun = nounOf(wanted);
  const example = wanted === undefined ? undefined : GROUPS.get(wanted)?.example?.split('\n')[0];
  const what = wanted instanceof z.ZodArray || wanted instanceof z.ZodTuple ? 'a list' : 'a group of keys';
  const allowed = keysIn(wanted) ?? what;
  if (input === undefined || input === null) return problem('missing', missing(noun), { allowed, mend: `add ${example ?? `${key}:`}` });
  const found = Array.isArray(input) ? 'a list' : typeof input === 'object' ? 'a group of keys' : `"${String(input)}"`;
  const isGlued = what === 'a list' && typeof input === 'string' && /^-\S/.test(input);
  if (isGlued) return problem('wrong-type', `a list is wanted for ${noun}`, { found, allowed, mend: 'put a space after each hyphen' });
  const mend = example === undefined || example.endsWith(':') ? {} : { mend: `write ${example}` };
  return problem('wrong-type', `${what} is wanted for ${noun}`, { found, allowed, ...mend });
}

/** `kind, length and width`: the keys that a group must have. */
function keysIn(wanted: z.core.$ZodType | undefined): string | undefined {
  if (wanted instanceof z.ZodDiscriminatedUnion) return 'a group of keys with its kind';
  if (!(wanted instanceof z.ZodObject)) return undefined;
  const needed = Object.entries(wanted.def.shape).flatMap(([name, schema]) => (isOptional(schema) ? [] : [name]));
  return needed.length === 0 ? 'a group of keys' : `a group with ${listed(needed).replace(/ or (?=[^ ]+$)/, ' and ')}`;
}

function wrongCount(
  wanted: z.core.$ZodType | undefined,
  issue: Issue & { readonly code: 'too_small' | 'too_big' },
  problem: Make,
): Problem {
  const small = issue.code === 'too_small';
  const count = Array.isArray(issue.input) ? issue.input.length : 0;
  const limit = Number(small ? issue.minimum : issue.maximum);
  const exactly = wanted instanceof z.ZodTuple;
  const allowed = exactly ? `${limit} entries` : small ? `at least ${limit}` : `at most ${limit}`;
  return problem('wrong-count', `${nounOf(wanted)} has too ${small ? 'few' : 'many'} entries`, { found: counted(count), allowed });
}

function counted(count: number): string {
  return count === 1 ? '1 entry' : `${count} entries`;
}

/** What a schema is called inside a sentence. */
export function nounOf(schema: z.core.$ZodType | undefined): string {
  if (schema === undefined) return 'this';
  const inner = unwrapped(schema);
  const noun = GROUPS.get(inner)?.noun ?? NOTES.get(inner)?.noun;
  if (noun !== undefined) return noun;
  const first = inner instanceof z.ZodTuple ? inner.def.items[0] : undefined;
  return first === undefined ? 'this' : nounOf(first).replace(/, x$/, '');
}
