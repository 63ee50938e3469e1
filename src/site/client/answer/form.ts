import { type Field, missingFields, sayOf } from './compose.ts';
import { type AnswerData, combinationOf, type Filled, nearestCombination } from './data.ts';

/** Elements of a kind below another, as a list. */
export const all = <T extends HTMLElement>(root: ParentNode, selector: string): readonly T[] => [...root.querySelectorAll<T>(selector)];

const isVerdict = (text: string | undefined): text is NonNullable<Filled['verdict']> => text === 'yes' || text === 'no' || text === 'mix';

/** The value that is ticked of a set of radio buttons, typed or selected; undefined where nothing is. */
function filledIn(form: HTMLFormElement, name: string): string | undefined {
  const control = form.elements.namedItem(name);
  if (control instanceof HTMLInputElement && control.type === 'radio') return control.checked ? control.value : undefined;
  if (control instanceof HTMLTextAreaElement || control instanceof HTMLInputElement) return control.value;
  if (control instanceof HTMLSelectElement) return control.value === '' ? undefined : control.value;
  return all<HTMLInputElement>(form, `input[name="${name}"]`).find((one) => one.checked)?.value;
}

/** Controls of the options of one design. */
const optionControls = (form: HTMLFormElement, design: string | undefined): readonly HTMLInputElement[] =>
  all(form, `[data-options="${design ?? ''}"] input`);

/** What the form holds. */
export function readForm(form: HTMLFormElement): Filled {
  const verdict = filledIn(form, 'verdict');
  const place = filledIn(form, 'person');
  const kind = isVerdict(verdict) ? verdict : undefined;
  const design = filledIn(form, kind === 'no' ? 'not' : kind === 'mix' ? 'top' : 'design');
  const on = optionControls(form, design).filter((one) => one.checked);
  return {
    verdict: kind,
    design: kind === 'no' && design === 'all' ? '' : design,
    base: kind === 'mix' ? filledIn(form, 'base') : undefined,
    options: kind === 'yes' ? on.map((one) => one.value) : [],
    place: place === undefined ? undefined : Number(place),
    name: filledIn(form, 'name') ?? '',
    remark: filledIn(form, kind === 'no' ? 'because' : 'remark') ?? '',
    agrees: kind === 'yes' && all<HTMLInputElement>(form, '[name="agrees"]')[0]?.checked === true,
  };
}

/**
 * After an option was switched: sets the others so that the choice is one that is offered, and gives the words of what was
 * changed with it; empty where nothing was.
 */
export function settleOptions(form: HTMLFormElement, data: AnswerData, switched: HTMLInputElement): string {
  const filled = readForm(form);
  const design = data.letter.designs.find(({ id }) => id === filled.design);
  if (design === undefined || combinationOf(design, filled.options) !== undefined) return '';
  const nearest = nearestCombination(design, filled.options, switched.value);
  const changed: string[] = [];
  for (const control of optionControls(form, design.id)) {
    const isOn = nearest?.options.includes(control.value) ?? control.checked;
    if (control.checked !== isOn) changed.push(design.options.find(({ id }) => id === control.value)?.says ?? '');
    control.checked = isOn;
  }
  return changed.length === 0 ? '' : sayOf(data)('letter.js-settled', { options: changed.join('; ') });
}

/** Total and instalments of what is chosen, looked up in the page's own table. */
function showSum(form: HTMLFormElement, { letter }: AnswerData, filled: Filled): void {
  const sum = form.querySelector<HTMLElement>('[data-sum]');
  if (sum === null) return;
  const design = letter.designs.find(({ id }) => id === filled.design);
  const found = design === undefined ? undefined : combinationOf(design, filled.options);
  const isShown = filled.verdict === 'yes' && found?.total !== undefined;
  sum.hidden = !isShown;
  if (!isShown) return;
  const amounts = [found.total?.shown ?? '', ...(found.instalments ?? [])];
  for (const [i, place] of all(sum, 'dd').entries()) place.textContent = amounts[i] ?? '';
}

/** Shows what belongs to the answer that is being given, and hides the rest. */
export function showParts(form: HTMLFormElement, data: AnswerData): void {
  const filled = readForm(form);
  for (const part of all(form, '[data-for]')) part.hidden = !(part.dataset['for'] ?? '').split(' ').includes(filled.verdict ?? '');
  for (const part of all(form, '[data-options]')) part.hidden = filled.verdict !== 'yes' || part.dataset['options'] !== filled.design;
  showSum(form, data, filled);
}

/** Name of the control, or of the first of several, in which a field is filled in. */
function controlOf(field: Field, verdict: Filled['verdict']): string {
  if (field === 'design') return verdict === 'no' ? 'not' : verdict === 'mix' ? 'top' : 'design';
  return field === 'remark' ? 'because' : field;
}

/** Marks what is missing, each with a sentence beside it, and goes to the first; gives whether nothing is. */
export function markMissing(form: HTMLFormElement, data: AnswerData): boolean {
  const filled = readForm(form);
  const missing = missingFields(data, filled).map((field) => [field, controlOf(field, filled.verdict)] as const);
  const say = sayOf(data);
  for (const place of all(form, '[data-fault]')) {
    const [field] = missing.find(([, name]) => name === place.dataset['fault']) ?? [];
    place.textContent = field === undefined ? '' : say(`letter.js-missing-${field}`);
    for (const control of all(form, `[name="${place.dataset['fault']}"]`)) {
      if (control instanceof HTMLInputElement && control.type === 'radio') continue;
      if (field === undefined) control.removeAttribute('aria-invalid');
      else control.setAttribute('aria-invalid', 'true');
    }
  }
  const [first] = missing;
  if (first === undefined) return true;
  form.querySelector<HTMLElement>(`[name="${first[1]}"]`)?.focus();
  return false;
}
