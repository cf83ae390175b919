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
  const open: NotReturned[] = [];
  for (const { item, spans } of things) {
    const now = spans.at(-1);
    const before = spans.at(-2);
    if (!now || !before || now.rig === null || before.rig === null || now.rig === before.rig) continue;
    const ride = rides.find(
      r =>
        r.rig === now.rig &&
        r.until !== null &&
        mayBeBy(r.from, now.from) &&
        mayBeBy(now.from, r.until) &&
        rodeBefore(rides, r, before.rig),
    );
    if (ride) open.push({ item, home: before.rig, on: now.rig, since: now.from });
  }
  return open;
}

/** Whether one time may be no later than another, where either is known only to the day, the month or the year. */
function mayBeBy(a: When, b: When): boolean {
  return a <= b || a.startsWith(b);
}

/** Whether the unit of a ride rode another rig before it. */
function rodeBefore(rides: readonly Ride[], ride: Ride, rig: string | null): boolean {
  return rides.some(r => r.unit === ride.unit && r.rig === rig && r.from <= ride.from);
}
