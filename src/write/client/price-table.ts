import type { ClientView, PriceView } from '../../client/index.ts';
import type { Block, TableBlock } from './blocks.ts';
import { heading, say } from './paper.ts';

type Row = TableBlock['rows'][number];

/** The lines of a price with what stands below them. */
export function priceTable(view: ClientView, price: PriceView, totals: readonly Row[]): readonly Block[] {
  const lines = price.lines.flatMap((line): readonly Row[] => [
    { cells: [line.quantity === undefined ? line.says : `${line.says} (${line.quantity})`, line.certainty, line.amount], strong: false },
    ...line.groups.map((group) => ({ cells: [group.says, '', group.amount], strong: false, indent: true })),
  ]);
  return [
    heading(view, 'scope.price'),
    {
      kind: 'table',
      showHead: true,
      columns: [
        { head: say(view, 'price.what'), share: 0.58, align: 'left' },
        { head: say(view, 'price.certainty'), share: 0.2, align: 'left' },
        { head: say(view, 'price.amount'), share: 0.22, align: 'right' },
      ],
      rows: [...lines, ...totals],
    },
  ];
}

/** When what share is paid. */
export function instalmentTable(view: ClientView, instalments: PriceView['instalments']): readonly Block[] {
  if (instalments.length === 0) return [];
  return [
    heading(view, 'scope.instalments', 3),
    {
      kind: 'table',
      showHead: false,
      columns: [
        { head: '', share: 0.14, align: 'left' },
        { head: '', share: 0.6, align: 'left' },
        { head: '', share: 0.26, align: 'right' },
      ],
      rows: instalments.map((i) => ({ cells: [i.percent, i.when, i.amount], strong: false })),
    },
  ];
}
