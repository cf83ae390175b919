/** Stations, units, rigs and places as one indented list. */
import type { DepartmentSummary, PlaceLine } from '../../../db/api.ts';

export interface PlaceRow {
  /** A unit is no place: its own thing. */
  is: 'place' | 'unit';
  id: string;
  name: string;
  kind: string;
  depth: number;
  /** Things known to be right here. */
  here: number;
  /** Things here and in all that lies inside. */
  inAll: number;
  inside: number;
  note: string;
}

type Units = DepartmentSummary['units'];

interface Branch {
  row: Omit<PlaceRow, 'depth'>;
  branches: Branch[];
}

/** Everything as a tree; units stand at their station with the rig their crew rides now inside. */
function treeOf(places: readonly PlaceLine[], units: Units): Branch[] {
  const within = new Map<string | null, PlaceLine[]>();
  const ids = new Set(places.map(p => p.id));
  for (const place of places) {
    const parent = place.parent !== null && ids.has(place.parent) ? place.parent : null;
    within.set(parent, [...(within.get(parent) ?? []), place]);
  }
  const seen = new Set<string>();
  const ridden = (unit: Units[number]) =>
    places.find(p => p.kind === 'rig' && p.unit === unit.name && !seen.has(p.id));
  const placeBranch = (place: PlaceLine, note = noteOf(place)): Branch[] => {
    if (seen.has(place.id)) return [];
    seen.add(place.id);
    const unitsHere = place.kind === 'station' ? units.filter(u => u.station === place.name) : [];
    const branches = [
      ...unitsHere.flatMap(unitBranch),
      ...inOrder(within.get(place.id) ?? []).flatMap(p => placeBranch(p)),
    ];
    return [branch({ is: 'place', ...pick(place), note }, place.items, branches)];
  };
  const unitBranch = (unit: Units[number]): Branch[] => {
    const rig = ridden(unit);
    // Whose it is, is said by where it stands.
    const branches = rig ? placeBranch(rig, '') : [];
    const note = rig ? '' : 'rides no rig';
    return [branch({ is: 'unit', id: unit.id, name: unit.name, kind: 'unit', note }, 0, branches)];
  };
  const roots = inOrder(within.get(null) ?? []);
  return [
    ...roots.filter(p => p.kind === 'station').flatMap(p => placeBranch(p)),
    ...units.filter(u => u.station === null).flatMap(unitBranch),
    ...roots.flatMap(p => placeBranch(p)),
    // Two devices can have put two places each inside the other: they are shown all the same.
    ...places.flatMap(p => placeBranch(p)),
  ];
}

/** Vehicles before rooms, rooms before people; within a kind as the store has them. */
const ORDER = [
  'station',
  'rig',
  'storeroom',
  'rack',
  'compartment',
  'tray',
  'board',
  'pocket',
  'seat',
  'kit',
  'member',
];
const rank = ({ kind }: PlaceLine) => (ORDER.includes(kind) ? ORDER.indexOf(kind) : ORDER.length);
const inOrder = (places: readonly PlaceLine[]) => places.toSorted((a, b) => rank(a) - rank(b));

function branch(
  row: Pick<PlaceRow, 'is' | 'id' | 'name' | 'kind' | 'note'>,
  here: number,
  branches: Branch[],
): Branch {
  const inAll = branches.reduce((sum, b) => sum + b.row.inAll, here);
  return { row: { ...row, here, inAll, inside: branches.length }, branches };
}

const pick = ({ id, name, kind }: PlaceLine) => ({ id, name, kind });

function noteOf(place: PlaceLine): string {
  if (place.kind !== 'rig') return '';
  return place.unit === null ? 'reserve, no crew rides it' : `${place.unit} rides it`;
}

/** The rows that are shown: what is inside a folded one is not. */
export function placeRows(
  places: readonly PlaceLine[],
  units: Units,
  isFolded: (row: Omit<PlaceRow, 'depth'>) => boolean,
): PlaceRow[] {
  const shown: PlaceRow[] = [];
  const show = (branches: readonly Branch[], depth: number) => {
    for (const { row, branches: inner } of branches) {
      shown.push({ ...row, depth });
      if (!isFolded(row)) show(inner, depth + 1);
    }
  };
  show(treeOf(places, units), 0);
  return shown;
}

/** A place and all that lies inside it, by id: where it cannot be put. */
export function insideOf(id: string, places: readonly PlaceLine[]): ReadonlySet<string> {
  const inside = new Set([id]);
  for (let before = 0; before < inside.size; ) {
    before = inside.size;
    for (const p of places) if (p.parent !== null && inside.has(p.parent)) inside.add(p.id);
  }
  return inside;
}
