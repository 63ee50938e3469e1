// Settings for editors and `astro check`. The program compiles its page templates itself, with these same settings: src/site/compile.ts.
import { defineConfig } from 'astro/config';
import { bundleConfig } from './src/site/compile.ts';

const { output, srcDir, outDir, cacheDir, adapter, vite } = bundleConfig('client', 'node_modules/.cache/astro');

export default defineConfig({ output, srcDir, outDir, cacheDir, adapter, vite });
