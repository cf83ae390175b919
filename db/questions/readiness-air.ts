/** Full cylinders against seats, as the readiness of a unit tells it. */
import type { Day } from '../../domain/calendar/day.ts';
import { serves } from '../../domain/carry/lacking.ts';
import { airOnRig, airTells } from '../../domain/coverage/full-cylinders.ts';
import type { Book } from '../../domain/rulebook/book.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import type { FillKnown } from '../../domain/supply/fill.ts';
import type { Reason } from '../api-desk.ts';
import { airThings } from '../caches/fills.ts';
import { all } from '../store/statements.ts';
import type { RigKnown } from './readiness-known.ts';
import { OF_NO_THING } from './readiness-lines.ts';
import type { Asking } from './types.ts';

/** What is told of the air of a unit. */
export interface AirTold {
  effect: WhenLate;
  what: string;
}

const RIDDEN = "SELECT key FROM places WHERE kind = 'rig' AND unit IS NOT NULL";

/**
 * What the cylinders on each ridden rig tell of its seats, by the rig's key. A rig that carries neither packs nor
 * bottles takes nobody in to where air is needed, and a department that tracks no bottles is told nothing.
 * @param known what tells against the things on each rig: a bottle that blocks or limits serves no seat
 */
export function airOfRigs(
  asking: Asking,
  known: ReadonlyMap<number, RigKnown>,
  book: Book,
  on: Day,
): Map<number, AirTold[]> {
  const seats = new Map(
    all<{ rig: number; seats: number }>(
      asking.db,
      `SELECT rig, count(*) AS seats FROM places WHERE kind = 'seat' AND rig IN (${RIDDEN}) GROUP BY rig`,
    ).map(r => [r.rig, r.seats]),
  );
  if (seats.size === 0) return new Map();
  const things = airThings(asking.db);
  const rigOf = new Map(
    all<{ key: number; rig: number }>(
      asking.db,
      `SELECT key, rig FROM places WHERE rig IN (${RIDDEN}) AND kit IS NULL`,
    ).map(p => [p.key, p.rig]),
  );
  const out = outOf(known, book);
  const carries = new Set<number>();
  const serving = new Map<number, FillKnown[]>();
  let tracked = false;
  for (const thing of things.values()) {
    if (thing.family === 'cylinder') tracked = true;
    const rig = thing.place === null ? undefined : rigOf.get(thing.place);
    if (rig === undefined) continue;
    carries.add(rig);
    if (thing.family === 'pack' || !serves(thing.condition) || out.has(thing.key)) continue;
    const cylinders = serving.get(rig);
    if (cylinders) cylinders.push(thing);
    else serving.set(rig, [thing]);
  }
  if (!tracked) return new Map();
  return new Map(
    [...seats].flatMap(([rig, count]) =>
      carries.has(rig) ? [[rig, airTells(airOnRig(count, serving.get(rig) ?? [], on))] as const] : [],
    ),
  );
}

/**
 * Cylinders whose dates block or limit. Not those that want filling: that is what is counted here; nor by condition,
 * which tells by itself what serves.
 */
function outOf(known: ReadonlyMap<number, RigKnown>, book: Book): Set<number> {
  const stops = new Set(
    (book.versions.get('cylinder') ?? [])
      .map(v => v.requirement)
      .filter(r => r.activity !== 'recharge')
      .map(r => r.id),
  );
  const out = new Set<number>();
  for (const { findings } of known.values())
    for (const { item, effect, requirement } of findings)
      if (effect !== 'notes' && requirement !== null && stops.has(requirement)) out.add(item);
  return out;
}

/** What the air tells, as a reason: of no one thing, and of no line. */
export function airReason({ effect, what }: AirTold, rig: string): Reason {
  return { ...OF_NO_THING, effect, what, place: rig };
}
