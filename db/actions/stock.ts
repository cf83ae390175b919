/** Counted stock: its kinds, what each place should hold of them, and what comes in. */
import { z } from 'zod';
import { showWhen } from '../../domain/calendar/show.ts';
import { id, mustBe, notFuture, when, words } from './fields.ts';
import { action, type Look, type Refusal, refuse } from './types.ts';

/** So many of something, in each. */
export const amount = z.number().int({ error: 'is no whole number. Count in each.' }).min(1).max(10_000_000);
/** A lot as it is printed, in capitals: one that is typed in small letters is the same. */
export const lot = z
  .string()
  .trim()
  .min(1)
  .max(60)
  .transform(text => text.toUpperCase());

const perBox = z.number().int().min(2).max(100_000);

export const stockAdd = action({
  name: 'stock.add',
  v: 1,
  title:
    'Begin to keep a kind of counted stock: what it is, and whether it comes each by each or in boxes of so many',
  schema: z.strictObject({
    what: words,
    unit: z.enum(['each', 'box']).default('each'),
    perBox: perBox.nullable().default(null),
    /** Its counts need a second member who saw them. */
    twoCount: z.boolean().default(false),
    on: when,
  }),
  entitlement: 'plan',
  refs: [],
  check: (look, body) => [
    ...notFuture(look, body.on),
    ...sameName(look, body.what, null),
    ...boxFault(body.unit, body.perBox),
  ],
  apply: (entry, { on, ...values }) => ({
    things: [{ id: entry.id, kind: 'stock' }],
    facts: [{ thing: entry.id, kind: 'identity', effective: on, values }],
  }),
  example: { what: 'Exam gloves, nitrile, large', unit: 'box', perBox: 100 },
});

export const stockAmend = action({
  name: 'stock.amend',
  v: 1,
  title: 'Amend a kind of stock: its name, its box, whether counts need two, or that it is kept no longer',
  schema: z.strictObject({
    stock: id,
    what: words.optional(),
    unit: z.enum(['each', 'box']).optional(),
    perBox: perBox.nullable().optional(),
    twoCount: z.boolean().optional(),
    kept: z.boolean().optional(),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['stock'],
  check(look, { stock, on, ...changes }) {
    const known = look.stock(stock);
    if (!known) return noStock(stock);
    const unit = changes.unit ?? (known.perBox === null ? 'each' : 'box');
    return [
      ...notFuture(look, on),
      ...(Object.keys(changes).length === 0
        ? [
            refuse(
              'nothing to amend',
              'Nothing is amended.',
              'Give one of: what, unit, perBox, twoCount, kept.',
            ),
          ]
        : []),
      ...(changes.what === undefined ? [] : sameName(look, changes.what, stock)),
      ...boxFault(unit, changes.perBox ?? (unit === 'each' ? null : known.perBox)),
    ];
  },
  // The old size would be meant again where the unit goes back to the box.
  complete: (_look, body) => (body.unit === 'each' ? { ...body, perBox: null } : body),
  apply: (_entry, { stock, on, ...values }) => ({
    facts: [{ thing: stock, kind: 'identity', effective: on, values }],
  }),
  example: { stock: '&0', perBox: 50 },
});

export const stockPar = action({
  name: 'stock.par',
  v: 1,
  title: 'Say what a place should hold of a stock (its par), and under how many it is short',
  schema: z.strictObject({
    stock: id,
    place: id,
    par: z.number().int().min(0).max(10_000_000),
    min: z.number().int().min(0).max(10_000_000),
    on: when,
  }),
  entitlement: 'plan',
  refs: ['stock', 'place'],
  check: (look, body) => [
    ...mustBeStock(look, body.stock),
    ...mustBe(look, body.place, 'place', 'place'),
    ...notFuture(look, body.on),
    ...(body.min > body.par
      ? [
          refuse(
            'minimum above',
            `The minimum ${body.min} is more than the par ${body.par}.`,
            'Raise the par or lower the minimum.',
            'min',
          ),
        ]
      : []),
  ],
  apply: (_entry, { stock, on, ...values }) => ({
    facts: [{ thing: stock, kind: 'par', effective: on, values, refs: [values.place] }],
  }),
  example: { stock: '&0', place: '&1', par: 600, min: 300 },
});

export const stockReceive = action({
  name: 'stock.receive',
  v: 1,
  title: 'Receive stock in a place: how many each, and the lot and expiry that are printed on it',
  schema: z.strictObject({
    stock: id,
    place: id,
    amount,
    lot: lot.optional(),
    expires: when.optional(),
    note: words.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['stock', 'place'],
  check: (look, body) => [
    ...mustBeStock(look, body.stock),
    ...mustBe(look, body.place, 'place', 'place'),
    ...notFuture(look, body.on),
    ...otherExpiry(look, body),
  ],
  apply: (_entry, { stock, on, place, amount, lot, expires, note }) => ({
    facts: [
      {
        thing: stock,
        kind: 'received',
        effective: on,
        values: { place, amount, ...dated({ lot, expires }), ...(note ? { note } : {}) },
        refs: [place],
      },
    ],
  }),
  example: { stock: '&0', place: '&1', amount: 300, lot: 'A7-114', expires: '2028-03' },
});

/** A lot without a number goes by its expiry: what is marked alike is used alike. */
export function dated({ lot, expires }: { lot?: string | undefined; expires?: string | null | undefined }): {
  lot: string | null;
  expires: string | null;
} {
  return { lot: lot ?? expires ?? null, expires: expires ?? null };
}

export function mustBeStock(look: Look, stock: string): Refusal[] {
  return look.stock(stock) ? [] : noStock(stock);
}

const noStock = (stock: string): Refusal[] => [
  refuse('not found', `No stock has the id ${stock}.`, 'Name one of the list, or add a new kind.', 'stock'),
];

function sameName(look: Look, what: string, but: string | null): Refusal[] {
  const known = look.stockNamed(what);
  return known === null || known === but
    ? []
    : [
        refuse(
          'name in use',
          `There is a stock ${what} already.`,
          'Use that one, or tell them apart by name.',
          'what',
        ),
      ];
}

function boxFault(unit: 'each' | 'box', per: number | null): Refusal[] {
  if (unit === 'box' && per === null)
    return [
      refuse('no box size', 'How many are in a box is not said.', 'Say how many each a box holds.', 'perBox'),
    ];
  return unit === 'each' && per !== null
    ? [
        refuse(
          'not in boxes',
          'What is kept each by each has no box size.',
          'Say that its unit is the box, or leave the size out.',
          'perBox',
        ),
      ]
    : [];
}

/** A lot that is known with another expiry is misread, now or before. */
function otherExpiry(
  look: Look,
  { stock, lot, expires }: { stock: string; lot?: string | undefined; expires?: string | undefined },
): Refusal[] {
  const known = look.stock(stock)?.lots.find(l => l.lot === lot && l.expires !== null)?.expires ?? null;
  return lot === undefined || expires === undefined || known === null || known === expires
    ? []
    : [
        refuse(
          'another expiry',
          `Lot ${lot} is known to expire ${showWhen(known)}.`,
          'Read the label again. If the old date was wrong, count the lot with the right one first.',
          'expires',
        ),
      ];
}
