import { type Letter, makeReply, optionBits } from '../../../reply/index.ts';
import { type AnswerData, type Combination, combinationOf, type Filled } from './data.ts';

/** Fields that a letter can not do without. */
export type Field = 'verdict' | 'design' | 'base' | 'remark' | 'person' | 'agrees' | 'name';

type Values = Readonly<Record<string, string>>;

/** A text of the page by key, its `{names}` filled in. */
export function sayOf({ texts }: AnswerData): (key: string, values?: Values) => string {
  return (key, values = {}) => (texts[key] ?? key).replace(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
}

/** Longest words that a letter takes: a code and a mail carry them still. */
export const mostLetters = { name: 120, remark: 4000 } as const;

const designOf = ({ letter }: AnswerData, id: string | undefined) => letter.designs.find((design) => design.id === id);

/** Digits of the digest of the terms that a code holds. */
const TERMS_DIGITS = 8;

/** What has still to be filled in, in the order of the letter. */
export function missingFields({ letter }: AnswerData, filled: Filled): readonly Field[] {
  const { verdict, design, base, remark, place, agrees, name } = filled;
  if (verdict === undefined) return ['verdict'];
  const fields: Field[] = [];
  if (design === undefined) fields.push('design');
  if (verdict === 'mix' && (base === undefined || base === design)) fields.push('base');
  if (verdict === 'no' && remark.trim() === '') fields.push('remark');
  if (letter.people.length > 1 && place === undefined) fields.push('person');
  if (verdict === 'yes' && !agrees) fields.push('agrees');
  if (name.trim() === '') fields.push('name');
  return fields;
}

function chosen(data: AnswerData, { design, options }: Filled): Combination | undefined {
  const found = designOf(data, design);
  return found === undefined ? undefined : combinationOf(found, options);
}

/** The greeting, and then the answer in sentences as it was filled in. */
export function letterSentences(data: AnswerData, filled: Filled, agreement: string): readonly string[] {
  const say = sayOf(data);
  const { letter, title, revision } = data;
  const named = (id: string | undefined): string => say('letter.js-design', { id: id ?? '', name: designOf(data, id)?.name ?? '' });
  const of = { title, revision, design: named(filled.design), base: named(filled.base) };
  const person = letter.people.length > 1 ? letter.people.find(({ place }) => place === filled.place) : undefined;
  const sentences: string[] = [];
  if (filled.verdict === 'yes') {
    const says = designOf(data, filled.design)?.options.filter(({ id }) => filled.options.includes(id)) ?? [];
    sentences.push(say('letter.js-yes', of));
    if (says.length > 0) sentences.push(say('letter.js-with', { options: says.map((option) => option.says).join('; ') }));
    else if ((designOf(data, filled.design)?.options.length ?? 0) > 0) sentences.push(say('letter.js-without'));
    const { total, instalments = [] } = chosen(data, filled) ?? {};
    if (total !== undefined) {
      const parts = instalments.map((amount, i) => say('letter.js-part', { amount, when: letter.instalments[i] ?? '' })).join('; ');
      sentences.push(say(parts === '' ? 'letter.js-total' : 'letter.js-total-parts', { total: total.shown, parts }));
    }
    sentences.push(agreement, say('letter.js-terms', { digest: letter.terms.slice(0, TERMS_DIGITS) }));
  } else if (filled.verdict === 'no') sentences.push(say(filled.design === '' ? 'letter.js-no-all' : 'letter.js-no', of));
  else sentences.push(say('letter.js-mix', of));
  if (person !== undefined) sentences.push(say('letter.js-person', { name: person.name }));
  return [say('letter.js-greeting', { maker: data.maker }), ...sentences];
}

function letterWords(data: AnswerData, filled: Filled, agreement: string): string {
  const [greeting = '', ...sentences] = letterSentences(data, filled, agreement);
  return `${greeting}\n\n${sentences.join('\n')}`;
}

/** The letter as a reply code holds it. `date`: today, `2027-02-14`. Throws for a letter that is not complete, or of a draft. */
export function letterOf(data: AnswerData, filled: Filled, date: string): Letter {
  const { letter } = data;
  const { verdict, design, base, name, remark } = filled;
  if (verdict === undefined || design === undefined || letter.fingerprint === undefined)
    throw new RangeError('this letter is not complete');
  const total = verdict === 'yes' ? chosen(data, filled)?.total : undefined;
  const place = letter.people.length === 1 ? letter.people[0]?.place : filled.place;
  const ids = designOf(data, design)?.options.map(({ id }) => id) ?? [];
  return {
    verdict,
    fingerprint: letter.fingerprint,
    design,
    ...(verdict === 'mix' && base !== undefined ? { base } : {}),
    options: verdict === 'yes' ? optionBits(ids, filled.options) : [],
    ...(total === undefined || letter.currency === undefined ? {} : { total: { minor: total.minor, currency: letter.currency } }),
    date,
    ...(place === undefined ? {} : { decider: place }),
    ...(verdict === 'yes' ? { terms: letter.terms.slice(0, TERMS_DIGITS) } : {}),
    name: name.trim(),
    remark: remark.trim(),
  };
}

/** The whole letter as text: with its code, or in a draft with the words that say there is none. */
export function letterText(data: AnswerData, filled: Filled, agreement: string, date: string): string {
  const say = sayOf(data);
  const words = {
    says: letterWords(data, filled, agreement),
    nameLabel: say('letter.js-name'),
    remarkLabel: say(filled.verdict === 'no' ? 'letter.js-because' : 'letter.js-remark'),
  };
  if (data.letter.fingerprint !== undefined) return makeReply(letterOf(data, filled, date), words);
  const remark = filled.remark.trim() === '' ? [] : [`${words.remarkLabel}: «${filled.remark.trim()}»`];
  return [words.says, '', `${words.nameLabel}: «${filled.name.trim()}»`, ...remark, '', say('letter.js-draft'), ''].join('\n');
}

/** Longest mail link that mail programs take. */
const MOST_LINK = 1800;

/** A mail that holds the letter; undefined where the link would be too long. @source RFC 6068: characters percent-encoded, line breaks CR LF */
export function mailLink({ email, title, revision, texts }: AnswerData, text: string): string | undefined {
  const encode = (words: string): string => encodeURIComponent(words.replaceAll('\n', '\r\n'));
  const subject = (texts['letter.js-subject'] ?? '').replace('{title}', () => title).replace('{revision}', () => revision);
  const link = `mailto:${email}?subject=${encode(subject)}&body=${encode(text)}`;
  return link.length > MOST_LINK ? undefined : link;
}
