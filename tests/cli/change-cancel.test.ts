/** `cancel` on the first of the worked commissions. People, prices and places are invented; what is due is reckoned in tests/price. */
import { describe, expect, test } from 'vitest';
import { openSeal } from '../../src/record/index.ts';
import { changeBench } from './change-bench.ts';

describe('cancelling an order', () => {
  test('glued: work and timber, told and not recorded; recorded with --yes alone', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut', 'glued');
    const before = bench.entries().length;
    const { code, out, err } = await bench.run('cancel', '--who', 'maren', '--reason', 'they move abroad');
    expect([code, err]).toEqual([0, '']);
    expect(`\n${out}\n`).toMatchInlineSnapshot(`
      "
      tollefsen-quill cancelled at the stage glued: the work done and what was bought for it

        Design, drawing, client contact          7.00 h     €470.39
        Buying and selecting timber              3.00 h     €201.60
        Rough cut, joint, plane, thickness       2.35 h     €157.92
        Edges jointed, matched, glued, cleaned   3.15 h     €211.68
        Glue-up set up                           1.10 h     €73.92
        Panel trimmed and squared                0.50 h     €33.60
        Mortise and tenon                        6.40 h     €430.07
        Leg, tapered, splayed or shaped          5.20 h     €349.43
        Dry fit and assembly                     5.00 h     €335.99
        Angled shoulders of the splayed frame    3.00 h     €201.60
        European oak, 40 mm                      0.112 m³   €445.54
        European oak, 65 mm                      0.019 m³   €86.70
        Wooden button with screw                 16         €16.85
        Levelling glide                          4          €14.98

        Before tax   €3,030.27
        Tax          €606.05
        Due          €3,636.32
        Paid         €2,503.20
        Still due    €1,133.12

      This follows your own terms and is no legal advice: a right of withdrawal, and local law, come first.

      Nothing was recorded. To record it: leafwright cancel tollefsen-quill --who maren --reason "why" --yes
      "
    `);
    expect(bench.entries()).toHaveLength(before);

    const told = JSON.parse((await bench.run('cancel', '--json')).out);
    expect(told).toMatchObject({ schema: 'leafwright/cancel/1', stage: 'glued', paidMinor: 250320, rule: { kind: 'work-and-timber' } });
    const recorded = await bench.run('cancel', '--who', 'maren', '--reason', 'they move abroad', '--yes', '--on', '2027-03-09');
    expect([recorded.code, recorded.err]).toEqual([0, '']);
    const entry = bench.entries().at(-1);
    expect(entry).toMatchObject({ kind: 'cancelled', on: '2027-03-09', stage: 'glued', dueMinor: told.dueMinor, currency: 'EUR' });
    expect(JSON.stringify(entry)).not.toContain('abroad');
    expect(entry?.sealed === undefined ? undefined : openSeal(bench.folder, entry.sealed)).toEqual({
      data: { person: 'maren', reason: 'they move abroad' },
    });
    expect((await bench.run('cancel')).err).toMatchInlineSnapshot(`
      "error[cli/is-closed]: tollefsen-quill is closed already
        found: cancelled on 2027-03-09
        to mend: a revision that is issued takes it up again: leafwright revise tollefsen-quill

      1 error. Nothing was recorded."
    `);
  });

  test('before timber is bought: at most 10 % of the price', async () => {
    const bench = await changeBench();
    await bench.order();
    const due = JSON.parse((await bench.run('cancel', '--json')).out);
    // 7 h x 57.93 = 405.51, with 2 + 14 % 470.39; under 10 % of 5,215.00. With 20 % tax 564.47; 2,503.20 is paid.
    expect(due).toMatchObject({ stage: 'ordered', rule: { kind: 'design-hours' }, dueMinor: 56447, paidMinor: 250320 });
    expect(due.open.minor).toBe(56447 - 250320);
    expect((await bench.run('cancel')).out).toMatch(/To be returned +€1,938\.73/);
  });

  test('finished: the price', async () => {
    const bench = await changeBench();
    await bench.order('timber-bought', 'cut', 'glued', 'finished');
    expect(JSON.parse((await bench.run('cancel', '--json')).out)).toMatchObject({ dueMinor: 625800, rule: { kind: 'price' } });
  });

  test('what was approved and is no order yet owes nothing', async () => {
    const bench = await changeBench();
    const offer = await bench.issue('r3');
    expect((await bench.run('cancel')).err).toMatchInlineSnapshot(`
      "error[cli/cancel-nothing]: nothing was approved that could be cancelled
        found: it is proposed
        to mend: an enquiry that comes to nothing is lost: leafwright lost tollefsen-quill --help

      1 error. Nothing was recorded."
    `);
    await bench.confirm(offer, ['ceramic']);
    const { out } = await bench.run('cancel');
    expect(out).toContain('tollefsen-quill cancelled at the stage approved: there is no order yet, so nothing is due');
    await expect(bench.run('cancel', '--yes')).rejects.toMatchObject({ message: '--reason is missing: why is it cancelled?' });
    expect((await bench.run('cancel', '--yes', '--reason', 'too late for the wedding')).code).toBe(0);
    expect(bench.entries().at(-1)).toMatchObject({ kind: 'cancelled', stage: 'approved', dueMinor: 0 });
  });

  test('what is delivered is not cancelled', async () => {
    const bench = await changeBench();
    await bench.order('delivered');
    expect((await bench.run('cancel')).err).toMatchInlineSnapshot(`
      "error[cli/cancel-delivered]: the table is delivered, so its order can not be cancelled
        found: it is delivered
        to mend: returning it, or what is wrong with it, is another matter: see your terms and local law

      1 error. Nothing was recorded."
    `);
  });
});
