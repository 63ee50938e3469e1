import { z } from 'zod';
import type { CodeEntry } from '../problem/index.ts';
import { DOCUMENTS, type DocumentKind } from './documents.ts';
import { sentences } from './json-schema.ts';
import { NOTES } from './leaf.ts';
import { GROUPS } from './shape.ts';
import { defaultOf, isOptional, kindOf, unwrapped } from './walk.ts';

const INTRO = `# The file format

This page is made from the schemas that read the files: it can not be out of step with them.

A proposal is a folder \`proposals/<slug>/\` with \`proposal.yaml\`, \`table.yaml\` and one file in \`variants/\` for each design. What a maker
uses again lies in \`templates/\`; what is not there is taken from the program's own. Files are YAML 1.2 in UTF-8, indented with spaces.
Completion in an editor: put \`# yaml-language-server: $schema=...\` with the path of a file of \`templates/schemas/\` into the first line.

## How values are written

- **Lengths**: \`27\`, \`27 mm\`, \`2.7 cm\`, \`7/8 in\`, \`70 7/8"\`, \`70-7/8 in\`, \`5' 10 7/8"\`, \`2'6\`, \`1½"\`. A bare number is in the proposal's
  \`units\`; in \`templates/\` it is in mm. Rough thicknesses of timber also as \`8/4\`.
- **Decimal points only**, no marks between thousands: \`27,5\`, \`1.800,5\` and \`1_000\` are refused with the text to type.
- **Everything else carries its unit**: \`14 kg\`, \`26 lb\`, \`1000 N\`, \`135 lbf\`, \`20 %\`, \`30 deg\`, \`20 C\`, \`68 F\`. Days: \`2027-02-14\`.
- **Money** is a plain decimal in the proposal's currency; with quotes or without, it is never a binary fraction.
- **Ids** are small letters, digits and hyphens, at most 40.
- **Unknown keys are errors**, and so are keys written twice and keys without a value.

## How a variant is laid over the table

A variant's \`table\` is a merge patch (RFC 7396): a key replaces the same key of \`table.yaml\`, groups are merged key by key, lists are
replaced whole, \`null\` takes a key away. One rule more: a group whose \`kind\` changes is replaced, not merged. An option's \`patch\` is laid
over that in the same way. Two options that can be on together must not change the same key; let one exclude the other, or put both into
one \`group\`. A variant has at most 64 combinations.

## The frame of the table

Millimetres inside; the origin lies on the floor under the centre of the top; x along the length, y along the width to the back, z up. The
front is the side at which y is smallest, left the side at which x is smallest. Overhangs run from the outline of the top to the outer face.
`;

/** The reference page of the file format, as Markdown. `codes` are the problems that it explains. */
export function referencePage(codes: Readonly<Record<string, CodeEntry>>): string {
  const problems = Object.entries(codes).map(([code, { title, explain }]) => `| \`${code}\` | ${title} | ${explain} |`);
  return [
    INTRO,
    ...DOCUMENTS.map(documentSection),
    '## Problems in what is written\n\n| code | what is wrong | why, and what helps |\n| --- | --- | --- |\n',
    `${problems.join('\n')}\n`,
  ]
    .join('\n')
    .replaceAll(/\n{3,}/g, '\n\n');
}

function documentSection(document: DocumentKind): string {
  const head = `## ${document.title}\n\n\`${document.file}\`. ${document.about}\n`;
  return [head, ...sections(document.schema, '')].join('\n');
}

/** A table of keys for a group, then the groups inside it. */
function sections(schema: z.core.$ZodType, path: string): readonly string[] {
  const inner = unwrapped(schema);
  const note = GROUPS.get(inner);
  const heading = path === '' ? [] : [`### \`${path}\`\n\n${sentences([note?.noun, note?.more])}\n`];
  const example = note?.example === undefined ? [] : [`\`\`\`yaml\n${note.example}\n\`\`\`\n`];
  if (inner instanceof z.ZodObject) return [...heading, ...example, ...groupOf(inner, path)];
  if (inner instanceof z.ZodDiscriminatedUnion) {
    const members = inner.def.options.flatMap((option) => memberSections(unwrapped(option), path));
    return [...heading, ...example, ...members];
  }
  const step = inner instanceof z.ZodRecord ? '<id>' : inner instanceof z.ZodArray ? '[]' : undefined;
  const value = inner instanceof z.ZodRecord ? inner.def.valueType : inner instanceof z.ZodArray ? inner.def.element : undefined;
  if (step === undefined || value === undefined || !hasKeys(value)) return [];
  const next = step === '[]' ? `${path}[]` : path === '' ? '<id>' : `${path}.<id>`;
  const told = note?.more === undefined && example.length === 0 ? [] : [...heading, ...example];
  return [...told, ...sections(value, next)];
}

function memberSections(member: z.core.$ZodType, path: string): readonly string[] {
  const note = GROUPS.get(member);
  const example = note?.example === undefined ? '' : `\n\`\`\`yaml\n${note.example}\n\`\`\`\n`;
  const head = `#### \`${path}\`, \`kind: ${kindOf(member) ?? ''}\`\n\n${sentences([note?.noun, note?.more])}\n${example}`;
  return member instanceof z.ZodObject ? [head, ...groupOf(member, path)] : [head];
}

function groupOf(group: z.ZodObject, path: string): readonly string[] {
  const entries = Object.entries(group.def.shape).filter(
    ([key]) => key !== 'kind' || NOTES.has(unwrapped(group.def.shape['kind'] ?? group)),
  );
  const rows = entries.map(([key, schema]) => `| \`${key}\` | ${meaning(schema)} | ${wanted(schema)} | ${silent(schema)} |`);
  const table =
    rows.length === 0 ? 'No other keys.\n' : `| key | what | written as | where silent |\n| --- | --- | --- | --- |\n${rows.join('\n')}\n`;
  const inside = entries.flatMap(([key, schema]) => (hasKeys(schema) ? sections(schema, path === '' ? key : `${path}.${key}`) : []));
  return [table, ...inside];
}

/** Whether a schema holds groups of keys, at whatever depth of lists and maps. */
function hasKeys(schema: z.core.$ZodType): boolean {
  const inner = unwrapped(schema);
  if (inner instanceof z.ZodObject || inner instanceof z.ZodDiscriminatedUnion) return true;
  if (inner instanceof z.ZodRecord) return hasKeys(inner.def.valueType);
  return inner instanceof z.ZodArray && hasKeys(inner.def.element);
}

function meaning(schema: z.core.$ZodType): string {
  const inner = unwrapped(schema);
  const note = NOTES.get(inner) ?? GROUPS.get(inner);
  const first = inner instanceof z.ZodTuple ? inner.def.items[0] : undefined;
  const noun = note?.noun ?? (first === undefined ? undefined : NOTES.get(unwrapped(first))?.noun.replace(/, x$/, ''));
  return sentences([noun, note?.more]).replaceAll('|', '\\|');
}

function wanted(schema: z.core.$ZodType): string {
  const inner = unwrapped(schema);
  const note = NOTES.get(inner);
  if (note !== undefined) return note.wants;
  if (inner instanceof z.ZodTuple)
    return `\`[${inner.def.items.map((_, index) => 'xyz'[index] ?? '').join(', ')}]\`, each ${wanted(inner.def.items[0] ?? inner)}`;
  if (inner instanceof z.ZodArray)
    return hasKeys(inner.def.element) ? 'a list of groups, below' : `a list, each ${wanted(inner.def.element)}`;
  if (inner instanceof z.ZodRecord) return hasKeys(inner.def.valueType) ? 'a group of ids, below' : 'a group of ids';
  if (inner instanceof z.ZodDiscriminatedUnion)
    return `a group with its \`kind\`: ${inner.def.options.map((one) => kindOf(unwrapped(one)) ?? '').join(', ')}`;
  return 'a group, below';
}

function silent(schema: z.core.$ZodType): string {
  const value = defaultOf(schema);
  if (value === undefined) return isOptional(schema) ? '-' : '**must be given**';
  if (Array.isArray(value)) return value.length === 0 ? 'none' : `\`[${value.join(', ')}]\``;
  if (typeof value !== 'object' || value === null) return `\`${String(value)}\``;
  const pairs = Object.entries(value).map(([key, one]) => `${key}: ${String(one)}`);
  return pairs.length === 0 ? '-' : `\`{ ${pairs.join(', ')} }\``;
}
