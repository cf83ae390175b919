/**
 * What is known of packs and SCBA cylinders and of their fill: remembered between questions, and read again for those
 * alone of which something was told since. All of it hangs on their own facts, but for the names of racks.
 */
import { isOfScba } from '../../domain/coverage/full-cylinders.ts';
import type { Condition, Fact } from '../../domain/facts.ts';
import { type FillKnown, fillOf } from '../../domain/supply/fill.ts';
import { all, type Db, one } from '../store/statements.ts';

/** A living pack, or a cylinder of an SCBA with the last word on its fill. */
export interface AirThing extends FillKnown {
  key: number;
  family: 'cylinder' | 'pack';
  place: number | null;
  condition: Condition;
}

interface Remembered {
  /** The last fact that was looked at. */
  upTo: number;
  /** What all of it hangs on: what was voided, the places there are, and which racks are called full or empty. */
  token: string;
  things: Map<number, AirThing>;
}

const remembered = new WeakMap<Db, Remembered>();

export function airThings(db: Db): ReadonlyMap<number, AirThing> {
  const racks = new Map(
    all<{ id: string; path: string }>(
      db,
      `SELECT t.id, p.path FROM places p JOIN things t ON t.key = p.key
       WHERE p.path LIKE '%full%' OR p.path LIKE '%empt%'`,
    ).map(r => [r.id, r.path]),
  );
  const last = one<{ fact: number; others: string }>(
    db,
    `SELECT coalesce((SELECT max(key) FROM facts), 0) AS fact,
       (SELECT max(key) FROM voids) || ' ' || (SELECT count(*) FROM places) AS others`,
  ) ?? { fact: 0, others: '' };
  const token = JSON.stringify([last.others, [...racks]]);
  let memory = remembered.get(db);
  if (memory?.token !== token || memory.upTo > last.fact) {
    memory = { upTo: 0, token, things: new Map() };
    remembered.set(db, memory);
  }
  const { things, upTo } = memory;
  if (upTo === last.fact) return things;
  const changed =
    upTo === 0
      ? null
      : all<{ thing: number }>(db, 'SELECT DISTINCT thing FROM facts WHERE key > ?', upTo).map(f => f.thing);
  for (const key of changed ?? []) things.delete(key);
  for (const thing of read(db, changed, racks)) things.set(thing.key, thing);
  memory.upTo = last.fact;
  return things;
}

/** @param keys which things; null for all */
function read(db: Db, keys: readonly number[] | null, racks: ReadonlyMap<string, string>): AirThing[] {
  const rows = all<{
    key: number;
    family: AirThing['family'];
    place: number | null;
    condition: Condition;
    rated: number | null;
    use: string | null;
    gas: string | null;
  }>(
    db,
    `SELECT i.key, i.family, i.place_key AS place, i.condition, i.attributes ->> '$.servicePressure_psi' AS rated,
       i.attributes ->> '$.use' AS use, i.attributes ->> '$.gas' AS gas
     FROM ${keys === null ? 'items i' : 'json_each(:keys) k JOIN items i ON i.key = k.value'}
     WHERE i.family IN ('cylinder', 'pack') AND i.condition NOT IN ('retired', 'disposed')`,
    keys === null ? {} : { keys: JSON.stringify(keys) },
  ).filter(row => row.family === 'pack' || isOfScba(row));
  const cylinders = rows.filter(r => r.family === 'cylinder').map(r => r.key);
  const facts = Map.groupBy(factsThatTell(db, cylinders, racks), f => f.thing);
  return rows.map(({ rated, use: _use, gas: _gas, ...row }) => ({
    ...row,
    ...fillOf(
      (facts.get(row.key) ?? []) as unknown as Fact[],
      rated === null ? null : Number(rated),
      id => racks.get(id) ?? '',
    ),
  }));
}

/** The facts that say how full something is, and no other: gauges, fills, use at an incident, racks called full or empty. */
function factsThatTell(
  db: Db,
  cylinders: readonly number[],
  racks: ReadonlyMap<string, string>,
): { thing: number }[] {
  return all<{ thing: number; values: string }>(
    db,
    `SELECT f.thing, f.kind, f.effective, f.clock, f.device, f.n, f."values" FROM json_each(:keys) k
     JOIN facts f ON f.thing = k.value WHERE f.voided_at IS NULL AND (f.kind IN ('gauge', 'used')
       OR f.kind = 'record' AND (f."values" ->> '$.activity' = 'recharge'
         OR f."values" ->> '$.readings.gauge_psi' IS NOT NULL)
       OR f.kind = 'place' AND f."values" ->> '$.place' IN (SELECT value FROM json_each(:racks)))`,
    { keys: JSON.stringify(cylinders), racks: JSON.stringify([...racks.keys()]) },
  ).map(f => ({ ...f, values: JSON.parse(f.values) as unknown }));
}
