import { formatInches, parseLength } from '../units/index.ts';
import type { ShownDesign } from './client-source.ts';
import type { ClientView } from './client-view.ts';
import { richText } from './rich-text.ts';

/** Inches in a tolerance as they are set: `± 1/8 in` with a fraction of one sign and a double prime. */
export function withInches(value: string, language: string): string {
  return value.replaceAll(/(?:\d+ )?\d+(?:\/\d+)? in(?= per |[,;)]|$)/g, (written) => {
    const length = parseLength(written, { bare: 'in' });
    return length.ok ? formatInches(length.value.mm, language, 64) : written;
  });
}

/** The terms bind the one who pays; someone who sees no price is shown the tolerances alone. */
export function termsView(design: ShownDesign, seesPrice: boolean): ClientView['terms'] {
  const { sections, changes, cancellation, storage } = design.spec.library.terms;
  const { language } = design.spec.proposal;
  const tolerances = design.spec.library.terms.tolerances.map(({ says, value }) => ({ says, value: withInches(value, language) }));
  const kept = storage === undefined ? [] : [{ title: design.spec.library.texts['terms.storage'] ?? '', body: storage.says }];
  if (!seesPrice) return { sections: [], tolerances, changes: [], cancellation: [] };
  return {
    sections: [...sections, ...kept].map((section) => ({ title: section.title, body: richText(section.body) })),
    tolerances,
    changes,
    cancellation: cancellation.map(({ stage, says }) => ({ stage, says })),
  };
}
