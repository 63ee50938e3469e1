import { isAlias, isMap, isScalar, isSeq, type Node, type ParsedNode, parseDocument, type Scalar } from 'yaml';
import type { Problem } from '../problem/index.ts';
import { hiddenSigns } from '../units/index.ts';
import { DEEPEST, overLimits, tooDeepAt } from './limits.ts';
import { problemAt } from './place.ts';
import { wordSyntax } from './syntax.ts';
import type { Entry, Origin, Source, Tree } from './tree.ts';

/** Most values that aliases may add to a file: a shared section or two, not a heap. */
const MOST_ALIASED = 2_000;
/** Most aliases of a file. */
const MOST_ALIASES = 200;
/** Most problems of one file: whoever has more mends these first. */
const MOST_PROBLEMS = 50;

/** What a file says, or why it can not be read. */
export interface ParsedFile {
  /** Absent where the file can not be used. */
  readonly tree?: Tree;
  readonly problems: readonly Problem[];
}

/**
 * Reads YAML 1.2 into a tree whose scalars are the texts of the file. Codes: `read/syntax`, `read/tab`, `read/duplicate-key`,
 * `read/merge-key`, `read/bad-alias`, `read/too-many-aliases`, `read/too-deep`, `read/empty-file`, `read/empty-value`, `read/tag`,
 * `read/bad-key`, `read/hash`, `read/many-documents`, `read/hidden-sign`.
 */
export function parseFile(source: Source): ParsedFile {
  const whole: Origin = { source, start: 0, end: 0 };
  const over = overLimits(source);
  if (over !== undefined) return { problems: [over] };
  const hidden = hiddenIn(source);
  if (hidden.length > 0) return { problems: hidden };
  try {
    const document = parseDocument(source.text, {
      schema: 'failsafe',
      merge: false,
      uniqueKeys: false,
      prettyErrors: false,
      logLevel: 'error',
    });
    const first = document.errors[0];
    if (first !== undefined) return { problems: [wordSyntax(source, first)] };
    if (document.contents === null || isNothing(document.contents)) {
      return {
        problems: [
          problemAt('read/empty-file', 'the file is empty', whole, {
            mend: 'it may be half saved: save it again, or copy it from a starter',
          }),
        ],
      };
    }
    const reading = new Reading(source);
    const tree = reading.convert(document.contents, 1);
    const warning = document.warnings[0];
    if (warning !== undefined) reading.say(wordSyntax(source, warning));
    return reading.problems.length > 0 ? { problems: reading.problems } : { tree, problems: [] };
  } catch (error) {
    if (error instanceof StopReading) return { problems: error.problems };
    if (error instanceof RangeError) return { problems: [tooDeepAt(source, 0)] };
    throw error;
  }
}

/** Signs of a file that nobody sees, comments and all: a line must be what it looks like. An editor's mark of byte order at its head is none. */
export function hiddenIn(source: Source): readonly Problem[] {
  return hiddenSigns(source.text)
    .filter(({ at, name }) => at > 0 || name !== 'U+FEFF')
    .slice(0, MOST_PROBLEMS)
    .map(({ at, name }) => hiddenProblem({ source, start: at, end: at + ((source.text.codePointAt(at) ?? 0) > 0xffff ? 2 : 1) }, name));
}

const hiddenProblem = (at: Origin, found: string): Problem =>
  problemAt('read/hidden-sign', 'a sign stands here that nobody can see', at, {
    found,
    mend: 'delete the word around it and type it again by hand',
  });

/** Thrown inside `parseFile` alone, where going on would cost time or memory. */
class StopReading extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super('stopped');
    this.problems = problems;
  }
}

/** One walk over a document: from the parser's nodes to trees. */
class Reading {
  readonly problems: Problem[] = [];
  readonly #source: Source;
  readonly #anchors = new Map<string, { readonly tree: Tree; readonly size: number }>();
  #aliases = 0;
  #aliased = 0;
  #size = 0;

  constructor(source: Source) {
    this.#source = source;
  }

  /** Notes a problem; goes on unless there are too many. */
  say(problem: Problem): void {
    this.problems.push(problem);
    if (this.problems.length >= MOST_PROBLEMS) throw new StopReading(this.problems);
  }

  convert(node: Node, depth: number): Tree {
    const origin = this.#originOf(node);
    if (depth > DEEPEST) throw new StopReading([tooDeepAt(this.#source, origin.start)]);
    if (isAlias(node)) return this.#alias(node.source, origin);
    const before = this.#size;
    const tree = this.#plain(node, origin, depth);
    this.#size += 1;
    const anchor = 'anchor' in node ? node.anchor : undefined;
    if (anchor !== undefined) this.#anchors.set(anchor, { tree, size: this.#size - before });
    return tree;
  }

  #plain(node: Node, origin: Origin, depth: number): Tree {
    if (isSeq(node)) return { is: 'list', items: node.items.map((item) => this.convert(item as ParsedNode, depth + 1)), origin };
    if (isMap(node)) return { is: 'map', entries: this.#entries(node.items as readonly Pair[], depth), origin };
    if (!isScalar(node)) throw new StopReading([problemAt('read/syntax', 'this can not be read', origin)]);
    if (isNothing(node)) {
      this.say(
        problemAt('read/empty-value', 'there is nothing after the hyphen', origin, { mend: 'write a value, or take the hyphen out' }),
      );
      return { is: 'null', origin };
    }
    if (node.type === 'PLAIN') this.#gluedHash(origin.end);
    const text = String(node.value);
    this.#hiddenEscape(text, origin);
    return node.type === 'PLAIN' && (text === 'null' || text === '~') ? { is: 'null', origin } : { is: 'text', text, origin };
  }

  /** `Reed #2`: YAML takes what follows the sign for a comment, and the text would lose its end in silence. */
  #gluedHash(end: number): void {
    const after = /^[ \t]+#(?=[^\s#])/.exec(this.#source.text.slice(end, end + 200));
    if (after === null) return;
    const start = end + after[0].length - 1;
    this.say(
      problemAt(
        'read/hash',
        'what follows # would be taken for a comment',
        { source: this.#source, start, end: start + 1 },
        {
          mend: 'put the whole text into double quotes; or, where a comment is meant, write # and a space',
        },
      ),
    );
  }

  /** Written as an escape between double quotes, such a sign is seen in the file and not on the page. */
  #hiddenEscape(text: string, origin: Origin): void {
    const [first] = hiddenSigns(text);
    if (first !== undefined) this.say(hiddenProblem(origin, first.name));
  }

  #entries(items: readonly Pair[], depth: number): ReadonlyMap<string, Entry> {
    const entries = new Map<string, Entry>();
    for (const [i, { key, value }] of items.entries()) {
      const at = this.#originOf(key);
      if (!isScalar(key)) {
        this.say(
          problemAt('read/bad-key', 'a key is a word, not a group or list', at, { mend: 'write the key without brackets or braces' }),
        );
        continue;
      }
      const name = String(key.value);
      this.#hiddenEscape(name, at);
      if (name === '<<' && key.type === 'PLAIN') {
        this.say(
          problemAt('read/merge-key', 'merge keys are not read', at, {
            mend: 'write the keys out: a variant already says only what differs',
          }),
        );
        continue;
      }
      const earlier = entries.get(name);
      if (earlier !== undefined || name === '__proto__' || name === '') {
        this.say(earlier === undefined ? badKey(name, at) : duplicate(name, at, earlier.key));
        continue;
      }
      if (value === null || isNothing(value)) {
        const before = items[i - 1]?.value;
        const parted = isScalar(before) ? partedByComma(String(before.source ?? ''), name) : undefined;
        if (parted !== undefined && isScalar(before)) {
          this.say(problemAt('read/empty-value', PARTED, { ...this.#originOf(before), end: at.end }, parted));
          continue;
        }
        this.say(problemAt('read/empty-value', `${name} has no value`, at, { mend: `write a value after ${name}:, or take the line out` }));
        continue;
      }
      entries.set(name, { key: at, value: this.convert(value, depth + 1) });
    }
    return entries;
  }

  #alias(name: string, origin: Origin): Tree {
    const target = this.#anchors.get(name);
    if (target === undefined) {
      const mend = `write the value out in place of *${name}`;
      throw new StopReading([problemAt('read/bad-alias', `there is no anchor &${name} before this`, origin, { mend })]);
    }
    this.#aliases += 1;
    this.#aliased += target.size;
    this.#size += target.size;
    if (this.#aliases > MOST_ALIASES || this.#aliased > MOST_ALIASED) {
      const allowed = `at most ${MOST_ALIASES} aliases, ${MOST_ALIASED} values in all`;
      const rest = { allowed, mend: 'write the values out, or share less' };
      throw new StopReading([problemAt('read/too-many-aliases', 'the aliases of this file add up to too much', origin, rest)]);
    }
    return target.tree;
  }

  #originOf(node: Node): Origin {
    const [start, end] = node.range ?? [0, 0];
    return { source: this.#source, start, end };
  }
}

const PARTED = 'a comma parts a number in two: between braces it begins the next key';

/** How to write a number that a comma parted, as in `{ built: 745,5 mm }`; nothing where it is no such number. */
function partedByComma(before: string, name: string): { readonly found: string; readonly mend: string } | undefined {
  const rest = /^(\d+)(?!\d)(.*)$/.exec(name);
  if (rest === null || !/^-?\d+$/.test(before)) return undefined;
  const [, digits = '', unit = ''] = rest;
  const asDecimal = `${before}.${digits}${unit}`;
  return {
    found: `${before},${name}`,
    mend: digits.length === 3 ? `write ${before}${digits}${unit}; or ${asDecimal}, if that was meant` : `write ${asDecimal}`,
  };
}

interface Pair {
  readonly key: Node;
  readonly value: Node | null;
}

/** A plain scalar of no characters, as after a key without value. An alias or a quoted empty text is something. */
function isNothing(node: Node): boolean {
  return isScalar(node) && (node as Scalar).value === '' && node.type === 'PLAIN' && node.tag === undefined;
}

function badKey(name: string, at: Origin): Problem {
  return problemAt('read/bad-key', name === '' ? 'a key has no name' : `${name} can not be a key`, at, { mend: 'write another key' });
}

function duplicate(name: string, at: Origin, earlier: Origin): Problem {
  return problemAt(
    'read/duplicate-key',
    `${name} is written twice`,
    at,
    { mend: 'keep one of the two' },
    { at: earlier, note: 'the first one' },
  );
}
