import { z } from 'zod';

/** Stages of the work, in order; each is recorded by one command. */
export const workStages = ['timber-bought', 'cut', 'glued', 'finished', 'delivered', 'accepted'] as const;
export type WorkStage = (typeof workStages)[number];
/** How far a proposal is. */
export const stages = ['enquiry', 'proposed', 'approved', 'ordered', ...workStages] as const;
export type Stage = (typeof stages)[number];
/** True where `a` comes after `b`. */
export const isLater = (a: Stage, b: Stage): boolean => stages.indexOf(a) > stages.indexOf(b);

/** Why a table that was brought did not stay. */
export const failedDeliveries = ['nobody-there', 'no-way-in', 'damaged', 'refused', 'weather', 'other'] as const;
export type FailedDelivery = (typeof failedDeliveries)[number];
/** What is done at a table after it was delivered. */
export const services = ['visit', 'repair', 'refinish'] as const;
export type Service = (typeof services)[number];

/** What a claim is about. */
export const claimSubjects = ['crack', 'warp', 'joint', 'finish', 'mark', 'fitting', 'size', 'other'] as const;
export type ClaimSubject = (typeof claimSubjects)[number];
/** What became of a claim. */
export const claimOutcomes = ['covered', 'not-covered', 'goodwill', 'withdrawn'] as const;
export type ClaimOutcome = (typeof claimOutcomes)[number];

/** How something was said. */
export const ways = ['visit', 'telephone', 'message', 'letter', 'other'] as const;
export type Way = (typeof ways)[number];
/** Why an enquiry came to nothing. */
export const lossReasons = ['price', 'time', 'design', 'elsewhere', 'silence', 'withdrawn', 'other'] as const;
export type LossReason = (typeof lossReasons)[number];

const id = z.string().regex(/^[a-z0-9-]{1,40}$/);
const day = z.string().regex(/^\d{4}-\d\d-\d\d$/);
const revision = z.string().regex(/^r[1-9]\d{0,3}$/);
const hex64 = z.string().regex(/^[0-9a-f]{64}$/);
const design = z.string().regex(/^[A-Z0-9-]{1,40}$/);
const currency = z.string().regex(/^[A-Z]{3}$/);
const minor = z.int();
const count = z.int().min(1);

const chosen = z
  .strictObject({
    revision,
    fingerprint: hex64,
    design,
    /** Ids of the options that are on, sorted by code unit. */
    options: z.array(id).readonly(),
    /** Absent where the one who answered sees no price. */
    totalMinor: minor.optional(),
    currency: currency.optional(),
  })
  .readonly();
/** A design with its options, of an exact revision. */
export type Chosen = z.infer<typeof chosen>;

const file = z.strictObject({ path: z.string(), bytes: z.int(), sha256: hex64 }).readonly();
/** Share of water: of wood by its dry mass, of air relative to what it could hold. */
const percent = z.number().min(0).max(100);
/** Codes of problems that the maker insisted against; the reason is sealed. */
const insisted = z.array(z.string()).readonly().optional();

/**
 * Bodies of the chain's entries by kind, as they stand in a line beside `n prev at zone` and, where personal words belong
 * to the entry, `sealed`. `on` is the day on which it happened, `at` the instant at which it was written down.
 */
export const entryBodies = {
  /** Something said or seen. Sealed: `{ person?, who, words }`. Open until settled. */
  note: z.strictObject({
    kind: z.literal('note'),
    on: day,
    how: z.enum(ways),
    person: id.optional(),
    wish: id.optional(),
    design: design.optional(),
  }),
  /** A note was dealt with. Sealed: `{ words }`. */
  'note-settled': z.strictObject({
    kind: z.literal('note-settled'),
    note: count,
    as: z.enum(['wish', 'draft', 'answered', 'dropped']),
    wish: id.optional(),
  }),
  /** A revision was issued. What else the entry says stands in content.json. */
  issued: z.looseObject({ kind: z.literal('issued'), revision, fingerprint: hex64, files: hex64 }),
  /** Plain words of someone who decides: kept, and no approval. Sealed: `{ person?, who, words }`. */
  evidence: z.strictObject({ kind: z.literal('evidence'), on: day, how: z.enum(ways), revision, person: id.optional() }),
  /** A confirmation was drafted of what was understood; an answer to it names this entry. */
  asked: z.strictObject({ kind: z.literal('asked'), on: day, person: id, chosen, evidence: count.optional() }),
  /** Somebody who decides has answered. Sealed: `{ person, name, remark, text, reason? }`. */
  answer: z.strictObject({
    kind: z.literal('answer'),
    on: day,
    person: id,
    verdict: z.enum(['yes', 'no', 'mix']),
    revision,
    fingerprint: hex64,
    /** Of a yes. */
    chosen: chosen.optional(),
    /** Of a no: the design that is refused, where not all are. Of a mix: the design whose top is wanted. */
    design: design.optional(),
    /** Of a mix: the design whose base is wanted. */
    base: design.optional(),
    /** SHA-256 of the terms that were agreed to. */
    terms: hex64.optional(),
    by: z.enum(['code', 'form', 'confirmation', 'paper']),
    /** The entry that asked for it. */
    after: count.optional(),
    insisted,
  }),
  /** A sample or boards were approved or refused. Sealed: `{ person, words }`. */
  sample: z.strictObject({
    kind: z.literal('sample'),
    on: day,
    person: id,
    sample: z.string().min(1).max(40),
    of: z.enum(['sample', 'boards']),
    verdict: z.enum(['yes', 'no']),
    keeps: z.enum(['client', 'maker', 'half-each', 'nobody']),
    picture: file.optional(),
  }),
  /** The maker confirms what was approved; with the first instalment it becomes the order. `replaces`: the confirmation of the order that a change takes the place of. */
  confirmed: z.strictObject({
    kind: z.literal('confirmed'),
    on: day,
    chosen: chosen.unwrap().required({ totalMinor: true, currency: true }),
    answers: z.array(count).readonly(),
    instalmentsMinor: z.array(minor).readonly(),
    holdUntil: day,
    replaces: count.optional(),
    insisted,
  }),
  /** A payment request was made for an instalment (1-based). */
  requested: z.strictObject({
    kind: z.literal('requested'),
    on: day,
    number: z.string().min(1).max(40),
    instalment: count,
    amountMinor: minor,
    currency,
    due: day,
    /** Further instalments that the same paper asks for, each with its own amount. */
    also: z
      .array(z.strictObject({ instalment: count, amountMinor: minor }))
      .min(1)
      .readonly()
      .optional(),
  }),
  /** Money came (positive) or went back (negative). Sealed, where a reason was given: `{ reason }`. */
  paid: z.strictObject({ kind: z.literal('paid'), on: day, amountMinor: minor, currency, instalment: count, insisted }),
  /** A stage of the work is reached. Sealed, where a reason was given: `{ reason }`. */
  stage: z.strictObject({ kind: z.literal('stage'), on: day, stage: z.enum(workStages), insisted }),
  /** The order, or what was approved, is cancelled; what is due by the stage reached. Sealed: `{ person?, reason }`. */
  cancelled: z.strictObject({ kind: z.literal('cancelled'), on: day, stage: z.enum(stages), dueMinor: minor, currency }),
  /** The enquiry came to nothing. Sealed: `{ words }`. */
  lost: z.strictObject({ kind: z.literal('lost'), on: day, reason: z.enum(lossReasons) }),
  /** A file was laid beside the record: a scan of a paper signature, a photograph. */
  attached: z.strictObject({
    kind: z.literal('attached'),
    on: day,
    to: count,
    what: z.enum(['paper-signature', 'photograph', 'letter', 'other']),
    person: id.optional(),
    file,
  }),
  /** The scope of what was approved was made, with its approval in it; signed where a certificate is named. */
  scope: z.strictObject({
    kind: z.literal('scope'),
    on: day,
    revision,
    design,
    answers: z.array(count).readonly(),
    file,
    /** SHA-256 of the certificate in DER. */
    certificate: hex64.optional(),
  }),
  /**
   * The table was brought: as built, with the baseline of every later claim, and how it was accepted; or the delivery failed.
   * Sealed: `{ person?, name?, words?, defects?, timber?, glue? }`, `defects` being what each of them says, in order; `timber` where
   * the boards came from, as it was stated to the maker.
   */
  'hand-over': z.strictObject({
    kind: z.literal('hand-over'),
    on: day,
    /** What the label under the top says: `RS-2026-07`. */
    piece: z.string().regex(/^[A-Za-z0-9](?:[A-Za-z0-9./-]{0,38}[A-Za-z0-9])?$/),
    /** The day of the last coat, from which it cures. */
    finishedOn: day,
    finish: id,
    /** As the tins say. */
    product: z.string().min(1).max(120).optional(),
    batch: z.string().min(1).max(120).optional(),
    /** Where the base bears another finish than the top. */
    baseFinish: z
      .strictObject({ finish: id, product: z.string().min(1).max(120).optional(), batch: z.string().min(1).max(120).optional() })
      .readonly()
      .optional(),
    /** Finishes other than those ordered; `yes` is the entry of somebody's yes to it. */
    otherFinish: z
      .array(z.strictObject({ on: z.enum(['top', 'base']), ordered: id, yes: count.optional() }).readonly())
      .readonly()
      .optional(),
    /** Of each board that was measured at glue-up, in percent of dry mass. */
    moisturePercent: z.array(percent).readonly().optional(),
    /** Relative, in percent. */
    humidityPercent: z
      .strictObject({ glueUp: percent.optional(), finish: percent.optional(), delivery: percent.optional() })
      .readonly()
      .optional(),
    /** Measured on the finished table; `what` is a path of its specification, `yes` the entry of somebody's yes to a difference. */
    asBuilt: z
      .array(
        z
          .strictObject({
            what: z.string().regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,79}$/),
            agreed: z.number(),
            built: z.number(),
            tolerance: z.number().min(0),
            unit: z.enum(['mm', 'kg', 'deg']),
            yes: count.optional(),
          })
          .readonly(),
      )
      .readonly(),
    /** The whole table, as it was weighed. */
    massKg: z.number().positive().optional(),
    /** Taken before loading. */
    photographs: z.array(file).readonly(),
    /** Who accepted it. */
    person: id.optional(),
    acceptance: z
      .strictObject({
        inspected: z.boolean(),
        /** Days by which each is to be put right. */
        defects: z.array(z.strictObject({ by: day }).readonly()).readonly(),
        signed: z.enum(['signed', 'left-unsigned']),
        paper: file.optional(),
      })
      .readonly()
      .optional(),
    failed: z
      .strictObject({ reason: z.enum(failedDeliveries) })
      .readonly()
      .optional(),
    /** Kept after a delivery that failed, or until one. */
    storage: z.strictObject({ from: day, until: day.optional() }).readonly().optional(),
    insisted,
  }),
  /** Work at a table that was delivered; a refinish changes its care from that day on. Sealed: `{ person?, words? }`. */
  service: z.strictObject({
    kind: z.literal('service'),
    on: day,
    what: z.enum(services),
    /** Of a refinish: what it bears now. */
    finish: id.optional(),
    batch: z.string().min(1).max(120).optional(),
    /** The hand-over whose defects were put right, and which of them (1-based). */
    of: count.optional(),
    defects: z.array(count).readonly().optional(),
    photographs: z.array(file).readonly().optional(),
  }),
  /**
   * Something is wrong with a table that was delivered, as its client says: opened, looked at, settled. `of`: the hand-over from which
   * it starts, then the entry that opened it. Sealed: `{ person?, who?, words }`; of a settlement the words are its reason.
   */
  claim: z.strictObject({
    kind: z.literal('claim'),
    on: day,
    event: z.enum(['opened', 'looked-at', 'settled']),
    of: count,
    /** Of an opened one. */
    about: z.enum(claimSubjects).optional(),
    /** Who complains. */
    person: id.optional(),
    /** Measured beside the table: the air, and its boards by dry mass. */
    humidityPercent: percent.optional(),
    celsius: z.number().min(-20).max(50).optional(),
    moisturePercent: z.array(percent).min(1).readonly().optional(),
    /** Measured on it; `what` is a path of its specification. */
    sizes: z
      .array(z.strictObject({ what: z.string().regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,79}$/), mm: z.number().positive() }).readonly())
      .min(1)
      .readonly()
      .optional(),
    photographs: z.array(file).readonly().optional(),
    /** Of a settled one. */
    outcome: z.enum(claimOutcomes).optional(),
  }),
  /**
   * Papers of a table that was handed over, frozen as an edition: its care for whoever has it, and what the client keeps. A new
   * edition takes the place of the one before under the same links.
   */
  care: z.strictObject({
    kind: z.literal('care'),
    on: day,
    /** 1, 2, 3 ...: the folder below `handed-over/`. */
    edition: count,
    /** The hand-over, or the service since which the care is another. */
    of: count,
    /** SHA-256 of the edition's files.json. */
    files: hex64,
  }),
  /** Measured at the work: the moisture of boards in percent of dry mass, or the relative humidity of the air. */
  measured: z.strictObject({
    kind: z.literal('measured'),
    on: day,
    what: z.enum(['moisture', 'humidity']),
    when: z.enum(['delivery-of-timber', 'glue-up', 'finish', 'delivery', 'later']),
    percent: z.array(percent).min(1).readonly(),
  }),
  /** Hours spent on an operation of the take-off; negative where too many were written down. */
  worked: z.strictObject({
    kind: z.literal('worked'),
    on: day,
    operation: z.string().regex(/^[a-z0-9][a-z0-9./-]{0,79}$/),
    hours: z.number().min(-1000).max(1000),
  }),
  /** Timber that went into the table, or came back to the rack as an offcut. */
  used: z.strictObject({
    kind: z.literal('used'),
    on: day,
    what: z.enum(['used', 'offcut']),
    wood: id,
    lengthMm: z.number().positive(),
    widthMm: z.number().positive(),
    thicknessMm: z.number().positive(),
    boards: count,
    moisturePercent: percent.optional(),
  }),
  /** What was learnt from a table, for the next one. Sealed: `{ words }`. */
  lesson: z.strictObject({ kind: z.literal('lesson'), on: day }),
  /** A person's data was erased: sealed files and frozen files that are gone on purpose, by path below the proposal's folder. */
  erased: z.strictObject({ kind: z.literal('erased'), on: day, person: id, files: z.array(z.string()).readonly() }),
} as const;

export type EntryKind = keyof typeof entryBodies;
/** What belongs to a kind of entry. */
export type Body<Kind extends EntryKind> = Readonly<z.infer<(typeof entryBodies)[Kind]>>;
/** Any body that a command may add; `issued` is written by `issueRevision` alone. */
export type AnyBody = { [Kind in Exclude<EntryKind, 'issued'>]: Body<Kind> }[Exclude<EntryKind, 'issued'>];

/** An entry with what belongs to its kind. */
export type EntryOf<Kind extends EntryKind> = Body<Kind> & {
  readonly n: number;
  readonly prev: string;
  readonly at: string;
  readonly zone: string;
  readonly sealed?: { readonly file: string; readonly digest: string };
};
export type AnyEntry = { [Kind in EntryKind]: EntryOf<Kind> }[EntryKind];
