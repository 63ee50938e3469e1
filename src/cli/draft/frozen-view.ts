import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView, DesignView } from '../../client/index.ts';
import { shownFingerprint } from '../../client/index.ts';
import type { Sheet } from '../../draw/index.ts';
import { canonicalJson, type Json, type NamedBytes, sha256Hex } from '../../record/index.ts';
import type { ChoiceView } from './issue-pages.ts';

const sheetsName = 'sheets.json';
const sheetsFormat = 'leafwright/sheets/1';
const choicesFormat = 'leafwright/choices/1';

/** The drawings that a scope is made of. Others are held by digest alone: they are in the page. */
const kept = (design: DesignView): readonly Sheet[] => [design.picture, ...(design.sheet === undefined ? [] : [design.sheet])];

/**
 * data/sheets.json of a revision: the marks of the drawings that its scopes show, by their digest, so that the scope with its
 * approval is made of the very drawings that were approved, whatever the program draws by then.
 */
export function sheetsFile(designs: readonly DesignView[]): NamedBytes {
  const sheets = Object.fromEntries(
    designs.flatMap(kept).map((sheet) => {
      const text = canonicalJson(sheet as unknown as Json);
      return [sha256Hex(text), sheet] as const;
    }),
  );
  return { path: sheetsName, bytes: Buffer.from(canonicalJson({ format: sheetsFormat, sheets: sheets as unknown as Json }), 'utf8') };
}

const isSheet = (value: unknown): value is Json => typeof value === 'object' && value !== null && 'marks' in value && 'widthMm' in value;

/**
 * A computed value as canonical JSON. A drawing is held by the digest of its marks alone: so the fingerprint covers it, and
 * the drawing itself stands among what was made.
 */
export function dataFile(path: string, value: object): NamedBytes {
  const text = JSON.stringify(value, (_key, field: unknown) => (isSheet(field) ? { sha256: sha256Hex(canonicalJson(field)) } : field));
  return { path, bytes: Buffer.from(canonicalJson(JSON.parse(text) as Json), 'utf8') };
}

/** Name of the file with what a page holds, and with its designs in every other choice of options. */
export const viewName = (page: string, isFirst: boolean): string => (isFirst ? 'client.json' : `client-${page}.json`);
const choicesName = (view: string): string => view.replace(/^client/, 'choices');

/** data/choices.json of a page. */
export function choicesFile(page: string, isFirst: boolean, choices: readonly ChoiceView[]): NamedBytes {
  return dataFile(choicesName(viewName(page, isFirst)), { format: choicesFormat, choices });
}

function readJson(folder: string, revision: string, name: string): unknown {
  return JSON.parse(readFileSync(join(folder, 'issued', revision, 'data', name), 'utf8'));
}

/** Names of the views below a revision's `data/`: that of its first page, then those of others. */
function viewNames(folder: string, revision: string): readonly string[] {
  const names = readdirSync(join(folder, 'issued', revision, 'data')).filter((name) => /^client(?:-[a-z0-9-]+)?\.json$/.test(name));
  return names.toSorted((a, b) => Number(b === 'client.json') - Number(a === 'client.json') || (a < b ? -1 : 1));
}

function withFingerprint(view: ClientView, fingerprint: string): ClientView {
  return { ...view, revision: { ...view.revision, fingerprint: shownFingerprint(fingerprint) } };
}

/**
 * What was frozen with a revision for the first page of an audience, with its fingerprint; drawings only by their digest. Nothing
 * where no page was for it. Throws where the revision is not there.
 */
export function frozenPage(
  folder: string,
  revision: string,
  fingerprint: string,
  audience: ClientView['audience'],
): ClientView | undefined {
  const views = viewNames(folder, revision).map((name) => readJson(folder, revision, name) as ClientView);
  const view = views.find((one) => one.audience === audience);
  return view === undefined ? undefined : withFingerprint(view, fingerprint);
}

/** A page of a frozen revision; `suffix` tells its folders and files from those of the first page: empty, or `-viewer`. */
export interface FrozenPage {
  readonly suffix: string;
  readonly view: ClientView;
}

/** All pages of a frozen revision, first one first. Throws where the revision is not there. */
export function frozenPages(folder: string, revision: string, fingerprint: string): readonly FrozenPage[] {
  return viewNames(folder, revision).map((name) => ({
    suffix: name.slice('client'.length, -'.json'.length),
    view: withFingerprint(readJson(folder, revision, name) as ClientView, fingerprint),
  }));
}

/**
 * The same view with a design as it was frozen in a choice of options that is not the standard one; nothing where it was not, as in
 * revisions frozen before there was any. `suffix`: of its page, where it is not the first of its audience.
 */
export function withChoice(
  folder: string,
  view: ClientView,
  design: string,
  options: readonly string[],
  suffix?: string,
): ClientView | undefined {
  const { id } = view.revision;
  const name =
    suffix === undefined
      ? viewNames(folder, id).find((one) => (readJson(folder, id, one) as ClientView).audience === view.audience)
      : `client${suffix}.json`;
  if (name === undefined || !existsSync(join(folder, 'issued', id, 'data', choicesName(name)))) return undefined;
  const { choices } = readJson(folder, id, choicesName(name)) as { readonly choices: readonly ChoiceView[] };
  const chosen = choices.find((one) => one.design === design && one.options.join() === options.join());
  if (chosen === undefined) return undefined;
  return { ...view, designs: view.designs.map((one) => (one.id === design ? chosen.view : one)) };
}

/** The same of the page of the one who pays, else of the first. */
export function frozenWords(folder: string, revision: string, fingerprint: string): ClientView {
  const paying = frozenPage(folder, revision, fingerprint, 'payer');
  return paying ?? withFingerprint(readJson(folder, revision, 'client.json') as ClientView, fingerprint);
}

/** The same with the drawings of its scopes; nothing where a drawing was not kept or is not the one whose digest was frozen. */
export function withDrawings(folder: string, view: ClientView): ClientView | undefined {
  let sheets: Readonly<Record<string, Sheet>>;
  try {
    sheets = (readJson(folder, view.revision.id, sheetsName) as { readonly sheets: Readonly<Record<string, Sheet>> }).sheets;
  } catch {
    return undefined;
  }
  const sheetOf = (held: Sheet): Sheet | undefined => {
    const { sha256 } = held as unknown as { readonly sha256: string };
    const sheet = Object.hasOwn(sheets, sha256) ? sheets[sha256] : undefined;
    return sheet !== undefined && sha256Hex(canonicalJson(sheet as unknown as Json)) === sha256 ? sheet : undefined;
  };
  const designs = view.designs.map((design) => {
    const picture = sheetOf(design.picture);
    const sheet = design.sheet === undefined ? undefined : sheetOf(design.sheet);
    const isWhole = picture !== undefined && (design.sheet === undefined) === (sheet === undefined);
    return isWhole ? { ...design, picture, ...(sheet === undefined ? {} : { sheet }) } : undefined;
  });
  const whole = designs.flatMap((design) => design ?? []);
  return whole.length === designs.length ? { ...view, designs: whole } : undefined;
}
