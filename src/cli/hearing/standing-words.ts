import type { Body, Chosen, EntryOf, IssuedOffer, Standing } from '../../record/index.ts';
import { formatMoney } from '../../units/index.ts';

/** A choice in a line: `design A of r2 with ceramic, €6,348.00`. */
export function choiceWords({ design, revision, options, totalMinor, currency }: Chosen, language: string): string {
  const total = totalMinor === undefined || currency === undefined ? '' : `, ${formatMoney({ minor: totalMinor, currency }, language)}`;
  return `design ${design} of ${revision}${options.length === 0 ? '' : ` with ${options.join(', ')}`}${total}`;
}

/** What an answer says, in a line: `yes to design A of r2 with ceramic, €6,348.00`. */
export function answerWords({ verdict, revision, chosen, design, base }: Body<'answer'>, language: string): string {
  if (verdict === 'mix') return `the top of ${design} with the base of ${base}, of ${revision}`;
  if (chosen !== undefined) return `yes to ${choiceWords(chosen, language)}`;
  return design === undefined ? `no to ${revision}` : `no to design ${design} of ${revision}`;
}

/** The commands that come next after answers that are no yes. */
function nextDraft(slug: string, answers: readonly EntryOf<'answer'>[]): string {
  const mix = answers.find(({ verdict }) => verdict === 'mix');
  const begin = `leafwright revise ${slug}`;
  return mix === undefined ? begin : `${begin} --mix "${mix.design}.top ${mix.base}.base"`;
}

/** How the proposal stands after an answer, and what to do next; one sentence each. */
export function standsNow(
  slug: string,
  standing: Standing,
  offer: IssuedOffer | undefined,
  language: string,
): { readonly says: readonly string[]; readonly next?: string } {
  const { approved, confirmed, disagree, waitingFor, newest, closed } = standing;
  if (closed !== undefined) return { says: [`The proposal is closed since ${closed.on}.`] };
  const answers = Object.values(standing.answers);
  const waits = waitingFor.map(({ person, since }) => `${person} (since ${since})`).join(', ');
  if (confirmed !== undefined && confirmed.chosen.revision === newest?.revision)
    return { says: [`Design ${confirmed.chosen.design} of ${confirmed.chosen.revision} is confirmed.`], next: `leafwright status ${slug}` };
  if (approved !== undefined) {
    const isOne = offer?.rule === 'any' && approved.answers.length < offer.people.length;
    const what = `design ${approved.chosen.design} of ${approved.chosen.revision}`;
    const who = isOne ? 'One yes is enough' : approved.answers.length === 1 ? 'The one who decides has said yes' : 'All have said yes';
    const others = answers.filter(({ verdict }) => verdict !== 'yes').map((answer) => `${answer.person}: ${answerWords(answer, language)}`);
    const beside = others.length === 0 ? [] : [`Not everyone agrees: ${others.join('; ')}.`];
    return { says: [`${who}: ${what} is approved.`, ...beside], next: `leafwright confirm ${slug}` };
  }
  const refused = answers.filter(({ verdict }) => verdict !== 'yes');
  if (disagree) {
    const each = answers.map((answer) => `${answer.person}: ${answerWords(answer, language)}`).join('; ');
    return { says: [`They disagree: nothing is approved. ${each}.`], next: nextDraft(slug, answers) };
  }
  const says: string[] = [];
  if (offer?.rule !== 'any' && refused.length > 0 && waitingFor.length > 0)
    says.push(`All must say yes, so ${newest?.revision} is not approved as it stands.`);
  if (waitingFor.length > 0) says.push(`Still waited for: ${waits}.`);
  else if (refused.length > 0) says.push(`Nobody has said yes to ${newest?.revision}: nothing is approved.`);
  else if (answers.length > 0) says.push('Nothing is approved: they have not said yes to the same.');
  return refused.length === 0 ? { says } : { says, next: nextDraft(slug, answers) };
}
