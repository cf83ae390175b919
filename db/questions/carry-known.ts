/** What is known of a carry list now: who it belongs to, what fills its lines, what was found wrong with them. */
import { type Day, dayText } from '../../domain/calendar/day.ts';
import { codesOf, lackingOf, servingOf } from '../../domain/carry/lacking.ts';
import { type Carried, fill } from '../../domain/carry/match.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import { placesOf } from '../../domain/checkoffs/marks.ts';
import { type DueState, heaviest } from '../../domain/derive/due.ts';
import type { Condition, Values } from '../../domain/facts.ts';
import type { CarriedThing, CarryLineNow, CarryPlace } from '../api-checks.ts';
import type { KitBrief } from '../api-kits.ts';
import { all, one } from '../store/statements.ts';
import { openByLine } from './defects.ts';
import { type KitNow, kitsNow, unreadyKits } from './kits-known.ts';
import { below } from './places-below.ts';
import { standingOf, statesIn } from './states.ts';
import { type Asking, CannotAnswer } from './types.ts';

/** A unit, or a rig that stands by without one of its own. */
export interface Holder {
  key: number;
  of: string;
  name: string;
  kind: string | null;
  station: string | null;
  rig: { key: number; id: string; name: string } | null;
}

interface HolderRow {
  standby: number;
  key: number;
  of: string;
  name: string;
  kind: string | null;
  station: string | null;
  rigKey: number | null;
  rigId: string | null;
  rigName: string | null;
}

/** Every unit with the rig its crew rides, then every rig that no unit began with. */
export function holdersOf(asking: Asking): Holder[] {
  return all<HolderRow>(
    asking.db,
    `SELECT u.key AS key, t.id AS of, u.name AS name, u.kind AS kind, s.name AS station, p.key AS rigKey,
       rt.id AS rigId, p.name AS rigName, 0 AS standby
     FROM units u JOIN things t ON t.key = u.key
     LEFT JOIN places p ON p.unit = u.key AND p.kind = 'rig' LEFT JOIN things rt ON rt.key = p.key
     LEFT JOIN things st ON st.id = u.station LEFT JOIN places s ON s.key = st.key
     UNION ALL
     SELECT p.key, t.id, p.name, NULL, s.name, p.key, t.id, p.name, 1 FROM places p JOIN things t ON t.key = p.key
     LEFT JOIN places s ON s.key = p.station
     WHERE p.kind = 'rig' AND NOT EXISTS (SELECT 1 FROM facts f WHERE f.thing = p.key AND f.kind = 'identity'
       AND f.voided_at IS NULL AND f."values" ->> '$.unit' IS NOT NULL)
     ORDER BY standby, name`,
  ).map(({ rigKey, rigId, rigName, standby: _standby, ...row }) => ({
    ...row,
    rig:
      rigKey === null || rigId === null || rigName === null
        ? null
        : { key: rigKey, id: rigId, name: rigName },
  }));
}

/** The holder by id, or by the name of its unit or rig. */
export function holderAsked(asking: Asking, of: string): Holder {
  const wanted = of.trim().toLowerCase();
  const holders = holdersOf(asking);
  const found = holders.find(h => h.of === of) ?? holders.find(h => h.name.toLowerCase() === wanted);
  if (found) return found;
  throw new CannotAnswer(
    'not found',
    `No unit or reserve rig is called ${of}.`,
    'Name a unit, or a rig that stands by without one.',
    'of',
  );
}

/** Living tracked things on a rig, with the names of the places they lie in; what is in a kit is the kit's. */
function thingsOnRig(asking: Asking, rig: number, on: Day): { told: CarriedThing; carried: Carried }[] {
  const kits = new Map(kitsNow(asking, on, rig).map(k => [k.key, k]));
  const states = standingOf(
    asking,
    on,
    'items i JOIN places p ON p.key = i.place_key JOIN due d ON d.item = i.key',
    'p.rig = :rig',
    { rig },
  );
  return all<{
    key: number;
    item: string;
    number: string;
    what: string;
    family: string;
    attributes: string;
    condition: Condition;
    path: string;
    rigName: string;
  }>(
    asking.db,
    `SELECT i.key, t.id AS item, i.number, i.what, i.family, i.attributes, i.condition, p.path, r.name AS rigName
     FROM items i JOIN things t ON t.key = i.key JOIN places p ON p.key = i.place_key JOIN places r ON r.key = p.rig
     WHERE p.rig = ? AND p.kit IS NULL AND i.condition NOT IN ('retired', 'disposed')
     ORDER BY i.family, i.number_sort`,
    rig,
  ).map(({ attributes, path, rigName, ...row }) => {
    const place = below(path, rigName);
    const kit = kits.get(row.key);
    return {
      told: {
        item: row.item,
        number: row.number,
        what: row.what,
        place,
        condition: row.condition,
        state: heaviest(statesIn(states.get(row.key))) as DueState,
        ...(kit ? { kit: kitBrief(kit) } : {}),
      },
      carried: {
        ...row,
        place,
        attributes: JSON.parse(attributes) as Values,
        isUnready: kit?.standing.effect === 'blocks',
      },
    };
  });
}

const kitBrief = ({ known, standing }: KitNow): KitBrief => ({
  state: known.state,
  seal: known.seal,
  expires: standing.expires?.on ?? null,
  effect: standing.effect,
  reasons: standing.reasons,
});

/** A thing on a ridden rig as `fill` takes it; `item` is its key, for it is compared and not told. */
export type CarriedKey = Carried & { key: number };

/**
 * Living tracked things on every ridden rig, by the key of the rig: those of families that some line asks for, with
 * attributes where a line asks for more than the family.
 */
export function thingsCarried(
  asking: Asking,
  lines: readonly CarryLine[],
  kits: readonly KitNow[],
): Map<number, CarriedKey[]> {
  const choosy = new Set<string>();
  const any = new Set<string>();
  for (const { family, like } of lines)
    if (family !== null) (Object.keys(like).length > 0 ? choosy : any).add(family);
  const places = placesOnRiddenRigs(asking);
  const unready = unreadyKits(kits);
  const rigs = new Map<number, CarriedKey[]>();
  const read = (families: readonly string[], attributes: string) => {
    if (families.length === 0) return;
    for (const row of all<{
      key: number;
      place: number;
      number: string;
      family: string;
      condition: Condition;
      attributes: string | null;
    }>(
      asking.db,
      `SELECT i.key, i.place_key AS place, i.number_sort AS number, i.family, i.condition, ${attributes} AS attributes
       FROM items i WHERE i.place_key IN (SELECT key FROM places WHERE rig IN
         (SELECT key FROM places WHERE kind = 'rig' AND unit IS NOT NULL))
         AND i.condition NOT IN ('retired', 'disposed') AND i.family IN (SELECT value FROM json_each(?))`,
      JSON.stringify(families),
    )) {
      const at = places.get(row.place);
      if (!at) continue;
      const things = rigs.get(at.rig) ?? [];
      rigs.set(at.rig, things);
      things.push({
        key: row.key,
        item: String(row.key),
        number: row.number,
        family: row.family,
        condition: row.condition,
        place: at.name,
        attributes: row.attributes === null ? {} : (JSON.parse(row.attributes) as Values),
        ...(unready.has(row.key) ? { isUnready: true } : {}),
      });
    }
  };
  read([...choosy], 'i.attributes');
  read(
    [...any].filter(f => !choosy.has(f)),
    'NULL',
  );
  for (const things of rigs.values())
    things.sort((a, b) => (a.number < b.number ? -1 : a.number > b.number ? 1 : a.key - b.key));
  return rigs;
}

/** The places of every ridden rig that are in no kit, each with its rig and its name below that. */
function placesOnRiddenRigs(asking: Asking): Map<number, { rig: number; name: string }> {
  return new Map(
    all<{ key: number; rig: number; path: string; rigName: string }>(
      asking.db,
      `SELECT p.key, p.rig, p.path, r.name AS rigName FROM places p JOIN places r ON r.key = p.rig
       WHERE r.unit IS NOT NULL AND p.kit IS NULL`,
    ).map(({ key, rig, path, rigName }) => [key, { rig, name: below(path, rigName) }]),
  );
}

/** The places of a list, each with its letter and the place of the rig that bears its name. */
export function placesNow(asking: Asking, lines: readonly CarryLine[], rig: number | null): CarryPlace[] {
  const { letters } = codesOf(lines);
  const known =
    rig === null
      ? []
      : all<{ id: string; path: string; rigName: string }>(
          asking.db,
          `SELECT t.id, p.path, r.name AS rigName FROM places p JOIN things t ON t.key = p.key
           JOIN places r ON r.key = p.rig WHERE p.rig = ? AND p.key <> ?`,
          rig,
          rig,
        );
  const byName = new Map(known.map(p => [below(p.path, p.rigName).toLowerCase(), p.id]));
  return placesOf(lines).map(name => ({
    name,
    letter: letters.get(name.toLowerCase()) ?? '',
    at: byName.get(name.toLowerCase()) ?? null,
  }));
}

/**
 * Lines with all that is known of them on a day, and what no line asks for.
 * @param places the places of these lines, as `placesNow` tells them
 */
export function linesNow(
  asking: Asking,
  holder: Holder,
  lines: readonly CarryLine[],
  places: readonly CarryPlace[],
  rig: number | null,
  on: Day,
): { lines: CarryLineNow[]; extra: CarriedThing[] } {
  const things = rig === null ? [] : thingsOnRig(asking, rig, on);
  const told = new Map(things.map(t => [t.told.item, t.told]));
  const filled = fill(
    lines,
    things.map(t => t.carried),
  );
  const { codes } = codesOf(lines);
  const checked = new Map(
    rig === null ? [] : places.map(p => [p.name.toLowerCase(), checkedOn(asking, p.at)]),
  );
  const defects = openByLine(asking, holder.of);
  const tell = (list: readonly { item: string }[]) => list.flatMap(t => told.get(t.item) ?? []);
  return {
    lines: filled.lines.map(of => {
      const { line, here, elsewhere } = of;
      const serving = servingOf(of);
      const open = defects.get(line.line) ?? [];
      return {
        ...line,
        code: codes.get(line.line) ?? '',
        here: tell(here),
        elsewhere: tell(elsewhere),
        serving,
        lacking: lackingOf(line, serving, open),
        checked: checked.get(line.place.toLowerCase()) ?? null,
        defects: open,
      };
    }),
    extra: tell(filled.extra),
  };
}

/** The last signed check-off that went through a place. */
function checkedOn(asking: Asking, place: string | null): CarryLineNow['checked'] {
  if (place === null) return null;
  const row = one<{ on: Day; checkoff: string }>(
    asking.db,
    `SELECT l.on_day AS "on", t.id AS checkoff FROM looked l JOIN things t ON t.key = l.checkoff
     WHERE l.place_key = (SELECT key FROM things WHERE id = ?) ORDER BY l.on_day DESC, l.key DESC LIMIT 1`,
    place,
  );
  return row ? { on: dayText(row.on), checkoff: row.checkoff } : null;
}
