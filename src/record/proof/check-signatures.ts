import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { checkSignature, type SignatureCheck } from '../../sign/index.ts';
import { isRecordPath } from '../chain/adding.ts';
import type { AnyEntry } from '../chain/entries.ts';
import { recordProblem } from '../chain/record-problem.ts';

const why: Readonly<Record<NonNullable<SignatureCheck['why']>, string>> = {
  'no-signature': 'bears no signature',
  'not-whole': 'was changed or added to after it was signed',
  unreadable: 'bears a signature that can not be read',
  changed: 'was changed after it was signed',
  'not-by-certificate': 'bears a signature that is not by its certificate',
};

/**
 * Scopes that their entries say were signed: the signature holds, and it is by the certificate that the entry names. A file that is
 * not there is another check's matter. Code: `record/signature-broken`.
 */
export function checkSignatures(folder: string, shown: string, entries: readonly AnyEntry[]): readonly Problem[] {
  return entries.flatMap((entry): readonly Problem[] => {
    if (entry.kind !== 'scope' || entry.certificate === undefined || !isRecordPath(entry.file.path)) return [];
    const path = join(folder, ...entry.file.path.split('/'));
    if (lstatSync(path, { throwIfNoEntry: false })?.isFile() !== true) return [];
    const signature = checkSignature(readFileSync(path));
    if (signature.valid && signature.certificateSha256 === entry.certificate) return [];
    const name = `${shown}/${entry.file.path}`;
    const fault = signature.valid
      ? recordProblem('signature-broken', `${name} is signed by another certificate than entry ${entry.n} names`, {
          found: `SHA-256 ${signature.certificateSha256}`,
          allowed: `SHA-256 ${entry.certificate}`,
        })
      : recordProblem('signature-broken', `${name} ${why[signature.why ?? 'unreadable']}`);
    return [{ ...fault, mend: `take ${name} back from your copy or from git` }];
  });
}
