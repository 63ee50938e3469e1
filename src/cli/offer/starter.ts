import { type Document, isMap, isScalar, parseDocument, type YAMLMap } from 'yaml';
import { instantOf } from '../clock.ts';
import { placeholders } from '../draft/placeholders.ts';

export interface Starter {
  /** Folder of the demo commission. */
  readonly demo: string;
  readonly title: string;
}

const note = [
  ' Begun from a worked example. Its texts, wishes, sizes and reasons are those of an invented commission: put yours in',
  ' their place from top to bottom. "leafwright check" says at any time what does not fit together.',
].join('\n');

const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** Puts a placeholder for a person in the place of the invented one. */
function replaceParty(party: unknown, name: string): void {
  if (!isMap(party)) return;
  party.set('name', name);
  if (party.has('address')) party.set('address', placeholders.address);
  if (party.has('email')) party.set('email', placeholders.email);
  party.delete('telephone');
}

function replacePeople(document: Document): void {
  replaceParty(document.get('client'), placeholders.client);
  replaceParty(document.get('endClient'), placeholders.endClient);
  const people = document.getIn(['deciders', 'people']);
  if (!isMap(people)) return;
  (people as YAMLMap).items.forEach((pair, i) => {
    if (isScalar(pair.key)) pair.key.value = `person-${i + 1}`;
    replaceParty(pair.value, placeholders.person(i + 1));
  });
}

/** A designer's page keeps its kind and loses its names. */
function replaceReaders(document: Document): void {
  const pages = document.get('pages');
  if (!isMap(pages)) return;
  for (const { value: page } of (pages as YAMLMap).items) {
    if (!isMap(page)) continue;
    const brand = page.get('brand');
    replaceParty(brand, placeholders.client);
    if (isMap(brand)) brand.delete('trade');
    if (page.has('for')) page.set('for', placeholders.endClient);
  }
}

function beginProposal(text: string, title: string, day: string): string {
  const document = parseDocument(text);
  document.commentBefore = note;
  document.set('title', title);
  document.delete('invented');
  replacePeople(document);
  replaceReaders(document);
  document.setIn(['revision', 'id'], 'r1');
  document.setIn(['revision', 'date'], day);
  document.setIn(['revision', 'validUntil'], dayAfter(day, 30));
  document.deleteIn(['revision', 'changes']);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

/** A demo's files as a first draft: placeholders for people, today's date, revision r1. `asOf` stands in for the clock. */
export function starterFiles(
  starter: Starter,
  files: readonly { readonly path: string; readonly text: string }[],
  asOf: string | undefined,
): readonly { readonly path: string; readonly text: string }[] {
  const day = instantOf(asOf).slice(0, 10);
  return files.map(({ path, text }) =>
    path === 'proposal.yaml' ? { path, text: beginProposal(text, starter.title, day) } : { path, text },
  );
}
