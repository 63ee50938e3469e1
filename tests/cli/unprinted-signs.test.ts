import { expect, test } from 'vitest';
import { openFonts } from '../../src/write/index.ts';
import { told, workspaceOf } from './issue-workspace.ts';

const { hasSign } = openFonts();

/** One letter each of what is claimed to be printed, and of what is not. @source Unicode 17.0, the blocks named */
test('the faces of papers hold Latin, Greek and Cyrillic letters and the signs of trade, and no other script', () => {
  const latin = ['ä', 'ø', 'ş', 'ț', 'ő', 'ł', 'ễ', 'ẞ', 'ñ', 'ð', 'Ž'];
  const other = ['α', 'Ω', 'ж', 'Щ', '€', '£', '$', '×', '−', '″', '⅝', '²', '°', '≥'];
  expect([...latin, ...other].filter((sign) => !hasSign(sign))).toEqual([]);
  expect(['א', 'ع', '漢', 'か', 'ह', '한', '😀'].filter(hasSign)).toEqual([]);
});

test('a name that papers would show as boxes is told ahead, where it stands, and is not issued', async () => {
  const { run, change } = workspaceOf('oak', 'tollefsen-quill/r1');
  const at = ['--as-of', '2026-02-12'];
  expect(told((await run('check', 'oak', ...at)).stderr)['cli/unprinted-sign']).toBeUndefined();
  change('proposals/oak/proposal.yaml', 'name: Idris Quill,', 'name: Idris קוויל,');
  change('proposals/oak/variants/b.yaml', /^name: /m, 'name: 👍 ');
  const ahead = told((await run('check', 'oak', ...at)).stderr)['cli/unprinted-sign'] ?? [];
  expect(ahead.length).toBe(2);
  expect(ahead[0]).toMatch(
    /^warning\[cli\/unprinted-sign\]: papers have no letters for a text, .*\n {2}proposals\/oak\/proposal\.yaml:\d+:\d+ {2}deciders\.people\.idris\.name/,
  );
  expect(ahead[0]).toContain('found ק ו י ל');
  expect(ahead[1]).toContain('proposals/oak/variants/b.yaml');
  const { status, stderr } = await run('issue', 'oak', ...at);
  expect([status, told(stderr)['cli/unprinted-sign']?.length]).toEqual([1, 2]);
  expect(stderr).toContain('Nothing was issued.');
});
