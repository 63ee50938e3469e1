import { readFileSync, realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder in which the program stands: with `src/`, `templates/` and the demo `proposals/`. */
export const programRoot: string = dirname(dirname(dirname(realpathSync(fileURLToPath(import.meta.url)))));

/** Version as in package.json. */
export const programVersion: string = (JSON.parse(readFileSync(join(programRoot, 'package.json'), 'utf8')) as { version: string }).version;
