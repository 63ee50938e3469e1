import type { ShownDesign } from './client-source.ts';
import type { Shown } from './shown.ts';
import type { Words } from './words.ts';

/** From this mass on a piece is said to need two people. @source common practice; lifting limits are for local rules to set */
const TWO_PEOPLE_KG = 20;

/** How it stands in the room and comes into it: way in, clear sides, heavy pieces. */
export function fitWords(design: ShownDesign, shown: Shown, words: Words): readonly string[] {
  const { fit } = design.figures;
  const heaviest = Math.max(0, ...fit.pieces.map((piece) => piece.massKg));
  const sides = (['front', 'back', 'left', 'right'] as const).flatMap((side) => {
    const clear = fit.clearancesMm[side];
    return clear === undefined ? [] : [words.say('fit.side', { side: words.say(`side.${side}`), clear: shown.length(clear, 'down') })];
  });
  return [
    ...(sides.length === 0 ? [] : [words.say('fit.sides', { sides: new Intl.ListFormat(words.language).format(sides) })]),
    ...fit.wayIn.map((way) => words.say(`fit.way-in.${way.result}`, { way: way.says })),
    ...(heaviest >= TWO_PEOPLE_KG ? [words.say('fit.two-people', { mass: shown.mass(heaviest, 'up') })] : []),
  ];
}
