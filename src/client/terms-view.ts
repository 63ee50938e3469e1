import type { ShownDesign } from './client-source.ts';
import type { ClientView } from './client-view.ts';
import { richText } from './rich-text.ts';

/** The terms bind the one who pays; someone who sees no price is shown the tolerances alone. */
export function termsView(design: ShownDesign, seesPrice: boolean): ClientView['terms'] {
  const { sections, tolerances, changes, cancellation } = design.spec.library.terms;
  if (!seesPrice) return { sections: [], tolerances, changes: [], cancellation: [] };
  return {
    sections: sections.map((section) => ({ title: section.title, body: richText(section.body) })),
    tolerances,
    changes,
    cancellation: cancellation.map(({ stage, says }) => ({ stage, says })),
  };
}
