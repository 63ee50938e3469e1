import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { parseDocument } from 'yaml';
import { nearestName } from '../../problem/index.ts';
import { readMaker } from '../../read/index.ts';
import { dayIn } from '../../record/index.ts';
import { instantOf } from '../clock.ts';
import { type ExitCode, type Given, UsageFault } from '../command.ts';
import { writeBeside } from '../draft/own-files.ts';
import { programRoot } from '../program.ts';
import type { Terminal } from '../terminal.ts';
import { findWorkspace, proposalFolder } from '../workspace.ts';
import { revisionNamed, runNewFrom } from './new-from.ts';
import { type Starter, starterFiles } from './starter.ts';

/** Demo commissions that a new proposal may begin from. */
const starters: Readonly<Record<string, Starter>> = {
  dining: { demo: 'tollefsen-quill', title: 'Dining table' },
  pedestal: { demo: 'farrant', title: 'Round pedestal table' },
  desk: { demo: 'lindqvaar-wren', title: 'Desk' },
};

const ignored = [
  'dist/',
  '.cache/',
  '*.lock-leafwright*',
  '*.new-leafwright',
  'proposals/*/issued/.making-*/',
  'proposals/.making-*/',
  'proposals/*/outbox/',
  '',
].join('\n');
/** Line ends in what was issued or recorded are never converted: every digest would break. */
const attributes = [
  'proposals/*/handed-over/** -text',
  'proposals/*/issued/** -text',
  'proposals/*/records/** -text',
  'proposals/*/decisions.jsonl -text',
  '',
].join('\n');

const deviceNames = /^(con|prn|aux|nul|com\d|lpt\d)$/;

function checkSlug(slug: string): void {
  if (/^[a-z0-9-]{1,40}$/.test(slug) && !deviceNames.test(slug)) return;
  const plain = slug
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 40);
  const mend =
    plain === '' || deviceNames.test(plain) ? 'for example: leafwright new harbour-house' : `for example: leafwright new ${plain}`;
  throw new UsageFault(`"${slug}" can not be the name of a proposal: small letters a to z, digits and hyphens, at most 40`, mend);
}

/** The workspace to put it in; made where there is none, with what git must know and the maker's own details to fill in. */
function openWorkspace(said: string | undefined): { readonly workspace: string; readonly made: readonly string[] } {
  try {
    return { workspace: findWorkspace(said), made: [] };
  } catch (fault) {
    if (!(fault instanceof UsageFault)) throw fault;
  }
  const workspace = resolve(said ?? '.');
  if (existsSync(workspace) && !statSync(workspace).isDirectory()) throw new UsageFault(`${said} is a file, not a folder`);
  mkdirSync(join(workspace, 'proposals'), { recursive: true });
  mkdirSync(join(workspace, 'templates'), { recursive: true });
  const made: string[] = [];
  const write = (name: string, text: string): void => {
    const file = join(workspace, name);
    if (existsSync(file)) return;
    writeFileSync(file, text);
    made.push(name);
  };
  write('.gitignore', ignored);
  write('.gitattributes', attributes);
  const maker = readFileSync(join(programRoot, 'templates', 'maker.yaml'), 'utf8');
  // Nobody's messages are to lead to the site of the invented maker.
  const own = maker.replace(/^site:/m, '# site:');
  write('templates/maker.yaml', `# Your own name and address go here; what follows is invented.\n${own}`);
  return { workspace, made };
}

/** Copies the shop rates that a starter names into the workspace, to be filled in; nothing where they are there, as on a clone. */
function copyRates(workspace: string, proposal: string): readonly string[] {
  const id: unknown = parseDocument(proposal).get('rates');
  const name = `templates/rates/${String(id)}.yaml`;
  const to = join(workspace, ...name.split('/'));
  if (existsSync(to)) return [];
  mkdirSync(join(to, '..'), { recursive: true });
  copyFileSync(join(programRoot, ...name.split('/')), to);
  return [name];
}

/** A demo's folder as a reader sees it: what the maker wrote, nothing that was recorded. */
function demoFiles(demo: string): readonly { readonly path: string; readonly text: string }[] {
  const folder = join(programRoot, 'proposals', demo);
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .filter((path) => !path.startsWith('issued/'))
    .sort()
    .map((path) => ({ path, text: readFileSync(join(folder, ...path.split('/')), 'utf8') }));
}

/** `new`: a proposal that begins as a copy of a worked one or of an issued revision; the former in a workspace that is made where there is none. */
export async function runNew(given: Given, terminal: Terminal): Promise<ExitCode> {
  const { words, values } = given;
  const slug = words[0] ?? '';
  checkSlug(slug);
  const from = values['from'] ?? 'dining';
  const again = revisionNamed(from);
  if (again !== undefined) return runNewFrom(slug, again, given, terminal);
  const starter = Object.hasOwn(starters, from) ? starters[from] : undefined;
  if (starter === undefined) {
    const near = nearestName(from, Object.keys(starters));
    throw new UsageFault(
      `there is no starter ${from}${near === undefined ? '' : `; did you mean ${near}?`}`,
      `there are ${Object.keys(starters).join(', ')}`,
    );
  }
  instantOf(values['as-of']); // refused before a folder is made
  const { workspace, made } = openWorkspace(values['workspace']);
  const at = instantOf(values['as-of'], workspace);
  const files = starterFiles(starter, demoFiles(starter.demo), dayIn(at, readMaker(workspace).maker?.timeZone ?? 'UTC'));
  const folder = proposalFolder(workspace, slug);
  const taken = readdirSync(join(workspace, 'proposals')).find((name) => name.toLowerCase() === slug);
  if (taken !== undefined) throw new UsageFault(`there is a proposal ${taken} already`, 'choose another name, or edit that one');
  writeBeside(join(workspace, 'proposals', `.making-${slug}`), folder, files);
  const rates = copyRates(workspace, files.find(({ path }) => path === 'proposal.yaml')?.text ?? '');
  for (const name of [...made, ...rates]) terminal.say(terminal.accent(join(relative(process.cwd(), workspace), name)));
  for (const { path } of files) terminal.say(terminal.accent(join(relative(process.cwd(), folder), path)));
  if (made.length + rates.length > 0) {
    const yours = [...made.filter((name) => name.startsWith('templates/')), ...rates].map((name) =>
      relative(process.cwd(), join(workspace, name)),
    );
    terminal.say(`\nInvented until you write your own into them: ${yours.join(', ')}`);
  }
  terminal.say(
    `\nNext: write your client, room and wishes into ${join(relative(process.cwd(), folder), 'proposal.yaml')}, then: leafwright check ${slug}`,
  );
  return 0;
}
