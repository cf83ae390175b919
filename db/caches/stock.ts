/** Kinds of counted stock from their facts, and the rows by which they are found. */
import type { When } from '../../domain/calendar/when.ts';
import type { OnHand } from '../../domain/supply/lots.ts';
import { onHand, type Par, parsOf, type StockFact } from '../../domain/supply/stock.ts';
import { type Db, prepared, run } from '../store/statements.ts';
import { factsOf, identityOf, type PlainFact } from './facts.ts';

/** A kind of stock as it is kept now. */
export interface StockTold {
  what: string;
  /** How many are in a box; null where it is kept each by each. */
  perBox: number | null;
  /** Whether a count needs a second member who saw it. */
  twoCount: boolean;
  /** False once the department has said that it keeps it no longer. */
  kept: boolean;
  pars: Par[];
  lots: OnHand[];
}

/** What the facts say of a stock, or null where none says what it is. */
export function stockOf(facts: readonly PlainFact[]): StockTold | null {
  const said = identityOf(facts);
  if (typeof said?.what !== 'string') return null;
  const told = stockFacts(facts);
  return {
    what: said.what,
    perBox: said.unit === 'box' && typeof said.perBox === 'number' ? said.perBox : null,
    twoCount: said.twoCount === true,
    kept: said.kept !== false,
    pars: parsOf(told),
    lots: onHand(told),
  };
}

const KINDS = new Set(['received', 'issued', 'moved', 'counted', 'written off', 'par']);

/** The facts that the domain counts by. */
export const stockFacts = (facts: readonly PlainFact[]): StockFact[] =>
  facts.filter(f => KINDS.has(f.kind)) as unknown as StockFact[];

/** Write the rows of a stock anew: itself, its places with their pars, and the lots of which there are any. */
export function deriveStock(db: Db, key: number): void {
  run(db, 'DELETE FROM stocks WHERE key = ?', key);
  run(db, 'DELETE FROM stock_places WHERE stock = ?', key);
  run(db, 'DELETE FROM stock_lots WHERE stock = ?', key);
  const told = stockOf(factsOf(db, key));
  if (!told) return;
  run(
    db,
    'INSERT INTO stocks (key, what, per_box, two_count, kept) VALUES (?, ?, ?, ?, ?)',
    key,
    told.what,
    told.perBox,
    told.twoCount ? 1 : 0,
    told.kept ? 1 : 0,
  );
  const place = prepared(
    db,
    'INSERT INTO stock_places (stock, place, par, min, counted_on) VALUES (?, ?, ?, ?, ?)',
  );
  const pars = new Map(told.pars.map(p => [p.place, p]));
  for (const id of new Set([...pars.keys(), ...told.lots.map(l => l.place)])) {
    const { par = null, min = null } = pars.get(id) ?? {};
    place.run(key, id, par, min, lastCount(told.lots, id));
  }
  const lot = prepared(
    db,
    'INSERT INTO stock_lots (stock, place, lot, expires, on_hand, since) VALUES (?, ?, ?, ?, ?, ?)',
  );
  for (const l of told.lots) if (l.amount !== 0) lot.run(key, l.place, l.lot, l.expires, l.amount, l.since);
}

function lastCount(lots: readonly OnHand[], place: string): When | null {
  return (
    lots
      .filter(l => l.place === place)
      .flatMap(l => l.counted ?? [])
      .sort()
      .at(-1) ?? null
  );
}
