import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

const GOOD = new URL('./good', import.meta.url).pathname;

/** Files of a proposal in a case are named from its own folder; templates from the workspace. */
export function workspacePath(name: string): string {
  return name.startsWith('templates/') ? name : `proposals/harbour/${name}`;
}

/** A copy of the good workspace in a temporary folder; `remove` takes it away. */
export function copyOfGood(): { readonly root: string; readonly remove: () => void } {
  const root = mkdtempSync(join(tmpdir(), 'leafwright-bad-'));
  cpSync(GOOD, root, { recursive: true });
  return { root, remove: () => rmSync(root, { recursive: true, force: true }) };
}

/**
 * Breaks a workspace as a case says. A case is a text of sections: `=== NAME` with `- ` lines to find and `+ ` lines to put in their
 * place (each once in the file); `=== NAME whole` with the whole new text; `=== NAME delete`, `folder`, `latin1 TEXT`, `utf16 TEXT`,
 * `bytes N`, `lines N`, `link TARGET`.
 */
export function breakWorkspace(root: string, sections: readonly Section[]): void {
  for (const { head, body } of sections) {
    const [name = '', what = '', ...rest] = head.split(' ');
    const path = join(root, workspacePath(name));
    mkdirSync(dirname(path), { recursive: true });
    if (what !== '') rmSync(path, { recursive: true, force: true });
    switch (what) {
      case '':
        writeFileSync(path, edited(readFileSync(path, 'utf8'), body, head));
        break;
      case 'whole':
        writeFileSync(path, body);
        break;
      case 'folder':
        mkdirSync(path);
        break;
      case 'latin1':
        writeFileSync(path, Buffer.from(`${rest.join(' ')}\n`, 'latin1'));
        break;
      case 'utf16':
        writeFileSync(path, Buffer.from(`\ufeff${rest.join(' ')}\n`, 'utf16le'));
        break;
      case 'bytes':
        writeFileSync(path, '# '.repeat(Number(rest[0]) / 2));
        break;
      case 'lines':
        writeFileSync(path, 'a: 1\n'.repeat(Number(rest[0])));
        break;
      case 'link':
        symlinkSync(rest.join(' '), path);
        break;
      case 'delete':
        break;
      default:
        throw new Error(`a case says ${head}`);
    }
  }
}

export interface Section {
  readonly head: string;
  readonly body: string;
}

export interface Case {
  readonly sections: readonly Section[];
  /** The exact text that is printed. */
  readonly says: string;
}

/** Reads a case file. `\t` in it is a tab, so that no editor turns it into spaces. */
export function readCase(text: string): Case {
  const parts = text.split(/^=== (.*)\n/m);
  const sections: Section[] = [];
  let says = '';
  for (let i = 1; i < parts.length; i += 2) {
    const [head = '', body = ''] = [parts[i], parts[i + 1]];
    if (head === 'says') says = body;
    else sections.push({ head, body: body.replaceAll('\\t', '\t') });
  }
  return { sections, says };
}

function edited(text: string, body: string, head: string): string {
  const lines = (sign: string) =>
    body
      .split('\n')
      .filter((line) => line.startsWith(sign))
      .map((line) => `${line.slice(2)}\n`)
      .join('');
  const [find, put] = [lines('- '), lines('+ ')];
  if (find !== '' && text.split(find).length !== 2) throw new Error(`${head}: the lines to find are not there exactly once:\n${find}`);
  return find === '' ? text + put : text.replace(find, () => put);
}
