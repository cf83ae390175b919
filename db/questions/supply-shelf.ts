/** Ready spares on the shelf by family and size, and cylinders by how full they are known to be. */
import { z } from 'zod';
import { dueEffect } from '../../domain/coverage/readiness.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import { FILL_STATES, type FillState, fillOf } from '../../domain/supply/fill.ts';
import type { SupplyShelf } from '../api-supply.ts';
import { asItemFacts } from '../caches/facts.ts';
import { factsOfThings } from '../caches/many.ts';
import { all } from '../store/statements.ts';
import { day, dayAsked } from './fields.ts';
import { kitsNow, unreadyKits } from './kits-known.ts';
import { KIND } from './spares.ts';
import { standingOf } from './states.ts';
import { placeNamer } from './supply-words.ts';
import { type Asking, question } from './types.ts';

export const supplyShelf = question({
  name: 'supply.shelf',
  title: 'Ready spares by family and size at each station, and cylinders by fill as far as it is known',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer: (asking, args): SupplyShelf => ({
    spares: sparesOf(asking, args.on),
    cylinders: cylindersOf(asking),
  }),
  example: {},
});

const OFF_RIGS = `JOIN places p ON p.key = i.place_key JOIN places s ON s.key = p.station
  WHERE p.rig IS NULL AND p.kit IS NULL AND i.condition NOT IN ('retired', 'disposed', 'on order', 'missing')`;

/** Things assigned as ready spares that lie at a station and on no rig, kind by kind. */
function sparesOf(asking: Asking, asked: string | undefined): SupplyShelf['spares'] {
  const rows = all<{
    key: number;
    number: string;
    family: string;
    what: string;
    kind: string;
    condition: string;
    station: string;
  }>(
    asking.db,
    `SELECT i.key, i.number, i.family, i.what, ${KIND} AS kind, i.condition, s.name AS station
     FROM items i ${OFF_RIGS} AND i.assignment = 'ready spare'
     ORDER BY i.family, i.what, s.path_sort, i.number_sort`,
  );
  const due = standingOf(
    asking,
    dayAsked(asking, asked),
    'items i JOIN due d ON d.item = i.key',
    "i.assignment = 'ready spare'",
  );
  const unready = unreadyKits(kitsNow(asking, dayAsked(asking, asked)));
  const isReady = (row: { key: number; condition: string }) =>
    row.condition === 'serviceable' &&
    !unready.has(row.key) &&
    (due.get(row.key) ?? []).every(d => ['notes', null].includes(dueEffect(d)));
  return [...Map.groupBy(rows, r => `${r.kind}\n${r.station}`).values()].flatMap(same => {
    const [first] = same;
    if (!first) return [];
    const ready = same.filter(isReady);
    return [
      {
        family: first.family,
        title: familyOf(first.family)?.title ?? first.family,
        what: first.what,
        station: first.station,
        ready: ready.length,
        not: same.length - ready.length,
        numbers: ready.map(r => r.number),
      },
    ];
  });
}

/** Cylinders off the rigs, whatever they are assigned as. */
function cylindersOf(asking: Asking): SupplyShelf['cylinders'] {
  const rows = all<{ key: number; what: string; rated: number | null; station: string }>(
    asking.db,
    `SELECT i.key, i.what, i.attributes ->> '$.servicePressure_psi' AS rated, s.name AS station
     FROM items i ${OFF_RIGS} AND i.family = 'cylinder' ORDER BY s.path_sort, i.what`,
  );
  const nameOf = placeNamer(asking);
  const facts = new Map(
    factsOfThings(
      asking.db,
      't.key IN (SELECT value FROM json_each(?))',
      JSON.stringify(rows.map(r => r.key)),
    ).map(t => [t.key, t.facts]),
  );
  return [...Map.groupBy(rows, r => `${r.station}\n${r.what}`).values()].flatMap(same => {
    const [first] = same;
    if (!first) return [];
    const by = Object.fromEntries(FILL_STATES.map(s => [s, 0])) as Record<FillState, number>;
    for (const row of same) {
      const rated = row.rated === null ? null : Number(row.rated);
      by[fillOf(asItemFacts(facts.get(row.key) ?? []), rated, nameOf).fill] += 1;
    }
    return [{ station: first.station, what: first.what, by }];
  });
}
