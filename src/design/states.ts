import type { Problem } from '../problem/index.ts';
import type { Vec3 } from '../solid/index.ts';
import type { EffectiveSpec } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import { idsMatching, unknownPart } from './joints/named.ts';
import type { Part, TableState } from './table.ts';

/** The table as it stands, first, then the states that the maker named: parts moved or gone; `*` at the end of a name stands for many. */
export function statesOf(spec: EffectiveSpec, parts: readonly Part[], problems: Problem[]): readonly TableState[] {
  const ids = parts.map((p) => p.id);
  const named = Object.entries(spec.table.states)
    .sort(([a], [b]) => byCodeUnit(a, b))
    .map(([id, state]): TableState => {
      const path = ['table', 'states', id];
      const find = (name: string, at: string): readonly string[] => {
        const found = idsMatching(name, ids);
        if (found.length === 0) problems.push(unknownPart(name, [...path, at], ids));
        return found;
      };
      const moved: Record<string, Vec3> = {};
      for (const [name, by] of Object.entries(state.move)) {
        for (const part of find(name, 'move')) moved[part] = [by[0].mm, by[1].mm, by[2].mm];
      }
      return { id, says: state.says, moved, without: state.without.flatMap((name) => find(name, 'without')) };
    });
  return [{ id: 'standing', says: 'as it stands', moved: {}, without: [] }, ...named];
}
