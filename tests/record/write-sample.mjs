/**
 * Writes the records of a small proposal as the program makes them now, into a folder that is not there yet: `tarrow` with an
 * entry of every kind and a revision of two pages, and `erased`, the same after a person was erased. A sample once kept is
 * never written again: later versions must read it as it is.
 *
 *     npx node tests/record/write-sample.mjs tests/record/samples/record-5
 */
import { cpSync, existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { eraseRecords, issueRevision } from '../../src/record/index.ts';
import { offered, place, tellAll, tellDelivery } from './told.ts';

const [sample = ''] = process.argv.slice(2);
if (sample === '' || existsSync(sample)) throw new Error('name a folder that is not there yet');
const folder = join(sample, 'tarrow');
mkdirSync(folder, { recursive: true });
await tellAll(folder);
const last = offered(folder, 'r3', { at: '2027-03-05T09:30:00Z' });
await issueRevision({ ...last, page: 'maren', others: [{ page: 'idris', random: new Uint8Array(16).fill(9), make: last.make }] });
await tellDelivery(folder);
const after = join(sample, 'erased');
cpSync(folder, after, { recursive: true });
await eraseRecords(place(after, '2031-09-01T09:00:00Z'), { person: 'maren', names: ['Maren Tollefsen'], on: '2031-09-01' });
