import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../../client/index.ts';
import {
  type AnyEntry,
  type Approval,
  addEntry,
  type EntryOf,
  openSeal,
  sealFolder,
  sha256Hex,
  standingOf,
  verifyProposal,
} from '../../record/index.ts';
import { type SigningKey, signPdf } from '../../sign/index.ts';
import { type ApprovedScope, writeScope } from '../../write/client/index.ts';
import type { ExitCode, Given } from '../command.ts';
import { openDocumentFonts } from '../draft/fonts.ts';
import { withChoice, withDrawings } from '../draft/frozen-view.ts';
import { nextStep } from '../next-step.ts';
import { refusal } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { openOwnKey, signProblem } from './key-file.ts';
import { answering, entryDigest, noPage, openPaperDesk, type PaperDesk, paperPage } from './papers.ts';

const schema = 'leafwright/scope/1';

/** A text of a sealed file; nothing where it was erased or is not there. */
function sealedText(folder: string, entry: AnyEntry, field: string): string | undefined {
  if (entry.sealed === undefined) return undefined;
  const opened = openSeal(folder, entry.sealed);
  const value = typeof opened === 'string' ? undefined : opened.data[field];
  return typeof value === 'string' && value !== '' ? value : undefined;
}

/** The approved sample: the last yes to one, where nobody said no to it later. */
function sampleOf(desk: Pick<PaperDesk, 'standing'>, names: ReadonlyMap<string, string>): ApprovedScope['sample'] {
  const words = desk.standing.samples.filter((one) => one.of === 'sample');
  const yes = words.findLast((one) => one.verdict === 'yes' && !words.some((no) => no.sample === one.sample && no.verdict === 'no'));
  if (yes === undefined) return undefined;
  const name = names.get(yes.person);
  return { id: yes.sample, on: yes.on, keeps: yes.keeps, ...(name === undefined ? {} : { name }) };
}

/** What the scope prints of an approval: from the offer that was frozen, and the record. */
export function approvedScope(
  desk: Pick<PaperDesk, 'folder' | 'offers' | 'standing' | 'at'>,
  view: ClientView,
  approval: Approval,
  key: SigningKey | undefined,
  isAsChosen: boolean,
): ApprovedScope | undefined {
  const { chosen, answers } = approval;
  const offer = desk.offers.find(({ revision }) => revision === chosen.revision);
  const design = offer?.designs.find(({ id }) => id === chosen.design);
  const combination = design?.combinations.find(({ options }) => options.join() === chosen.options.join());
  const offered = view.letter?.designs.find(({ id }) => id === chosen.design);
  const byDefault = offered?.combinations.find(({ isDefault }) => isDefault)?.options ?? [];
  const standard = design?.combinations.find(
    ({ options }) => options.length === byDefault.length && options.every((id) => byDefault.includes(id)),
  );
  if (combination === undefined || standard === undefined) return undefined;
  const names = new Map(
    answers.flatMap((answer) => {
      const name = sealedText(desk.folder, answer, 'name');
      return name === undefined ? [] : [[answer.person, name] as const];
    }),
  );
  const confirmed = desk.standing.confirmed;
  const isConfirmed = confirmed !== undefined && answers.every(({ n }) => confirmed.answers.includes(n));
  const sample = sampleOf(desk, names);
  const last =
    answers
      .map(({ at }) => at)
      .toSorted()
      .at(-1) ?? desk.at;
  return {
    options: chosen.options,
    isAsChosen,
    currency: chosen.currency,
    standardNetMinor: standard.netMinor,
    netMinor: combination.netMinor,
    totalMinor: chosen.totalMinor,
    instalmentsMinor: combination.instalmentsMinor,
    answers: answers.map((answer) => {
      const name = names.get(answer.person);
      const remark = sealedText(desk.folder, answer, 'remark');
      return {
        ...{ on: answer.on, by: answer.by, n: answer.n, digest: entryDigest(answer), insisted: answer.insisted !== undefined },
        ...(name === undefined ? {} : { name }),
        ...(remark === undefined ? {} : { remark }),
      };
    }),
    ...(isConfirmed ? { confirmedOn: confirmed.on } : {}),
    fingerprint: chosen.fingerprint,
    ...(sample === undefined ? {} : { sample }),
    ...(key === undefined ? {} : { signature: { certificateSha256: key.certificateSha256, at: last } }),
  };
}

/** Why nothing can be made yet. */
function notApproved({ slug, standing }: PaperDesk) {
  const { newest, waitingFor, disagree } = standing;
  if (newest === undefined) return refusal('not-approved', `nothing of ${slug} was issued yet`, { mend: `leafwright issue ${slug}` });
  if (disagree)
    return refusal('not-approved', `those who decide on ${slug} ${newest.revision} have not agreed`, {
      mend: 'settle it with them, then issue what they agree on',
    });
  const who = waitingFor.map(({ person }) => person).join(', ');
  return refusal('not-approved', `${slug} ${newest.revision} is not approved yet`, {
    ...(who === '' ? {} : { found: `no answer yet from ${who}` }),
    mend: `record the answer: leafwright record ${slug}`,
  });
}

const madeFor =
  (approval: Approval, seesPrice: boolean) =>
  (scope: EntryOf<'scope'>): boolean =>
    scope.file.path.includes(withoutPrice) !== seesPrice &&
    scope.revision === approval.chosen.revision &&
    scope.design === approval.chosen.design &&
    scope.answers.join() === approval.answers.map(({ n }) => n).join();

/** What tells a scope without prices from the other of the same approval. */
export const withoutPrice = '-no-price';

const underOtherName = 'it stands under another name than yours, and a signature would tell yours';

/** A name that no scope before it has: those stand for good. */
function fileName(desk: PaperDesk, { chosen }: Approval, suffix: string): string {
  const name = `${sealFolder}/scope-${chosen.revision}-${chosen.design.toLowerCase()}${suffix}`;
  const taken = new Set(desk.standing.scopes.map(({ file }) => file.path));
  for (let count = 1; ; count += 1) {
    const path = count === 1 ? `${name}.pdf` : `${name}-${count}.pdf`;
    if (!taken.has(path)) return path;
  }
}

/** `scope`: makes the scope of what was approved, with the approval in it, once; signed where a key is set up, once more where it was made before that. */
export async function runScope(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { switches } = given;
  const { refuse, warn } = answering(schema, 'Nothing was made.', switches, terminal);
  const opened = openPaperDesk(given);
  const { desk } = opened;
  if (desk === undefined) return refuse(opened.problems);
  const faults = verifyProposal(desk.folder, desk.shown, desk.slug).problems.filter(({ severity }) => severity === 'error');
  if (faults.length > 0) return refuse(faults);
  const { approved: approval } = desk.standing;
  if (approval === undefined) return refuse([notApproved(desk)]);
  const seesPrice = !switches.has('without-price');
  const standing = desk.standing.scopes.findLast(madeFor(approval, seesPrice));
  if (standing?.certificate !== undefined || (standing !== undefined && switches.has('unsigned')))
    return tell(desk, standing, false, given, terminal);

  const { revision } = approval.chosen;
  const told = paperPage(desk, approval.chosen, seesPrice ? 'payer' : 'no-price');
  if (told === undefined) return refuse([noPage(desk, revision, seesPrice ? 'with prices' : 'without prices')]);
  const asChosen = withChoice(desk.folder, told, approval.chosen.design, approval.chosen.options);
  const view = withDrawings(desk.folder, asChosen ?? told);
  // A page under another name keeps the maker's to itself: so does its scope.
  const isUnderOtherName = told.maker.name !== desk.maker;
  const kept = switches.has('unsigned') || isUnderOtherName ? { problems: [] } : openOwnKey();
  const key = 'key' in kept ? kept.key : undefined;
  const hushed = isUnderOtherName ? underOtherName : undefined;
  // One that was made before there was a key is made once more, signed; where that can not be, it stands.
  if (standing !== undefined && key === undefined) return tell(desk, standing, false, given, terminal, kept.problems[0]?.title ?? hushed);
  if (kept.problems.length > 0) return refuse(kept.problems);
  const scope = view === undefined ? undefined : approvedScope(desk, view, approval, key, asChosen !== undefined);
  if (view === undefined || scope === undefined)
    return refuse([
      refusal('drawings-not-kept', `the drawings of ${desk.slug} ${approval.chosen.revision} were not kept with it`, {
        mend: `use its own scope, ${desk.shown}/issued/${approval.chosen.revision}/out/, with the answers as recorded`,
      }),
    ]);
  const { signature } = scope;
  if (key !== undefined && signature !== undefined && (signature.at < key.from || signature.at > key.until)) {
    const notValid = signProblem('key-not-valid', 'the certificate of your key does not hold on the day of the approval', {
      found: signature.at.slice(0, 10),
      allowed: `${key.from.slice(0, 10)} to ${key.until.slice(0, 10)}`,
      mend: `leafwright scope ${desk.slug} --unsigned`,
    });
    return standing === undefined ? refuse([notValid]) : tell(desk, standing, false, given, terminal, notValid.title);
  }

  terminal.progress(`making the scope of ${desk.slug} ${approval.chosen.revision}`);
  const unsigned = await writeScope(view, approval.chosen.design, openDocumentFonts(), scope);
  const bytes = key === undefined ? unsigned : await signPdf(unsigned, key);
  const path = fileName(desk, approval, seesPrice ? '' : withoutPrice);
  const added = await addEntry({ folder: desk.folder, shown: desk.shown, at: desk.at, zone: desk.zone }, (entries) => {
    const now = standingOf(entries, desk.offers, desk.today).approved;
    if (now === undefined || now.answers.map(({ n }) => n).join() !== approval.answers.map(({ n }) => n).join())
      return {
        problems: [
          refusal('not-approved', `the answers to ${desk.slug} changed while its scope was made`, {
            mend: `leafwright scope ${desk.slug}`,
          }),
        ],
      };
    return {
      body: {
        kind: 'scope',
        on: desk.today,
        revision: approval.chosen.revision,
        design: approval.chosen.design,
        answers: approval.answers.map(({ n }) => n),
        file: { path, bytes: bytes.length, sha256: sha256Hex(bytes) },
        ...(key === undefined ? {} : { certificate: key.certificateSha256 }),
      },
      files: [{ path, bytes }],
    };
  });
  const { entry } = added;
  if (entry === undefined || entry.kind !== 'scope') return refuse(added.problems);
  warn(added.problems);
  return tell(desk, entry, true, given, terminal, hushed);
}

/** Says what was made or stands; `unsignedFor` is why it is not signed. */
function tell(
  desk: PaperDesk,
  scope: EntryOf<'scope'>,
  isNew: boolean,
  { switches }: Given,
  terminal: Terminal,
  unsignedFor?: string,
): ExitCode {
  const shown = `${desk.shown}/${scope.file.path}`;
  const isThere = existsSync(join(desk.folder, ...scope.file.path.split('/')));
  if (switches.has('json')) {
    const { n, revision, design, file, certificate } = scope;
    terminal.say(
      JSON.stringify(
        { schema, proposal: desk.slug, made: isNew, entry: n, revision, design, file: { ...file, path: shown }, certificate, problems: [] },
        undefined,
        2,
      ),
    );
    return 0;
  }
  if (isNew) terminal.say(`The scope of ${scope.revision}, design ${scope.design}, with its approval is ${terminal.accent(shown)}`);
  else
    terminal.say(
      `The scope stands as it was made on ${scope.on}: ${shown}${isThere ? '' : ' (not there now: leafwright verify says more)'}`,
    );
  terminal.say(`  entry         ${scope.n} of the record`);
  terminal.say(`  SHA-256       ${(scope.file.sha256.match(/.{8}/g) ?? []).join(' ')}`);
  terminal.say(
    scope.certificate === undefined
      ? `  signature     none: ${unsignedFor ?? (switches.has('unsigned') ? 'as you asked' : 'no key was set up (leafwright key new)')}`
      : `  signature     by certificate ${(scope.certificate.match(/.{8}/g) ?? []).join(' ')}`,
  );
  const audiences = desk.offers.find(({ revision }) => revision === scope.revision)?.people.map(({ audience }) => audience) ?? [];
  const toWhom = audiences.includes('no-price')
    ? scope.file.path.includes(withoutPrice)
      ? 'it has no price: send it to those who were shown none'
      : `it shows the price: send it to the one who pays; for the others leafwright scope ${desk.slug} --without-price`
    : 'send it to everyone who decided';
  const after = desk.standing.confirmed === undefined ? `leafwright confirm ${desk.slug}` : nextStep(desk.standing, desk.today);
  terminal.say(`\nNext: ${toWhom}${after === '' ? '' : `; then ${after}`}`);
  return 0;
}
