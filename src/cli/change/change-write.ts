import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CHANGE_LINES, type ChangePrice } from '../../price/index.ts';
import { editYaml, type YamlEdit, YamlEditFault } from '../../read/index.ts';
import type { ProposalInput } from '../../spec/index.ts';
import { UsageFault } from '../command.ts';
import { replaceText } from '../draft/own-files.ts';
import type { ChangeReport } from './change-report.ts';

const quoted = (text: string): string => JSON.stringify(text);

/** The edits that put a change into proposal.yaml: its shown lines, and what it was priced from. `has` tells which of its lines stand there. */
function changeEdits(
  input: ProposalInput,
  price: ChangePrice,
  report: ChangeReport,
  has: (id: string) => boolean,
  because: string | undefined,
): readonly YamlEdit[] {
  const lines = CHANGE_LINES.flatMap((id): readonly YamlEdit[] => {
    const line = report.lines.find((one) => one.id === id);
    if (line === undefined) return has(id) ? [{ path: ['lines', id], value: undefined }] : [];
    const says = quoted(input.library.texts[`change.${id}`] ?? id);
    return [{ path: ['lines', id], value: `{ says: ${says}, each: ${quoted(line.each)} }` }];
  });
  const facts = [
    `of: ${report.ordered.revision}`,
    `design: ${report.design}`,
    `options: [${report.options.join(', ')}]`,
    `stage: ${price.stage}`,
    `weeks: ${price.weeks}`,
    ...(price.again === undefined ? [] : [`again: ${price.again}`]),
    ...(because === undefined ? [] : [`because: ${quoted(because)}`]),
  ];
  return [...lines, { path: ['revision', 'change'], value: `{ ${facts.join(', ')} }` }];
}

/** Writes a change into the draft's proposal.yaml, in place of the lines of one that stand there; everything else in the file stays byte for byte. Gives its path in the workspace.
 * Throws a UsageFault where it can not be edited in place; nothing is written then. */
export function writeChange(
  workspace: string,
  input: ProposalInput,
  price: ChangePrice,
  report: ChangeReport,
  because: string | undefined,
  standing: readonly string[],
): string {
  const shown = `proposals/${input.slug}/proposal.yaml`;
  const path = join(workspace, ...shown.split('/'));
  const before = readFileSync(path, 'utf8');
  const after = edited(
    before,
    changeEdits(input, price, report, (id) => standing.includes(id), because),
  );
  replaceText(path, after);
  return shown;
}

function edited(text: string, edits: readonly YamlEdit[]): string {
  try {
    return editYaml(text, edits);
  } catch (fault) {
    if (!(fault instanceof YamlEditFault)) throw fault;
    throw new UsageFault(`proposal.yaml: ${fault.message}`, 'leave --write out, and write revision.change and the lines by hand');
  }
}
