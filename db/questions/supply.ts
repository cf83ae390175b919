/** Counted stock: what lies where, what to order, what happened to one kind. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import type { When } from '../../domain/calendar/when.ts';
import { inOrderToUse, type OnHand, stateOf } from '../../domain/supply/lots.ts';
import { type BetterPlace, betterPlaces, toReorder } from '../../domain/supply/reorder.ts';
import { standing, usedOf } from '../../domain/supply/stock.ts';
import type { BetterLine, ReorderLine, SupplyLine } from '../api-supply.ts';
import { factsOf } from '../caches/facts.ts';
import { stockFacts } from '../caches/stock.ts';
import { all, one } from '../store/statements.ts';
import { day, dayAsked, textOrNull } from './fields.ts';
import { historyOf } from './history.ts';
import { placeNamer, stockFactInWords } from './supply-words.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

interface Kind {
  key: number;
  stock: string;
  what: string;
  perBox: number | null;
  twoCount: number;
  kept: number;
}

interface Known extends Kind {
  places: {
    place: string;
    name: string | null;
    station: string | null;
    par: number | null;
    min: number | null;
    counted: string | null;
  }[];
  lots: OnHand[];
}

/** Every kind of stock with its places and lots. */
function known(asking: Asking): Known[] {
  const kinds = all<Kind>(
    asking.db,
    `SELECT s.key, t.id AS stock, s.what, s.per_box AS perBox, s.two_count AS twoCount, s.kept
     FROM stocks s JOIN things t ON t.key = s.key ORDER BY lower(s.what), t.id`,
  );
  const places = Map.groupBy(
    all<Known['places'][number] & { of: number }>(
      asking.db,
      `SELECT sp.stock AS of, sp.place, p.path AS name, st.name AS station, sp.par, sp.min, sp.counted_on AS counted
       FROM stock_places sp LEFT JOIN things t ON t.id = sp.place LEFT JOIN places p ON p.key = t.key
       LEFT JOIN places st ON st.key = p.station ORDER BY p.path_sort, sp.place`,
    ),
    p => p.of,
  );
  const lots = Map.groupBy(
    all<Omit<OnHand, 'amount' | 'counted'> & { of: number; onHand: number }>(
      asking.db,
      'SELECT stock AS of, place, lot, expires, on_hand AS onHand, since FROM stock_lots ORDER BY key',
    ),
    l => l.of,
  );
  return kinds.map(kind => ({
    ...kind,
    places: places.get(kind.key) ?? [],
    lots: (lots.get(kind.key) ?? []).map(({ onHand, of: _of, ...l }) => ({
      ...l,
      amount: onHand,
      counted: null,
    })),
  }));
}

/** The lines of a stock: one for each place that holds some, owes a count or should hold some. */
function linesOf(kind: Known, on: Day): SupplyLine[] {
  const { stock, what, perBox } = kind;
  const lines = kind.places.flatMap((p): SupplyLine[] => {
    const lots = kind.lots.filter(l => l.place === p.place).sort(inOrderToUse);
    const par = p.par === null || p.min === null ? null : { par: p.par, min: p.min };
    if (lots.length === 0 && (par === null || par.par === 0)) return [];
    return [
      {
        stock,
        what,
        perBox,
        twoCount: kind.twoCount === 1,
        place: p.place,
        placeName: p.name ?? p.place,
        station: p.station,
        par: p.par,
        min: p.min,
        counted: p.counted,
        ...standing(lots, par, on),
        lots: lots.map(l => ({ lot: l.lot, expires: l.expires, onHand: l.amount, state: stateOf(l, on) })),
      },
    ];
  });
  if (lines.length > 0 || kind.kept === 0) return lines;
  const nowhere = { place: null, placeName: null, station: null, par: null, min: null, counted: null };
  return [
    { stock, what, perBox, twoCount: kind.twoCount === 1, ...nowhere, ...standing([], null, on), lots: [] },
  ];
}

/** Short ones first, then those that owe a count, then what has expired and what soon will. */
function byNeed(a: SupplyLine, b: SupplyLine): number {
  const weight = (l: SupplyLine) =>
    (l.short > 0 ? 0 : 100) +
    (l.countOwed ? 0 : 50) +
    (l.state === 'expired' ? 0 : l.state === 'expires soon' ? 1 : 2);
  return weight(a) - weight(b) || byName(a, b);
}

const byName = (a: SupplyLine, b: SupplyLine) =>
  a.what.toLowerCase() < b.what.toLowerCase() ? -1 : a.what.toLowerCase() > b.what.toLowerCase() ? 1 : 0;

export const supplyList = question({
  name: 'supply.list',
  title: 'Counted stock by place: on hand, par, short, the soonest expiry; short and expired first',
  schema: z.strictObject({ text: z.string().optional(), on: day.optional() }) as unknown as z.ZodType<{
    text?: string;
    on?: string;
  }>,
  answer(asking, args) {
    const on = dayAsked(asking, args.on);
    const words = (args.text ?? '').toLowerCase().split(/\s+/).filter(Boolean);
    const kinds = known(asking);
    return {
      on: textOrNull(on) as string,
      kinds: kinds.filter(k => k.kept === 1).length,
      rows: kinds
        .flatMap(kind => linesOf(kind, on))
        .filter(line => {
          const text =
            `${line.what} ${line.placeName ?? ''} ${line.lots.map(l => l.lot ?? '').join(' ')}`.toLowerCase();
          return words.every(w => text.includes(w));
        })
        .sort(byNeed),
    };
  },
  example: { text: 'gloves' },
});

export const supplyReorder = question({
  name: 'supply.reorder',
  title:
    'What is under its minimum, up to its par, by place and for the department; lots better used elsewhere',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer(asking, args) {
    const on = dayAsked(asking, args.on);
    const nameOf = placeNamer(asking);
    const kinds = known(asking).filter(k => k.kept === 1);
    const byStock = new Map(kinds.map(k => [k.stock, k]));
    const rows = toReorder(
      kinds.map(kind => ({
        stock: kind.stock,
        perBox: kind.perBox,
        places: linesOf(kind, on).flatMap(l =>
          l.place === null ? [] : [{ place: l.place, usable: l.usable, par: l.par, min: l.min }],
        ),
      })),
    ).map(
      (row): ReorderLine => ({
        ...row,
        what: byStock.get(row.stock)?.what ?? '',
        perBox: byStock.get(row.stock)?.perBox ?? null,
        places: row.places.map(p => ({ ...p, name: nameOf(p.place) })),
        spare: row.spare.map(p => ({ ...p, name: nameOf(p.place) })),
      }),
    );
    return {
      on: textOrNull(on) as string,
      rows,
      better: kinds.flatMap(kind => betterOf(asking, kind, on, nameOf)),
    };
  },
  example: {},
});

function betterOf(asking: Asking, kind: Known, on: Day, nameOf: (place: string) => string): BetterLine[] {
  // How fast a place uses a stock is in its facts; they are read where something expires at all.
  if (!kind.lots.some(l => l.expires !== null && l.amount > 0)) return [];
  const used = usedOf(stockFacts(factsOf(asking.db, kind.key)), on);
  const { stock, what, perBox, lots } = kind;
  const expires = (move: BetterPlace): When | null =>
    lots.find(l => l.lot === move.lot && l.place === move.from)?.expires ?? null;
  return betterPlaces(lots, used, on).map(move => ({
    stock,
    what,
    perBox,
    ...move,
    expires: expires(move) as string,
    fromName: nameOf(move.from),
    toName: nameOf(move.to),
  }));
}

export const supplyHistory = question({
  name: 'supply.history',
  title: 'Everything that was told of one kind of stock, voided deeds too, the latest first',
  schema: z.strictObject({ stock: z.string() }),
  answer(asking, args) {
    const kind = one<{ key: number; perBox: number | null }>(
      asking.db,
      'SELECT s.key, s.per_box AS perBox FROM stocks s JOIN things t ON t.key = s.key WHERE t.id = ?',
      args.stock,
    );
    if (!kind)
      throw new CannotAnswer(
        'not found',
        `No stock has the id ${args.stock}.`,
        'Find it with supply.list.',
        'stock',
      );
    const nameOf = placeNamer(asking);
    return historyOf(asking, kind.key, (fact, values) => stockFactInWords(nameOf, kind.perBox, fact, values));
  },
  example: { stock: '<id>' },
});
