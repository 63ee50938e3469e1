import { lstatSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { issuedEntries, readChain } from '../chain/chain.ts';
import { revisionFolder } from '../disk/revision.ts';

const audience = z.enum(['payer', 'no-price']);
const hex64 = z.string().regex(/^[0-9a-f]{64}$/);

/**
 * data/offer.json of an issued revision: what can be answered, and by whom; without names. An answer, the order, payments
 * and a change are held against it. Amounts in minor units with tax.
 */
export const offerSchema = z.strictObject({
  format: z.literal('leafwright/offer/1'),
  proposal: z.string(),
  revision: z.string(),
  language: z.string(),
  currency: z.string(),
  date: z.string(),
  validUntil: z.string(),
  level: z.enum(['sketch', 'agreed', 'full']),
  /** Who decides, by id, sorted by code unit; and what each of them was shown. */
  rule: z.enum(['all', 'any']),
  people: z.array(z.strictObject({ id: z.string(), audience }).readonly()).readonly(),
  /** SHA-256 of the terms' text as each audience was shown it. */
  terms: z.strictObject({ payer: hex64.optional(), 'no-price': hex64.optional() }).readonly(),
  sample: z.string().optional(),
  designs: z
    .array(
      z
        .strictObject({
          id: z.string(),
          name: z.string(),
          /** Ids of its options, sorted by code unit. */
          options: z.array(z.string()).readonly(),
          /** Every allowed combination; `options` sorted by code unit. */
          combinations: z
            .array(
              z
                .strictObject({
                  options: z.array(z.string()).readonly(),
                  netMinor: z.int(),
                  totalMinor: z.int(),
                  instalmentsMinor: z.array(z.int()).readonly(),
                })
                .readonly(),
            )
            .readonly(),
        })
        .readonly(),
    )
    .readonly(),
  /** When each instalment is paid, in the proposal's words. */
  instalments: z.array(z.strictObject({ percent: z.number(), when: z.string() }).readonly()).readonly(),
  /** Of a change to an order: the confirmed revision and design that it changes, the stage from which it was priced, and the one to which the work goes back once it takes the order's place. */
  change: z
    .strictObject({ of: z.string(), design: z.string(), stage: z.string(), again: z.enum(['ordered', 'glued']).optional() })
    .readonly()
    .optional(),
});

/** What a revision offers. */
export type Offer = Readonly<z.infer<typeof offerSchema>>;
/** The same, as issued. */
export type IssuedOffer = Offer & { readonly fingerprint: string; readonly n: number };

/** Name of the file below a revision's `data/`. */
export const offerName = 'offer.json';

/** Offers of the issued revisions, oldest first; a revision issued before there were any is left out. */
export function issuedOffers(proposalFolder: string): readonly IssuedOffer[] {
  return issuedEntries(readChain(proposalFolder)).flatMap(({ revision, fingerprint, n }) => {
    const path = join(revisionFolder(proposalFolder, revision), 'data', offerName);
    if (lstatSync(path, { throwIfNoEntry: false })?.isFile() !== true) return [];
    try {
      const read = offerSchema.safeParse(JSON.parse(readFileSync(path, 'utf8')));
      return read.success ? [{ ...read.data, fingerprint, n }] : [];
    } catch {
      return [];
    }
  });
}
