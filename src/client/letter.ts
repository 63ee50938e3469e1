import type { ProposalInput, ProposalSpec } from '../spec/index.ts';
import { pageOfDecider } from '../spec/index.ts';
import { byCodeUnit } from '../units/index.ts';
import type { ShownDesign } from './client-source.ts';
import type { ClientView, LetterDesign, LetterView } from './client-view.ts';
import { decidersInOrder, termsDigest } from './offer.ts';
import type { Shown } from './shown.ts';
import { termsView } from './terms-view.ts';

/** Digits of the fingerprint that a reply code holds. */
const CODE_DIGITS = 20;

/** Those who are shown a page for this audience; all who decide where nobody's page is named so. */
function peopleOf(proposal: ProposalSpec, audience: ClientView['audience']): LetterView['people'] {
  const all = decidersInOrder(proposal).map((id, place) => ({ id, place, name: proposal.deciders.people[id]?.name ?? id }));
  const own = all.filter(({ id }) => pageOfDecider(proposal, id).audience === audience);
  return own.length === 0 ? all : own;
}

function letterDesign({ id, spec, price }: ShownDesign, seesPrice: boolean, shown: Shown): LetterDesign {
  return {
    id,
    name: spec.variant.name,
    options: price.options
      .map((option) => ({ id: option.id, says: option.says, ...(option.group === undefined ? {} : { group: option.group }) }))
      .toSorted((a, b) => byCodeUnit(a.id, b.id)),
    combinations: price.combinations.map(({ options, isDefault, totalMinor, instalmentsMinor = [] }) => ({
      options: options.toSorted(byCodeUnit),
      isDefault,
      ...(seesPrice
        ? { total: { minor: totalMinor, shown: shown.money(totalMinor) }, instalments: instalmentsMinor.map(shown.money) }
        : {}),
    })),
  };
}

/**
 * What the letter of answer can say on the page of one audience: who answers, designs with every allowed combination and, for
 * the one who pays, its total and instalments. Throws where there is no design on offer: checked on reading.
 */
export function letterView(
  { proposal, library }: ProposalInput,
  designs: readonly ShownDesign[],
  { audience, fingerprint }: { readonly audience: ClientView['audience']; readonly fingerprint?: string },
  shown: Shown,
): LetterView {
  const [first] = designs;
  if (first === undefined) throw new Error('a letter needs a design on offer');
  const seesPrice = audience === 'payer';
  return {
    ...(fingerprint === undefined ? {} : { fingerprint: fingerprint.slice(0, CODE_DIGITS) }),
    ...(seesPrice ? { currency: proposal.currency } : {}),
    terms: termsDigest(termsView(first, seesPrice)),
    people: peopleOf(proposal, audience),
    designs: designs.map((design) => letterDesign(design, seesPrice, shown)),
    instalments: seesPrice ? proposal.instalments.map(({ when }) => when) : [],
    ...(library.maker.form === undefined ? {} : { form: library.maker.form }),
  };
}
