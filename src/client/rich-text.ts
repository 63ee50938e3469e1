import MarkdownIt from 'markdown-it';
import type { RichRun, RichText } from './client-view.ts';
import { keepFigures } from './keep-figures.ts';

type Block = RichText[number];

/** HTML in a maker's text is shown as it was typed, never obeyed; quotes and dashes are set as a printer would. */
const markdown = new MarkdownIt('zero', { html: false, linkify: false, typographer: true, breaks: false }).enable([
  'emphasis',
  'list',
  'escape',
  'entity',
  'newline',
  'replacements',
  'smartquotes',
]);

type Token = ReturnType<typeof markdown.parse>[number];

function runsOf(inline: Token): RichRun[] {
  const runs: RichRun[] = [];
  let strong = 0;
  let emphasis = 0;
  for (const child of inline.children ?? []) {
    if (child.type === 'strong_open') strong += 1;
    else if (child.type === 'strong_close') strong -= 1;
    else if (child.type === 'em_open') emphasis += 1;
    else if (child.type === 'em_close') emphasis -= 1;
    else {
      const text = child.type === 'softbreak' || child.type === 'hardbreak' ? ' ' : child.content;
      const last = runs.at(-1);
      if (text === '') continue;
      if (last !== undefined && last.strong === strong > 0 && last.emphasis === emphasis > 0)
        runs[runs.length - 1] = { ...last, text: last.text + text };
      else runs.push({ text, strong: strong > 0, emphasis: emphasis > 0 });
    }
  }
  return runs.map((run) => ({ ...run, text: keepFigures(run.text) }));
}

/** Reads one list from its opening token; a list inside a list becomes further items of the same one. */
function listAt(tokens: readonly Token[], start: number): { readonly block: Block; readonly end: number } {
  const items: RichRun[][] = [];
  let depth = 0;
  let end = start;
  for (; end < tokens.length; end += 1) {
    const token = tokens[end];
    if (token === undefined) break;
    if (/^(bullet|ordered)_list_open$/.test(token.type)) depth += 1;
    if (/^(bullet|ordered)_list_close$/.test(token.type)) depth -= 1;
    if (token.type === 'list_item_open') items.push([]);
    if (token.type === 'inline') {
      const item = items.at(-1);
      if (item !== undefined && item.length > 0) item.push({ text: ' ', strong: false, emphasis: false });
      item?.push(...runsOf(token));
    }
    if (depth === 0) break;
  }
  return { block: { kind: 'list', ordered: tokens[start]?.type === 'ordered_list_open', items }, end };
}

/** The maker's Markdown as plain data: paragraphs, lists, strong and emphasis; anything else stays text. */
export function richText(source: string): RichText {
  const tokens = markdown.parse(source, {});
  const blocks: Block[] = [];
  for (let i = 0; i < tokens.length; i += 1) {
    const token = tokens[i];
    if (token === undefined) continue;
    if (token.type === 'bullet_list_open' || token.type === 'ordered_list_open') {
      const { block, end } = listAt(tokens, i);
      blocks.push(block);
      i = end;
    } else if (token.type === 'inline') {
      const runs = runsOf(token);
      if (runs.length > 0) blocks.push({ kind: 'paragraph', runs });
    }
  }
  return blocks;
}

/** One line of the maker's Markdown without its marks. */
export function plainText(source: string): string {
  return richText(source)
    .map((block) => (block.kind === 'paragraph' ? [block.runs] : block.items).map((runs) => runs.map((run) => run.text).join('')).join(' '))
    .join(' ');
}
