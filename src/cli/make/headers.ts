/**
 * What a page can not say of itself: search engines are kept off files that are no pages, and no other site may put a page
 * in a frame. `preview` sends these; whoever puts `dist/client` on a host sets the same there.
 *
 * @source RFC 9110 (fields); Content Security Policy Level 3, 6.4.2 frame-ancestors (not allowed in a meta element);
 * X-Robots-Tag and nosniff: common practice.
 */
export const headerRecipe: readonly (readonly [name: string, value: string])[] = [
  ['X-Robots-Tag', 'noindex, nofollow, noarchive'],
  ['Content-Security-Policy', "frame-ancestors 'none'"],
  ['X-Content-Type-Options', 'nosniff'],
  ['Referrer-Policy', 'no-referrer'],
];

/** The recipe as a text file that lies beside what is uploaded. */
export function headerRecipeText(): string {
  return [
    'Upload the folder "client" and nothing else. Each of its folders is one link: whoever knows it sees what is in it, and it',
    'leads at most to links of the same commission. The link of a table’s care leads to no other. Set these response headers',
    'for all of it, in the way of your host:',
    '',
    ...headerRecipe.map(([name, value]) => `    ${name}: ${value}`),
    '',
    'Do not add a robots.txt that names the folders, and switch off listings of folders.',
    '',
  ].join('\n');
}
