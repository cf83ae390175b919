/** Counting stock: what really lies there, lot by lot. From here on its place is reckoned from this. */
import { z } from 'zod';
import { amountWords, mixedUp } from '../../domain/supply/boxes.ts';
import type { StockTold } from '../caches/stock.ts';
import { id, mustBe, notFuture, when } from './fields.ts';
import { dated, lot, mustBeStock } from './stock.ts';
import { action, type Refusal, refuse } from './types.ts';

const counted = z.strictObject({
  lot: lot.optional(),
  expires: when.nullable().optional(),
  amount: z.number().int({ error: 'is no whole number. Count in each.' }).min(0).max(10_000_000),
});
type Counted = z.infer<typeof counted>;

export const stockCount = action({
  name: 'stock.count',
  v: 1,
  title: 'Count a stock in a place, lot by lot, in each; a lot that is not named was not counted',
  schema: z.strictObject({
    stock: id,
    place: id,
    counts: z.array(counted).min(1).max(200),
    /** Who saw it counted: another member than who signs. */
    witness: id.optional(),
    /** It was counted so, however much it looks like boxes for each. */
    asCounted: z.boolean().default(false),
    on: when,
  }),
  entitlement: 'record',
  refs: ['stock', 'place', 'witness'],
  check(look, body, { by }) {
    const known = look.stock(body.stock);
    return [
      ...mustBeStock(look, body.stock),
      ...mustBe(look, body.place, 'place', 'place'),
      ...mustBe(look, body.witness, 'member', 'witness'),
      ...notFuture(look, body.on),
      ...(known?.twoCount ? needsWitness(body.witness) : []),
      ...(body.witness !== undefined && body.witness === by
        ? [
            refuse(
              'same member',
              'Who signs the count and who saw it are the same member.',
              'Name the other one who counted.',
              'witness',
            ),
          ]
        : []),
      ...countedTwice(body.counts),
      ...(known && !body.asCounted ? boxes(known, body.place, body.counts) : []),
    ];
  },
  apply: (_entry, { stock, on, place, counts, witness }) => ({
    facts: [
      {
        thing: stock,
        kind: 'counted',
        effective: on,
        values: {
          place,
          counts: counts.map(({ amount, ...c }) => ({ ...dated(c), amount })),
          ...(witness ? { witness } : {}),
        },
        refs: [place, ...(witness ? [witness] : [])],
      },
    ],
  }),
  example: { stock: '&0', place: '&1', counts: [{ lot: 'A7-114', expires: '2028-03', amount: 280 }] },
});

/** Nobody may take two names in a count for more than they are. */
const needsWitness = (witness: string | undefined): Refusal[] =>
  witness === undefined
    ? [
        refuse(
          'two count',
          'This stock is counted by two: a second member has to have seen it.',
          'Name who counted with you. This is no controlled-substance register: those drugs are kept by their own rules, in their own book, and not here.',
          'witness',
        ),
      ]
    : [];

function countedTwice(counts: readonly Counted[]): Refusal[] {
  const names = counts.map(c => dated(c).lot);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  return twice === undefined
    ? []
    : [
        refuse(
          'counted twice',
          twice === null ? 'What has no lot is counted twice.' : `Lot ${twice} is counted twice.`,
          'Add the two together.',
          'counts',
        ),
      ];
}

/** Boxes entered as each, or each as boxes: asked about once, and taken where it was counted so. */
function boxes(known: StockTold, place: string, counts: readonly Counted[]): Refusal[] {
  const { perBox, lots } = known;
  return counts.flatMap(count => {
    const { lot } = dated(count);
    const believed = lots.find(l => l.place === place && l.lot === lot)?.amount ?? 0;
    const mixed = mixedUp(count.amount, believed, perBox);
    if (mixed === null || perBox === null) return [];
    const meant =
      mixed === 'boxes as each'
        ? `${count.amount} looks like boxes: ${amountWords(believed, perBox)} were on hand, ${believed} each.`
        : `${count.amount} looks like each taken for boxes: ${believed} each were on hand.`;
    return [
      refuse(
        'looks like boxes',
        meant,
        `Count in each, ${perBox} to the box. If it is right, say that it was counted so.`,
        'counts',
      ),
    ];
  });
}
