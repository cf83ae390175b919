/** Where things have been, rig by rig, from the facts of their places; and every ride ever. */
import type { When } from '../../domain/calendar/when.ts';
import { type Ride, ridesFrom, type Whereabouts } from '../../domain/rigs/rides.ts';
import { all, type Db } from '../store/statements.ts';
import { factsOfThings } from './many.ts';
import { rideFactsOf } from './rides.ts';

/** Every ride ever, from the rigs' own facts as they are this moment. */
export function ridesNow(db: Db): Ride[] {
  const rigs = factsOfThings(
    db,
    `t.kind = 'place' AND EXISTS (SELECT 1 FROM facts i WHERE i.thing = t.key AND i.kind = 'identity'
       AND i.voided_at IS NULL AND i."values" ->> '$.kind' = 'rig')`,
  );
  return ridesFrom(rigs.flatMap(({ id, facts }) => rideFactsOf(id, facts)));
}

/** Things by their ids, each with the rigs it has been on, one after the other; null stands for a place on none. */
export function whereaboutsOf(db: Db, items: readonly string[]): Whereabouts[] {
  const rows = all<{ item: string; rig: string | null; effective: string }>(
    db,
    `SELECT t.id AS item, rt.id AS rig, f.effective
     FROM json_each(?) j JOIN things t ON t.id = j.value JOIN facts f ON f.thing = t.key
     JOIN things pt ON pt.id = f."values" ->> '$.place' LEFT JOIN places p ON p.key = pt.key
     LEFT JOIN things rt ON rt.key = p.rig
     WHERE f.kind = 'place' AND f.voided_at IS NULL
     ORDER BY f.thing, f.effective, f.clock, f.device, f.n`,
    JSON.stringify(items),
  );
  const things = new Map<string, { rig: string | null; from: When }[]>();
  for (const { item, rig, effective } of rows) {
    const spans = things.get(item) ?? [];
    if (spans.length === 0 || spans.at(-1)?.rig !== rig) spans.push({ rig, from: effective as When });
    things.set(item, spans);
  }
  return [...things].map(([item, spans]) => ({ item, spans }));
}
