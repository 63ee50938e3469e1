/** Looks a text up by key and fills its `{names}`. Throws where there is none: a page never shows a bare key. */
export type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string;

export function sayer(texts: Readonly<Record<string, string>>): Say {
  return (key, values = {}) => {
    const text = texts[key];
    if (text === undefined) throw new Error(`no text with the key ${key}`);
    return text.replace(/\{([a-z0-9-]+)\}/gi, (whole, name: string) => (values[name] === undefined ? whole : String(values[name])));
  };
}
