/** Rigs: what rides where, in what state they are, who rode them, and what was not brought back. */
import { z } from 'zod';
import type { RigCondition } from '../../domain/coverage/readiness.ts';
import { type DueState, heaviest } from '../../domain/derive/due.ts';
import type { Condition, HowKnown } from '../../domain/facts.ts';
import { type Box, firstDrawing } from '../../domain/rigs/drawing.ts';
import {
  type NotReturned,
  notReturned,
  type Ride,
  type RideFact,
  ridesFrom,
  type Whereabouts,
} from '../../domain/rigs/rides.ts';
import type { RigItem, RigLine, RigPage } from '../api-desk.ts';
import { identityOf, type PlainFact } from '../caches/facts.ts';
import { factsByThing } from '../caches/many.ts';
import { all, one } from '../store/statements.ts';
import { dueRowsOf } from './due.ts';
import { day, dayAsked } from './fields.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

interface Rig {
  key: number;
  id: string;
  facts: PlainFact[];
}

const rigsOf = (asking: Asking): Rig[] =>
  factsByThing(asking.db, 'place').filter(({ facts }) => identityOf(facts)?.kind === 'rig');

const latest = (facts: readonly PlainFact[], kind: string): PlainFact | undefined =>
  facts
    .filter(f => f.kind === kind)
    .sort((a, b) => (a.effective < b.effective ? -1 : a.effective > b.effective ? 1 : a.clock - b.clock))
    .at(-1);

/** The condition of every rig that was ever taken out or limited, by its key. */
export function rigConditions(
  asking: Asking,
): Map<number, { condition: RigCondition; reason: string | null; since: string }> {
  const conditions = new Map<number, { condition: RigCondition; reason: string | null; since: string }>();
  for (const { key, facts } of rigsOf(asking)) {
    const fact = latest(facts, 'rig condition');
    if (fact)
      conditions.set(key, {
        condition: fact.values.condition as RigCondition,
        reason: typeof fact.values.reason === 'string' ? fact.values.reason : null,
        since: fact.effective,
      });
  }
  return conditions;
}

/** Every ride ever, from the rigs' own facts. */
function allRides(rigs: readonly Rig[]): Ride[] {
  const facts: RideFact[] = rigs.flatMap(({ id, facts: known }) => {
    const begins = known.find(f => f.kind === 'identity' && typeof f.values.unit === 'string');
    return [
      ...(begins ? [{ ...begins, rig: id, unit: String(begins.values.unit) }] : []),
      ...known
        .filter(f => f.kind === 'ride')
        .map(f => ({ ...f, rig: id, unit: typeof f.values.unit === 'string' ? f.values.unit : null })),
    ];
  });
  return ridesFrom(facts);
}

/** Things on a rig that was ridden by another's crew, with the rigs they have been on. */
function whereabouts(asking: Asking): Whereabouts[] {
  const rows = all<{ item: string; rig: string | null; effective: string }>(
    asking.db,
    `SELECT t.id AS item, rt.id AS rig, f.effective
     FROM facts f JOIN things t ON t.key = f.thing
     JOIN things pt ON pt.id = f."values" ->> '$.place' LEFT JOIN places p ON p.key = pt.key
     LEFT JOIN things rt ON rt.key = p.rig
     WHERE f.kind = 'place' AND f.voided_at IS NULL AND f.thing IN (
       SELECT i.key FROM items i JOIN places q ON q.key = i.place_key WHERE q.rig IS NOT NULL)
     ORDER BY f.thing, f.effective, f.clock, f.device, f.n`,
  );
  const things = new Map<string, { rig: string | null; from: Whereabouts['spans'][number]['from'] }[]>();
  for (const { item, rig, effective } of rows) {
    const spans = things.get(item) ?? [];
    if (spans.at(-1)?.rig !== rig || spans.length === 0)
      spans.push({ rig, from: effective as Whereabouts['spans'][number]['from'] });
    things.set(item, spans);
  }
  return [...things].map(([item, spans]) => ({ item, spans }));
}

interface LineRow {
  key: number;
  id: string;
  name: string;
  unit: string | null;
  station: string | null;
  own: number | null;
}

export const rigsList = question({
  name: 'rigs.list',
  title: 'Rigs with their unit, station, condition, meters and what is due on them',
  schema: z.strictObject({ on: day.optional() }) as unknown as z.ZodType<{ on?: string }>,
  answer: (asking, args) => rigLines(asking, dayAsked(asking, args.on)).map(l => l.line),
  example: {},
});

function rigLines(
  asking: Asking,
  on: ReturnType<typeof dayAsked>,
): { rig: Rig; line: RigLine; open: NotReturned[] }[] {
  const rigs = rigsOf(asking);
  const rides = allRides(rigs);
  const open = rides.some(r => r.until !== null) ? notReturned(rides, whereabouts(asking)) : [];
  const conditions = rigConditions(asking);
  return all<LineRow>(
    asking.db,
    `SELECT p.key, t.id, p.name, u.name AS unit, s.name AS station, p.own FROM places p
     JOIN things t ON t.key = p.key LEFT JOIN units u ON u.key = p.unit LEFT JOIN places s ON s.key = p.station
     WHERE p.kind = 'rig' ORDER BY p.path_sort`,
  ).flatMap(row => {
    const rig = rigs.find(r => r.key === row.key);
    if (!rig) return [];
    const identity = identityOf(rig.facts) ?? {};
    const state = conditions.get(row.key);
    const here = open.filter(o => o.on === row.id);
    const line: RigLine = {
      id: row.id,
      name: row.name,
      unit: row.unit,
      station: row.station,
      chassis: typeof identity.chassis === 'string' ? identity.chassis : null,
      standing: rides.some(r => r.rig === row.id && isOwn(rides, r)) ? 'first line' : 'reserve',
      condition: state?.condition ?? 'in service',
      conditionReason: state?.reason ?? null,
      meters: metersOf(rig.facts),
      things:
        one<{ n: number }>(
          asking.db,
          `SELECT count(*) AS n FROM items i JOIN places p ON p.key = i.place_key
         WHERE p.rig = ? AND i.condition NOT IN ('retired', 'disposed')`,
          row.key,
        )?.n ?? 0,
      byState: statesOnRig(asking, row.key, on),
      notReturned: here.length,
    };
    return [{ rig, line, open: here }];
  });
}

/** A ride is on the unit's own rig where it is the first the unit ever had. */
function isOwn(rides: readonly Ride[], ride: Ride): boolean {
  return rides.find(r => r.unit === ride.unit)?.rig === ride.rig;
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

function statesOnRig(asking: Asking, rig: number, on: ReturnType<typeof dayAsked>): RigLine['byState'] {
  const byState: Partial<Record<DueState, number>> = {};
  for (const { key } of all<{ key: number }>(
    asking.db,
    'SELECT i.key FROM items i JOIN places p ON p.key = i.place_key WHERE p.rig = ?',
    rig,
  ))
    for (const { state } of dueRowsOf(asking, key, on)) byState[state] = (byState[state] ?? 0) + 1;
  return byState;
}

export const rigPage = question({
  name: 'rig.page',
  title: 'One rig: its places and what is in them, its drawing, meters, rides and what was not brought back',
  schema: z.strictObject({ rig: z.string(), on: day.optional() }) as unknown as z.ZodType<{
    rig: string;
    on?: string;
  }>,
  answer(asking, args): RigPage {
    const on = dayAsked(asking, args.on);
    const wanted = args.rig.trim().toLowerCase();
    const found = rigLines(asking, on).find(
      l =>
        l.line.id === args.rig ||
        l.line.name.toLowerCase() === wanted ||
        l.line.unit?.toLowerCase() === wanted,
    );
    if (!found)
      throw new CannotAnswer(
        'not found',
        `There is no rig ${args.rig}.`,
        'Name a rig of the department.',
        'rig',
      );
    const { rig, line, open } = found;
    const places = all<{ key: number; id: string; name: string; kind: string; parent: string | null }>(
      asking.db,
      `SELECT p.key, t.id, p.name, p.kind, pt.id AS parent FROM places p JOIN things t ON t.key = p.key
       LEFT JOIN things pt ON pt.key = p.parent WHERE p.rig = ? AND p.key <> ? ORDER BY p.path_sort`,
      rig.key,
      rig.key,
    );
    const drawn = latest(rig.facts, 'drawing');
    const boxes = (drawn?.values.boxes as Box[] | undefined)?.filter(b => places.some(p => p.id === b.place));
    const rides = allRides(rigsOf(asking));
    const unitName = (id: string) =>
      one<{ name: string }>(
        asking.db,
        'SELECT u.name FROM units u JOIN things t ON t.key = u.key WHERE t.id = ?',
        id,
      )?.name ?? id;
    return {
      ...line,
      places: places.map(({ key, ...place }) => ({ ...place, items: itemsIn(asking, key, on) })),
      loose: itemsIn(asking, rig.key, on),
      drawing: boxes ?? firstDrawing(places),
      arranged: boxes !== undefined,
      rides: rides
        .filter(r => r.rig === line.id)
        .map(r => ({ unit: unitName(r.unit), from: r.from, until: r.until }))
        .reverse(),
      readings: rig.facts
        .filter(f => f.kind === 'meter')
        .sort((a, b) => (a.effective < b.effective ? 1 : -1))
        .map(f => ({
          meter: String(f.values.meter),
          reading: Number(f.values.reading),
          on: f.effective,
          meterReplaced: f.values.meterReplaced === true,
          fact: f.id,
        })),
      leftHere: open.flatMap(o => toldOpen(asking, o)),
    };
  },
  example: { rig: 'Engine 31' },
});

function itemsIn(asking: Asking, place: number, on: ReturnType<typeof dayAsked>): RigItem[] {
  return all<{
    key: number;
    item: string;
    number: string;
    family: string;
    what: string;
    condition: Condition;
    how: HowKnown | null;
    since: string | null;
  }>(
    asking.db,
    `SELECT i.key, t.id AS item, i.number, i.family, i.what, i.condition,
       (SELECT f."values" ->> '$.how' FROM facts f WHERE f.thing = i.key AND f.kind = 'place' AND f.voided_at IS NULL
        ORDER BY f.effective DESC, f.clock DESC LIMIT 1) AS how,
       (SELECT max(f.effective) FROM facts f WHERE f.thing = i.key AND f.kind = 'place' AND f.voided_at IS NULL) AS since
     FROM items i JOIN things t ON t.key = i.key
     WHERE i.place_key = ? AND i.condition NOT IN ('retired', 'disposed') ORDER BY i.family, i.number_sort`,
    place,
  ).map(({ key, ...row }) => ({ ...row, state: heaviest(dueRowsOf(asking, key, on).map(r => r.state)) }));
}

function toldOpen(asking: Asking, open: NotReturned): RigPage['leftHere'] {
  const item = one<{ number: string; what: string }>(
    asking.db,
    'SELECT i.number, i.what FROM items i JOIN things t ON t.key = i.key WHERE t.id = ?',
    open.item,
  );
  const home = one<{ name: string }>(
    asking.db,
    'SELECT p.name FROM places p JOIN things t ON t.key = p.key WHERE t.id = ?',
    open.home,
  );
  return item
    ? [
        {
          item: open.item,
          ...item,
          home: home?.name ?? open.home,
          homeRig: open.home,
          on: open.on,
          since: open.since,
        },
      ]
    : [];
}
