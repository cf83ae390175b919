/**
 * Places as a sheet names them: known ones are found whatever the punctuation, unknown ones are offered as new,
 * under the unit or station whose name they begin with.
 */
import { all, type Db } from '../../store/statements.ts';

/** A new unit, rig, station or place that the sheet needs; `path` is its whole name. */
export interface NewPlace {
  path: string;
  kind: 'station' | 'unit' | 'rig' | 'place';
  name: string;
  /** The whole name of what it stands under, new or known; null at the top. */
  under: string | null;
}

/** Where a row's place text leads: a known place's id, or the path of a new one with all that must be made first. */
export type Placed = { known: string } | { path: string; needs: readonly NewPlace[] };

/** Words that begin a unit's or a station's name, with what the trade shortens them to. Common practice, no source. */
const HEADS: Readonly<Record<string, readonly string[]>> = {
  Station: ['sta', 'stn', 'fs', 'house'],
  Engine: ['eng', 'e'],
  Ladder: ['lad', 'l'],
  Truck: ['trk', 't'],
  Tower: ['twr', 'tower ladder'],
  Quint: ['q'],
  Rescue: ['resc', 'r'],
  Brush: ['br', 'b'],
  Tender: ['tndr', 'wt'],
  Tanker: [],
  Squad: ['sq', 'sqd'],
  Medic: ['m'],
  Ambulance: ['amb'],
  Battalion: ['batt', 'bat', 'bn', 'bc'],
  Chief: [],
  Command: ['cmd'],
  Utility: ['util', 'u'],
  Wildland: [],
  Support: [],
  Reserve: ['res', 'resv'],
};
const BY_WORD = new Map(
  Object.entries(HEADS).flatMap(([full, short]) =>
    [full.toLowerCase(), ...short].map(w => [w, full] as const),
  ),
);
// One letter stands for a unit only before two figures or more: `E31` is an engine, `L1` is a compartment.
const HEAD =
  /^(?:([a-z]{2,}(?: ladder)?)[\s.#-]*(?:no\.?\s*)?((?:[a-z]{1,2}-)?\d{1,4}[a-z]?)|([a-z])[\s.#-]*(\d{2,4}[a-z]?))(?![\p{L}\p{N}])[\s,:;/–—-]*(.*)$/iu;
const RESERVE_HEAD = /^(reserve|resv?)[\s.#]*([a-z]{1,2}-?\d{1,3})(?![\p{L}\p{N}])[\s,:;/–—-]*(.*)$/iu;

/** Reads place texts against the department as it is. */
export function placeReader(db: Db): (text: string) => Placed | null {
  const byName = new Map<string, string | null>();
  for (const { id, path, name, kind } of all<{ id: string; path: string; name: string; kind: string }>(
    db,
    'SELECT t.id, p.path, p.name, p.kind FROM places p JOIN things t ON t.key = p.key ORDER BY p.key',
  )) {
    byName.set(plain(path), id);
    // A short name alone leads somewhere only where one place has it.
    if (kind !== 'rig' && kind !== 'station' && path !== name)
      byName.set(plain(name), byName.has(plain(name)) && byName.get(plain(name)) !== id ? null : id);
  }
  const paths = new Map<string, string>();
  const readOne = (text: string): Placed | null => {
    const said = text.replace(/\s+/g, ' ').trim();
    if (said === '') return null;
    const direct = byName.get(plain(said));
    if (direct) return { known: direct };
    const head = headOf(said);
    if (!head)
      return {
        path: spelled(said, paths),
        needs: [{ path: spelled(said, paths), kind: 'place', name: spelled(said, paths), under: null }],
      };
    const full = head.rest === '' ? head.name : `${head.name}, ${head.rest}`;
    const known = byName.get(plain(full));
    if (known) return { known };
    const path = spelled(full, paths);
    const needs: NewPlace[] = [];
    if (!byName.get(plain(head.name)))
      needs.push({ path: head.name, kind: head.kind, name: head.name, under: null });
    if (head.rest !== '')
      needs.push({ path, kind: 'place', name: path.slice(head.name.length + 2), under: head.name });
    return { path, needs };
  };
  const read = new Map<string, Placed | null>();
  return text => {
    let placed = read.get(text);
    if (placed === undefined) {
      placed = readOne(text);
      read.set(text, placed);
    }
    return placed;
  };
}

/** The id of a known place by its whole name, for what a new one stands under. */
export function knownPlace(db: Db, path: string): string | null {
  return (
    all<{ id: string; path: string }>(
      db,
      'SELECT t.id, p.path FROM places p JOIN things t ON t.key = p.key ORDER BY p.key',
    ).find(p => plain(p.path) === plain(path))?.id ?? null
  );
}

/** The unit, rig or station whose name a text begins with, spelled out, and what follows it. */
function headOf(text: string): { name: string; kind: NewPlace['kind']; rest: string } | null {
  const reserve = RESERVE_HEAD.exec(text);
  if (reserve) return { name: `Reserve ${reserve[2]?.toUpperCase()}`, kind: 'rig', rest: reserve[3] ?? '' };
  const m = HEAD.exec(text);
  const word = m ? BY_WORD.get((m[1] ?? m[3] ?? '').toLowerCase()) : undefined;
  if (!m || !word) return null;
  const kind = word === 'Station' ? 'station' : word === 'Reserve' ? 'rig' : 'unit';
  return { name: `${word} ${(m[2] ?? m[4] ?? '').toUpperCase()}`, kind, rest: (m[5] ?? '').trim() };
}

/** The first spelling of a name stands for all that differ only in letter case or punctuation. */
function spelled(path: string, paths: Map<string, string>): string {
  const known = paths.get(plain(path));
  if (known !== undefined) return known;
  paths.set(plain(path), path);
  return path;
}

function plain(name: string): string {
  return (
    name
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      // "R-1" and "R1" are one name.
      .replace(/\b(\p{L}) (?=\d)/gu, '$1')
      .trim()
  );
}
