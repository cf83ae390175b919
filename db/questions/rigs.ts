/** Rigs: what rides where, in what state they are, who rode them, and what was not brought back. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import type { RigCondition } from '../../domain/coverage/readiness.ts';
import { inOrder } from '../../domain/facts.ts';
import { type NotReturned, notReturned, type Ride, ridesFrom } from '../../domain/rigs/rides.ts';
import type { RigLine } from '../api-desk.ts';
import { identityOf, type PlainFact, textOf } from '../caches/facts.ts';
import { factsOfThings } from '../caches/many.ts';
import { rideFactsOf } from '../caches/rides.ts';
import { whereaboutsOf } from '../caches/whereabouts.ts';
import { all } from '../store/statements.ts';
import { CELL, type Cell, tally } from './due-cells.ts';
import { IN_FORCE } from './due-filter.ts';
import { day, dayAsked } from './fields.ts';
import { type Asking, question } from './types.ts';

/** A rig with all that was ever said of it. */
export interface Rig {
  key: number;
  id: string;
  facts: PlainFact[];
}

const RIG = "t.key IN (SELECT key FROM places WHERE kind = 'rig')";

export const rigsOf = (asking: Asking): Rig[] => factsOfThings(asking.db, RIG);

/** The fact of a kind that counts now: the one told of the latest time. */
export const latest = (facts: readonly PlainFact[], kind: string): PlainFact | undefined =>
  facts
    .filter(f => f.kind === kind)
    .sort(inOrder)
    .at(-1);

type RigState = { condition: RigCondition; reason: string | null; since: string };

/** The condition of every rig that was ever taken out or limited, by its key. */
export function rigConditions(asking: Asking, rigs = rigsOf(asking)): Map<number, RigState> {
  const conditions = new Map<number, RigState>();
  for (const { key, facts } of rigs) {
    const fact = latest(facts, 'rig condition');
    if (fact)
      conditions.set(key, {
        condition: fact.values.condition as RigCondition,
        reason: textOf(fact.values.reason),
        since: fact.effective,
      });
  }
  return conditions;
}

/** Every ride ever, from the rigs' own facts. */
export const allRides = (rigs: readonly Rig[]): Ride[] =>
  ridesFrom(rigs.flatMap(({ id, facts }) => rideFactsOf(id, facts)));

/** What went along with a crew to a rig it has left again, and is still there. */
export function notBroughtBack(asking: Asking, rides: readonly Ride[]): NotReturned[] {
  const left = [...new Set(rides.filter(r => r.until !== null).map(r => r.rig))];
  if (left.length === 0) return [];
  const items = all<{ item: string }>(
    asking.db,
    `SELECT t.id AS item FROM items i JOIN things t ON t.key = i.key JOIN places q ON q.key = i.place_key
     JOIN things qt ON qt.key = q.rig
     WHERE qt.id IN (SELECT value FROM json_each(?)) AND i.condition NOT IN ('retired', 'disposed') ORDER BY i.key`,
    JSON.stringify(left),
  );
  return notReturned(
    rides,
    whereaboutsOf(
      asking.db,
      items.map(i => i.item),
    ),
  );
}

export const rigsList = question({
  name: 'rigs.list',
  title: 'Rigs with their unit, station, condition, meters and what is due on them',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer: (asking, args) => rigLines(asking, dayAsked(asking, args.on)).lines,
  example: {},
});

/** Every rig as the list tells it, with what the page of one tells besides. */
export function rigLines(
  asking: Asking,
  on: Day,
): { lines: RigLine[]; rigs: Rig[]; rides: Ride[]; open: NotReturned[] } {
  const rigs = rigsOf(asking);
  const rides = allRides(rigs);
  const open = notBroughtBack(asking, rides);
  const conditions = rigConditions(asking, rigs);
  const things = countedByRig(asking);
  const states = cellsByRig(asking, on);
  const lines = all<{
    key: number;
    id: string;
    name: string;
    unit: string | null;
    unitId: string | null;
    station: string | null;
  }>(
    asking.db,
    `SELECT p.key, t.id, p.name, u.name AS unit, ut.id AS unitId, s.name AS station FROM places p
     JOIN things t ON t.key = p.key LEFT JOIN units u ON u.key = p.unit LEFT JOIN things ut ON ut.key = u.key
     LEFT JOIN places s ON s.key = p.station
     WHERE p.kind = 'rig' ORDER BY p.path_sort`,
  ).flatMap(({ key, ...row }): RigLine[] => {
    const rig = rigs.find(r => r.key === key);
    if (!rig) return [];
    const identity = identityOf(rig.facts) ?? {};
    const state = conditions.get(key);
    return [
      {
        ...row,
        chassis: textOf(identity.chassis),
        standing: typeof identity.unit === 'string' ? 'first line' : 'reserve',
        condition: state?.condition ?? 'in service',
        conditionReason: state?.reason ?? null,
        conditionSince: state?.since ?? null,
        meters: metersOf(rig.facts),
        things: things.get(key) ?? 0,
        byState: tally(states.get(key) ?? [], on),
        notReturned: open.filter(o => o.on === row.id).length,
      },
    ];
  });
  return { lines, rigs, rides, open };
}

function metersOf(facts: readonly PlainFact[]): RigLine['meters'] {
  const meters = new Set(facts.filter(f => f.kind === 'meter').map(f => String(f.values.meter)));
  return [...meters].sort().flatMap(meter => {
    const fact = latest(
      facts.filter(f => f.values.meter === meter),
      'meter',
    );
    return fact ? [{ meter, reading: Number(fact.values.reading), on: fact.effective }] : [];
  });
}

function countedByRig(asking: Asking): Map<number, number> {
  return new Map(
    all<{ rig: number; n: number }>(
      asking.db,
      `SELECT p.rig, count(*) AS n FROM items i JOIN places p ON p.key = i.place_key
       WHERE p.rig IS NOT NULL AND i.condition NOT IN ('retired', 'disposed') GROUP BY p.rig`,
    ).map(({ rig, n }) => [rig, n]),
  );
}

function cellsByRig(asking: Asking, on: Day): Map<number, Cell[]> {
  const rigOf = new Map(
    all<{ key: number; rig: number }>(asking.db, 'SELECT key, rig FROM places WHERE rig IS NOT NULL').map(
      ({ key, rig }) => [key, rig],
    ),
  );
  const cells = new Map<number, Cell[]>();
  // Grouped by place, which the index of due rows holds, and told by rig after it.
  for (const { place, ...cell } of all<Cell & { place: number | null }>(
    asking.db,
    `SELECT d.place_key AS place, ${CELL}, count(*) AS n FROM due d
     WHERE ${IN_FORCE} GROUP BY 1, 2, 3`,
    { on },
  )) {
    const rig = place === null ? undefined : rigOf.get(place);
    if (rig !== undefined) cells.set(rig, [...(cells.get(rig) ?? []), cell]);
  }
  return cells;
}
