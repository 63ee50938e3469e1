/** One font file that a page brings with it: from the package `@fontsource/<family>`, the Latin subset. */
export interface FontFace {
  readonly family: string;
  readonly packageName: string;
  readonly weight: 400 | 600;
  readonly italic: boolean;
  readonly file: string;
}

function face(family: string, id: string, weight: 400 | 600, italic: boolean): FontFace {
  const file = `${id}-latin-${weight}-${italic ? 'italic' : 'normal'}.woff2`;
  return { family, packageName: `@fontsource/${id}`, weight, italic, file };
}

/** The families of every page: a text serif and a sans for labels and figures. */
export const fontFaces: readonly FontFace[] = [
  face('Source Serif 4', 'source-serif-4', 400, false),
  face('Source Serif 4', 'source-serif-4', 400, true),
  face('Source Serif 4', 'source-serif-4', 600, false),
  face('Source Sans 3', 'source-sans-3', 400, false),
  face('Source Sans 3', 'source-sans-3', 600, false),
];

/** `@font-face` rules with addresses relative to the page, so that it works from disk and below any path. `folder` ends without a slash. */
export function fontCss(folder: string): string {
  return fontFaces
    .map(
      (one) =>
        `@font-face{font-family:"${one.family}";font-weight:${one.weight};font-style:${one.italic ? 'italic' : 'normal'};` +
        `font-display:swap;src:url("${folder}/${one.file}") format("woff2")}`,
    )
    .join('\n');
}
