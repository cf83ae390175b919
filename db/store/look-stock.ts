/** What a check may look at of counted stock. */
import type { Look } from '../actions/types.ts';
import { thingKey } from '../caches/apply.ts';
import { factsOf } from '../caches/facts.ts';
import { type StockTold, stockOf } from '../caches/stock.ts';
import { all, type Db } from './statements.ts';

/** @param touched the stocks that this act touched: the caches still show them as they were */
export function stockLook(db: Db, touched: () => readonly string[]): Pick<Look, 'stock' | 'stockNamed'> {
  const stock = (id: string): StockTold | null => {
    const key = thingKey(db, id);
    return key === undefined ? null : stockOf(factsOf(db, key));
  };
  return {
    stock,
    stockNamed(what) {
      const cached = all<{ id: string }>(
        db,
        'SELECT t.id FROM stocks s JOIN things t ON t.key = s.key WHERE lower(s.what) = lower(?)',
        what,
      ).map(s => s.id);
      // A name that an earlier deed of the act has taken, or let go.
      return (
        [...cached, ...touched()].find(id => stock(id)?.what.toLowerCase() === what.toLowerCase()) ?? null
      );
    },
  };
}
