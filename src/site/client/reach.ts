/**
 * Address of a telephone for a link, or undefined where the text holds no number to dial: digits alone, a leading plus kept, and the
 * bracketed trunk zero left out of an international number.
 *
 * @source RFC 3966 section 3 (tel URI); ITU-T E.123 section 7.2 for the bracketed zero, from memory
 */
export function telephoneHref(telephone: string): string | undefined {
  const isGlobal = telephone.trim().startsWith('+');
  const dialled = isGlobal ? telephone.replace(/\(0\)/g, '') : telephone;
  const digits = dialled.replace(/\D/g, '');
  return digits.length < 3 ? undefined : `tel:${isGlobal ? '+' : ''}${digits}`;
}
