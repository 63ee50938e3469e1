import { letterText, sayOf } from './compose.ts';
import { type AnswerData, answerIds, shutPage } from './data.ts';
import { markMissing, readForm, settleOptions, showParts } from './form.ts';
import { bindWays, findDone, showLetter } from './send.ts';

/** The day that the reader's own clock shows, `2027-02-14`. */
function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Opens what is folded while the page is printed, for browsers whose style sheets can not. */
function openForPrint(): void {
  const folded: HTMLDetailsElement[] = [];
  addEventListener('beforeprint', () => {
    for (const one of document.querySelectorAll('details:not([open])')) {
      if (!(one instanceof HTMLDetailsElement)) continue;
      one.open = true;
      folded.push(one);
    }
  });
  addEventListener('afterprint', () => {
    for (const one of folded.splice(0)) one.open = false;
  });
}

/**
 * Makes the letter of answer live: shows the parts of the answer that is being given, looks its total up, and turns it into
 * text with a reply code. Asks nobody for anything and keeps nothing. Where a part of the page is not there, the page stays
 * as it is without a script; a page that takes no answer any more has no letter.
 */
function begin(): void {
  if (document.querySelector(shutPage) !== null) return;
  const root = document.getElementById(answerIds.root);
  const form = document.getElementById(answerIds.form);
  const block = document.getElementById(answerIds.data);
  const done = findDone(document.getElementById(answerIds.done) ?? document.createElement('div'));
  if (root === null || !(form instanceof HTMLFormElement) || block === null || done === undefined) return;
  const data = JSON.parse(block.textContent ?? '') as AnswerData;
  const notice = form.querySelector<HTMLElement>('[data-notice]');
  const say = (words: string): void => {
    if (notice !== null) notice.textContent = words;
  };

  form.addEventListener('input', ({ target }) => {
    const isOption = target instanceof HTMLInputElement && target.closest('[data-options]') !== null;
    const words = isOption ? settleOptions(form, data, target) : '';
    if (done.root.hidden) say(words);
    else say(`${words} ${data.texts['letter.js-taken-back'] ?? ''}`.trim());
    done.root.hidden = true;
    showParts(form, data);
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    say('');
    if (!markMissing(form, data)) return;
    const filled = readForm(form);
    const agreement = form.querySelector('[data-agreement]')?.textContent?.trim() ?? '';
    try {
      const day = today();
      showLetter(done, data, filled, letterText(data, filled, agreement, day), day);
    } catch {
      say(sayOf(data)('letter.js-no-code', { email: data.email }));
    }
  });
  bindWays(done, data);
  showParts(form, data);
  root.classList.add('is-live');
}

openForPrint();
begin();
