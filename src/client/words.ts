/** Values for the `{names}` in a text. */
export type TextValues = Readonly<Record<string, string | number>>;

/** The texts of one language, looked up by key. */
export interface Words {
  readonly language: string;
  /** The text of a key with its `{names}` filled in. Throws where the key is not in the texts: a page never shows a bare key. */
  readonly say: (key: string, values?: TextValues) => string;
  /** The form of a counted text for `count` (`key.one`, `key.other`, ...); `{count}` is filled in with it. */
  readonly count: (key: string, count: number, values?: TextValues) => string;
  readonly has: (key: string) => boolean;
}

function fill(text: string, values: TextValues): string {
  return text.replace(/\{([a-z0-9-]+)\}/gi, (whole, name: string) => {
    const value = values[name];
    return value === undefined ? whole : String(value);
  });
}

/**
 * Looks texts up by key, with plurals by `Intl.PluralRules` of the stated language.
 * `texts` are the library's, already in that language.
 */
export function wordsOf(language: string, texts: Readonly<Record<string, string>>): Words {
  const rules = new Intl.PluralRules(language);
  const say = (key: string, values: TextValues = {}): string => {
    const text = texts[key];
    if (text === undefined) throw new Error(`no text with the key ${key} in ${language}`);
    return fill(text, values);
  };
  return {
    language,
    say,
    count: (key, count, values = {}) => {
      const form = `${key}.${rules.select(count)}`;
      return say(texts[form] === undefined ? `${key}.other` : form, { count, ...values });
    },
    has: (key) => texts[key] !== undefined,
  };
}
