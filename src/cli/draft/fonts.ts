import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import * as fontkit from 'fontkit';
import type { OutlineFonts } from '../../write/client/index.ts';

const files = {
  serif: '@expo-google-fonts/source-serif-4/400Regular/SourceSerif4_400Regular.ttf',
  'serif-italic': '@expo-google-fonts/source-serif-4/400Regular_Italic/SourceSerif4_400Regular_Italic.ttf',
  'serif-semibold': '@expo-google-fonts/source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf',
  sans: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  'sans-semibold': '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
} as const;

/** Opens the document faces that ship with the program; one opening serves every document of a run. */
export function openDocumentFonts(): OutlineFonts {
  const { resolve } = createRequire(import.meta.url);
  const open = (file: string): OutlineFonts[keyof OutlineFonts] =>
    fontkit.create(readFileSync(resolve(file))) as unknown as OutlineFonts[keyof OutlineFonts];
  return {
    serif: open(files.serif),
    'serif-italic': open(files['serif-italic']),
    'serif-semibold': open(files['serif-semibold']),
    sans: open(files.sans),
    'sans-semibold': open(files['sans-semibold']),
  };
}
