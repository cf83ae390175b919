/**
 * The shortest fix over a whole department: which thing goes to which unit, so that the units are made ready in the
 * order in which the department serves them, and nobody walks farther than must be. What is a spare, what lacks and
 * how far a thing is, the caller says; nothing here knows a place.
 */
import { numberSort } from '../number.ts';
import { share } from './fix-share.ts';

/** One line of a unit that does not serve. */
export interface Want {
  /** Its id, its own within the unit. */
  want: string;
  /** What may fill it: only things of this kind. */
  kind: string;
  /** How many are lacking until the line serves: whole and at least 1. */
  count: number;
}

export interface UnitWants {
  unit: string;
  wants: readonly Want[];
}

/** Things that stand in for each other: of one kind, at one place. */
export interface Source {
  source: string;
  kind: string;
  /** How many may be taken without making another unit less ready: whole and at least 0. */
  count: number;
}

/** How far one thing of a source is for a unit: whole, 0 where it lies at hand. */
export type Cost = (unit: string, source: Source) => number;

export interface Move {
  want: string;
  source: string;
  count: number;
}

/** Why a unit cannot be made ready: a kind of which too few are left for it. */
export interface Lack {
  kind: string;
  /** How many the unit wants of it. */
  wanted: number;
  /** How many there are to be had in the whole department. */
  had: number;
  /** How many of those go to units served earlier, in their order: `wanted` is more than `had` less all of these. */
  takenBy: readonly { unit: string; count: number }[];
}

export interface UnitFix {
  unit: string;
  /** Whether all its wants are filled; so is a unit that wants nothing. */
  ready: boolean;
  /** In the order of its wants, of one want the nearest first. None where it cannot be made ready. */
  moves: readonly Move[];
  /** The distance of all its moves, each times its count. */
  cost: number;
  /** In the order of its wants; none where it is ready. */
  lacking: readonly Lack[];
}

/**
 * The shortest fix of all units, in the order given. Exact, by these, the first before the next:
 *
 * 1. A unit is made ready, all its wants filled, whenever that leaves every earlier unit ready that could be. One
 *    that cannot be uses up nothing.
 * 2. Of all ways to make just those units ready, the least total cost. Every way has as many things to move, one for
 *    each that is lacking, so the cheapest is the nearest.
 * 3. Of ways that cost the same always the same one, whatever the order of the sources: units are served in their order,
 *    of sources as far the one with the lower id is taken, an earlier unit is not sent elsewhere for a later one where
 *    that saves nothing, and of what a unit takes the nearest goes to its first want.
 *
 * A want takes only its own kind, so kinds have nothing to do with each other: a unit can be made ready if of each kind
 * as many are left as it wants, and each kind is shared by itself.
 * @param units in the order in which the department serves them
 * @param cost asked once for each unit made ready and each source of a kind it wants
 * @returns one for each unit, in their order
 * @throws RangeError for a count or cost that is not whole or too small, and for a unit, source or want named twice
 */
export function shortestFix(units: readonly UnitWants[], sources: readonly Source[], cost: Cost): UnitFix[] {
  once(units.map(u => u.unit));
  once(sources.map(s => s.source));
  for (const { source, count } of sources) whole(count, 0, source);
  const kinds = Map.groupBy(
    sources.filter(s => s.count > 0).sort((a, b) => byText(a.source, b.source)),
    s => s.kind,
  );
  const shared = new Map<string, Kind>();
  const plans = units.map(unit => planned(unit, shared, kinds));
  const taken = new Map([...shared.values()].flatMap(kind => [...takenOf(kind, cost)]));
  return plans.map(({ unit, lacking }) => {
    if (lacking.length > 0) return { unit: unit.unit, ready: false, moves: [], cost: 0, lacking };
    const filled = unit.wants.flatMap(want => fill(want, taken.get(keyOf(unit.unit, want.kind)) ?? []));
    const total = filled.reduce((sum, { count, far }) => sum + count * far, 0);
    const moves = filled.map(({ want, source, count }) => ({ want, source, count }));
    return { unit: unit.unit, ready: true, moves, cost: total, lacking };
  });
}

/**
 * The shortest fix of one unit as if nobody else needed anything.
 * @throws RangeError as `shortestFix` does
 */
export function ownFix(unit: UnitWants, sources: readonly Source[], cost: Cost): UnitFix {
  const [fix] = shortestFix([unit], sources, cost);
  if (!fix) throw new RangeError(`No fix for ${unit.unit}.`);
  return fix;
}

/**
 * The order in which units are served where the department has not chosen one: the fewest lacking things first, then by
 * name (`Engine 9` before `Engine 31`). Our choice, by common practice, no source. Where all of them lack one and
 * the same kind it makes as many units ready as can be; where they lack several it often does, not always: a unit that
 * lacks little of two kinds may stand in the way of two that lack more of one each.
 */
export function orderByWants<T extends UnitWants>(units: readonly T[]): T[] {
  return units
    .map(unit => ({
      unit,
      lacking: unit.wants.reduce((sum, want) => sum + want.count, 0),
      name: numberSort(unit.unit),
    }))
    .sort((a, b) => a.lacking - b.lacking || byText(a.name, b.name) || byText(a.unit.unit, b.unit.unit))
    .map(({ unit }) => unit);
}

/** A kind while units are being served: what there is of it, and who is to have how many. */
interface Kind {
  kind: string;
  sources: readonly Source[];
  had: number;
  left: number;
  takenBy: { unit: string; count: number }[];
}

/** Sets aside all that a unit wants, or nothing and says what it lacks. */
function planned(
  unit: UnitWants,
  shared: Map<string, Kind>,
  kinds: ReadonlyMap<string, readonly Source[]>,
): { unit: UnitWants; lacking: Lack[] } {
  once(unit.wants.map(w => w.want));
  const wanted = new Map<string, number>();
  for (const { want, kind, count } of unit.wants)
    wanted.set(kind, (wanted.get(kind) ?? 0) + whole(count, 1, want));
  const served = [...wanted].map(([name, count]) => {
    let kind = shared.get(name);
    if (!kind) {
      const sources = kinds.get(name) ?? [];
      const had = sources.reduce((sum, s) => sum + s.count, 0);
      kind = { kind: name, sources, had, left: had, takenBy: [] };
      shared.set(name, kind);
    }
    return { kind, count };
  });
  const lacking = served
    .filter(({ kind, count }) => count > kind.left)
    .map(({ kind, count }) => ({
      kind: kind.kind,
      wanted: count,
      had: kind.had,
      takenBy: [...kind.takenBy],
    }));
  if (lacking.length === 0)
    for (const { kind, count } of served) {
      kind.left -= count;
      kind.takenBy.push({ unit: unit.unit, count });
    }
  return { unit, lacking };
}

interface Taken {
  source: string;
  count: number;
  far: number;
}

/** What each unit takes of a kind, the nearest first. */
function takenOf(kind: Kind, cost: Cost): Map<string, Taken[]> {
  const far = kind.takenBy.map(({ unit }) =>
    kind.sources.map(source => whole(cost(unit, source), 0, source.source)),
  );
  const shares = share({
    needed: kind.takenBy.map(t => t.count),
    had: kind.sources.map(s => s.count),
    far,
  });
  return new Map(
    kind.takenBy.map(({ unit }, order) => [
      keyOf(unit, kind.kind),
      [...(shares[order] ?? [])]
        .sort(([a], [b]) => a - b)
        .map(([at, count]) => ({
          source: kind.sources[at]?.source ?? '',
          count,
          far: far[order]?.[at] ?? 0,
        }))
        .sort((a, b) => a.far - b.far),
    ]),
  );
}

/** Fills a want from what its unit takes of the kind; what is used is gone from `taken`. */
function fill({ want, count }: Want, taken: Taken[]): (Taken & { want: string })[] {
  const filled: (Taken & { want: string })[] = [];
  for (let lacks = count; lacks > 0; ) {
    const first = taken[0];
    if (!first) throw new RangeError(`Too few are set aside for ${want}.`);
    const moved = Math.min(lacks, first.count);
    filled.push({ ...first, want, count: moved });
    lacks -= moved;
    first.count -= moved;
    if (first.count === 0) taken.shift();
  }
  return filled;
}

const keyOf = (unit: string, kind: string): string => JSON.stringify([unit, kind]);
const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function whole(n: number, least: number, what: string): number {
  if (!Number.isSafeInteger(n) || n < least)
    throw new RangeError(`${what}: ${n} is not a whole number of at least ${least}.`);
  return n;
}

function once(names: readonly string[]): void {
  const seen = new Set<string>();
  for (const name of names) {
    if (seen.has(name)) throw new RangeError(`${name} is named twice.`);
    seen.add(name);
  }
}
