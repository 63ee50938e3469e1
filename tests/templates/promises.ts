/** Words that promise what a table cannot keep. A text that needs one says what is known instead. */
const REFUSED: readonly RegExp[] = [
  /\b(?:heat|water|child|stain|scratch|spill|fire|shock|fool|idiot|burn|damp)[\s-]?proof\b/i,
  /\b(?:food|child|heat|dishwasher)[\s-]?safe\b/i,
  /\blife[\s-]?(?:time|long)\b/i,
  /\bmaintenance[\s-]?free\b/i,
  /\b(?:indestructible|unbreakable|everlasting|non-?toxic|bullet-?proof)\b/i,
  /\bguarante(?:e|ed|es)\b/i,
  /\b(?:FDA|EN|ISO|BIFMA)[\s-](?:approved|certified)\b/i,
];

/** Every promise in a text, with its line; comments of YAML count too, since they are copied by makers. */
export function promisesIn(text: string): readonly { readonly line: number; readonly words: string }[] {
  return text.split('\n').flatMap((line, at) =>
    REFUSED.flatMap((pattern) => {
      const words = pattern.exec(line)?.[0];
      return words === undefined ? [] : [{ line: at + 1, words }];
    }),
  );
}
