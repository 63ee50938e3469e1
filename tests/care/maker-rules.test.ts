import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { careLaws, checkNote, composeCare, linesOf } from '../../src/care/index.ts';
import { formatProblems } from '../../src/problem/index.ts';
import { placeProblems, readCare } from '../../src/read/index.ts';
import { finishes, texts } from './read-rules.ts';
import { finish, input } from './tables.ts';

const made: string[] = [];
afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true });
});

/** A maker's workspace with these files below templates/. */
function workspace(files: Readonly<Record<string, string>>): string {
  const root = mkdtempSync(join(tmpdir(), 'care-'));
  made.push(root);
  for (const [name, text] of Object.entries(files)) {
    const path = join(root, 'templates', name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  return root;
}

/** The note of an oiled table with these files, and everything that is said against them. */
function noteWith(files: Readonly<Record<string, string>>, changes: Parameters<typeof input>[0] = {}) {
  const { book, own, sources, problems } = readCare(workspace(files));
  const print = (list: typeof problems): string => formatProblems(list, { colour: false }, 'Nothing was written.');
  if (book === undefined) return { said: [], rules: [], printed: print(problems) };
  const table = input({ ...changes, book });
  const note = composeCare(table);
  const found = [...careLaws(book, { finishes, texts, own }), ...checkNote(note, table)];
  return {
    said: linesOf(note).map(({ text }) => text),
    rules: linesOf(note).map(({ rule }) => rule),
    printed: found.length === 0 ? '' : print(placeProblems(sources, found)),
  };
}

describe("the maker's own rules", () => {
  it('are not needed', () => {
    const { printed, rules } = noteWith({});
    expect(printed).toBe('');
    expect(rules).toContain('wine-blot');
  });

  it('add one, replace one by its id, silence one with null', () => {
    const yaml = [
      'rules:',
      '  daily-mats: null',
      '  daily-dust:',
      '    says: "Dust with the grey cloth that came with the table."',
      '  my-vase:',
      '    section: never',
      '    says: "No vase without its glass plate."',
      '    source: common practice',
    ].join('\n');
    const { printed, rules, said } = noteWith({ 'care.yaml': yaml });
    expect(printed).toBe('');
    expect(rules).not.toContain('daily-mats');
    expect(rules).toContain('my-vase');
    expect(said).toContain('Dust with the grey cloth that came with the table.');
    expect(rules.indexOf('daily-dust')).toBeLessThan(rules.indexOf('daily-wipe'));
  });

  it('stand in a page each as well, with front matter', () => {
    const page =
      '---\nsection: repair\nwhen: { surface: [oiled] }\nuse: [upkeep-oil]\nsource: common practice\n---\n\nA tin of upkeep oil\nhangs under the top.\n';
    const { printed, said, rules } = noteWith({ 'care/my-tin.md': page, 'care/daily-mats.md': '---\nsilence: true\n---\n' });
    expect(printed).toBe('');
    expect(said).toContain('A tin of upkeep oil hangs under the top.');
    expect(rules).not.toContain('daily-mats');
  });

  it('that contradict one that stands are refused, with both places', () => {
    const page = '---\nsection: repair\nuse: [alcohol]\nsource: common practice\n---\nRub a dull spot with spirit.\n';
    const { printed } = noteWith({ 'care/my-spirit.md': page });
    expect(printed).toContain('error[care/contradiction]');
    expect(printed).toContain('templates/care/my-spirit.md');
    expect(printed).toContain('templates/care.yaml:');
    expect(printed).toContain('alcohol, in my-spirit and in never-solvent');
  });

  it('may say the opposite where the two can not meet', () => {
    const never =
      'rules:\n  my-soap:\n    section: never\n    when: { surface: [soap] }\n    says: "No mild soap."\n    never: [mild-soap]\n    source: common practice\n';
    expect(noteWith({ 'care.yaml': never }).printed).toBe('');
    expect(noteWith({ 'care.yaml': never.replace('[soap] }', '[film] }') }).printed).toContain('care/contradiction');
  });

  it.each([
    [
      'a promise',
      'rules:\n  my-top:\n    section: heat\n    says: "The top is heat proof."\n    source: common practice\n',
      'care/promise',
    ],
    [
      'a name that nothing fills',
      'rules:\n  my-top:\n    section: heat\n    says: "Ask {client}."\n    source: mine\n',
      'care/unknown-name',
    ],
    ['a plain line among steps', 'rules:\n  my-top:\n    section: spill-wine\n    says: "Hurry."\n    source: mine\n', 'care/wrong-place'],
    [
      'what is said at the head of the spills, but not of the first days',
      'rules:\n  my-top:\n    section: heat\n    as: spilt\n    says: "Wait."\n    source: mine\n',
      'care/wrong-place',
    ],
    [
      'a fourth step',
      'rules:\n  my-top:\n    section: spill-wine\n    as: step\n    says: "Hurry."\n    source: mine\n',
      'care/too-many-lines',
    ],
    [
      'a thing that is none',
      'rules:\n  my-top:\n    section: heat\n    says: "Hm."\n    use: [alcool]\n    source: mine\n',
      'spec/not-a-choice',
    ],
    ['a part left empty', 'rules:\n  food-plates: null\n  food-cured: null\n', 'care/no-line'],
    ['a spill with no end', 'rules:\n  oil-stop: null\n', 'care/no-line'],
  ])('%s is refused', (_, yaml, code) => {
    const { printed } = noteWith({ 'care.yaml': yaml });
    expect(printed).toContain(`error[${code}]`);
    expect(printed).toContain('care.yaml');
  });

  it('a page without front matter is refused at its first line', () => {
    expect(noteWith({ 'care/my-tin.md': 'Just words.\n' }).printed).toContain('templates/care/my-tin.md:1');
  });

  it('a name that only some tables have is refused for the others', () => {
    const yaml = 'rules:\n  my-tin:\n    section: refresh\n    says: "Use {product}."\n    source: mine\n';
    expect(noteWith({ 'care.yaml': yaml }).printed).toContain('care/unknown-name');
    expect(noteWith({ 'care.yaml': yaml }, { finish: finish('hardwax-oil', 'the oil of tin 4471') }).printed).toBe('');
  });
});
