/** Each size that a drafted sheet of a hand-over prints can be copied or typed as what was built: it reads back as the agreed one. */
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { agreedSize, overallPaths } from '../../src/cli/handing/as-built.ts';
import { draftSheet } from '../../src/cli/handing/draft-sheet.ts';
import { readProposal } from '../../src/read/index.ts';
import { type LengthStyle, parseLength } from '../../src/units/index.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const demos = ['farrant', 'lindqvaar-wren', 'tollefsen-quill', 'marl-ockley'];
const styles: readonly LengthStyle[] = ['mm', 'in', 'mm+in'];

/** A size on an inch rule is the nearest sixty-fourth: 0.2 mm off at most. A tenth of a millimetre is nearer. */
const WITHIN_MM = 0.5;
const line = /^ {2}(\S+): \{ built: TODO \} # agreed: ([^±]+) ± ([^,]+), by (?:the agreed terms|common practice)$/gm;

describe.each(demos)('%s', (slug) => {
  const { input } = readProposal(root, slug);
  if (input === undefined) throw new Error(`${slug} can not be read`);
  const tables = input.variants.flatMap(({ combinations }) => combinations.slice(0, 1).map(({ table }) => table));

  test.each(styles)('lengths shown in %s', (show) => {
    for (const table of tables)
      for (const units of ['mm', 'in'] as const) {
        const proposal = { ...input.proposal, show, units };
        const ordered = { revision: 'r1', proposal, table, library: input.library };
        const sheet = draftSheet({ slug, piece: 'RS-2027-01', ordered, standing: { reached: [], measured: [] }, people: ['maren'] });
        const printed = [...sheet.matchAll(line)];
        expect(printed.map(([, path]) => path)).toEqual(overallPaths(table));
        expect(printed.length).toBeGreaterThanOrEqual(3);
        for (const [, path = '', agreed = '', tolerance = ''] of printed) {
          const [size, either] = [agreed, tolerance].map((text) => parseLength(text, { bare: units }));
          const mm = agreedSize(table, path)?.mm ?? Number.NaN;
          expect([path, agreed, size?.ok === true && Math.abs(size.value.mm - mm) < WITHIN_MM]).toEqual([path, agreed, true]);
          expect([path, tolerance, either?.ok === true && either.value.mm > 0]).toEqual([path, tolerance, true]);
        }
      }
  });
});
