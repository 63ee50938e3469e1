import { statSync } from 'node:fs';
import { UsageFault } from './command.ts';

/** Endings of files in which words come. */
const endings = /^[^\s"]+\.(?:txt|eml|msg|mbox|html?|json|md|pdf|docx?|odt|rtf|jpe?g|png|heic)$/i;

/** Words may be longer than a name can be: then no file is called so. */
function isFile(path: string): boolean {
  try {
    return statSync(path, { throwIfNoEntry: false })?.isFile() === true;
  } catch {
    return false;
  }
}

/**
 * Throws a UsageFault where words on the command line are the name of a file: whoever writes it means what is in the file.
 *
 * @param command as it would be typed, with the proposal: `leafwright record harbour-house`
 */
export function refuseFileName(words: string | undefined, command: string): void {
  const said = words?.trim() ?? '';
  if (said === '' || /[\r\n]/.test(said) || said.length > 200) return;
  const isThere = isFile(said);
  if (!isThere && !endings.test(said)) return;
  const mend = `${command} --file ${/\s/.test(said) ? `"${said}"` : said}`;
  throw new UsageFault(
    `"${said}" is the name of a file, not what was said`,
    isThere ? mend : `there is no such file here; if you meant one: ${mend}`,
  );
}
