import { describe, expect, test } from 'vitest';
import { assessTable } from '../../src/assess/index.ts';
import { designTable } from '../../src/design/index.ts';
import type { EffectiveSpec } from '../../src/spec/index.ts';
import { demos, readDemo } from '../demos/load.ts';

const inputOf = (slug: string, revision: string) => {
  const { input, problems } = readDemo(slug, revision);
  if (input === undefined) throw new Error(JSON.stringify(problems, undefined, 1));
  return input;
};
const { library } = inputOf('farrant', 'r1');

/** Errors of every variant and combination, all taken as offered. */
const errorsOf = (slug: string, revision: string) => {
  const input = inputOf(slug, revision);
  return input.variants.flatMap(({ variant, combinations }) =>
    combinations.flatMap(({ table }) => {
      const spec: EffectiveSpec = { proposal: input.proposal, variant: { ...variant, offered: true }, table, library: input.library };
      const designed = designTable(spec).table;
      if (designed === undefined) throw new Error(`${slug} ${revision} ${variant.id} can not be made`);
      return assessTable(spec, designed).problems.flatMap((p) => (p.severity === 'error' ? [`${variant.id} ${p.code}`] : []));
    }),
  );
};

describe('templates/load-cases.yaml', () => {
  test("says that every check is the maker's own and names no standard", () => {
    const cases = Object.entries(library.loadCases);
    expect(cases.length).toBeGreaterThanOrEqual(6);
    for (const [id, one] of cases) {
      expect(one.source, id).toMatch(/^the maker's own screening check/);
      expect(`${one.says} ${one.source}`, id).not.toMatch(/\b(ISO|EN|BS|ANSI|BIFMA|JIS|IS|GB|ASTM|DIN)\b/);
      expect(one.least, id).toBeLessThanOrEqual(one.wanted);
      expect(one.load ?? one.push, id).toBeDefined();
    }
  });

  test('the three-legged try is refused, every other design of the demonstration commissions can be offered', () => {
    for (const [slug, revisions] of Object.entries(demos)) {
      for (const revision of revisions) {
        const errors = [...new Set(errorsOf(slug, revision))];
        expect(errors, `${slug} ${revision}`).toEqual(slug === 'farrant' ? ['D assess/below-least'] : []);
      }
    }
  });
});
