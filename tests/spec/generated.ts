import { CATALOGUE } from '../../src/problem/index.ts';
import { DOCUMENTS, jsonSchemaOf, referencePage } from '../../src/spec/index.ts';

const TEMPLATES = new URL('../../templates/', import.meta.url);

export interface Generated {
  readonly path: URL;
  readonly text: string;
}

/** The generated files of the file format: a JSON Schema for each kind of file, and the reference page. */
export function reference(): readonly Generated[] {
  const codes = Object.fromEntries(Object.entries(CATALOGUE).filter(([code]) => code.startsWith('spec/') || code.startsWith('read/')));
  const schemas = DOCUMENTS.map((document) => ({
    path: new URL(`schemas/${document.id}.json`, TEMPLATES),
    text: `${JSON.stringify(jsonSchemaOf(document), null, 2)}\n`,
  }));
  return [...schemas, { path: new URL('file-format.md', TEMPLATES), text: referencePage(codes) }];
}
