import type { z } from 'zod';
import { choice, number, patterned, text } from './field.ts';
import { group } from './shape.ts';

const colour = (noun: string) => patterned(noun, /^#[0-9a-fA-F]{6}$/, 'a colour such as #c8a878');

/** Muted colours for drawings. */
function colours() {
  return group('the colours in drawings', {
    face: colour('the colour of the face'),
    grain: colour('the colour of grain lines'),
    end: colour('the colour of end grain'),
  });
}

const ratio = (noun: string) => number(noun, { from: 0, to: 1, above: true });

/** An entry of templates/woods.yaml. */
export function woodSchema() {
  return group(
    'a wood',
    {
      name: text('the name of the wood'),
      botanical: text('the botanical name'),
      densityKgM3: number(
        'the density at 12 % moisture, kg/m3',
        { from: 80, to: 1400 },
        {
          more: 'Stated, or 1000 x specific gravity at 12 % x 1.12 (Wood Handbook Eq. 4-14).',
        },
      ),
      specificGravity12: number('the specific gravity at 12 % moisture', { from: 0.05, to: 1.4 }).optional(),
      hardness: choice('whether it is a hardwood or a softwood', ['hardwood', 'softwood']),
      moeMPa: number(
        'the modulus of elasticity, MPa',
        { from: 500, to: 40_000 },
        { more: 'Mean of small clear pieces, no design value.' },
      ).optional(),
      shrinkRadialPercent: number('the radial shrinkage, green to dry, %', { from: 0, to: 20 }).optional(),
      shrinkTangentialPercent: number('the tangential shrinkage, green to dry, %', { from: 0, to: 25 }).optional(),
      changeRadial: number('the radial change for each 1 % of moisture', { from: 0, to: 0.02 }, { more: 'Wood Handbook Table 13-5.' }),
      changeTangential: number(
        'the tangential change for each 1 % of moisture',
        { from: 0, to: 0.02 },
        { more: 'Wood Handbook Table 13-5.' },
      ),
      elastic: group(
        'elastic ratios',
        {
          etOverEl: ratio('E tangential over E along the grain'),
          erOverEl: ratio('E radial over E along the grain'),
          glrOverEl: ratio('G LR over E along the grain').optional(),
          gltOverEl: ratio('G LT over E along the grain').optional(),
          grtOverEl: ratio('G RT over E along the grain').optional(),
        },
        { more: 'Where published: Wood Handbook Tables 5-1 and 5-2.' },
      ).optional(),
      colour: colours(),
      origin: text('where it comes from').optional(),
      ageing: text('what time and light do to it, a key of the texts').optional(),
      source: text('where the figures come from'),
    },
    { more: 'Mechanical values are means of small clear pieces at 12 % moisture, no design values.' },
  );
}

/** An entry of templates/materials.yaml. */
export function materialSchema() {
  return group(
    'a material',
    {
      name: text('the name of the material'),
      densityKgM3: number('the density, kg/m3', { from: 10, to: 25_000 }),
      colour: colours(),
      source: text('where the figures come from'),
    },
    { more: 'Steel, glass, stone: no grain, no movement.' },
  );
}

/** A wood of templates/woods.yaml. Mechanical values are means of small clear pieces at 12 % moisture, no design values. */
export type WoodSpec = z.infer<ReturnType<typeof woodSchema>>;
/** Steel, glass, stone: no grain, no movement. */
export type MaterialSpec = z.infer<ReturnType<typeof materialSchema>>;
