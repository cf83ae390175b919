/** One rig: its places and what is in them, its drawing, meters, rides and what was not brought back. */
import { z } from 'zod';
import type { Day } from '../../domain/calendar/day.ts';
import { heaviest } from '../../domain/derive/due.ts';
import type { Assignment, Condition, HowKnown } from '../../domain/facts.ts';
import { type Box, firstDrawing } from '../../domain/rigs/drawing.ts';
import type { Ride } from '../../domain/rigs/rides.ts';
import type { RigItem, RigPage } from '../api-desk.ts';
import { legsOf } from '../caches/changeovers.ts';
import { all } from '../store/statements.ts';
import { toldOpen } from './changeovers.ts';
import { day, dayAsked } from './fields.ts';
import { latest, type Rig, rigLines } from './rigs.ts';
import { standingOf, statesIn } from './states.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

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
    const { lines, rigs, rides, open } = rigLines(asking, on);
    const line =
      lines.find(l => l.id === args.rig) ??
      lines.find(l => l.name.toLowerCase() === wanted) ??
      lines.find(l => l.unit?.toLowerCase() === wanted);
    const rig = rigs.find(r => r.id === line?.id);
    if (!line || !rig)
      throw new CannotAnswer(
        'not found',
        `There is no rig ${args.rig}.`,
        'Name a rig of the department.',
        'rig',
      );
    // A kit stands in its place as the thing it is; as a place of its own once something tracked lies in it.
    const places = all<{ key: number; id: string; name: string; kind: string; parent: string | null }>(
      asking.db,
      `SELECT p.key, t.id, p.name, p.kind, pt.id AS parent FROM places p JOIN things t ON t.key = p.key
       LEFT JOIN things pt ON pt.key = p.parent WHERE p.rig = ? AND p.key <> ?
         AND (p.kit IS NOT p.key OR EXISTS (SELECT 1 FROM items i WHERE i.place_key = p.key)
           OR EXISTS (SELECT 1 FROM places c WHERE c.parent = p.key))
       ORDER BY p.path_sort`,
      rig.key,
      rig.key,
    );
    const drawn = latest(rig.facts, 'drawing');
    const boxes = (drawn?.values.boxes as Box[] | undefined)?.filter(b => places.some(p => p.id === b.place));
    const legs = open.length > 0 ? legsOf(asking.db) : [];
    const items = itemsOnRig(asking, rig.key, on);
    const own = standingOf(asking, on, 'items i JOIN due d ON d.item = i.key', 'i.key = :rig', {
      rig: rig.key,
    });
    return {
      ...line,
      itself: heaviest(statesIn(own.get(rig.key))),
      places: places.map(({ key, ...place }) => ({ ...place, items: items.get(key) ?? [] })),
      loose: items.get(rig.key) ?? [],
      // What lies inside a compartment is told in its box.
      drawing: boxes ?? firstDrawing(places.filter(p => p.parent === rig.id && p.kind !== 'kit')),
      arranged: boxes !== undefined,
      rides: ridesOn(asking, rides, line.id),
      readings: readingsOf(rig),
      leftHere: open.filter(o => o.on === line.id).flatMap(o => toldOpen(asking, legs, o)),
      leftElsewhere: open.filter(o => o.home === line.id).flatMap(o => toldOpen(asking, legs, o)),
    };
  },
  example: { rig: 'Engine 31' },
});

function ridesOn(asking: Asking, rides: readonly Ride[], rig: string): RigPage['rides'] {
  const names = new Map(
    all<{ id: string; name: string }>(
      asking.db,
      'SELECT t.id, u.name FROM units u JOIN things t ON t.key = u.key',
    ).map(({ id, name }) => [id, name]),
  );
  return rides
    .filter(r => r.rig === rig)
    .map(r => ({ unit: names.get(r.unit) ?? r.unit, from: r.from, until: r.until }))
    .reverse();
}

function readingsOf({ facts }: Rig): RigPage['readings'] {
  return facts
    .filter(f => f.kind === 'meter')
    .sort((a, b) => (a.effective < b.effective ? 1 : -1))
    .map(f => ({
      meter: String(f.values.meter),
      reading: Number(f.values.reading),
      on: f.effective,
      meterReplaced: f.values.meterReplaced === true,
      fact: f.id,
    }));
}

/** Living things on the rig by the key of their place, each with its heaviest state. */
function itemsOnRig(asking: Asking, rig: number, on: Day): Map<number, RigItem[]> {
  const states = standingOf(
    asking,
    on,
    'items i JOIN places p ON p.key = i.place_key JOIN due d ON d.item = i.key',
    'p.rig = :rig',
    { rig },
  );
  const items = all<{
    key: number;
    place: number;
    item: string;
    number: string;
    family: string;
    what: string;
    condition: Condition;
    assignment: Assignment | null;
    how: HowKnown | null;
    since: string | null;
  }>(
    asking.db,
    // Of a row with max() beside it, SQLite takes the other columns from the row that has the greatest.
    `SELECT i.key, i.place_key AS place, t.id AS item, i.number, i.family, i.what, i.condition, i.assignment,
       f."values" ->> '$.how' AS how, f.effective AS since, max(f.effective || printf(' %015d', f.clock))
     FROM items i JOIN places p ON p.key = i.place_key JOIN things t ON t.key = i.key
     LEFT JOIN facts f ON f.thing = i.key AND f.kind = 'place' AND f.voided_at IS NULL
     WHERE p.rig = ? AND i.condition NOT IN ('retired', 'disposed')
     GROUP BY i.key ORDER BY i.family, i.number_sort`,
    rig,
  ).map(({ key, place, item, number, family, what, condition, assignment, how, since }) => ({
    place,
    told: {
      item,
      number,
      family,
      what,
      condition,
      assignment,
      state: heaviest(statesIn(states.get(key))),
      how,
      since,
    },
  }));
  const byPlace = new Map<number, RigItem[]>();
  for (const { place, told } of items) byPlace.set(place, [...(byPlace.get(place) ?? []), told]);
  return byPlace;
}
