/**
 * Things of one kind shared among units over the least total distance. This is the transportation problem, solved by
 * successive shortest paths: the unit served next takes from the nearest source that has any left, or takes what an
 * earlier unit holds while that one goes elsewhere, whichever is shortest over all. Each step keeps the sharing the
 * least for what is shared so far, so the last one is the least of all.
 */

export interface ToShare {
  /** How many each unit needs, by position: whole and at least 0. */
  needed: readonly number[];
  /** How many each source has, by position: whole and at least 1. */
  had: readonly number[];
  /** For each unit, how far one thing of each source is, by position: whole and at least 0. */
  far: readonly (readonly number[])[];
}

/** A unit while things are being shared. */
interface Taker {
  order: number;
  /** The distance of each source. */
  far: readonly number[];
  /** The sources that can matter to it, the nearest first, and how many of those are used up. */
  near: readonly number[];
  usedUp: number;
  /** How many it holds of each source. */
  held: Map<number, number>;
  /** For each unit by position: the best that it could take from this one, at the distance it adds. */
  given: (Given | null)[];
}

interface Given {
  source: number;
  adds: number;
}

/** The shortest chain to a unit: each but the first is robbed of one thing by the one before it. */
interface Reach {
  taker: Taker;
  far: number;
  steps: number;
  before: { reach: Reach; source: number } | null;
}

/**
 * Exactly as many as each unit needs, over the least total distance. Equal distances fall to the units and sources
 * in their order; an earlier unit is not sent elsewhere for a later one where that saves nothing.
 * @returns for each unit, how many it takes of each source, by the source's position
 * @throws RangeError if fewer are had than needed
 */
export function share({ needed, had, far }: ToShare): Map<number, number>[] {
  const total = sum(needed);
  if (sum(had) < total) throw new RangeError(`${total} are needed, ${sum(had)} are to be had.`);
  const left = [...had];
  const takers = needed.map((_, order): Taker => {
    const own = far[order] ?? [];
    return {
      ...{ order, far: own, near: nearest(own, total), usedUp: 0 },
      ...{ held: new Map(), given: needed.map(() => null) },
    };
  });
  for (const taker of takers) {
    for (let lacks = needed[taker.order] ?? 0; lacks > 0; ) {
      const end = shortest(taker, takers, left);
      lacks -= take(end.reach, end.source, lacks, left, takers);
    }
  }
  return takers.map(t => t.held);
}

/**
 * As many sources as things are shared, the nearest first. No unit need go farther: all others together cannot use
 * these up, so whatever it took farther away it could take here.
 */
function nearest(far: readonly number[], total: number): number[] {
  const near: number[] = [];
  const sift = (): void => {
    near.sort((a, b) => distance(far, a) - distance(far, b) || a - b);
    near.length = Math.min(near.length, total);
  };
  let bound = Number.POSITIVE_INFINITY;
  for (const [source, f] of far.entries()) {
    // As far as the last of enough nearer ones, and later: never among them.
    if (f >= bound) continue;
    near.push(source);
    if (near.length < 2 * total) continue;
    sift();
    bound = distance(far, near[total - 1] ?? 0);
  }
  sift();
  return near;
}

/** The shortest way to one more thing for a unit: the chain, and the source with some left at which it ends. */
function shortest(taker: Taker, takers: readonly Taker[], left: readonly number[]) {
  let best: { reach: Reach; source: number; far: number } | null = null;
  for (const reach of reached(taker, takers)) {
    if (!reach) continue;
    const source = nextLeft(reach.taker, left);
    const far = reach.far + distance(reach.taker.far, source);
    if (!best || far < best.far || (far === best.far && reach.steps < best.reach.steps))
      best = { reach, source, far };
  }
  if (!best) throw new RangeError('Nothing is left to share.');
  return best;
}

/** A source once used up stays so: a chain passes its things on and hands none back. */
function nextLeft(taker: Taker, left: readonly number[]): number {
  for (;;) {
    const source = taker.near[taker.usedUp];
    if (source === undefined) throw new RangeError('Nothing is left to share.');
    if ((left[source] ?? 0) > 0) return source;
    taker.usedUp += 1;
  }
}

/**
 * The shortest chain from a unit to each, by position (Bellman and Ford: what a step adds may be below 0, a circle
 * never is). Of chains as long the one with fewer units, so a chain has no circles either.
 */
function reached(start: Taker, takers: readonly Taker[]): readonly (Reach | null)[] {
  const reaches: (Reach | null)[] = takers.map(() => null);
  let changed: Reach[] = [{ taker: start, far: 0, steps: 0, before: null }];
  reaches[start.order] = changed[0] ?? null;
  while (changed.length > 0) {
    const next = new Set<number>();
    for (const reach of changed) {
      // Something shorter was found since.
      if (reaches[reach.taker.order] !== reach) continue;
      for (const robbed of takers) {
        const given = robbed.given[reach.taker.order];
        if (!given) continue;
        const far = reach.far + given.adds;
        const known = reaches[robbed.order];
        if (known && (known.far < far || (known.far === far && known.steps <= reach.steps + 1))) continue;
        const before = { reach, source: given.source };
        reaches[robbed.order] = { taker: robbed, far, steps: reach.steps + 1, before };
        next.add(robbed.order);
      }
    }
    changed = [...next].flatMap(order => reaches[order] ?? []);
  }
  return reaches;
}

/** Moves as many along a chain as all of it can give, at most so many; says how many. */
function take(end: Reach, from: number, most: number, left: number[], takers: readonly Taker[]): number {
  let count = Math.min(most, left[from] ?? 0);
  for (let { taker, before } = end; before; { taker, before } = before.reach)
    count = Math.min(count, taker.held.get(before.source) ?? 0);
  left[from] = (left[from] ?? 0) - count;
  add(end.taker, from, count);
  for (let { taker, before } = end; before; { taker, before } = before.reach) {
    add(taker, before.source, -count);
    add(before.reach.taker, before.source, count);
  }
  for (let reach: Reach | undefined = end; reach; reach = reach.before?.reach) offer(reach.taker, takers);
  return count;
}

function add(taker: Taker, source: number, count: number): void {
  const held = (taker.held.get(source) ?? 0) + count;
  if (held === 0) taker.held.delete(source);
  else taker.held.set(source, held);
}

/** What each other unit could best take of what this one holds. */
function offer(taker: Taker, takers: readonly Taker[]): void {
  const held = [...taker.held.keys()].sort((a, b) => a - b);
  for (const other of takers) {
    if (other === taker) continue;
    let best: Given | null = null;
    for (const source of held) {
      const adds = distance(other.far, source) - distance(taker.far, source);
      if (!best || adds < best.adds) best = { source, adds };
    }
    taker.given[other.order] = best;
  }
}

const distance = (far: readonly number[], source: number): number => far[source] ?? Number.POSITIVE_INFINITY;
const sum = (counts: readonly number[]): number => counts.reduce((a, b) => a + b, 0);
