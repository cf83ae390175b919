/** The shortest fix for a thing that blocks or limits: the nearest ready spare of its kind and size. */
import type { Day } from '../../domain/calendar/day.ts';
import { dueEffect } from '../../domain/coverage/readiness.ts';
import type { Reason } from '../api-desk.ts';
import { all } from '../store/statements.ts';
import { standingOf } from './states.ts';
import type { Asking } from './types.ts';

interface Spare {
  key: number;
  item: string;
  number: string;
  kind: string;
  place: string;
  station: string;
}

/**
 * A thing's kind and size. Its description in words holds diameter, use and length, or material, type and length, or
 * maker and model; of a cylinder it holds the pressure, and the rated duration stands beside it.
 */
export const KIND = `i.family || '|' || i.what || '|' ||
  CASE i.family WHEN 'cylinder' THEN coalesce(i.attributes ->> '$.ratedDuration_min', '') ELSE '' END`;

/**
 * Write the nearest spare on each reason that blocks or limits, the weightiest first: one at the unit's own station,
 * else one at another. A spare is offered once, and a thing with several reasons has the same one on each.
 * @param outKits kits that do not serve as they are, by their keys
 */
export function offerSpares(
  asking: Asking,
  reasons: Reason[],
  station: string | null,
  outKits: ReadonlySet<number>,
  on: Day,
): void {
  const wanting = reasons.filter(r => r.item !== null && r.effect !== 'notes');
  if (wanting.length === 0) return;
  const kinds = kindsOf(
    asking,
    wanting.flatMap(r => r.item ?? []),
  );
  const spares = readySpares(asking, new Set(kinds.values()), outKits, on);
  const offered = new Map<string, Spare | null>();
  for (const reason of wanting) {
    const item = reason.item ?? '';
    let spare = offered.get(item);
    if (spare === undefined) {
      spare = nearest(spares.get(kinds.get(item) ?? '') ?? [], station);
      if (spare)
        spares.set(
          spare.kind,
          (spares.get(spare.kind) ?? []).filter(s => s !== spare),
        );
      offered.set(item, spare);
    }
    reason.fix = spare && { item: spare.item, number: spare.number, place: spare.place };
  }
}

function kindsOf(asking: Asking, items: readonly string[]): Map<string, string> {
  return new Map(
    all<{ item: string; kind: string }>(
      asking.db,
      `SELECT t.id AS item, ${KIND} AS kind FROM items i JOIN things t ON t.key = i.key
       WHERE t.id IN (SELECT value FROM json_each(?))`,
      JSON.stringify(items),
    ).map(({ item, kind }) => [item, kind]),
  );
}

/** Things that stand by at a station, on no rig, with nothing known against them; by their kind. */
function readySpares(
  asking: Asking,
  kinds: ReadonlySet<string>,
  outKits: ReadonlySet<number>,
  on: Day,
): Map<string, Spare[]> {
  const spares = new Map<string, Spare[]>();
  const against = thingsAgainst(asking, on);
  for (const spare of all<Spare>(
    asking.db,
    `SELECT i.key, t.id AS item, i.number, ${KIND} AS kind, p.path AS place, s.name AS station
     FROM items i JOIN things t ON t.key = i.key JOIN places p ON p.key = i.place_key JOIN places s ON s.key = p.station
     WHERE i.assignment = 'ready spare' AND i.condition = 'serviceable' AND p.rig IS NULL AND p.kit IS NULL
     ORDER BY i.number_sort, t.id`,
  )) {
    if (!kinds.has(spare.kind) || against.has(spare.key) || outKits.has(spare.key)) continue;
    const known = spares.get(spare.kind);
    if (known) known.push(spare);
    else spares.set(spare.kind, [spare]);
  }
  return spares;
}

/** Ready spares that a due row tells against: the keys of the things. */
function thingsAgainst(asking: Asking, on: Day): Set<number> {
  const standing = standingOf(
    asking,
    on,
    'items i JOIN due d ON d.item = i.key',
    "i.assignment = 'ready spare'",
  );
  return new Set(
    [...standing].filter(([, rows]) => rows.some(r => dueEffect(r) !== null)).map(([item]) => item),
  );
}

/** The first by number at the unit's own station, else the first by number. */
function nearest(spares: readonly Spare[], station: string | null): Spare | null {
  return spares.find(s => s.station === station) ?? spares[0] ?? null;
}
