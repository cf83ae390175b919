/**
 * The shortest fix: which spares, from where, make a unit ready, computed over the whole department at once so that
 * no two units are promised the same thing and none is made less ready. It advises; the officer decides.
 */
import type { Day } from '../../domain/calendar/day.ts';
import { serves } from '../../domain/carry/lacking.ts';
import { isOfLine } from '../../domain/carry/match.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { type Cost, type Lack, orderByWants, type Source, shortestFix } from '../../domain/coverage/fix.ts';
import { dueEffect } from '../../domain/coverage/readiness.ts';
import type { Condition, Values } from '../../domain/facts.ts';
import type { ReadyFix } from '../api-desk.ts';
import { all } from '../store/statements.ts';
import type { Finding } from './readiness-known.ts';
import type { UnitLines } from './readiness-lines.ts';
import { KIND } from './spares.ts';
import { standingOf } from './states.ts';
import type { Asking } from './types.ts';

/** What stands in the way of one unit. */
export interface InTheWay {
  unit: string;
  name: string;
  station: string | null;
  /** Whether its rig itself blocks: no spare helps that. */
  isRigOut: boolean;
  lines: UnitLines;
  findings: readonly Finding[];
}

/** How far away a spare is: on its own station's shelf, on a reserve rig there, elsewhere. Our choice. */
const FAR = { reserve: 1, elsewhere: 10 } as const;

interface Blocking {
  want: string;
  kind: string;
  count: number;
  /** What is wanted, in words, and the thing it would replace. */
  words: string;
  place: string | null;
  instead: number | null;
}

/**
 * The fix of every unit that is not ready, by the unit's id.
 * @param outKits kits that do not serve as they are, by their keys
 */
export function fixesOf(
  asking: Asking,
  units: readonly InTheWay[],
  outKits: ReadonlySet<number>,
  on: Day,
): Map<string, ReadyFix> {
  const things = thingsNamed(
    asking,
    units.flatMap(u => u.findings.filter(f => f.effect === 'blocks').map(f => f.item)),
  );
  const wants = new Map(units.map(u => [u.unit, blockingOf(u, things)]));
  const kinds = new Map<string, CarryLine | null>();
  for (const list of wants.values())
    for (const w of list) if (!kinds.has(w.kind)) kinds.set(w.kind, lineOfKind(w, units));
  const spares = sparesOf(asking, kinds, outKits, on);
  const groups = grouped(spares);
  const stations = new Map(units.map(u => [u.unit, u.station]));
  const cost: Cost = (unit, { source }) => {
    const [, station, where] = source.split('\u0000');
    const isOwn = station === (stations.get(unit) ?? '');
    return (isOwn ? 0 : FAR.elsewhere) + (where === 'reserve' ? FAR.reserve : 0);
  };
  const asked = orderByWants(
    units.flatMap(u => {
      const list = wants.get(u.unit) ?? [];
      return list.length === 0
        ? []
        : [{ unit: u.unit, wants: list.map(({ want, kind, count }) => ({ want, kind, count })) }];
    }),
  );
  const sources: Source[] = [...groups].map(([source, list]) => ({
    source,
    kind: list[0]?.kind ?? '',
    count: list.length,
  }));
  const names = new Map(units.map(u => [u.unit, u.name]));
  return new Map(
    shortestFix(asked, sources, cost).map(({ unit, ready, moves, lacking }) => {
      const list = wants.get(unit) ?? [];
      const inTheWay = units.find(u => u.unit === unit);
      return [
        unit,
        {
          ready,
          moves: moves.flatMap(({ want, source, count }) => {
            const wanted = list.find(w => w.want === want);
            const taken = groups.get(source)?.splice(0, count) ?? [];
            const replaced = wanted?.instead == null ? null : (things.get(wanted.instead) ?? null);
            return taken.map(spare => ({
              item: spare.item,
              number: spare.number,
              what: spare.what,
              from: spare.place,
              place: wanted?.place ?? null,
              instead: replaced && { item: replaced.item, number: replaced.number },
            }));
          }),
          off: offOf(inTheWay, things),
          lacking: lacking.map(l => lackWords(l, list, names)),
        },
      ];
    }),
  );
}

/** What blocks a unit and could be filled: lines under their least, and things that serve no more but lie there. */
function blockingOf(unit: InTheWay, things: ReadonlyMap<number, Thing>): Blocking[] {
  const ofLines = unit.lines.shortages
    .filter(s => s.effect === 'blocks' && s.toServe > 0)
    .map(
      ({ line, toServe }): Blocking => ({
        want: line.line,
        kind: kindOfLine(line),
        count: toServe,
        words: line.what,
        place: line.place,
        instead: null,
      }),
    );
  const seen = new Set<number>();
  const ofThings = unit.findings.flatMap(({ effect, item }): Blocking[] => {
    const thing = things.get(item);
    // What does not serve is lacking from its line already, and only has to be taken off the rig.
    if (effect !== 'blocks' || !thing || seen.has(item) || !serves(thing.condition)) return [];
    seen.add(item);
    const line = unit.lines.lineOf.get(item);
    return [
      {
        want: `thing ${thing.item}`,
        kind: line ? kindOfLine(line) : `thing\u0001${thing.kind}`,
        count: 1,
        words: thing.what,
        place: line?.place ?? null,
        instead: item,
      },
    ];
  });
  const rig: Blocking[] = unit.isRigOut
    ? [{ want: 'rig', kind: 'rig', count: 1, words: 'rig', place: null, instead: null }]
    : [];
  return [...rig, ...ofLines, ...ofThings];
}

const kindOfLine = (line: CarryLine): string =>
  line.family === null
    ? `counted\u0001${line.what}`
    : `line\u0001${line.family}\u0001${JSON.stringify(Object.entries(line.like).sort())}`;

function lineOfKind(wanted: Blocking, units: readonly InTheWay[]): CarryLine | null {
  if (!wanted.kind.startsWith('line\u0001')) return null;
  for (const { lines } of units) {
    const found =
      lines.shortages.find(s => kindOfLine(s.line) === wanted.kind)?.line ??
      [...lines.lineOf.values()].find(l => kindOfLine(l) === wanted.kind);
    if (found) return found;
  }
  return null;
}

/** Things to be taken off the rig: they block and serve nothing while they lie there. */
function offOf(unit: InTheWay | undefined, things: ReadonlyMap<number, Thing>): ReadyFix['off'] {
  const off = new Map<number, Thing>();
  for (const { effect, item } of unit?.findings ?? []) {
    const thing = things.get(item);
    if (effect === 'blocks' && thing && !serves(thing.condition)) off.set(item, thing);
  }
  return [...off.values()].map(({ item, number, what }) => ({ item, number, what }));
}

function lackWords(lack: Lack, list: readonly Blocking[], names: ReadonlyMap<string, string>): string {
  if (lack.kind === 'rig')
    return 'The rig itself is out of service: no spare helps. Let somebody entitled return it, or ride a reserve rig.';
  const words = list.find(w => w.kind === lack.kind)?.words ?? lack.kind;
  if (lack.kind.startsWith('counted\u0001'))
    return `${words}: ${lack.wanted} more. It is counted and not tracked: restock it, then settle what was found short.`;
  const taken = lack.takenBy.map(t => `${names.get(t.unit) ?? t.unit} takes ${t.count}`);
  const had = lack.had === 0 ? 'none is' : `${lack.had} ${lack.had === 1 ? 'is' : 'are'}`;
  return `${words}: ${lack.wanted} wanted, ${had} to be had from ready spares and reserve rigs${taken.length > 0 ? `; ${taken.join(', ')}` : ''}.`;
}

interface Thing {
  item: string;
  number: string;
  what: string;
  kind: string;
  condition: Condition;
}

function thingsNamed(asking: Asking, keys: readonly number[]): Map<number, Thing> {
  return new Map(
    all<Thing & { key: number }>(
      asking.db,
      `SELECT i.key, t.id AS item, i.number, i.what, i.condition, ${KIND} AS kind FROM items i
       JOIN things t ON t.key = i.key WHERE i.key IN (SELECT value FROM json_each(?))`,
      JSON.stringify([...new Set(keys)]),
    ).map(({ key, ...thing }) => [key, thing]),
  );
}

interface Spare {
  item: string;
  number: string;
  what: string;
  place: string;
  station: string;
  isReserve: boolean;
  kind: string;
}

/** Things that stand by, on a shelf or a reserve rig that nobody rides, with nothing known against them. */
const STANDING_BY = `i.condition = 'serviceable' AND p.kit IS NULL AND (
  (p.rig IS NULL AND i.assignment = 'ready spare') OR (r.key IS NOT NULL AND r.unit IS NULL AND i.assignment IN ('reserve', 'ready spare')))`;

/** Spares of the kinds that are wanted; one that fits several counts for the choosiest, by its name where equal. */
function sparesOf(
  asking: Asking,
  kinds: ReadonlyMap<string, CarryLine | null>,
  outKits: ReadonlySet<number>,
  on: Day,
): Spare[] {
  const lines = [...kinds]
    .flatMap(([kind, line]) => (line ? [{ kind, line }] : []))
    .sort(
      (a, b) =>
        Object.keys(b.line.like).length - Object.keys(a.line.like).length || (a.kind < b.kind ? -1 : 1),
    );
  const families = new Set([
    ...lines.map(l => l.line.family),
    ...[...kinds.keys()].map(k => k.split('\u0001')[1]?.split('|')[0]),
  ]);
  const from = `items i JOIN places p ON p.key = i.place_key LEFT JOIN places r ON r.key = p.rig`;
  const against = standingOf(asking, on, `${from} JOIN due d ON d.item = i.key`, STANDING_BY);
  return all<{
    key: number;
    item: string;
    number: string;
    what: string;
    family: string;
    attributes: string;
    own: string;
    place: string;
    station: string | null;
    reserve: number;
  }>(
    asking.db,
    `SELECT i.key, t.id AS item, i.number, i.what, i.family, i.attributes, ${KIND} AS own, p.path AS place,
       s.name AS station, r.key IS NOT NULL AS reserve
     FROM ${from} JOIN things t ON t.key = i.key LEFT JOIN places s ON s.key = p.station
     WHERE ${STANDING_BY} AND i.family IN (SELECT value FROM json_each(?)) ORDER BY i.number_sort, t.id`,
    JSON.stringify([...families]),
  ).flatMap(({ key, family, attributes, own, station, reserve, ...spare }): Spare[] => {
    if (outKits.has(key) || against.get(key)?.some(row => dueEffect(row) !== null)) return [];
    const thing = { family, attributes: JSON.parse(attributes) as Values };
    const line = lines.find(l => isOfLine(l.line, thing));
    const kind = line?.kind ?? (kinds.has(`thing\u0001${own}`) ? `thing\u0001${own}` : null);
    return kind === null ? [] : [{ ...spare, station: station ?? '', isReserve: reserve === 1, kind }];
  });
}

/** Spares that stand in for each other: of one kind, at one station, on a shelf or on a reserve rig. */
function grouped(spares: readonly Spare[]): Map<string, Spare[]> {
  const groups = new Map<string, Spare[]>();
  for (const spare of spares) {
    const name = [spare.kind, spare.station, spare.isReserve ? 'reserve' : 'shelf'].join('\u0000');
    groups.set(name, [...(groups.get(name) ?? []), spare]);
  }
  return groups;
}
