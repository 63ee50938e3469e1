/** Writes the generated files of the file format: `npx node tests/spec/write-reference.ts`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { reference } from './generated.ts';

for (const { path, text } of reference()) {
  mkdirSync(new URL('.', path), { recursive: true });
  writeFileSync(path, text);
}
