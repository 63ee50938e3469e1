import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { CareView } from '../care/index.ts';
import type { ClientView } from '../client/index.ts';
import type { Sheet } from '../draw/index.ts';
import { formatDate } from '../units/index.ts';
import {
  type CarePageLocals,
  type ClientLinks,
  type ClientPageLocals,
  drawingKey,
  drawingNames,
  overKey,
  type PapersPageLocals,
} from './client/index.ts';
import { type BundleName, bundleCacheFolder, openBundle, programDigest } from './compile.ts';
import { withFontsCharacters, withPolicy } from './policy-meta.ts';
import { fontFaces } from './shared/index.ts';
import type { WorkshopClaimLocals, WorkshopIndexLocals, WorkshopPageLocals } from './workshop/index.ts';

/** A file that pages need beside them, by its path relative to the page. */
export interface PageFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** What a client page needs beside its view. */
export interface ClientPageExtras {
  /** SVG by the keys that `clientSheets` gives. */
  readonly svg: Readonly<Record<string, string>>;
  /** Style sheet of those SVG. */
  readonly sheetCss: string;
  readonly links: ClientLinks;
}

/** What a care page needs beside its view: the names of the files beside it and, where the table comes apart, its picture as SVG. */
export type CarePageExtras = Pick<CarePageLocals, 'apart' | 'sheetCss' | 'links'>;

/** Renders pages in this process from templates that were compiled once. The same data gives the same bytes. */
export interface Pages {
  readonly renderClientPage: (view: ClientView, extras: ClientPageExtras) => Promise<string>;
  readonly renderCarePage: (care: CareView, extras: CarePageExtras) => Promise<string>;
  readonly renderPapersPage: (locals: PapersPageLocals) => Promise<string>;
  readonly renderWorkshopIndex: (locals: WorkshopIndexLocals) => Promise<string>;
  readonly renderWorkshopPage: (locals: WorkshopPageLocals) => Promise<string>;
  readonly renderWorkshopClaim: (locals: WorkshopClaimLocals) => Promise<string>;
}

/** The drawings that a client page shows, each with its key and a prefix that keeps ids on the page apart. */
export function clientSheets(view: ClientView): readonly { readonly key: string; readonly idPrefix: string; readonly sheet: Sheet }[] {
  const over = (view.changed?.designs ?? []).flatMap((design) =>
    (['front', 'side'] as const).flatMap((side) => {
      const sheet = design.over?.[side];
      return sheet === undefined ? [] : [{ key: overKey(design.id, side), idPrefix: `${design.id.toLowerCase()}-over-${side}`, sheet }];
    }),
  );
  const drawn = view.designs.flatMap((design) =>
    drawingNames.flatMap((name) => {
      const sheet = design[name];
      return sheet === undefined ? [] : [{ key: drawingKey(design.id, name), idPrefix: `${design.id.toLowerCase()}-${name}`, sheet }];
    }),
  );
  return [...drawn, ...over];
}

/** Fonts of the pages, to be written into the folder `fonts` beside a client page or at the top of the workshop. */
export function fontFiles(): readonly PageFile[] {
  const require = createRequire(import.meta.url);
  return fontFaces.map((face) => {
    const folder = join(dirname(require.resolve(`${face.packageName}/package.json`)), 'files');
    return { path: `fonts/${face.file}`, bytes: readFileSync(join(folder, face.file)) };
  });
}

/**
 * Opens the page templates: compiles them where this state of the program has not done so yet (about a second each).
 *
 * @param cacheFolder where compiled templates are kept; beside the packages where silent
 */
export function openPages(cacheFolder: string = bundleCacheFolder()): Pages {
  const digest = programDigest();
  const opened = new Map<BundleName, ReturnType<typeof openBundle>>();
  const render = async (name: BundleName, path: string, locals: object, form?: string): Promise<string> => {
    const bundle = opened.get(name) ?? openBundle(name, cacheFolder, digest);
    opened.set(name, bundle);
    const response = await (await bundle).render(new Request(`http://leafwright.invalid${path}`), { locals });
    if (response.status !== 200) throw new Error(`the ${name} page ${path} could not be rendered: status ${response.status}`);
    return `${withPolicy(withFontsCharacters(await response.text()), form)}\n`;
  };
  return {
    renderClientPage: (view, extras) =>
      render(
        'client',
        '/',
        { view, ...extras } satisfies ClientPageLocals,
        view.letter?.fingerprint === undefined ? undefined : view.letter.form,
      ),
    renderCarePage: (care, extras) => {
      const { events } = care;
      const eventDays = events.map(({ day }) => formatDate(day, care.language));
      return render('client', '/care', { care, eventDays, ...extras } satisfies CarePageLocals);
    },
    renderPapersPage: (locals) => render('client', '/papers', locals),
    renderWorkshopIndex: (locals) => render('workshop', '/', locals),
    renderWorkshopPage: (locals) => render('workshop', '/proposal', locals),
    renderWorkshopClaim: (locals) => render('workshop', '/claim', locals),
  };
}
