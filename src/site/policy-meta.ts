import { createHash } from 'node:crypto';
import { policySlot } from './shared/index.ts';

/** Digests of what runs or styles; a block of data (`type="application/json"`) does neither. */
function digests(html: string, element: 'style' | 'script'): string[] {
  const found = html.matchAll(new RegExp(`<${element}(\\s[^>]*)?>([\\s\\S]*?)</${element}>`, 'g'));
  return [...found]
    .filter(([, attributes = '']) => !/\stype="application\/json"/.test(attributes))
    .map(([, , text = '']) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`);
}

/**
 * Puts the content policy into a page's slot: nothing but its own styles and scripts, known by digest, and the fonts and
 * pictures beside it. `form` is the address to which a form of the page may be sent, if to any. `file:` is for pages opened
 * from disk, where 'self' names nothing. What a meta tag can not hold (frame-ancestors) belongs into the host's headers.
 * @source W3C Content Security Policy Level 3, 2.3.1 and 6.7.3 (hashes)
 */
export function withPolicy(html: string, form?: string): string {
  const styles = [...new Set(digests(html, 'style'))];
  const scripts = [...new Set(digests(html, 'script'))];
  const policy = [
    "default-src 'none'",
    ...(styles.length === 0 ? [] : [`style-src ${styles.join(' ')}`]),
    ...(scripts.length === 0 ? [] : [`script-src ${scripts.join(' ')}`]),
    "img-src 'self' data: file:",
    "font-src 'self' file:",
    "base-uri 'none'",
    `form-action ${form === undefined ? "'none'" : new URL(form).origin}`,
  ].join('; ');
  return html.replace(policySlot, policy);
}

/** Fractions that the Latin subset of the fonts has no sign for, and how the font composes them. */
const composed: Readonly<Record<string, string>> = { '⅛': '1⁄8', '⅜': '3⁄8', '⅝': '5⁄8', '⅞': '7⁄8' };

/**
 * Puts characters that the pages' fonts do not have into ones that they have, so that no sign comes from another font:
 * eighths as digits around a fraction slash, which a shaper draws as a fraction (the `frac` feature would also raise the
 * digits of every other number); narrow spaces as the no-break space, which is as narrow in Source Sans (a fifth of an em).
 */
export function withFontsCharacters(html: string): string {
  return html
    .replace(/(\d?)([⅛⅜⅝⅞])/g, (_, before: string, sign: string) => `${before}${before === '' ? '' : '\u00a0'}${composed[sign]}`)
    .replaceAll(/[\u2009\u202f]/g, '\u00a0');
}
