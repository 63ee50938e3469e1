interface Run {
  readonly text: string;
  readonly strong: boolean;
  readonly emphasis: boolean;
}

/** Words of the maker as blocks: the form of `RichText` of client/. */
export type RichBlock =
  | { readonly kind: 'paragraph'; readonly runs: readonly Run[] }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly Run[])[] };

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;' };
const escapeHtml = (text: string): string => text.replace(/[&<>]/g, (c) => escapes[c] ?? c);

function runsHtml(runs: readonly Run[]): string {
  return runs
    .map((run) => {
      const text = escapeHtml(run.text);
      const leaning = run.emphasis ? `<em>${text}</em>` : text;
      return run.strong ? `<strong>${leaning}</strong>` : leaning;
    })
    .join('');
}

/** Paragraphs and lists as HTML; everything in them is text, in the direction of its own script. */
export function richHtml(blocks: readonly RichBlock[]): string {
  return blocks
    .map((block) => {
      if (block.kind === 'paragraph') return `<p dir="auto">${runsHtml(block.runs)}</p>`;
      const tag = block.ordered ? 'ol' : 'ul';
      return `<${tag}>${block.items.map((item) => `<li dir="auto">${runsHtml(item)}</li>`).join('')}</${tag}>`;
    })
    .join('');
}
