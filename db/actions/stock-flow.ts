/** Counted stock that goes: issued to be used, moved to another place, written off. */
import { z } from 'zod';
import { inOrderToUse, type LotAmount, toIssue } from '../../domain/supply/lots.ts';
import { id, longWords, mustBe, notFuture, when, words } from './fields.ts';
import { lot as aLot, amount, mustBeStock } from './stock.ts';
import { action, type Look, type Refusal, refuse } from './types.ts';

/** Filled in where the deed is done: which lots were taken, as what lay there then says. */
const taken = z.array(z.strictObject({ lot: z.string().nullable(), amount })).optional();

/** Null names what has no lot; left out, the soonest expiry goes first. */
const lot = aLot.nullable().optional();

interface Going {
  stock: string;
  amount: number;
  lot?: string | null | undefined;
}

export const stockIssue = action({
  name: 'stock.issue',
  v: 1,
  title:
    'Issue stock to be used: from a place, the soonest expiry first where no lot is named; to whom, and what for',
  schema: z.strictObject({
    stock: id,
    place: id,
    amount,
    lot,
    taken,
    /** A unit, or a place that does not count it. */
    to: id.optional(),
    note: words.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['stock', 'place', 'to'],
  check: (look, body) => [
    ...mustBeStock(look, body.stock),
    ...mustBe(look, body.place, 'place', 'place'),
    ...(look.kindOf(body.to ?? '') === 'unit' ? [] : mustBe(look, body.to, 'place', 'to')),
    ...notFuture(look, body.on),
    ...onlyExpired(look, body, body.place),
    ...unknownLot(look, body, body.place),
  ],
  complete: (look, body) => ({ ...body, taken: takenFrom(look, body, body.place) }),
  apply: (_entry, { stock, on, place, to, note, ...body }) => ({
    facts: [
      {
        thing: stock,
        kind: 'issued',
        effective: on,
        values: { place, taken: takenOf(body), ...(to ? { to } : {}), ...(note ? { note } : {}) },
        refs: [place, ...(to ? [to] : [])],
      },
    ],
  }),
  example: { stock: '&0', place: '&1', amount: 20, to: '&2', note: 'Restocked after a call' },
});

export const stockMove = action({
  name: 'stock.move',
  v: 1,
  title: 'Move stock from one place to another; the soonest expiry first where no lot is named',
  schema: z.strictObject({
    stock: id,
    from: id,
    to: id,
    amount,
    lot,
    taken,
    note: words.optional(),
    on: when,
  }),
  entitlement: 'record',
  refs: ['stock', 'from', 'to'],
  check: (look, body) => [
    ...mustBeStock(look, body.stock),
    ...mustBe(look, body.from, 'place', 'from'),
    ...mustBe(look, body.to, 'place', 'to'),
    ...notFuture(look, body.on),
    ...(body.from === body.to
      ? [refuse('same place', 'It is moved to where it is.', 'Name the place it goes to.', 'to')]
      : []),
    ...onlyExpired(look, body, body.from),
    ...unknownLot(look, body, body.from),
  ],
  complete: (look, body) => ({ ...body, taken: takenFrom(look, body, body.from) }),
  apply: (_entry, { stock, on, from, to, note, ...body }) => ({
    facts: [
      {
        thing: stock,
        kind: 'moved',
        effective: on,
        values: { from, to, taken: takenOf(body), ...(note ? { note } : {}) },
        refs: [from, to],
      },
    ],
  }),
  example: { stock: '&0', from: '&1', to: '&2', amount: 100 },
});

export const stockWriteOff = action({
  name: 'stock.writeOff',
  v: 1,
  title: 'Write stock off: expired, damaged, lost; how many of which lot, and why',
  schema: z.strictObject({
    stock: id,
    place: id,
    amount,
    lot,
    taken,
    why: longWords,
    on: when,
  }),
  entitlement: 'record',
  refs: ['stock', 'place'],
  check: (look, body) => [
    ...mustBeStock(look, body.stock),
    ...mustBe(look, body.place, 'place', 'place'),
    ...notFuture(look, body.on),
    ...whichLot(look, body),
    ...unknownLot(look, body, body.place),
  ],
  complete: (look, body) => ({
    ...body,
    taken: [
      { lot: body.lot === undefined ? (onlyLot(look, body)?.lot ?? null) : body.lot, amount: body.amount },
    ],
  }),
  apply: (_entry, { stock, on, place, why, ...body }) => ({
    facts: [
      {
        thing: stock,
        kind: 'written off',
        effective: on,
        values: { place, taken: takenOf(body), why },
        refs: [place],
      },
    ],
  }),
  example: { stock: '&0', place: '&1', amount: 2, lot: 'A7-114', why: 'Expired' },
});

const takenOf = (body: Omit<Going, 'stock'> & { taken?: LotAmount[] | undefined }): LotAmount[] =>
  body.taken ?? [{ lot: body.lot ?? null, amount: body.amount }];

const lotsAt = (look: Look, stock: string, place: string) =>
  (look.stock(stock)?.lots ?? []).filter(l => l.place === place);

/** The lots that were taken. What is lacking was taken all the same: it stands under zero until it is counted. */
function takenFrom(look: Look, { stock, amount, lot }: Going, place: string): LotAmount[] {
  if (lot !== undefined) return [{ lot, amount }];
  const { taken, lacking } = toIssue(lotsAt(look, stock, place), amount, look.today);
  if (lacking === 0) return taken;
  const last = taken.pop() ?? { lot: null, amount: 0 };
  return [...taken, { lot: last.lot, amount: last.amount + lacking }];
}

/** What has expired is never taken without somebody naming its lot. */
function onlyExpired(look: Look, { stock, amount, lot }: Going, place: string): Refusal[] {
  if (lot !== undefined) return [];
  const { lacking, expired } = toIssue(lotsAt(look, stock, place), amount, look.today);
  return lacking > 0 && expired > 0
    ? [
        refuse(
          'expired',
          lacking === amount
            ? `None there is in date: ${expired} ${expired === 1 ? 'has' : 'have'} expired.`
            : `Of ${amount} only ${amount - lacking} there are in date; ${expired} have expired.`,
          `${lacking === amount ? 'Take it from elsewhere' : 'Take fewer'}, or name the lot of the expired ones if they are what was taken.`,
          'lot',
        ),
      ]
    : [];
}

/** A lot that nobody ever heard of is misread: it has no expiry and would be forgotten. */
function unknownLot(look: Look, { stock, lot }: Going, place: string): Refusal[] {
  const known = look.stock(stock)?.lots ?? [];
  if (lot === undefined || lot === null || known.some(l => l.lot === lot)) return [];
  const here = known.filter(l => l.place === place && l.lot !== null && l.amount > 0).map(l => l.lot);
  return [
    refuse(
      'unknown lot',
      `No lot ${lot} of it is known.`,
      here.length > 0 ? `There lie: ${here.join(', ')}.` : 'Receive or count it first.',
      'lot',
    ),
  ];
}

const onlyLot = (look: Look, { stock, place }: { stock: string; place: string }) => {
  const there = lotsAt(look, stock, place).filter(l => l.amount > 0);
  return there.length === 1 ? there[0] : undefined;
};

/** Of several lots the one that is written off has to be named; an expired one is told first. */
function whichLot(look: Look, body: Going & { place: string }): Refusal[] {
  const there = lotsAt(look, body.stock, body.place).filter(l => l.amount > 0);
  if (body.lot !== undefined || there.length < 2) return [];
  const told = [...there].sort(inOrderToUse).map(l => l.lot ?? 'the one without a lot (null)');
  return [refuse('which lot', 'Several lots lie there.', `Name the one: ${told.join(', ')}.`, 'lot')];
}
