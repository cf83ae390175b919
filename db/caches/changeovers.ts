/** Whole-rig swaps from facts: what would move now, and the legs that were signed. */
import type { When } from '../../domain/calendar/when.ts';
import { lackingOf, type OpenShortage } from '../../domain/carry/lacking.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { isSettledDefect } from '../../domain/checkoffs/defect.ts';
import type { NextStep } from '../../domain/checkoffs/marks.ts';
import type { Derived } from '../../domain/derive/thing.ts';
import { describe as inWords } from '../../domain/describe.ts';
import type { Condition, HowKnown, Values } from '../../domain/facts.ts';
import {
  type Changeover,
  type Counted,
  changeover,
  type OnRig,
  placeOn,
} from '../../domain/rigs/changeover.ts';
import { type Ride, rideAt, wentAlong } from '../../domain/rigs/rides.ts';
import { KIT_FAMILY } from '../../domain/rulebook/kit.ts';
import { all, type Db, one } from '../store/statements.ts';
import { carryListOf } from './checkoffs.ts';
import { factsOf, identityOf, type PlainFact, textOf } from './facts.ts';
import { factsByThing } from './many.ts';
import { whereaboutsOf } from './whereabouts.ts';

/** A thing on one of the two rigs. */
export interface RigThing extends OnRig {
  what: string;
  /** Since when its place is known. */
  since: When;
}

/** A count of a line that did not move as it was to. */
export interface CountedTold {
  line: string;
  what: string;
  planned: number;
  moved: number;
  why: string | null;
}

/** A leg as it was signed. */
export interface LegTold {
  id: string;
  fact: string;
  unit: string;
  from: string;
  to: string;
  back: boolean;
  on: When;
  how: HowKnown;
  note: string | null;
  by: string | null;
  moved: readonly { item: string; to: string }[];
  there: readonly string[];
  excepted: readonly { item: string; why: string | null }[];
  counted: readonly CountedTold[];
}

/** Every leg that counts, in the order in which they were ridden. */
export function legsOf(db: Db): LegTold[] {
  return factsByThing(db, 'changeover')
    .flatMap(({ id, facts }) => {
      const leg = legOf(id, facts);
      return leg ? [leg] : [];
    })
    .sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.id < b.id ? -1 : 1));
}

function legOf(id: string, facts: readonly PlainFact[]): LegTold | null {
  const told = facts.find(f => f.kind === 'identity');
  if (!told) return null;
  const v = told.values;
  return {
    id,
    fact: told.id,
    unit: String(v.unit),
    from: String(v.from),
    to: String(v.to),
    back: v.back === true,
    on: told.effective,
    how: v.how as HowKnown,
    note: textOf(v.note),
    by: textOf(v.by),
    moved: v.moved as LegTold['moved'],
    there: v.there as string[],
    excepted: v.excepted as LegTold['excepted'],
    counted: v.counted as CountedTold[],
  };
}

/** The difference of two rigs for the crew that changes, with the places of the rig it takes. */
export interface Difference extends Changeover<RigThing> {
  /** Whether the crew goes back to its own rig. */
  back: boolean;
  /** The place of the rig that is taken where each thing that moves will lie, by the thing's id. */
  goesTo: ReadonlyMap<string, string>;
  /** The place of the rig taken of each place of the list, by its name in lower case. */
  named: ReadonlyMap<string, string>;
}

export interface Leg {
  unit: string;
  from: string;
  to: string;
  /** When; what was moved later is left out. */
  on: When;
}

/**
 * What the rigs differ in by the list of the unit, as of now.
 * @param fresh things that a running act has touched, as they are now; null where one is not there any more
 */
export function differenceOf(
  db: Db,
  { unit, from, to, on }: Leg,
  rides: readonly Ride[],
  fresh: ReadonlyMap<string, Derived | null> = new Map(),
): Difference {
  const lines = listOf(db, unit, on);
  const rigs = placesOfRigs(db, [from, to]);
  const things = thingsOn(db, rigs, fresh).filter(t => t.since <= on);
  const leavesOwn = isOwnRig(db, from, unit);
  const origins = leavesOwn ? new Map() : originsOf(db, unit, from, on, rides, things);
  const onRig = (rig: string) =>
    things.filter(t => t.rig === rig).map(t => ({ ...t, origin: origins.get(t.item) ?? ('own' as const) }));
  const ownList = listOf(db, to, on);
  const difference = changeover<RigThing>({
    lines,
    left: onRig(from),
    taken: onRig(to),
    ownList,
    leavesOwn,
    counted: countedOf(db, { unit, from, to, on }, lines, ownList, leavesOwn),
  });
  const named = new Map(
    [...rigs].flatMap(([id, p]) => (p.rig === to && id !== to ? [[p.name.toLowerCase(), id]] : [])),
  );
  return {
    ...difference,
    back: isOwnRig(db, to, unit),
    goesTo: new Map(
      difference.things
        .filter(t => t.becomes === 'moves')
        .map(t => [t.thing.item, placeOn(named, t.to) ?? to]),
    ),
    named,
  };
}

/** Whether a rig was added with this unit, and so is its own. */
export function isOwnRig(db: Db, rig: string, unit: string): boolean {
  return identity(db, rig)?.unit === unit;
}

function identity(db: Db, id: string): Record<string, unknown> | null {
  const known = one<{ key: number }>(db, 'SELECT key FROM things WHERE id = ?', id);
  return known ? identityOf(factsOf(db, known.key)) : null;
}

function listOf(db: Db, holder: string, on: When): CarryLine[] {
  const known = one<{ key: number }>(db, 'SELECT key FROM things WHERE id = ?', holder);
  return known
    ? carryListOf(factsOf(db, known.key).filter(f => f.effective.slice(0, 10) <= on.slice(0, 10)))
    : [];
}

type PlaceOfRig = { rig: string; name: string };

/** Every place of these rigs with its name below the rig, the rigs themselves with none; what is in a kit moves with it. */
function placesOfRigs(db: Db, rigs: readonly string[]): Map<string, PlaceOfRig> {
  return new Map(
    all<{ id: string; rig: string; path: string; rigName: string }>(
      db,
      `SELECT t.id, rt.id AS rig, p.path, r.name AS rigName FROM json_each(?) j JOIN things rt ON rt.id = j.value
       JOIN places r ON r.key = rt.key JOIN places p ON p.rig = r.key AND p.kit IS NULL JOIN things t ON t.key = p.key`,
      JSON.stringify(rigs),
    ).map(({ id, rig, path, rigName }) => [
      id,
      { rig, name: path.startsWith(`${rigName}, `) ? path.slice(rigName.length + 2) : '' },
    ]),
  );
}

type ThingOn = Omit<RigThing, 'origin'> & { rig: string };

/** Living things in these places, by family and number. */
function thingsOn(
  db: Db,
  places: ReadonlyMap<string, PlaceOfRig>,
  fresh: ReadonlyMap<string, Derived | null>,
): ThingOn[] {
  const rows = all<{
    item: string;
    number: string;
    family: string;
    what: string;
    attributes: string;
    condition: Condition;
    place: string;
    since: When;
  }>(
    db,
    // Of a row with max() beside it, SQLite takes the other columns from the row that has the greatest.
    `SELECT t.id AS item, i.number, i.family, i.what, i.attributes, i.condition, i.place, f.effective AS since,
       max(f.effective || printf(' %015d', f.clock))
     FROM json_each(?) j JOIN things pt ON pt.id = j.value JOIN items i ON i.place_key = pt.key
     JOIN things t ON t.key = i.key JOIN facts f ON f.thing = i.key AND f.kind = 'place' AND f.voided_at IS NULL
     WHERE i.condition NOT IN ('retired', 'disposed') GROUP BY i.key ORDER BY i.family, i.number_sort, i.key`,
    JSON.stringify([...places.keys()]),
  ).filter(row => !fresh.has(row.item));
  const known = [
    ...rows.map(row => ({ ...row, attributes: JSON.parse(row.attributes) as Values })),
    ...[...fresh].flatMap(([item, d]) =>
      d?.place && d.condition !== 'retired' && d.condition !== 'disposed'
        ? [{ ...d, item, what: inWords(d.family, d.attributes), place: d.place.place, since: d.place.since }]
        : [],
    ),
  ];
  // Nothing stands for a kit whose seal is not whole.
  const sealed = new Set(
    all<{ id: string }>(
      db,
      "SELECT t.id FROM kits k JOIN things t ON t.key = k.key WHERE k.state = 'sealed'",
    ).map(k => k.id),
  );
  return known.flatMap(({ item, number, family, what, attributes, condition, place, since }) => {
    const at = places.get(place);
    if (!at) return [];
    const isUnready = family === KIT_FAMILY && !sealed.has(item);
    return [
      { item, number, family, what, attributes, condition, isUnready, place: at.name, since, rig: at.rig },
    ];
  });
}

/** How each thing came to a rig that is not the crew's own. */
function originsOf(
  db: Db,
  unit: string,
  from: string,
  on: When,
  rides: readonly Ride[],
  things: readonly ThingOn[],
): Map<string, OnRig['origin']> {
  const ride = rideAt(rides, unit, on);
  const known = rides.filter(r => r.from <= on);
  const here = things.filter(t => t.rig === from);
  return new Map(
    whereaboutsOf(
      db,
      here.map(t => t.item),
    ).map(({ item, spans }) => {
      const along = wentAlong(known, spans);
      const since = spans.at(-1)?.from;
      const origin =
        along?.ride.unit === unit && along.home !== from
          ? 'brought'
          : ride && since !== undefined && since > ride.from
            ? 'since'
            : 'own';
      return [item, origin];
    }),
  );
}

/**
 * How many of each counted line are believed on either rig. On the crew's own rig all that was not found lacking; on a
 * reserve rig what its own list has under the same words; and of what went out, on the way back, just that.
 */
function countedOf(
  db: Db,
  leg: Leg,
  lines: readonly CarryLine[],
  ownList: readonly CarryLine[],
  leavesOwn: boolean,
): Map<string, Counted> {
  const short = shortagesOf(db, leg.unit);
  const shortThere = shortagesOf(db, leg.to);
  const goesHome = isOwnRig(db, leg.to, leg.unit);
  const out = leavesOwn
    ? null
    : legsOf(db).findLast(l => l.unit === leg.unit && l.to === leg.from && l.on <= leg.on);
  return new Map(
    lines
      .filter(l => l.family === null)
      .map(line => {
        const open = short.get(line.line) ?? [];
        const since = out ? open.filter(o => o.since > out.on) : [];
        const before = lackingOf(line, null, out ? open.filter(o => o.since <= out.on) : open);
        const moved = out?.counted.find(c => c.line === line.line)?.moved ?? 0;
        const left = leavesOwn ? line.qty - before : Math.max(0, moved - lackingOf(line, null, since));
        const onOwnList = ownList
          .filter(l => l.family === null && l.what.toLowerCase() === line.what.toLowerCase())
          .reduce((n, l) => n + l.qty - lackingOf(l, null, shortThere.get(l.line) ?? []), 0);
        // What was lacking when it went out did not go, and is at home no more than on the way.
        const taken = goesHome ? Math.max(0, line.qty - before - moved) : onOwnList;
        return [line.line, { left, taken }] as const;
      }),
  );
}

type ShortSince = OpenShortage & { since: string };

/** What was found missing or short of a holder's lines and is not settled, by the line. */
function shortagesOf(db: Db, of: string): Map<string, ShortSince[]> {
  const short = new Map<string, ShortSince[]>();
  const rows = all<OpenShortage & { line: string; next: NextStep; since: string; closedOn: string | null }>(
    db,
    `SELECT line, kind, short, "next", since, closed_on AS closedOn FROM defects
     WHERE holder = ? AND line IS NOT NULL AND item IS NULL AND closed_on IS NULL`,
    of,
  );
  for (const { line, kind, short: count, ...row } of rows)
    if (!isSettledDefect(row, null))
      short.set(line, [...(short.get(line) ?? []), { kind, short: count, since: row.since }]);
  return short;
}
