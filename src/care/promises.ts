/** Words that promise what a table cannot keep. */
const PROMISES: readonly RegExp[] = [
  /\b(?:heat|water|child|stain|scratch|spill|fire|shock|fool|idiot|burn|damp)[\s-]?proof\b/i,
  /\b(?:food|child|heat|dishwasher)[\s-]?safe\b/i,
  /\blife[\s-]?(?:time|long)\b/i,
  /\bmaintenance[\s-]?free\b/i,
  /\b(?:indestructible|unbreakable|everlasting|non-?toxic|bullet-?proof)\b/i,
  /\bguarante(?:e|ed|es)\b/i,
  /\b(?:FDA|EN|ISO|BIFMA)[\s-](?:approved|certified)\b/i,
];

/** The first words of a text that promise; `undefined` where none do. */
export function promiseIn(text: string): string | undefined {
  const flat = text.replaceAll(/\s+/g, ' ');
  for (const pattern of PROMISES) {
    const words = pattern.exec(flat)?.[0];
    if (words !== undefined) return words;
  }
  return undefined;
}
