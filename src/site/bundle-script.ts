/** What of Vite's plugins is used here. */
export interface ScriptPlugin {
  readonly name: string;
  readonly enforce: 'pre';
  readonly load: (id: string) => Promise<string | undefined>;
}

const suffix = '?bundle';

/** A script for the browser with all that it imports, minified: one classic script, so that it works from disk. */
async function bundle(entry: string): Promise<string> {
  const { build } = await import('vite');
  const made = await build({
    configFile: false,
    envFile: false,
    publicDir: false,
    logLevel: 'error',
    build: {
      write: false,
      target: 'es2022',
      minify: true,
      modulePreload: false,
      rollupOptions: { input: entry, output: { format: 'iife' } },
    },
  });
  const outputs = (Array.isArray(made) ? made : [made]).flatMap((one) => ('output' in one ? one.output : []));
  const [chunk, ...others] = outputs;
  if (chunk?.type !== 'chunk' || others.length > 0) throw new Error(`${entry} does not become one script`);
  const code = chunk.code.trim();
  if (/<\/script|<!--/i.test(code)) throw new Error(`${entry} holds what would end a script element`);
  return code;
}

/** `import script from './main.ts?bundle'` in a template gives the script as text. */
export const bundledScripts: ScriptPlugin = {
  name: 'leafwright-bundled-scripts',
  enforce: 'pre',
  load: async (id) => (id.endsWith(suffix) ? `export default ${JSON.stringify(await bundle(id.slice(0, -suffix.length)))}` : undefined),
};
