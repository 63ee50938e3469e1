import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../client/index.ts';
import { shownFingerprint } from '../client/index.ts';
import type { Sheet } from '../draw/index.ts';
import { canonicalJson, type Json, type NamedBytes, sha256Hex } from '../record/index.ts';

const sheetsName = 'sheets.json';
const sheetsFormat = 'leafwright/sheets/1';

/** The drawings that a scope is made of. Others are held by digest alone: they are in the page. */
const kept = (design: ClientView['designs'][number]): readonly Sheet[] => [
  design.picture,
  ...(design.sheet === undefined ? [] : [design.sheet]),
];

/**
 * data/sheets.json of a revision: the marks of the drawings that its scopes show, by their digest, so that the scope with its
 * approval is made of the very drawings that were approved, whatever the program draws by then.
 */
export function sheetsFile(view: ClientView): NamedBytes {
  const sheets = Object.fromEntries(
    view.designs.flatMap(kept).map((sheet) => {
      const text = canonicalJson(sheet as unknown as Json);
      return [sha256Hex(text), sheet] as const;
    }),
  );
  return { path: sheetsName, bytes: Buffer.from(canonicalJson({ format: sheetsFormat, sheets: sheets as unknown as Json }), 'utf8') };
}

function readJson(folder: string, revision: string, name: string): unknown {
  return JSON.parse(readFileSync(join(folder, 'issued', revision, 'data', name), 'utf8'));
}

/** What was frozen with a revision for the client, with its fingerprint; drawings only by their digest. Throws where there is none. */
export function frozenWords(folder: string, revision: string, fingerprint: string): ClientView {
  const view = readJson(folder, revision, 'client.json') as ClientView;
  return { ...view, revision: { ...view.revision, fingerprint: shownFingerprint(fingerprint) } };
}

/** The same with the drawings of its scopes; nothing where a drawing was not kept or is not the one whose digest was frozen. */
export function frozenView(folder: string, revision: string, fingerprint: string): ClientView | undefined {
  const view = frozenWords(folder, revision, fingerprint);
  let sheets: Readonly<Record<string, Sheet>>;
  try {
    sheets = (readJson(folder, revision, sheetsName) as { readonly sheets: Readonly<Record<string, Sheet>> }).sheets;
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
