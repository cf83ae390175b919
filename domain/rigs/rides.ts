/** Which unit rode which rig, and what was not brought back: facts of rides and places read together. */
import type { When } from '../calendar/when.ts';

/** A unit's crew on a rig, from when until when (null: still). */
export interface Ride {
  unit: string;
  rig: string;
  from: When;
  until: When | null;
}

/** A ride as it was told: the rig, the unit that took it (null: left it without one), and when. */
export interface RideFact {
  rig: string;
  unit: string | null;
  effective: When;
  clock: number;
  device: string;
}

/**
 * Rides from facts. A unit rides one rig at a time and a rig carries one unit: taking a rig ends the unit's ride on
 * the one before, and the ride of whoever had it.
 */
export function ridesFrom(facts: readonly RideFact[]): Ride[] {
  const ordered = [...facts].sort((a, b) =>
    a.effective !== b.effective
      ? a.effective < b.effective
        ? -1
        : 1
      : a.clock - b.clock || (a.device < b.device ? -1 : a.device > b.device ? 1 : 0),
  );
  const rides: Ride[] = [];
  for (const fact of ordered) {
    for (const ride of rides)
      if (ride.until === null && (ride.rig === fact.rig || ride.unit === fact.unit))
        ride.until = fact.effective;
    if (fact.unit !== null) rides.push({ unit: fact.unit, rig: fact.rig, from: fact.effective, until: null });
  }
  return rides;
}

/** Where one thing has been: the rig of each place it was known at, from when. */
export interface Whereabouts {
  item: string;
  spans: readonly { rig: string | null; from: When }[];
}

/** A thing that rode along to another rig and has not come back. */
export interface NotReturned {
  item: string;
  /** The rig it came from, and the one it is still on. */
  home: string;
  on: string;
  since: When;
}

/**
 * Things that went from a unit's own rig to one it rode, and are still there though the unit has left it again.
 * @param rides all rides, as `ridesFrom` gives them
 */
export function notReturned(rides: readonly Ride[], things: readonly Whereabouts[]): NotReturned[] {
  return things.flatMap(({ item, spans }) => {
    const now = spans.at(-1);
    const along = wentAlong(rides, spans);
    if (!now || now.rig === null || along === null || along.ride.until === null) return [];
    return along.home === now.rig ? [] : [{ item, home: along.home, on: now.rig, since: now.from }];
  });
}

/**
 * Where a thing set out from, where it came to the rig it is on with a crew that rode the one before; null where no
 * crew brought it. Over several rigs in a row it is followed back, to the unit's own rig and no further.
 */
export function wentAlong(
  rides: readonly Ride[],
  spans: Whereabouts['spans'],
): { home: string; ride: Ride } | null {
  const hops: { home: string; ride: Ride }[] = [];
  for (let at = spans.length - 1; at > 0; at--) {
    const [now, before] = [spans[at], spans[at - 1]];
    if (!now || !before || now.rig === null || before.rig === null || now.rig === before.rig) break;
    const unit = hops[0]?.ride.unit;
    const ride = rides.find(
      r =>
        r.rig === now.rig &&
        (unit === undefined || r.unit === unit) &&
        mayBeBy(r.from, now.from) &&
        (r.until === null || mayBeBy(now.from, r.until)) &&
        rodeBefore(rides, r, before.rig),
    );
    if (!ride) break;
    hops.push({ home: before.rig, ride });
    // The rig that a unit rode first is its own: what lies on it is at home there.
    if (before.rig === rides.find(r => r.unit === ride.unit)?.rig) break;
  }
  const [first, furthest] = [hops[0], hops.at(-1)];
  return first && furthest ? { home: furthest.home, ride: first.ride } : null;
}

/** Whether one time may be no later than another, where either is known only to the day, the month or the year. */
export function mayBeBy(a: When, b: When): boolean {
  return a <= b || a.startsWith(b);
}

/** Whether the unit of a ride rode another rig before it. */
function rodeBefore(rides: readonly Ride[], ride: Ride, rig: string | null): boolean {
  return rides.some(r => r.unit === ride.unit && r.rig === rig && r.from <= ride.from);
}

/** The ride of a unit at a time, or null where it rode nothing then. */
export function rideAt(rides: readonly Ride[], unit: string, at: When): Ride | null {
  return rides.find(r => r.unit === unit && r.from <= at && (r.until === null || at < r.until)) ?? null;
}
