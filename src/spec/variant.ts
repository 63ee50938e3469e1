import { z } from 'zod';
import { decimal, nameOf, number, patterned, percent, text, yesNo } from './field.ts';
import { GROUPS, group, list, named } from './shape.ts';
import { answerSchema } from './wish.ts';

/** A patch of the table: any keys of table.yaml, `null` to take one away. Checked when it is merged. */
function patch(noun: string) {
  const schema = z.record(z.string(), z.unknown());
  GROUPS.add(schema, {
    noun,
    more: 'Any keys of table.yaml. `null` takes a key away; lists are replaced whole; a group whose `kind` changes is replaced.',
  });
  return schema.readonly();
}

function option() {
  return {
    says: text('what the option is'),
    group: nameOf('the group of the option', { more: 'Options of one group exclude each other; one of them is the default.' }).optional(),
    default: yesNo('whether the option is on unless the client says otherwise').prefault('false'),
    excludes: list('the options that it excludes', nameOf('an option')).prefault([]),
    price: decimal('the net price asked for it', { signed: true, more: 'Computed from the patch where silent.' }).optional(),
    why: text('why it is offered').optional(),
  };
}

/** What a variant's file says about itself, without patches. */
function words() {
  return {
    name: text('the name of the variant'),
    why: text('why it is offered', { long: true, more: 'Markdown, to the client.' }),
    from: patterned('the earlier design that it grew from', /^(?:none|[A-Z0-9-]{1,40})$/, 'the letter of a design such as A, or none', {
      more: 'Of the revision before; the one of its own letter where silent. What changed is told against it; `none`: it is new.',
      examples: ['A', 'none'],
    }).optional(),
    answers: named('your answers to wishes', answerSchema(), { more: 'By id of the wish.' }).prefault({}),
    hours: number(
      'your own estimate in hours',
      { from: 0, to: 5000 },
      { more: 'For the sanity line beside the computed hours.' },
    ).optional(),
    ready: text('when it is ready').optional(),
    offered: yesNo('whether it is offered', { more: '`false`: drawn and assessed for you alone.' }).prefault('true'),
    notes: list('notes', text('a note')).prefault([]),
    priceGroups: list(
      "groups of the table's own price that the client sees",
      group('a group of the price', { says: text('what the group is'), percent: percent('the share of the price', { from: 0, to: 100 }) }),
      { more: 'Their shares add up to 100 %. One figure where silent.', most: 12 },
    ).optional(),
  };
}

/** variants/<id>.yaml as the maker writes it. */
export function variantSchema() {
  return group(
    'the variant',
    {
      ...words(),
      table: patch('what differs from the shared table').prefault({}),
      options: named('the options', group('an option', { ...option(), patch: patch('what the option changes').prefault({}) }), {
        more: 'By id. Two that can be on together touch different keys, or exclude each other.',
        example: 'options:\n  oil: { says: Hardwax oil in place of varnish, patch: { finish: hardwax-oil } }',
      }).prefault({}),
    },
    { example: 'name: Slab ends\nwhy: More room for feet.\ntable:\n  top: { thickness: 30 }' },
  );
}

/** variants/<id>.yaml, checked key by key; its patches are checked once they are merged. */
export type VariantFile = z.infer<ReturnType<typeof variantSchema>>;

/** An option inside a variant: a patch of the table that changes price or drawing, already applied. */
export type OptionSpec = Omit<VariantFile['options'][string], 'patch'>;

/** variants/<id>.yaml, checked, without its patches (they are already in the table). */
export type VariantSpec = Omit<VariantFile, 'table' | 'options'> & {
  /** File name in upper case: A, B, C. */
  readonly id: string;
  readonly options: Readonly<Record<string, OptionSpec>>;
};

/** The words of a variant, its patches taken off. */
export function variantOf(id: string, file: VariantFile): VariantSpec {
  const { table: _table, options, ...rest } = file;
  const bare = Object.entries(options).map(([key, { patch: _patch, ...one }]) => [key, one] as const);
  return { ...rest, id, options: Object.fromEntries(bare) };
}
