/** Counted stock: what is on hand of one kind, by place and lot, told from counts and from what came and went since. */
import type { Day } from '../calendar/day.ts';
import { lastDay, type When } from '../calendar/when.ts';
import { inOrder } from '../facts.ts';
import type { LotAmount, LotState, OnHand } from './lots.ts';
import { LOT_STATES, stateOf } from './lots.ts';

interface Told {
  effective: When;
  clock: number;
  device: string;
  n: number;
}

/** A lot as it was counted. */
export interface LotCounted extends LotAmount {
  expires: When | null;
}

/** What an entry says of a stock; amounts are in each, whole and never under zero. */
export type StockFact = Told &
  (
    | {
        kind: 'received';
        values: { place: string; lot: string | null; expires: When | null; amount: number };
      }
    | { kind: 'issued'; values: { place: string; taken: readonly LotAmount[] } }
    | { kind: 'moved'; values: { from: string; to: string; taken: readonly LotAmount[] } }
    | { kind: 'counted'; values: { place: string; counts: readonly LotCounted[] } }
    | { kind: 'written off'; values: { place: string; taken: readonly LotAmount[] } }
    | { kind: 'par'; values: { place: string; par: number; min: number } }
  );

/** What a place should hold, and under how many it is short. */
export interface Par {
  place: string;
  par: number;
  min: number;
}

/**
 * What is on hand of one stock: of each place and lot its last count, and what was received, issued, moved and written
 * off after it. A lot that a count does not name was not counted. What came to nothing is told too, with its count.
 * @param facts in any order
 */
export function onHand(facts: readonly StockFact[]): OnHand[] {
  const held = new Map<string, OnHand>();
  const expiries = new Map<string, When>();
  const since = new Map<string | null, When>();
  const at = (place: string, lot: string | null, effective: When): OnHand => {
    if (!since.has(lot)) since.set(lot, effective);
    const key = `${place}\n${lot ?? ''}`;
    let known = held.get(key);
    if (!known) {
      known = { place, lot, expires: null, amount: 0, counted: null, since: effective };
      held.set(key, known);
    }
    return known;
  };
  for (const fact of [...facts].sort(inOrder)) {
    const { effective } = fact;
    const take = (place: string, taken: readonly LotAmount[], sign: 1 | -1) => {
      for (const { lot, amount } of taken) at(place, lot, effective).amount += sign * amount;
    };
    /** A lot has one date, wherever it lies: the last that was told. */
    const dated = ({ lot, expires }: { lot: string | null; expires: When | null }) => {
      if (lot !== null && expires !== null) expiries.set(lot, expires);
    };
    switch (fact.kind) {
      case 'received':
        dated(fact.values);
        take(fact.values.place, [fact.values], 1);
        break;
      case 'moved':
        take(fact.values.from, fact.values.taken, -1);
        take(fact.values.to, fact.values.taken, 1);
        break;
      case 'issued':
      case 'written off':
        take(fact.values.place, fact.values.taken, -1);
        break;
      case 'counted':
        for (const count of fact.values.counts) {
          dated(count);
          const lot = at(fact.values.place, count.lot, effective);
          lot.amount = count.amount;
          lot.counted = effective;
        }
    }
  }
  return [...held.values()].map(lot => ({
    ...lot,
    expires: lot.lot === null ? null : (expiries.get(lot.lot) ?? null),
    since: since.get(lot.lot) ?? lot.since,
  }));
}

/** What each place should hold, by the last word on it. */
export function parsOf(facts: readonly StockFact[]): Par[] {
  const pars = new Map<string, Par>();
  for (const fact of [...facts].sort(inOrder))
    if (fact.kind === 'par') pars.set(fact.values.place, { ...fact.values });
  return [...pars.values()];
}

/** So many days back it is looked how fast a place uses something up. */
export const USE_DAYS = 180;

/** How many each place issued in the last `USE_DAYS` days, today among them. */
export function usedOf(facts: readonly StockFact[], today: Day): Map<string, number> {
  const used = new Map<string, number>();
  for (const fact of facts) {
    if (fact.kind !== 'issued') continue;
    const day = lastDay(fact.effective);
    if (day > today || day <= today - USE_DAYS) continue;
    const { place, taken } = fact.values;
    used.set(place, (used.get(place) ?? 0) + taken.reduce((sum, t) => sum + t.amount, 0));
  }
  return used;
}

/** How a stock stands in one place. */
export interface Standing {
  /** All of it together, expired ones too. */
  onHand: number;
  /** What has not expired; what is under zero counts against it. */
  usable: number;
  expired: number;
  /** Some lot is under zero: more was taken than was ever known to be there. */
  countOwed: boolean;
  /** The soonest expiry of what lies there. */
  soonest: When | null;
  /** The heaviest of its lots; null where nothing lies there. */
  state: LotState | null;
  /** Lacking to the par, where it is under the minimum; else none. */
  short: number;
}

/**
 * How one place stands.
 * @param lots of that place
 */
export function standing(
  lots: readonly Pick<OnHand, 'amount' | 'expires'>[],
  par: { par: number; min: number } | null,
  today: Day,
  warnDays?: number,
): Standing {
  const held = lots.filter(l => l.amount > 0);
  const states = new Set(held.map(l => stateOf(l, today, warnDays)));
  const sum = (some: readonly { amount: number }[]) => some.reduce((n, l) => n + l.amount, 0);
  const expired = sum(held.filter(l => stateOf(l, today) === 'expired'));
  const all = sum(lots);
  const usable = all - expired;
  return {
    onHand: all,
    usable,
    expired,
    countOwed: lots.some(l => l.amount < 0),
    soonest: held.flatMap(l => l.expires ?? []).sort((a, b) => lastDay(a) - lastDay(b))[0] ?? null,
    state: LOT_STATES.find(s => states.has(s)) ?? null,
    short: par !== null && usable < par.min ? par.par - Math.max(0, usable) : 0,
  };
}
