/**
 * Reads a care note as its owner does: which substances and things its words tell to use, and which never to use, from the sentences
 * alone. Knows nothing of what a rule says of itself.
 */

/**
 * What may be put on a table, by the words in which it is told.
 * @source columns cleaning_do and cleaning_dont of tests/published/finishes.csv, each entry of them; household names for them that the
 * table does not use (vinegar, window cleaner, white spirit) by common knowledge
 */
export const LEXICON: Readonly<Record<string, RegExp>> = {
  'soft cloth': /\bsoft\b(?! finish| plastic| wood)|\bdry cloths?\b/,
  'damp cloth': /\b(?:damp|well-wrung) cloth\b|\bcloth (?:well )?wrung\b|\bcloth wrung out\b/,
  'mild soap': /\bmild soap\b/,
  'soap for oiled wood': /\bsoap made for oiled wood\b/,
  'soap flakes': /\bsoap[- ]flakes?\b/,
  'any soap': /\bno soap\b|\bno cleaner and no soap\b/,
  detergent: /\bwashing-up liquid\b|\bdetergent\b/,
  'perfumed or bleached soap': /\bperfumed or bleached soap\b/,
  'linseed soap': /\blinseed soap\b/,
  'paste wax': /\bpaste wax\b/,
  oil: /\bupkeep oil\b|\bno oil\b/,
  'standing water': /\bstanding water\b|\bwet (?:cloth on it|glass|objects)/,
  ammonia: /\bammonia\b/,
  bleach: /\bbleach\b/,
  'alkaline cleaner': /\b(?:window, )?oven or drain cleaner\b|\balkaline cleaner\b/,
  acid: /\bvinegar\b|\blemon\b/,
  abrasive: /\bscouring (?:pad|milk)s?\b|\bsteel wool\b|\babrasive pads\b/,
  sandpaper: /\bsandpaper\b|\b\d{3} paper\b/,
  silicone: /\bsilicone\b/,
  'scented oil': /\bscented\b/,
  alcohol: /\balcohol\b|\bspirit\b|\bperfume\b|\bnail-varnish remover\b/,
  solvent: /\bsolvent\b|\bthinner\b|\bwhite spirit\b|\bink remover\b/,
  heat: /\biron\b(?! or steel)|\bhair dryer\b|\bsteam cleaner\b/,
  knife: /\bknife\b/,
  salt: /\bsalt\b/,
};

/** A word that forbids what follows it in its sentence. */
const FORBIDS = /^(?:no|never|not|nothing|without|neither|nor)\b|\b(?:do not|never|not for)\b/i;
/** A word at the head of a part of a sentence that asks for what follows it. */
const ASKS =
  /^(?:then |now |and |if it needs it |still white |still dull |where [a-z ]+ |until then |once or twice a month |after meals )?(?:blot|wipe|wash|rub|dry|buff|sand|push|dab|lift|put|press|take|use|soap|wax|dust|a thin coat|a trivet|ice|one spoon|coasters|cloth wrung|the soap)\b/i;

/** Substances and things that a text names. */
export function namedIn(text: string): readonly string[] {
  return Object.entries(LEXICON).flatMap(([name, words]) => (words.test(text.toLowerCase()) ? [name] : []));
}

export interface Heard {
  readonly uses: ReadonlySet<string>;
  readonly forbids: ReadonlySet<string>;
}

/** What sentences tell to use and never to use: each part between commas goes on as the one before, until a word turns it. */
export function heardIn(texts: readonly string[]): Heard {
  const [uses, forbids] = [new Set<string>(), new Set<string>()];
  for (const sentence of texts.flatMap((text) => text.split(/(?<=[.?!])\s+/))) {
    let isForbidding = false;
    for (const part of sentence.split(/[,:;]\s+|\s+(?=and no\b|but no\b|nor\b)|\?\s+/).map((one) => one.replace(/^(?:and|but) /i, ''))) {
      if (FORBIDS.test(part)) isForbidding = true;
      else if (ASKS.test(part)) isForbidding = false;
      for (const name of namedIn(part)) (isForbidding ? forbids : uses).add(name);
    }
  }
  return { uses, forbids };
}

/** Soaps that a note may tell to wash with. */
export const SOAPS = ['mild soap', 'soap for oiled wood', 'soap flakes', 'linseed soap', 'perfumed or bleached soap', 'detergent'];

/** What a wider word takes in. */
const WIDER: Readonly<Record<string, readonly string[]>> = { 'any soap': SOAPS };

/** What is told to be used though it is forbidden, by its own name or by a wider one. */
export function clashes(uses: ReadonlySet<string>, forbidden: ReadonlySet<string>): readonly string[] {
  const all = new Set([...forbidden].flatMap((name) => [name, ...(WIDER[name] ?? [])]));
  return [...uses].filter((name) => all.has(name)).toSorted();
}
