/**
 * No note tells to use what it forbids, or what its class of finish must never see. Its words are heard as they are read: the lists of
 * things that a rule carries beside its words have no part in it.
 * @source tests/published/finishes.csv: what each class is cleaned with, and what it must never see
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { type CareInput, type CareNote, composeCare, type PlaceFact } from '../../src/care/index.ts';
import { readCsv } from '../templates/csv.ts';
import { book, finishes, woods } from './read-rules.ts';
import { clashes, heardIn, namedIn, SOAPS } from './substances.ts';
import { day, finish, input, wood } from './tables.ts';

const classes = new Map(readCsv(readFileSync('tests/published/finishes.csv', 'utf8')).map((row) => [row.id ?? '', row]));

const EVERYWHERE: readonly PlaceFact[] = ['sun', 'stove', 'underfloor-heating', 'soft-floor', 'children', 'food', 'daily-spills'];
const fresh = { finishedOn: day('2027-05-03'), deliveredOn: day('2027-05-04') };
const hard = { finishedOn: day('2027-01-03'), deliveredOn: day('2027-09-10') };
const tableOf = (id: string, changes: Partial<CareInput>): CareInput =>
  input({ finish: finish(id), place: { humidityLowPercent: 25, humidityHighPercent: 70, facts: EVERYWHERE }, ...changes });

/** Words of the time while the finish hardens, and words that hold from then on. Oily cloths are put away and not used. */
function wordsOf(note: CareNote): { readonly young: readonly string[]; readonly later: readonly string[] } {
  const isYoung = ({ rule }: { readonly rule: string }): boolean => book.rules[rule]?.section === 'first-days';
  const lines = note.sections
    .filter(({ id }) => id !== 'rags')
    .flatMap(({ lines, spills }) => [...lines, ...(spills ?? []).flatMap(({ steps, stop }) => [...steps, ...stop])]);
  return { young: lines.filter(isYoung).map(({ text }) => text), later: lines.filter((one) => !isYoung(one)).map(({ text }) => text) };
}

describe('words are heard', () => {
  test.each<readonly [says: string, uses: readonly string[], forbids: readonly string[]]>([
    ['Wipe with a well-wrung cloth and a drop of mild soap, then dry it.', ['damp cloth', 'mild soap'], []],
    [
      'No ammonia, no bleach, no window, oven or drain cleaner, no vinegar or lemon.',
      [],
      ['acid', 'alkaline cleaner', 'ammonia', 'bleach'],
    ],
    ['Blot it with a dry cloth. Do not rub, and no salt.', ['soft cloth'], ['salt']],
    ['Wash it with soap flakes. No linseed soap: it turns the wood yellow.', ['soap flakes'], ['linseed soap']],
    ['No knife; lift it off with a spoonful of vinegar.', ['acid'], ['knife']],
    ['Never use sandpaper, steel wool or white spirit.', [], ['abrasive', 'alcohol', 'sandpaper', 'solvent']],
  ])('%s', (says, uses, forbids) => {
    const heard = heardIn([says]);
    expect([[...heard.uses].toSorted(), [...heard.forbids].filter((one) => one !== 'alcohol' || forbids.includes(one)).toSorted()]).toEqual(
      [uses, forbids],
    );
  });

  it('and a rule whose words contradict another is found, whatever it says of itself', () => {
    const rules = { ...book.rules, tip: { ...book.rules['daily-dust'], says: 'Wipe with a little vinegar once a month.', use: [] } };
    const table = tableOf('hardwax-oil', { ...hard, book: { ...book, rules } as CareInput['book'] });
    const { uses, forbids } = heardIn(wordsOf(composeCare(table)).later);
    expect(clashes(uses, forbids)).toEqual(['acid']);
  });
});

describe.each(Object.keys(finishes))('%s', (id) => {
  const last = classes.get(finishes[id]?.classes.at(-1) ?? '');
  const { later } = wordsOf(composeCare(tableOf(id, hard)));
  const heard = heardIn(later);

  it('is told to use nothing that is forbidden elsewhere in its note', () => {
    expect(heard.forbids.size).toBeGreaterThan(8);
    expect(clashes(heard.uses, heard.forbids)).toEqual([]);
  });

  it('is told to use nothing that its class must never see, and to wash it with its own soap or none', () => {
    const never = namedIn(last?.cleaning_dont ?? '');
    expect(never.length).toBeGreaterThan(0);
    expect(clashes(heard.uses, new Set(never))).toEqual([]);
    const cleaning = namedIn(last?.cleaning_do ?? '');
    // The class table names the soap for oiled wood once, with the oil that is used most; it is a mild soap.
    const own = cleaning.includes('mild soap') ? [...cleaning, 'soap for oiled wood'] : cleaning;
    expect(SOAPS.filter((soap) => heard.uses.has(soap) && !own.includes(soap))).toEqual([]);
  });

  it('while it hardens is told so before the steps that ask for soap, oil or paper, and nothing then asks for them', () => {
    const note = composeCare(tableOf(id, fresh));
    const young = heardIn(wordsOf(note).young);
    for (const name of ['any soap', 'sandpaper', 'oil']) expect(young.forbids, name).toContain(name);
    expect(clashes(young.uses, young.forbids)).toEqual([]);
    const spills = note.sections.find((section) => section.id === 'spills');
    expect(spills?.lines.map(({ text }) => text).join(' ')).toMatch(/^Until .* fresh: .*No soap yet/);
    // Hard when it came, nothing is said of it.
    expect(composeCare(tableOf(id, hard)).sections.find((section) => section.id === 'spills')?.lines).toEqual([]);
  });

  it('says where oil or wax goes onto a cloth what becomes of the cloth', () => {
    const told = later.filter((text) => /\brub in\b.*upkeep oil|coat of (?:paste wax|upkeep oil)|^Wax it anew/i.test(text));
    expect(told.filter((text) => !text.includes('“Oily cloths”'))).toEqual([]);
    // What is wiped into the wood or onto it, and never grows a film: oils, their blend with varnish, wax (class table).
    expect(told.length > 0).toBe(/^(?:hardwax_oil|linseed|tung|oil_varnish|wax$)/.test(last?.id ?? ''));
  });
});

describe.each(Object.keys(woods))('%s', (id) => {
  it('says in one line what light does to it, and names it there as its own kind', () => {
    const note = composeCare(input({ woods: [wood(id)], ...hard }));
    const sun = note.sections.find((section) => section.id === 'sun')?.lines ?? [];
    const ageing = woods[id]?.ageing?.replace(/^ageing\./, '');
    const own = sun.filter(({ rule }) => !/^sun-(?:finish|window|turn|epoxy)$/.test(rule));
    expect(own.map(({ rule }) => rule)).toEqual([ageing === 'darkens-soon' ? 'sun-darkens-soon' : expect.stringMatching(/^sun-/)]);
    expect(own[0]?.text.toLowerCase().startsWith(`${woods[id]?.name.toLowerCase()}:`)).toBe(true);
  });
});
