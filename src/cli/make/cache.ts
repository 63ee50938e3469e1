import { lstatSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { canonicalJson, type Json, type NamedBytes, sha256Hex } from '../../record/index.ts';

/** Files made earlier, by what they were made from. Safe to delete at any time. */
export interface Cache {
  /** What was kept under a stage and an input; nothing where it was never made or does not hold together. */
  readonly get: (stage: string, input: Json) => readonly NamedBytes[] | undefined;
  readonly put: (stage: string, input: Json, files: readonly NamedBytes[]) => void;
  /** Removes what this run neither got nor put. */
  readonly sweep: () => void;
}

function filesBelow(folder: string): readonly string[] {
  if (lstatSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** One file: a line of JSON that says what follows, then the bytes one after the other. */
function pack(files: readonly NamedBytes[]): Buffer {
  const body = Buffer.concat(files.map(({ bytes }) => bytes));
  const head = { digest: sha256Hex(body), files: files.map(({ path, bytes }) => [path, bytes.length] as const) };
  return Buffer.concat([Buffer.from(`${JSON.stringify(head)}\n`, 'utf8'), body]);
}

function unpack(packed: Buffer): readonly NamedBytes[] | undefined {
  const end = packed.indexOf(10);
  try {
    const head = JSON.parse(packed.subarray(0, end).toString('utf8')) as { digest: string; files: readonly (readonly [string, number])[] };
    const body = packed.subarray(end + 1);
    if (sha256Hex(body) !== head.digest) return undefined;
    let at = 0;
    return head.files.map(([path, length]) => {
      at += length;
      return { path, bytes: body.subarray(at - length, at) };
    });
  } catch {
    return undefined;
  }
}

/** The cache below a workspace. `digest` stands for the program: its sources, lock file, Node and ICU. */
export function openCache(folder: string, digest: string): Cache {
  const used = new Set<string>();
  const fileOf = (stage: string, input: Json): string => {
    const file = join(folder, stage, sha256Hex(canonicalJson([stage, digest, input])));
    used.add(file);
    return file;
  };
  return {
    get: (stage, input) => {
      const file = fileOf(stage, input);
      return lstatSync(file, { throwIfNoEntry: false })?.isFile() === true ? unpack(readFileSync(file)) : undefined;
    },
    put: (stage, input, files) => {
      const file = fileOf(stage, input);
      mkdirSync(dirname(file), { recursive: true });
      const beside = `${file}.${process.pid}`;
      writeFileSync(beside, pack(files));
      renameSync(beside, file);
    },
    sweep: () => {
      const stages = new Set([...used].map((file) => dirname(file)));
      for (const stage of stages) for (const file of filesBelow(stage)) if (!used.has(file)) rmSync(file, { force: true });
    },
  };
}
