import { mailLink, sayOf } from './compose.ts';
import type { AnswerData, Filled } from './data.ts';
import { all } from './form.ts';

/** Where the finished letter stands. */
export interface Done {
  readonly root: HTMLElement;
  readonly heading: HTMLElement;
  readonly text: HTMLElement;
  readonly status: HTMLElement;
}

export function findDone(root: HTMLElement): Done | undefined {
  const heading = root.querySelector<HTMLElement>('h3');
  const text = root.querySelector<HTMLElement>('pre');
  const status = root.querySelector<HTMLElement>('[role="status"]');
  return heading === null || text === null || status === null ? undefined : { root, heading, text, status };
}

/** Shows a letter of a day (`2027-02-14`) with the ways to send it, and goes there. */
export function showLetter({ root, heading, text, status }: Done, data: AnswerData, filled: Filled, letter: string, day: string): void {
  const say = sayOf(data);
  const isLate = filled.verdict === 'yes' && day > data.validUntil.day;
  text.textContent = letter;
  const link = mailLink(data, letter);
  const mail = root.querySelector<HTMLAnchorElement>('a[data-way="mail"]');
  if (mail !== null) {
    mail.hidden = link === undefined;
    mail.href = link ?? '';
  }
  const said = [
    ...(link === undefined && mail !== null ? [say('letter.js-too-long', { email: data.email })] : []),
    ...(isLate ? [say('letter.js-late', { date: data.validUntil.shown })] : []),
  ];
  status.textContent = said.join(' ');
  const person = data.letter.people.length === 1 ? data.letter.people[0] : data.letter.people.find(({ place }) => place === filled.place);
  const fields: Readonly<Record<string, string>> = {
    proposal: data.proposal,
    revision: data.revision,
    person: person?.id ?? '',
    name: filled.name.trim(),
    letter,
  };
  for (const field of all<HTMLInputElement>(root, 'input[type="hidden"]')) field.value = fields[field.name] ?? '';
  root.hidden = false;
  heading.focus();
}

/** Copies the letter; where a browser refuses, the letter is marked, to be copied by hand. */
async function copy({ text, status }: Done, data: AnswerData): Promise<void> {
  const copied = await navigator.clipboard?.writeText(text.textContent ?? '').then(
    () => true,
    () => false,
  );
  if (copied !== true) document.getSelection()?.selectAllChildren(text);
  status.textContent = sayOf(data)(copied === true ? 'letter.js-copied' : 'letter.js-not-copied', { email: data.email });
}

function save({ text, status }: Done, data: AnswerData): void {
  const name = `${data.proposal}-${data.revision}-${sayOf(data)('letter.js-file')}.txt`;
  const address = URL.createObjectURL(new Blob([text.textContent ?? ''], { type: 'text/plain;charset=utf-8' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  status.textContent = sayOf(data)('letter.js-saved', { file: name });
}

/** Prints the letter alone: the style sheet hides all else while the page is marked so. */
function print(): void {
  const page = document.documentElement;
  page.dataset['print'] = 'letter';
  addEventListener('afterprint', () => delete page.dataset['print'], { once: true });
  window.print();
}

/** Gives the buttons of the finished letter something to do. */
export function bindWays(done: Done, data: AnswerData): void {
  const ways: Readonly<Record<string, () => void>> = { copy: () => void copy(done, data), save: () => save(done, data), print };
  for (const button of all(done.root, 'button[data-way]')) button.addEventListener('click', () => ways[button.dataset['way'] ?? '']?.());
}
