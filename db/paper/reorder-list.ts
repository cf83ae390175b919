/** What to order, to be handed to whoever buys: each stock with its places, what is moved first, and a line to tick. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { amountWords } from '../../domain/supply/boxes.ts';
import type { BetterLine, ReorderLine } from '../api-supply.ts';
import { supplyReorder } from '../questions/supply.ts';
import type { Asking } from '../questions/types.ts';
import { counted, dateText, figure } from './dates.ts';
import { type Sheet, titled } from './frame.ts';
import { figureCell, type Head, listTable } from './tables.ts';

const HEADS: readonly Head[] = [
  { head: 'Stock', width: 128 },
  { head: 'Order', width: 68, figure: true },
  { head: 'For', width: '*' },
  { head: 'Move first, over par', width: 104 },
  { head: 'Ordered', width: 46 },
];

const MOVES: readonly Head[] = [
  { head: 'Stock', width: 150 },
  { head: 'Lot', width: 62 },
  { head: 'Expires', width: 56, figure: true },
  { head: 'Move', width: 56, figure: true },
  { head: 'From', width: '*' },
  { head: 'To', width: '*' },
];

/** The reorder list of the department as its stock stands. */
export async function reorderList(asking: Asking, on: string): Promise<Sheet> {
  const { rows, better } = await supplyReorder.answer(asking, { on });
  const toOrder = rows.filter(r => r.order > 0).length;
  return {
    name: 'Reorder list',
    about: null,
    on,
    orientation: 'portrait',
    rows: rows.length + better.length,
    content: [
      titled('What must be ordered?', {
        text: `${counted(rows.length, 'stock')} under the minimum somewhere, ${toOrder} of them to be ordered. Up to the par of each place; what has expired is not counted, and amounts are in each where no box is named.`,
      }),
      ...(rows.length === 0
        ? [{ text: 'Nothing is under its minimum.', margin: [0, 8, 0, 0] } satisfies Content]
        : [listTable(HEADS, rows.map(orderCells))]),
      ...(better.length > 0
        ? [
            listTable(
              MOVES,
              better.map(moveCells),
              'Used sooner elsewhere, by what each place issued in 180 days',
            ),
          ]
        : []),
    ],
  };
}

function orderCells(row: ReorderLine): TableCell[] {
  const order =
    row.order === 0
      ? 'none'
      : row.boxes === null
        ? figure(row.order)
        : `${counted(row.boxes, 'box', 'boxes')} of ${row.perBox}`;
  return [
    { text: row.what, bold: true },
    figureCell(order),
    {
      text: row.places
        .map(
          p =>
            `${p.name}: ${amountWords(p.wants, row.perBox)} (${p.usable < 0 ? 'a count is owed' : `has ${figure(p.usable)} of ${figure(p.par)}`})`,
        )
        .join('\n'),
    },
    { text: row.spare.map(s => `${s.name}: ${amountWords(s.over, row.perBox)}`).join('\n') || '–' },
    { text: '' },
  ];
}

const moveCells = (b: BetterLine): TableCell[] => [
  { text: b.what },
  { text: b.lot === null || b.lot === b.expires ? '–' : b.lot },
  figureCell(dateText(b.expires)),
  figureCell(amountWords(b.amount, b.perBox)),
  { text: b.fromName },
  { text: b.toName },
];
