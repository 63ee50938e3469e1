import { posix } from 'node:path';
import ts from 'typescript';
import { isDoor, type Room, roomOf, rooms } from './rooms.ts';

/** `file:line  what is wrong`. */
export type Finding = string;

interface Import {
  readonly to: string;
  readonly typeOnly: boolean;
  readonly line: number;
}

/** The TypeScript of a file: all of a `.ts`, the frontmatter of an `.astro`, blank lines before it so that lines stay true. */
function scriptOf(path: string, text: string): string {
  if (!path.endsWith('.astro')) return text;
  const found = /^---\r?\n([\s\S]*?)\r?\n---/.exec(text);
  return found === null ? '' : `\n${found[1]}`;
}

function importsOf(source: ts.SourceFile): Import[] {
  const found: Import[] = [];
  const add = (node: ts.Node, to: ts.Node | undefined, typeOnly: boolean) => {
    if (to === undefined || !ts.isStringLiteralLike(to)) return;
    found.push({ to: to.text, typeOnly, line: source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1 });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node, node.moduleSpecifier, node.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword);
    else if (ts.isExportDeclaration(node)) add(node, node.moduleSpecifier, node.isTypeOnly);
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) add(node, node.argument.literal, true);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) add(node, node.arguments[0], false);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const packageOf = (specifier: string): string =>
  specifier.startsWith('@') ? specifier.split('/').slice(0, 2).join('/') : (specifier.split('/')[0] ?? specifier);

function judgeFolders({ name, folders }: Room, path: string, target: string): string | undefined {
  if (folders === undefined) return undefined;
  const folderOf = (file: string): string | undefined => /^([^/]+)\//.exec(file.slice(`src/${name}/`.length))?.[1];
  const [own, other] = [folderOf(path), folderOf(target)];
  if (own === undefined || other === undefined || own === other) return undefined;
  return folders.indexOf(other) < folders.indexOf(own) ? undefined : `${name}/${own}/ may not import ${name}/${other}/`;
}

function judgeImport(path: string, room: Room, one: Import): string | undefined {
  if (!one.to.startsWith('.')) {
    if (one.to.startsWith('node:'))
      return room.pure && room.edges?.includes(path) !== true ? `a pure room may not import ${one.to}` : undefined;
    if (one.to.startsWith('astro:')) return room.packages.includes('astro') ? undefined : `${room.name}/ may not use ${one.to}`;
    const name = packageOf(one.to);
    const allowed = room.packages.some((it) => name === it || name.startsWith(`${it}/`));
    return allowed ? undefined : `${room.name}/ may not use the package ${name}`;
  }
  const target = posix.normalize(posix.join(posix.dirname(path), one.to));
  if (!target.startsWith('src/')) return target === 'package.json' ? undefined : `imports ${target}, which lies outside src/`;
  const other = roomOf(target);
  if (other === undefined) return `imports ${target}, which lies in no room`;
  if (other.name === room.name) return judgeFolders(room, path, target);
  const allowed = room.imports.includes(other.name) || (one.typeOnly && room.types?.includes(other.name) === true);
  if (!allowed) return `${room.name}/ may not import ${other.name}/`;
  return isDoor(other, target) ? undefined : `imports ${target}; only the door of ${other.name}/ may be used`;
}

/** Properties that read the clock, chance, the process, or the machine's own locale. */
const refusedMembers: readonly (readonly [object: string | undefined, member: string])[] = [
  ['Date', 'now'],
  ['Math', 'random'],
  [undefined, 'toLocaleString'],
  [undefined, 'toLocaleDateString'],
  [undefined, 'toLocaleTimeString'],
  [undefined, 'toLocaleUpperCase'],
  [undefined, 'toLocaleLowerCase'],
  [undefined, 'localeCompare'],
];
const refusedObjects = new Set(['process', 'console', 'performance', 'crypto']);

function impurities(source: ts.SourceFile): { line: number; what: string }[] {
  const found: { line: number; what: string }[] = [];
  const add = (node: ts.Node, what: string) =>
    found.push({ line: source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1, what });
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node)) {
      const object = ts.isIdentifier(node.expression) ? node.expression.text : undefined;
      if (object !== undefined && refusedObjects.has(object)) add(node, `${object}.${node.name.text}`);
      for (const [owner, member] of refusedMembers)
        if (node.name.text === member && (owner === undefined || owner === object))
          add(node, owner === undefined ? member : `${owner}.${member}`);
    }
    if (ts.isNewExpression(node) || ts.isCallExpression(node)) {
      const callee = node.expression;
      const count = node.arguments?.length ?? 0;
      if (ts.isIdentifier(callee) && callee.text === 'Date' && (count === 0 || ts.isCallExpression(node))) add(node, 'new Date()');
      if (ts.isPropertyAccessExpression(callee) && ts.isIdentifier(callee.expression) && callee.expression.text === 'Intl') {
        const first = node.arguments?.[0];
        const isUnstated = first === undefined || first.getText(source) === 'undefined' || first.getText(source) === '[]';
        if (isUnstated) add(node, `Intl.${callee.name.text} without a stated locale`);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const longest = 400;

/** Everything by which one file of src/ breaks the rules of the house. `path` is relative to the project, with forward slashes. */
export function scanFile(path: string, text: string): Finding[] {
  const lines = text.split('\n').length - (text.endsWith('\n') ? 1 : 0);
  const found: Finding[] = [];
  if (lines > longest) found.push(`${path}:${longest + 1}  ${lines} lines; a file has at most ${longest}`);
  const room = roomOf(path);
  if (room === undefined) return [...found, `${path}:1  stands in no room; the rooms are ${rooms.map((it) => it.name).join(', ')}`];
  const source = ts.createSourceFile(path, scriptOf(path, text), ts.ScriptTarget.ESNext, true, ts.ScriptKind.TS);
  for (const one of importsOf(source)) {
    const wrong = judgeImport(path, room, one);
    if (wrong !== undefined) found.push(`${path}:${one.line}  ${wrong}`);
  }
  if (room.pure && room.edges?.includes(path) !== true)
    for (const { line, what } of impurities(source)) found.push(`${path}:${line}  a pure room may not use ${what}`);
  if (path.endsWith('/index.ts'))
    text.split('\n').forEach((line, i) => {
      if (/^export \*/.test(line)) found.push(`${path}:${i + 1}  a door exports by name`);
    });
  return found;
}

/** Words that have no place in the project, each split so that this file does not hold it. */
const refusedWords: readonly RegExp[] = [
  ['seed', ' document'],
  ['\\bA', 'I\\b'],
  ['\\bLL', 'M\\b'],
  ['language', ' model'],
  ['\\b(sub)?age', 'nts?\\b'],
  ['\\bsess', 'ions?\\b'],
  ['/wo', 'rk/(main|shared)'],
  ['\\.\\./sha', 'red/(design|decisions|style|look|demos|feasibility|reference)'],
  ['registry', '\\.(npmjs|yarnpkg)'],
  ['\\bhelper', "('s)? (brief|assignment)"],
].map((parts) => new RegExp(parts.join(''), 'i'));

/** `User-Agent` and the like are names of the open standards. */
const allowedWords = /user.age(?:nt)|sessionStorage/gi;

/** Lines of a text file that hold a refused word. */
export function scanWords(path: string, text: string): Finding[] {
  return text.split('\n').flatMap((line, i) => {
    const rest = line.replace(allowedWords, '');
    const hit = refusedWords.find((word) => word.test(rest));
    return hit === undefined ? [] : [`${path}:${i + 1}  holds a word that has no place here: ${hit.exec(rest)?.[0]}`];
  });
}
