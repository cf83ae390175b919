/** How every kit stands on a day: its seal, its last full count against its template, the tracked things in it. */
import type { Day } from '../../domain/calendar/day.ts';
import { servingOf } from '../../domain/carry/lacking.ts';
import { type Carried, fill } from '../../domain/carry/match.ts';
import type { Condition, Values } from '../../domain/facts.ts';
import { type KitKnown, type KitStanding, kitStanding } from '../../domain/kits/kit.ts';
import { KIT_FAMILY } from '../../domain/rulebook/kit.ts';
import { kitsKnown } from '../caches/kits.ts';
import { all } from '../store/statements.ts';
import { linesOn } from './carry-lines.ts';
import { below } from './places-below.ts';
import type { Asking } from './types.ts';

export interface KitNow {
  key: number;
  item: string;
  number: string;
  kind: string | null;
  condition: Condition;
  assignment: string | null;
  place: string | null;
  /** The rig that it rides on, by its key. */
  rig: number | null;
  unit: string | null;
  station: string | null;
  /** The template of its kind, by id; null where there is none. */
  template: string | null;
  known: KitKnown;
  standing: KitStanding;
  /** The tracked things that fill its lines, by the line's name, and those that no line asks for. */
  things: ReadonlyMap<string, readonly Carried[]>;
  extra: readonly Carried[];
}

/** Templates by the name of their kind in small letters; of two of one name the first by id. */
export function kitTemplates(asking: Asking): Map<string, { key: number; id: string; what: string }> {
  const byName = new Map<string, { key: number; id: string; what: string }>();
  for (const row of all<{ key: number; id: string; what: string }>(
    asking.db,
    'SELECT k.key, t.id, k.what FROM kit_templates k JOIN things t ON t.key = k.key ORDER BY t.id',
  ))
    if (!byName.has(row.what.toLowerCase())) byName.set(row.what.toLowerCase(), row);
  return byName;
}

/**
 * Every kit that is not gone, in the order of their numbers.
 * @param rig those alone that ride on this rig
 */
export function kitsNow(asking: Asking, on: Day, rig?: number): KitNow[] {
  const known = kitsKnown(asking.db);
  if (known.size === 0) return [];
  const templates = kitTemplates(asking);
  const lists = new Map([...templates].map(([name, t]) => [name, linesOn(asking, t.key, on)]));
  const things = trackedInKits(asking);
  const rows = new Map(
    all<KitRow>(
      asking.db,
      `SELECT i.key, t.id AS item, i.number, i.attributes ->> '$.kind' AS kind, i.condition, i.assignment,
         p.path AS place, p.rig, u.name AS unit, s.name AS station, own.path
       FROM items i JOIN things t ON t.key = i.key LEFT JOIN places own ON own.key = i.key
       LEFT JOIN places p ON p.key = i.place_key LEFT JOIN units u ON u.key = p.unit
       LEFT JOIN places s ON s.key = p.station
       WHERE i.family = '${KIT_FAMILY}' AND i.condition NOT IN ('retired', 'disposed')
         AND (:rig IS NULL OR p.rig = :rig) ORDER BY i.number_sort, t.id`,
      { rig: rig ?? null },
    ).map(row => [row.key, row]),
  );
  const judged = new Map<number, KitNow | null>();
  /** A kit in a kit is judged before the one that it lies in; a circle that two devices made is cut. */
  const judge = (key: number): KitNow | null => {
    const done = judged.get(key);
    if (done !== undefined) return done;
    judged.set(key, null);
    const row = rows.get(key);
    const told = known.get(key);
    if (!row || !told) return null;
    const { path, ...kit } = row;
    const kind = kit.kind?.toLowerCase() ?? '';
    const inside = (things.get(key) ?? []).map(t => ({
      ...t,
      place: below(t.place, path ?? ''),
      isUnready: t.family === KIT_FAMILY && judge(t.key)?.standing.effect === 'blocks',
    }));
    const lines = lists.get(kind) ?? [];
    const filled = fill(lines, inside);
    const serving = new Map(filled.lines.map(of => [of.line.line, servingOf(of) ?? 0]));
    const now: KitNow = {
      ...kit,
      template: templates.get(kind)?.id ?? null,
      known: told,
      standing: kitStanding(lines, told, serving, on),
      things: new Map(filled.lines.map(f => [f.line.line, [...f.here, ...f.elsewhere]])),
      extra: filled.extra,
    };
    judged.set(key, now);
    return now;
  };
  return [...rows.keys()].flatMap(key => judge(key) ?? []);
}

type KitRow = Omit<KitNow, 'template' | 'known' | 'standing' | 'things' | 'extra'> & { path: string | null };

type Inside = Carried & { key: number };

/** Living things that lie in a kit, by the kit's key; `place` is the whole name of where each lies. */
function trackedInKits(asking: Asking): Map<number, Inside[]> {
  const rows = all<Omit<Inside, 'attributes'> & { kit: number; attributes: string }>(
    asking.db,
    `SELECT p.kit, i.key, t.id AS item, i.number, i.family, i.attributes, i.condition, p.path AS place
     FROM places p JOIN items i ON i.place_key = p.key JOIN things t ON t.key = i.key
     WHERE p.kit IS NOT NULL AND i.condition NOT IN ('retired', 'disposed') ORDER BY i.family, i.number_sort`,
  ).map(({ attributes, ...row }) => ({ ...row, attributes: JSON.parse(attributes) as Values }));
  return Map.groupBy(rows, r => r.kit);
}

/** The kits that do not serve, by their keys, with why. */
export function unreadyKits(kits: readonly KitNow[]): Map<number, KitNow> {
  return new Map(kits.filter(k => k.standing.effect === 'blocks').map(k => [k.key, k]));
}
