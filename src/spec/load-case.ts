import type { z } from 'zod';
import { choice, force, length, nameOf, number, text } from './field.ts';
import { group, list } from './shape.ts';

/** An entry of templates/load-cases.yaml; bare lengths are mm. */
export function loadCaseSchema() {
  return group(
    'a load case',
    {
      says: text('what happens'),
      kind: choice('whether it presses, pushes or both', ['vertical', 'push', 'both']),
      load: force('the load').optional(),
      push: force('the push').optional(),
      inset: length(
        'mm',
        'how far inside the edge the load stands',
        { from: 0, to: 2000 },
        { more: 'From both edges of a corner for `corner`.' },
      ),
      at: choice('where the load stands', ['worst', 'corner']),
      wanted: number('the safety factor wanted', { from: 0.1, to: 20 }),
      least: number('the least safety factor', { from: 0.1, to: 20 }, { more: 'Below `wanted` but not below this: a warning.' }),
      uses: list('the uses it is for', nameOf('a use'), { least: 1 }),
      source: text('where it comes from'),
    },
    { more: "A screening check of the maker's own, by use: never a standard's name." },
  );
}

/** A screening check of the maker's, by use: never a standard's name. */
export type LoadCaseSpec = z.infer<ReturnType<typeof loadCaseSchema>>;
