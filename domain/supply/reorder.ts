/** What to order, and which lots would be used up sooner in another place. */
import type { Day } from '../calendar/day.ts';
import { lastDay } from '../calendar/when.ts';
import { inOrderToUse, type OnHand, stateOf } from './lots.ts';
import { USE_DAYS } from './stock.ts';

/** A stock in its places, as reordering looks at it. Par and minimum are null where nobody has set them. */
export interface StockToOrder {
  stock: string;
  perBox: number | null;
  places: readonly { place: string; usable: number; par: number | null; min: number | null }[];
}

export interface Reorder {
  stock: string;
  /** The places that are under their minimum, each with what it lacks to its par. */
  places: { place: string; usable: number; par: number; min: number; wants: number }[];
  /** Places that hold more than their par, each with how many more: the nearest supplier. */
  spare: { place: string; over: number }[];
  wanted: number;
  /** What is left to order for the department once what is spare elsewhere has been moved. */
  order: number;
  /** In whole boxes, where it comes in boxes. */
  boxes: number | null;
}

/** What is under its minimum, up to its par: place by place, and for the department. Nothing else is listed. */
export function toReorder(stocks: readonly StockToOrder[]): Reorder[] {
  return stocks.flatMap(({ stock, perBox, places }): Reorder[] => {
    const set = places.flatMap(({ par, min, ...p }) =>
      par === null || min === null ? [] : [{ ...p, par, min }],
    );
    const wanting = set
      .filter(p => p.usable < p.min)
      // What is under zero is owed a count and is not ordered twice.
      .map(p => ({ ...p, wants: p.par - Math.max(0, p.usable) }));
    if (wanting.length === 0) return [];
    const spare = set.filter(p => p.usable > p.par).map(p => ({ place: p.place, over: p.usable - p.par }));
    const wanted = wanting.reduce((sum, p) => sum + p.wants, 0);
    const order = Math.max(0, wanted - spare.reduce((sum, p) => sum + p.over, 0));
    const boxes = perBox === null ? null : Math.ceil(order / perBox);
    return [{ stock, places: wanting, spare, wanted, order, boxes }];
  });
}

/** Lots that expire within so many days are looked at. */
const WITHIN_DAYS = 180;

export interface BetterPlace {
  lot: string | null;
  from: string;
  to: string;
  amount: number;
  /** How many of the lot its own place would not have used by then, at the speed of the last half year. */
  left: number;
}

/**
 * Lots that their place will not use up before they expire, and the places that would: by how many each issued in the
 * last 180 days. A place is offered no more than it would use beside what it holds that expires as soon.
 * @param lots of one stock, of every place
 * @param used how many each place issued in those days
 */
export function betterPlaces(
  lots: readonly OnHand[],
  used: ReadonlyMap<string, number>,
  today: Day,
): BetterPlace[] {
  const held = lots.filter(l => l.amount > 0 && stateOf(l, today) !== 'expired').sort(inOrderToUse);
  const speed = (place: string) => used.get(place) ?? 0;
  const promised = new Map<string, number>();
  const moves: BetterPlace[] = [];
  for (const lot of held) {
    if (lot.expires === null) continue;
    const last = lastDay(lot.expires);
    if (last - today > WITHIN_DAYS) continue;
    const uses = (place: string) => Math.floor((speed(place) * (last - today + 1)) / USE_DAYS);
    const before = held.slice(0, held.indexOf(lot));
    const ahead = before.filter(l => l.place === lot.place).reduce((sum, l) => sum + l.amount, 0);
    const left = lot.amount - Math.max(0, uses(lot.place) - ahead);
    let waits = left;
    const faster = [...used.keys()]
      .filter(p => p !== lot.place && speed(p) > speed(lot.place))
      .sort((a, b) => speed(b) - speed(a) || (a < b ? -1 : 1));
    for (const to of faster) {
      if (waits <= 0) break;
      const holds = held
        .filter(l => l.place === to && l.expires !== null && lastDay(l.expires) <= last)
        .reduce((sum, l) => sum + l.amount, 0);
      const amount = Math.min(waits, uses(to) - holds - (promised.get(to) ?? 0));
      if (amount <= 0) continue;
      promised.set(to, (promised.get(to) ?? 0) + amount);
      waits -= amount;
      moves.push({ lot: lot.lot, from: lot.place, to, amount, left });
    }
  }
  return moves;
}
