import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { AstroInlineConfig } from 'astro';
import { bundledScripts } from './bundle-script.ts';

/** The two bundles: the client's can not reach the workshop's templates. */
export type BundleName = 'client' | 'workshop';

/** What of Astro's application is used here (`astro/app`). */
export interface PageApp {
  readonly render: (request: Request, options: { readonly locals: object }) => Promise<Response>;
}

/** The package's own folder. */
export const packageFolder = fileURLToPath(new URL('../..', import.meta.url));

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** Digest of all that decides the bytes of a bundle: sources, lock file, Node and its Unicode data. */
export function programDigest(): string {
  const hash = createHash('sha256');
  const lock = join(packageFolder, 'package-lock.json');
  const files = [...filesBelow(join(packageFolder, 'src')), ...(existsSync(lock) ? [lock] : [])];
  for (const file of files) hash.update(file.slice(packageFolder.length)).update('\0').update(readFileSync(file)).update('\0');
  hash.update(`${process.version} ${process.versions.icu ?? ''}`);
  return hash.digest('hex').slice(0, 32);
}

/** Where compiled bundles are kept: beside the packages, or in the system's temporary folder where that can not be written. */
export function bundleCacheFolder(): string {
  const beside = join(packageFolder, 'node_modules', '.cache', 'leafwright');
  try {
    mkdirSync(beside, { recursive: true });
    return beside;
  } catch {
    const temporary = join(tmpdir(), 'leafwright-pages');
    mkdirSync(temporary, { recursive: true });
    return temporary;
  }
}

/** Settings of one bundle; `astro.config.mjs` uses them for the development server. */
export function bundleConfig(name: BundleName, outDir: string): AstroInlineConfig {
  return {
    root: packageFolder,
    configFile: false,
    srcDir: `src/site/${name}`,
    publicDir: `src/site/${name}/public`,
    outDir,
    cacheDir: join(outDir, 'cache'),
    output: 'server',
    compressHTML: true,
    logLevel: 'error',
    devToolbar: { enabled: false },
    adapter: {
      name: 'leafwright-pages',
      hooks: {
        'astro:config:done': ({ setAdapter }) => {
          setAdapter({
            name: 'leafwright-pages',
            entrypointResolution: 'auto',
            serverEntrypoint: new URL('./entry.ts', import.meta.url),
            supportedAstroFeatures: { serverOutput: 'stable', staticOutput: 'stable', sharpImageService: 'stable' },
          });
        },
      },
    },
    /** Everything goes into the bundle, so that it runs from any folder. */
    vite: { ssr: { noExternal: true }, build: { minify: false }, plugins: [bundledScripts] },
  };
}

/** Days after which a bundle of an earlier state of the program is swept away. */
const KEPT_DAYS = 7;

function sweep(folder: string, keep: string): void {
  const oldest = Date.now() - KEPT_DAYS * 24 * 3600 * 1000;
  for (const entry of readdirSync(folder)) {
    const path = join(folder, entry);
    if (entry !== keep && statSync(path).mtimeMs < oldest) rmSync(path, { recursive: true, force: true });
  }
}

/**
 * Compiles a bundle once for each state of the program and opens it. Two processes or threads may do so at the same
 * time: each writes into a folder of its own and the first to finish gives its folder the name that is looked for.
 */
export async function openBundle(name: BundleName, cacheFolder: string, digest: string): Promise<PageApp> {
  const folder = join(cacheFolder, `${name}-${digest}`);
  const entry = join(folder, 'server', 'entry.mjs');
  if (!existsSync(entry)) {
    mkdirSync(cacheFolder, { recursive: true });
    const own = mkdtempSync(`${folder}.`);
    process.env.ASTRO_TELEMETRY_DISABLED = '1';
    const { build } = await import('astro');
    try {
      await build(bundleConfig(name, own));
      renameSync(own, folder);
    } catch (error) {
      rmSync(own, { recursive: true, force: true });
      if (!existsSync(entry)) throw error;
    }
    sweep(cacheFolder, `${name}-${digest}`);
  }
  const opened = (await import(pathToFileURL(entry).href)) as { readonly app: PageApp };
  return opened.app;
}
