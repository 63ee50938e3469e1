import { type Document, isMap, isScalar, parseDocument, visit, type YAMLMap } from 'yaml';
import { addDays, dayNumber, isoDate, parseDate } from '../../units/index.ts';
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

function dayAfter(day: string, days: number): string {
  const from = parseDate(day);
  return from === undefined ? day : isoDate(addDays(from, days));
}

/** Days under these keys keep their distance to the day of the revision. */
const keptDays = ['surveyedOn', 'by', 'lastDay'];

/** Moves the days of the worked example, which lie as they do around its own revision, by as many days as that is moved. */
function moveDays(document: Document, day: string): void {
  const [then, now] = [parseDate(String(document.getIn(['revision', 'date']))), parseDate(day)];
  if (then === undefined || now === undefined) return;
  const days = dayNumber(now) - dayNumber(then);
  visit(document, {
    Pair: (_key, { key, value }) => {
      if (!isScalar(key) || !isScalar(value) || !keptDays.includes(String(key.value))) return;
      if (parseDate(String(value.value)) !== undefined) value.value = dayAfter(String(value.value), days);
    },
  });
}

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

/** First and family names of the invented people, each with what stands in their place within a sentence. */
function namesOf(text: string): readonly (readonly [name: RegExp, instead: string])[] {
  const document = parseDocument(text);
  const people = document.getIn(['deciders', 'people']);
  const parties = [
    ...(isMap(people) ? (people as YAMLMap).items.map(({ value }) => value) : []),
    document.get('client'),
    document.get('endClient'),
  ];
  const seen = new Set<string>();
  return parties.flatMap((party, i) => {
    const name = isMap(party) ? party.get('name') : undefined;
    const words = typeof name === 'string' ? name.split(' ').filter((word) => /^\p{Lu}/u.test(word) && !seen.has(word)) : [];
    for (const word of words) seen.add(word);
    return words.map((word) => [new RegExp(`(?<!\\p{L})${word}(?!\\p{L})`, 'gu'), placeholders.inText(i + 1)] as const);
  });
}

function beginProposal(text: string, title: string, day: string): string {
  const document = parseDocument(text);
  document.commentBefore = note;
  document.set('title', title);
  document.delete('invented');
  replacePeople(document);
  replaceReaders(document);
  moveDays(document, day);
  document.setIn(['revision', 'id'], 'r1');
  document.setIn(['revision', 'date'], day);
  document.setIn(['revision', 'validUntil'], dayAfter(day, 30));
  document.deleteIn(['revision', 'changes']);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

/** A demo's files as a first draft: placeholders for people, revision r1 of a day. */
export function starterFiles(
  starter: Starter,
  files: readonly { readonly path: string; readonly text: string }[],
  day: string,
): readonly { readonly path: string; readonly text: string }[] {
  const names = namesOf(files.find(({ path }) => path === 'proposal.yaml')?.text ?? '');
  const nameless = (text: string): string => names.reduce((left, [name, instead]) => left.replaceAll(name, instead), text);
  return files.map(({ path, text }) => ({
    path,
    text: nameless(path === 'proposal.yaml' ? beginProposal(text, starter.title, day) : text),
  }));
}
