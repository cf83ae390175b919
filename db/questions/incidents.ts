/** Incidents with a mixed pick-up: all of them, and one with what the numbers come to. */
import { z } from 'zod';
import { dayText } from '../../domain/calendar/day.ts';
import type { When } from '../../domain/calendar/when.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type {
  IncidentCounts,
  IncidentLine,
  IncidentPage,
  IncidentRig,
  IncidentSettled,
} from '../api-incidents.ts';
import { readBook } from '../caches/book.ts';
import {
  type IncidentSeen,
  type IncidentTold,
  incidentOf,
  type RigTold,
  seenFrom,
} from '../caches/incidents.ts';
import { factsByThing, factsOfThings } from '../caches/many.ts';
import { all } from '../store/statements.ts';
import { nameOf } from './changeovers.ts';
import { namer } from './notes.ts';
import { type Asking, CannotAnswer, question } from './types.ts';

export const incidentsList = question({
  name: 'incidents.list',
  title: 'Incidents after which things were picked up together, the open ones first; those alone where asked',
  schema: z.strictObject({ open: z.boolean().optional() }) as unknown as z.ZodType<{ open?: boolean }>,
  answer(asking, args) {
    const rows = incidentsOf(asking)
      .map(({ id, told }) => lineOf(asking, id, told, seenFrom(asking.db, told, readBook(asking.db))))
      .filter(line => !args.open || line.state === 'open')
      .sort(
        (a, b) =>
          Number(b.state === 'open') - Number(a.state === 'open') || (a.on < b.on ? 1 : a.on > b.on ? -1 : 0),
      );
    return { total: rows.length, rows };
  },
  example: { open: true },
});

export const incidentPage = question({
  name: 'incident.page',
  title:
    'One incident: the numbers read on each rig, what they come to, what is missing and who likely has it',
  schema: z.strictObject({ incident: z.string() }) as unknown as z.ZodType<{ incident: string }>,
  answer(asking, args): IncidentPage {
    const [known] = incidentsOf(asking, args.incident);
    if (!known)
      throw new CannotAnswer(
        'not found',
        `There is no incident ${args.incident}.`,
        'Choose one from the list.',
        'incident',
      );
    const { id, told } = known;
    const seen = seenFrom(asking.db, told, readBook(asking.db));
    const byName = namer(asking);
    const { rigs: _rigs, ...line } = lineOf(asking, id, told, seen);
    const today = dayText(asking.today) as When;
    const things = [...seen.pickup.numbers.flatMap(n => [...(n.thing ? [n.thing] : []), ...n.could])];
    return {
      ...line,
      note: told.note,
      familyIds: [...told.families],
      unitIds: told.rigs.map(r => r.unit),
      rigs: told.rigs.map(rig => rigOf(asking, told, rig, byName)),
      pickup: seen.pickup,
      readings: seen.readings,
      owes: Object.fromEntries(
        things.flatMap(thing => {
          const owes = seen.owes(thing, today);
          return owes === null ? [] : [[thing.item, owes]];
        }),
      ),
      settlements: told.settlements
        .map(({ saw: _saw, ...s }): IncidentSettled => ({ ...s, byName: byName(s.fact) }))
        .reverse(),
    };
  },
  example: { incident: '<id>' },
});

/** Every incident, or the one of this id. */
function incidentsOf(asking: Asking, id?: string): { id: string; told: IncidentTold }[] {
  const told =
    id === undefined
      ? factsByThing(asking.db, 'incident')
      : factsOfThings(asking.db, "t.kind = 'incident' AND t.id = ?", id);
  return told.flatMap(({ id, facts }) => {
    const told = incidentOf(facts);
    return told ? [{ id, told }] : [];
  });
}

function lineOf(asking: Asking, id: string, told: IncidentTold, seen: IncidentSeen): IncidentLine {
  const open = told.rigs.some(r => r.list !== null && !r.settled);
  return {
    id,
    name: told.name,
    on: told.on,
    byName: namer(asking)(told.fact),
    units: told.rigs.map(r => nameOf(asking, r.unit)),
    agencies: [...told.agencies],
    families: told.families.map(f => familyOf(f)?.title ?? f),
    state: open || told.settlements.length === 0 ? 'open' : 'settled',
    rigs: told.rigs.length,
    listsIn: told.rigs.filter(r => r.list !== null).length,
    ...countsOf(seen),
  };
}

function countsOf({ pickup: { numbers, believed } }: IncidentSeen): IncidentCounts {
  const count = (...is: (typeof numbers)[number]['is'][]) => numbers.filter(n => is.includes(n.is)).length;
  return {
    own: count('own'),
    ours: count('other rig', 'elsewhere'),
    foreign: count('foreign'),
    doubtful: count('duplicated'),
    missing: believed.filter(b => b.is === 'missing').length,
  };
}

function rigOf(
  asking: Asking,
  told: IncidentTold,
  { unit, rig, list, settled }: RigTold,
  byName: (fact: string) => string | null,
): IncidentRig {
  const name = nameOf(asking, rig);
  const places = all<{ id: string; path: string }>(
    asking.db,
    `SELECT t.id, p.path FROM places p JOIN things t ON t.key = p.key
     WHERE p.rig = (SELECT key FROM things WHERE id = :rig) AND t.id <> :rig ORDER BY p.path_sort`,
    { rig },
  ).map(p => ({
    id: p.id,
    name: p.path.startsWith(`${name}, `) ? p.path.slice(name.length + 2) : p.path,
  }));
  const names = new Map(places.map(p => [p.id, p.name]));
  const [{ n: believed } = { n: 0 }] = all<{ n: number }>(
    asking.db,
    `SELECT count(*) AS n FROM items i JOIN places p ON p.key = i.place_key
     WHERE p.rig = (SELECT key FROM things WHERE id = :rig)
       AND p.kit IS NULL AND i.family IN (SELECT value FROM json_each(:families))
       AND i.condition NOT IN ('retired', 'disposed', 'at repair', 'on order')`,
    { rig, families: JSON.stringify(told.families) },
  );
  return {
    rig,
    name,
    unit,
    unitName: nameOf(asking, unit),
    list: list && { fact: list.fact, on: list.on, byName: byName(list.fact) },
    settled,
    reads: (list?.reads ?? []).map(r => ({
      ...r,
      atName: r.at === null ? null : (names.get(r.at) ?? null),
    })),
    believed,
    places,
  };
}
