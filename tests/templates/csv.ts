/** Rows of a comma-separated file with quoted fields (RFC 4180), by the names of its first line. */
export function readCsv(text: string): readonly Readonly<Record<string, string>>[] {
  const rows: string[][] = [];
  for (const line of text.split(/\r?\n/)) {
    if (line === '') continue;
    const fields: string[] = [];
    for (const match of line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)) {
      fields.push(match[1] === undefined ? (match[2] ?? '') : match[1].replaceAll('""', '"'));
    }
    rows.push(fields);
  }
  const [head = [], ...body] = rows;
  return body.map((fields, at) => {
    if (fields.length !== head.length) throw new Error(`row ${at + 2} has ${fields.length} fields, the first line has ${head.length}`);
    return Object.fromEntries(head.map((name, column) => [name, fields[column] ?? '']));
  });
}
