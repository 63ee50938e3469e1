/** Words of a page without its tags, styles, drawings and script; data of the script are words. */
export function wordsOf(html: string): string {
  return html
    .replaceAll(/<(style|svg)\b[\s\S]*?<\/\1>|<script>[\s\S]*?<\/script>/g, ' ')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/[\u00a0\u2009\u202f]/g, ' ');
}

/** Every amount of money that is shown, in minor units. */
export function amountsIn(text: string): readonly number[] {
  return [...text.matchAll(/[€$]([\d,]+(?:\.\d\d)?)/g)].map(([, digits = '']) => Math.round(Number(digits.replaceAll(',', '')) * 100));
}
