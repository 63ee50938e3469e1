import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readProposal } from '../../src/read/index.ts';
import { issuedOffers, issueRevision, type Offer } from '../../src/record/index.ts';
import { request } from '../record/workshop.ts';
import { letterText, letterTo, offer } from './answers.ts';
import { openRecordBench } from './record-bench.ts';

/** A workspace with an order whose design and terms were frozen as `issue` freezes them, without pages. */
export async function openOrderedBench(over: Partial<Offer> = {}, paidUp: 1 | 2 | 3 = 3) {
  const bench = openRecordBench();
  const { input, problems } = readProposal(bench.workspace, 'tarrow');
  if (input === undefined) throw new Error(JSON.stringify(problems));
  const inputs = input.files.map(({ path, text }) => ({ path, bytes: Buffer.from(text, 'utf8') }));
  const data = [{ path: 'offer.json', bytes: Buffer.from(JSON.stringify(offer('r1', over)), 'utf8') }];
  await issueRevision(request(bench.folder, 'r1', { inputs, data }));
  const [issued] = issuedOffers(bench.folder);
  if (issued === undefined) throw new Error('nothing was issued');
  for (const person of ['maren', 'idris']) await bench.record(letterText(letterTo(issued, person)));
  await bench.run('confirm tarrow --hold 2027-03-15');
  for (const [i, amount] of ['2539.20', '2539.20', '1269.60'].slice(0, paidUp).entries())
    await bench.run(`pay tarrow --instalment ${i + 1} --amount ${amount}`);
  const sheet = join(bench.folder, 'hand-over.yaml');
  return {
    ...bench,
    sheet: (): string => readFileSync(sheet, 'utf8'),
    /** Replaces texts in the sheet, each of which must be there. */
    change: (...pairs: readonly (readonly [from: string, to: string])[]): void => {
      let text = readFileSync(sheet, 'utf8');
      for (const [from, to] of pairs) {
        if (!text.includes(from)) throw new Error(`the sheet does not hold ${from}`);
        text = text.replaceAll(from, to);
      }
      writeFileSync(sheet, text);
    },
  };
}

/** What a maker writes in the place of each TODO of the draft: an oak top of 2100 x 820 x 28 mm, 745 mm high. */
export const filledIn: readonly (readonly [from: string, to: string])[] = [
  ['finished: TODO', 'finished: 2027-06-10'],
  ['delivered: TODO', 'delivered: 2027-07-01'],
  ['product: TODO', 'product: Tarn Hardwax 41 under Tarn Ceramic'],
  ['batch: TODO', 'batch: A17, C6'],
  ['moisture: [TODO]', 'moisture: [8.9 %, 9.2 %]'],
  [
    'glueUp:\n  moisture: [8.9 %, 9.2 %] # of each board that was measured, as [8.9 %, 9.2 %]\n  humidity: TODO',
    'glueUp:\n  moisture: [8.9 %, 9.2 %]\n  humidity: 47 %',
  ],
  ['finishing:\n  humidity: TODO', 'finishing:\n  humidity: 50 %'],
  ['delivery:\n  humidity: TODO', 'delivery:\n  humidity: 55 %'],
  ['height: { built: TODO }', 'height: { built: 744 }'],
  ['top.length: { built: TODO }', 'top.length: { built: 2103 mm }'],
  ['top.width: { built: TODO }', 'top.width: { built: 82 cm }'],
  ['top.thickness: { built: TODO }', 'top.thickness: { built: 27.5 }'],
  ['inspected: TODO', 'inspected: true'],
  ['signed: TODO', 'signed: false'],
];
