import type { ClientView, DesignView } from '../../client/index.ts';
import type { Block } from './blocks.ts';
import { heading, paragraph, rows, say } from './paper.ts';

/** The client's own measures and wishes, and the sizes of the design that is made from them: the ground of a made-to-order contract. */
export function groundBlocks(view: ClientView, design: DesignView): readonly Block[] {
  const { consent } = view;
  if (consent === undefined) return [];
  const sizes = [say(view, 'consent.ground-sizes', { id: design.id }), design.sizes] as const;
  return [
    heading(view, 'consent.ground-title'),
    { ...paragraph(consent.ground.says), keepWithNext: true } as Block,
    rows([...consent.ground.rows.map(({ says, value }) => [says, value] as const), sizes], false, 0.5),
    paragraph(consent.ground.presets, 'small'),
  ];
}

/** What is told of consent to electronic form and of distance selling, with the version of the words. */
export function consentBlocks(view: ClientView): readonly Block[] {
  const { consent } = view;
  if (consent === undefined) return [];
  return [
    heading(view, 'consent.title'),
    rows([
      [say(view, 'consent.sentence-label'), `“${consent.sentence}”`],
      ...[...consent.rows, ...consent.law].map(({ says, value }) => [says, value] as const),
    ]),
    paragraph(consent.note, 'small'),
  ];
}
