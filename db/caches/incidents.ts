/** Incidents after which hose and bottles were picked up together, from their facts, and what was read held against it. */
import { firstDay, type When } from '../../domain/calendar/when.ts';
import type { Derived } from '../../domain/derive/thing.ts';
import { describe as inWords } from '../../domain/describe.ts';
import type { Condition, Values } from '../../domain/facts.ts';
import { owedAfterUse } from '../../domain/incident/afterUse.ts';
import { sameNumber } from '../../domain/incident/numbers.ts';
import { type KnownThing, matchPickup, type Pickup } from '../../domain/incident/pickup.ts';
import type { Effects, Reading } from '../../domain/incident/settlement.ts';
import type { Book } from '../../domain/rulebook/book.ts';
import { all, type Db, one } from '../store/statements.ts';
import { asTold, factsOf, identityOf, type PlainFact, textOf } from './facts.ts';

/** A number as it was told: in which place of the rig, and whether the thing was used. */
export interface ReadTold {
  number: string;
  at: string | null;
  used: boolean;
}

/** A rig that was there: the latest list of it, and whether that was settled. */
export interface RigTold {
  unit: string;
  rig: string;
  list: { fact: string; on: When; reads: readonly ReadTold[] } | null;
  settled: boolean;
}

export interface SettledTold extends Effects {
  fact: string;
  on: When;
  note: string | null;
  /** The lists that were settled, by rig. */
  saw: Readonly<Record<string, string>>;
}

export interface IncidentTold {
  fact: string;
  name: string;
  on: When;
  note: string | null;
  agencies: readonly string[];
  families: readonly string[];
  rigs: readonly RigTold[];
  settlements: readonly SettledTold[];
}

/** An incident by its facts, or null where none says what it is. */
export function incidentOf(facts: readonly PlainFact[]): IncidentTold | null {
  const known = identityOf(facts);
  const opened = asTold(facts.filter(f => f.kind === 'identity'))[0];
  if (!known || !opened || typeof known.name !== 'string') return null;
  const settlements = asTold(facts.filter(f => f.kind === 'settled')).map(f => ({
    ...(f.values as unknown as SettledTold),
    fact: f.id,
    on: f.effective,
    note: textOf(f.values.note),
  }));
  const settled = new Set(settlements.flatMap(s => Object.values(s.saw)));
  const lists = asTold(facts.filter(f => f.kind === 'found'));
  return {
    fact: opened.id,
    name: known.name,
    on: known.at as When,
    note: textOf(known.note),
    agencies: known.agencies as string[],
    families: known.families as string[],
    rigs: (known.rigs as { unit: string; rig: string }[]).map(({ unit, rig }): RigTold => {
      const list = lists.findLast(f => f.values.rig === rig);
      return {
        unit,
        rig,
        list: list ? { fact: list.id, on: list.effective, reads: list.values.reads as ReadTold[] } : null,
        settled: list !== undefined && settled.has(list.id),
      };
    }),
    settlements,
  };
}

/** An incident with what its lists come to now. */
export interface IncidentSeen {
  told: IncidentTold;
  pickup: Pickup;
  readings: Reading[];
  owes: (thing: KnownThing, on: When) => string | null;
}

/**
 * The lists that are not settled, held against where things are believed now.
 * @param fresh things that a running act has touched, as they are now; null where one is not there any more
 */
export function incidentSeen(
  db: Db,
  id: string,
  book: Book,
  fresh: ReadonlyMap<string, Derived | null> = new Map(),
): IncidentSeen | null {
  const known = one<{ key: number }>(db, "SELECT key FROM things WHERE id = ? AND kind = 'incident'", id);
  const told = known ? incidentOf(factsOf(db, known.key)) : null;
  return told && seenFrom(db, told, book, fresh);
}

export function seenFrom(
  db: Db,
  told: IncidentTold,
  book: Book,
  fresh: ReadonlyMap<string, Derived | null> = new Map(),
): IncidentSeen {
  const open = told.rigs.filter(r => !r.settled);
  const readings = open.flatMap(({ rig, list }) => (list?.reads ?? []).map(r => ({ ...r, rig })));
  const names = new Map(
    all<{ id: string; name: string }>(
      db,
      'SELECT t.id, p.name FROM json_each(?) j JOIN things t ON t.id = j.value JOIN places p ON p.key = t.key',
      JSON.stringify(told.rigs.map(r => r.rig)),
    ).map(p => [p.id, p.name]),
  );
  const pickup = matchPickup({
    rigs: told.rigs.map(({ rig, list, settled }) => ({
      rig,
      name: names.get(rig) ?? rig,
      read: settled || list === null ? null : list.reads.map(r => r.number),
      settled,
    })),
    agencies: told.agencies,
    families: told.families,
    things: thingsFor(
      db,
      told.families,
      readings.map(r => r.number),
      fresh,
    ),
  });
  const owes = (thing: KnownThing, on: When) =>
    // What is held is not worked on, and owes nothing more until it is released.
    thing.condition === 'held for investigation'
      ? null
      : owedAfterUse(thing.family, thing.attributes, book.versions.get(thing.family) ?? [], firstDay(on));
  return { told, pickup, readings, owes };
}

/** Every living thing of the families, and whatever else bears one of the numbers. */
function thingsFor(
  db: Db,
  families: readonly string[],
  numbers: readonly string[],
  fresh: ReadonlyMap<string, Derived | null>,
): KnownThing[] {
  const read = new Set(numbers.map(sameNumber));
  const isWanted = (t: { family: string; number: string; condition: Condition }) =>
    t.family !== 'apparatus' &&
    t.condition !== 'retired' &&
    t.condition !== 'disposed' &&
    (families.includes(t.family) || read.has(sameNumber(t.number)));
  const rows = all<{
    item: string;
    number: string;
    family: string;
    what: string;
    attributes: string;
    condition: Condition;
    place: string | null;
  }>(
    db,
    `SELECT t.id AS item, i.number, i.family, i.what, i.attributes, i.condition, i.place
     FROM items i JOIN things t ON t.key = i.key
     WHERE i.family IN (SELECT value FROM json_each(:families))
       OR upper(replace(i.number, ' ', '')) IN (SELECT value FROM json_each(:read))
     ORDER BY i.family, i.number_sort, i.key`,
    { families: JSON.stringify(families), read: JSON.stringify([...read]) },
  ).filter(row => !fresh.has(row.item));
  const places = new Map(
    all<{ id: string; path: string; rig: string | null }>(
      db,
      `SELECT t.id, p.path, rt.id AS rig FROM places p JOIN things t ON t.key = p.key
       LEFT JOIN things rt ON rt.key = p.rig`,
    ).map(p => [p.id, p]),
  );
  const known = [
    ...rows.map(row => ({ ...row, attributes: JSON.parse(row.attributes) as Values })),
    ...[...fresh].flatMap(([item, d]) =>
      d ? [{ ...d, item, what: inWords(d.family, d.attributes), place: d.place?.place ?? null }] : [],
    ),
  ];
  return known.filter(isWanted).map(({ item, number, family, what, attributes, condition, place }) => {
    const at = place === null ? undefined : places.get(place);
    return {
      item,
      number,
      family,
      what,
      attributes,
      condition,
      place,
      rig: at?.rig ?? null,
      where: at?.path ?? '',
    };
  });
}
