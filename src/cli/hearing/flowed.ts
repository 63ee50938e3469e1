interface FlowedLine {
  readonly depth: number;
  readonly text: string;
  readonly isFlowed: boolean;
}

function flowedLine(line: string): FlowedLine {
  const marks = /^>*/.exec(line)?.[0] ?? '';
  const text = line.slice(marks.length).replace(/^ /, '');
  return { depth: marks.length, text, isFlowed: text.endsWith(' ') && text !== '-- ' };
}

/**
 * Text as `format=flowed` carries it, its wrapped lines put together again; quoted lines keep one mark a level.
 *
 * @param deletesSpace `delsp=yes`: the space at which a line was broken is not part of the text
 * @source RFC 3676, sections 4.1 to 4.5: flowed lines end in a space, stuffing, the signature's line, quoting
 */
export function unflowed(text: string, deletesSpace: boolean): string {
  const lines = text.split(/\r\n|\n/).map(flowedLine);
  const whole: string[] = [];
  for (let at = 0; at < lines.length; at += 1) {
    let line = lines[at];
    if (line === undefined) break;
    const { depth } = line;
    let paragraph = '';
    for (;;) {
      const next = lines[at + 1];
      const goesOn = line.isFlowed && next !== undefined && next.depth === depth && next.text !== '-- ';
      paragraph += goesOn && deletesSpace ? line.text.slice(0, -1) : line.text;
      if (!goesOn || next === undefined) break;
      line = next;
      at += 1;
    }
    whole.push(depth === 0 ? paragraph : `${'>'.repeat(depth)} ${paragraph}`);
  }
  return whole.join('\n');
}
