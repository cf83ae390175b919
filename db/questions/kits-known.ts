/** How every kit stands on a day: its seal, its last full count against its template, the tracked things in it. */
import type { Day } from '../../domain/calendar/day.ts';
import { servingOf } from '../../domain/carry/lacking.ts';
import { type Carried, fill } from '../../domain/carry/match.ts';
import type { Condition, Values } from '../../domain/facts.ts';
import { type KitKnown, type KitStanding, kitStanding } from '../../domain/kits/kit.ts';
import { KIT_FAMILY, kitsKnown } from '../caches/kits.ts';
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

/** Every kit that is not gone, in the order of their numbers. */
export function kitsNow(asking: Asking, on: Day): KitNow[] {
  const known = kitsKnown(asking.db);
  if (known.size === 0) return [];
  const templates = kitTemplates(asking);
  const things = trackedInKits(asking);
  return all<Omit<KitNow, 'template' | 'known' | 'standing' | 'things' | 'extra'> & { path: string | null }>(
    asking.db,
    `SELECT i.key, t.id AS item, i.number, i.attributes ->> '$.kind' AS kind, i.condition, i.assignment,
       p.path AS place, p.rig, u.name AS unit, s.name AS station, own.path
     FROM items i JOIN things t ON t.key = i.key LEFT JOIN places own ON own.key = i.key
     LEFT JOIN places p ON p.key = i.place_key LEFT JOIN units u ON u.key = p.unit
     LEFT JOIN places s ON s.key = p.station
     WHERE i.family = '${KIT_FAMILY}' AND i.condition NOT IN ('retired', 'disposed') ORDER BY i.number_sort, t.id`,
  ).flatMap(({ path, ...kit }): KitNow[] => {
    const told = known.get(kit.key);
    if (!told) return [];
    const template = kit.kind === null ? undefined : templates.get(kit.kind.toLowerCase());
    const lines = template ? linesOn(asking, template.key, on) : [];
    const filled = fill(
      lines,
      (things.get(kit.key) ?? []).map(t => ({ ...t, place: below(t.place, path ?? '') })),
    );
    const serving = new Map(filled.lines.map(of => [of.line.line, servingOf(of) ?? 0]));
    return [
      {
        ...kit,
        template: template?.id ?? null,
        known: told,
        standing: kitStanding(lines, told, serving, on),
        things: new Map(filled.lines.map(f => [f.line.line, [...f.here, ...f.elsewhere]])),
        extra: filled.extra,
      },
    ];
  });
}

/** Living things that lie in a kit, by the kit's key; `place` is the whole name of where each lies. */
function trackedInKits(asking: Asking): Map<number, Carried[]> {
  const rows = all<Omit<Carried, 'attributes'> & { kit: number; attributes: string }>(
    asking.db,
    `SELECT p.kit, t.id AS item, i.number, i.family, i.attributes, i.condition, p.path AS place
     FROM places p JOIN items i ON i.place_key = p.key JOIN things t ON t.key = i.key
     WHERE p.kit IS NOT NULL AND i.condition NOT IN ('retired', 'disposed') ORDER BY i.family, i.number_sort`,
  ).map(({ attributes, ...row }) => ({ ...row, attributes: JSON.parse(attributes) as Values }));
  return Map.groupBy(rows, r => r.kit);
}

/** The kits that do not serve, by their keys, with why. */
export function unreadyKits(kits: readonly KitNow[]): Map<number, KitNow> {
  return new Map(kits.filter(k => k.standing.effect === 'blocks').map(k => [k.key, k]));
}
