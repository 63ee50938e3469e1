import { expect, test } from 'vitest';
import { changeBench } from './change-bench.ts';

test('a proposal.yaml that is not edited in place: said in one sentence, and nothing is written', async () => {
  const bench = await changeBench();
  await bench.order('timber-bought', 'cut', 'glued');
  bench.draft(900);
  bench.edit('proposal.yaml', /^lines: \{\}/m, '? lines\n: {}');
  const before = bench.read('proposal.yaml');
  await expect(bench.run('change', '--insist', 'they move the radiator', '--write')).rejects.toMatchObject({
    message: expect.stringMatching(/^proposal\.yaml: lines\.change-\w+ can not be edited: /),
    mend: 'leave --write out, and write revision.change and the lines by hand',
  });
  expect(bench.read('proposal.yaml')).toBe(before);
  expect((await bench.run('change', '--insist', 'they move the radiator')).code).toBe(0);
});
