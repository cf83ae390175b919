/** Steps of random histories on counted stock: few kinds, places and lots, so that they meet. */
import type { Deed } from '../../../db/api.ts';
import { all, type Db } from '../../../db/store/statements.ts';

interface Numbers {
  a: number;
  b: number;
  c: number;
}

type Kind = 'stock' | 'stockIn' | 'stockOut' | 'stockCount' | 'stockMove' | 'stockPar' | 'stockOff';

const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];
const LOTS = ['A', 'B', undefined];

/** A deed of one of these kinds against the department as it is, or null where there is nothing to do it on. */
export function stockDeedOf(db: Db, kind: Kind, s: Numbers, on: string): Deed | null {
  const deed = (action: string, body: Record<string, unknown>): Deed => ({ action, body: { ...body, on } });
  const ids = (of: string) =>
    all<{ id: string }>(db, 'SELECT id FROM things WHERE kind = ? ORDER BY key', of).map(t => t.id);
  const known = ids('stock');
  // Without one nothing else can be done: then that is what is done.
  if (known.length === 0 || (kind === 'stock' && s.c % 3 > 0))
    return deed('stock.add', { what: `Stock ${s.a % 12}`, ...(s.b % 2 ? { unit: 'box', perBox: 10 } : {}) });
  const stock = pick(known, s.a % 2);
  if (kind === 'stock') return deed('stock.amend', { stock, kept: s.b % 2 === 0 });
  // The first ones, so that what came somewhere goes from there.
  const places = ids('place').slice(0, 3);
  const [place, other] = [pick(places, s.b), pick(places, s.b + 1)];
  if (place === undefined) return null;
  const lot = LOTS[s.c % 3];
  const named = lot === undefined ? {} : { lot };
  const amount = 1 + (s.b % 9);
  switch (kind) {
    case 'stockIn':
      return deed('stock.receive', {
        stock,
        place,
        amount: amount * 5,
        ...named,
        ...(lot === 'A' ? { expires: s.a % 2 ? '2021-06' : '2030' } : {}),
      });
    case 'stockOut':
      return deed('stock.issue', { stock, place, amount, ...(s.a % 2 ? named : {}) });
    case 'stockCount':
      return deed('stock.count', {
        stock,
        place,
        counts: [
          { ...named, amount: s.b % 20, ...(lot === 'B' && s.a % 4 === 0 ? { expires: '2027-02' } : {}) },
        ],
        asCounted: true,
      });
    case 'stockMove':
      return deed('stock.move', { stock, from: place, to: other, amount, ...(s.a % 2 ? named : {}) });
    case 'stockPar':
      return deed('stock.par', { stock, place, par: amount * 4, min: amount });
    case 'stockOff':
      return deed('stock.writeOff', { stock, place, amount, ...named, why: 'Damaged' });
  }
}
