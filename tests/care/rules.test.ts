import { describe, expect, it } from 'vitest';
import { careLaws } from '../../src/care/index.ts';
import { CARE_FACTS, CARE_SECTIONS } from '../../src/spec/index.ts';
import { book, finishes, texts, woods } from './read-rules.ts';

const classes = new Set(Object.values(finishes).flatMap((finish) => finish.classes));
const rules = Object.entries(book.rules);

describe('the rules that the program brings along', () => {
  it('break none of their laws', () => {
    expect(careLaws(book, { finishes, texts })).toEqual([]);
  });

  it('name only classes, woods and ageings that there are', () => {
    const ageings = Object.values(woods).flatMap(({ ageing }) => (ageing === undefined ? [] : [ageing.replace(/^ageing\./, '')]));
    const woodNames = new Set([...Object.keys(woods), ...ageings, 'hardwood', 'softwood', ...Object.keys(book.families)]);
    const finishNames = new Set([...classes, ...Object.keys(book.families)]);
    for (const [id, { when }] of rules) {
      for (const name of [...(when?.surface ?? []), ...(when?.layers ?? []), ...(when?.anywhere ?? [])])
        expect(finishNames, id).toContain(name);
      for (const name of when?.wood ?? []) expect(woodNames, id).toContain(name);
    }
    for (const [family, ids] of Object.entries(book.families))
      for (const id of ids) expect(classes.has(id) || woods[id] !== undefined, `${family}: ${id}`).toBe(true);
  });

  it('use every family, every section and every ageing of the woods', () => {
    const named = new Set(
      rules.flatMap(([, { when }]) => [when?.surface, when?.layers, when?.anywhere, when?.wood].flatMap((x) => x ?? [])),
    );
    expect(Object.keys(book.families).filter((family) => !named.has(family))).toEqual([]);
    expect(CARE_SECTIONS.filter((section) => !rules.some(([, rule]) => rule.section === section))).toEqual([]);
    const ageings = new Set(Object.values(woods).flatMap(({ ageing }) => (ageing === undefined ? [] : [ageing.replace(/^ageing\./, '')])));
    expect([...ageings].filter((ageing) => !named.has(ageing))).toEqual([]);
    expect(CARE_FACTS.length).toBeGreaterThan(20);
  });

  it('each name a source or common practice', () => {
    const known =
      /common practice|as agreed|as built|as recorded|as told|templates\/|Smithsonian|NMAAHC|National Park|Western Australian|Danish furniture|Shellac trade|Hazard note|NIOSH|Regulation|CFR|Wood Handbook|NFPA|Flexner|DistList|FPL|Calculated/i;
    for (const [id, { source }] of rules) expect(source, id).toMatch(known);
  });
});
