/**
 * Stations, rigs and the places inside them. Every place is derived whenever one is touched: there are hundreds,
 * not thousands, and a place's whole name and station depend on those above it.
 */
import { numberSort } from '../../domain/number.ts';
import { type RideFact, ridesFrom } from '../../domain/rigs/rides.ts';
import { all, type Db, prepared, run } from '../store/statements.ts';
import { identityOf, textOf } from './facts.ts';
import { factsOfPlaces } from './many.ts';
import { rideFactsOf } from './rides.ts';
import { writeWords } from './words.ts';

interface Known {
  key: number;
  id: string;
  kind: string;
  name: string;
  under: string | null;
  unit: string | null;
  /** The unit whose own rig it is: the one it was added with. */
  ownUnit: string | null;
  /** A tracked kit: it lies where its own facts say, and moves whole. */
  isKit: boolean;
}

/** Derive every place. */
export function derivePlaces(db: Db): void {
  const units = new Map(
    all<{ id: string; key: number; station: string | null }>(
      db,
      'SELECT t.id, u.key, u.station FROM units u JOIN things t ON t.key = u.key',
    ).map(u => [u.id, u]),
  );
  const known = new Map<string, Known>();
  const rides: RideFact[] = [];
  for (const { key, id, facts } of factsOfPlaces(db)) {
    const identity = identityOf(facts);
    if (!identity) {
      run(db, 'DELETE FROM words WHERE rowid = ?', key);
      continue;
    }
    rides.push(...rideFactsOf(id, facts));
    known.set(id, {
      key,
      id,
      kind: String(identity.kind),
      name: String(identity.name),
      under: textOf(identity.under),
      unit: null,
      ownUnit: textOf(identity.unit),
      isKit: false,
    });
  }
  for (const { key, id, number, place } of kitsOf(db))
    known.set(id, {
      key,
      id,
      kind: 'kit',
      name: number,
      under: place,
      unit: null,
      ownUnit: null,
      isKit: true,
    });
  // A unit follows its crew: what rides on the rig that the crew rides now counts for it.
  const ridden = ridesFrom(rides);
  for (const ride of ridden) {
    const rig = known.get(ride.rig);
    if (rig && ride.until === null) rig.unit = ride.unit;
  }
  // What came out the same is left as it lies: most deeds on a place (a meter, a condition) change none of this.
  const before = new Map(
    (prepared(db, `SELECT ${COLUMNS} FROM places`).raw().all() as Row[]).map(row => [row[0], row]),
  );
  const insert = prepared(
    db,
    `INSERT OR REPLACE INTO places (${COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  for (const place of known.values()) {
    const chain = chainOf(place, known);
    const rig = chain.find(p => p.kind === 'rig');
    const unit = chain.map(p => (p.unit ? units.get(p.unit) : undefined)).find(u => u !== undefined);
    const station =
      chain.find(p => p.kind === 'station') ?? (unit?.station ? known.get(unit.station) : undefined);
    // A rig's compartments are spoken of by the rig, wherever it stands.
    const named = rig ? chain.slice(0, chain.indexOf(rig) + 1) : chain;
    const path = named
      .map(p => p.name)
      .reverse()
      .join(', ');
    const row: Row = [
      place.key,
      place.kind,
      place.name,
      path,
      numberSort(path),
      (place.under && known.get(place.under)?.key) ?? null,
      rig?.key ?? null,
      chain.find(p => p.isKit)?.key ?? null,
      unit?.key ?? null,
      // Its own rig is the one that a unit began with.
      place.kind === 'rig' && place.unit !== null ? Number(place.ownUnit === place.unit) : null,
      station?.key ?? null,
    ];
    const was = before.get(place.key);
    before.delete(place.key);
    if (was?.every((value, i) => value === row[i])) continue;
    insert.run(...row);
    // A kit is found as the thing it is.
    if (place.isKit) continue;
    writeWords(db, place.key, place.kind === 'rig' || place.kind === 'station' ? place.kind : 'place', path);
  }
  for (const gone of before.keys()) run(db, 'DELETE FROM places WHERE key = ?', gone);
}

/** Tracked kits, and where each lies, from their own rows. */
const kitsOf = (db: Db) =>
  all<{ key: number; id: string; number: string; place: string | null }>(
    db,
    `SELECT i.key, t.id, i.number, i.place FROM kits k JOIN items i ON i.key = k.key JOIN things t ON t.key = i.key`,
  );

type Row = readonly (string | number | null)[];
const COLUMNS = 'key, kind, name, path, path_sort, parent, rig, kit, unit, own, station';

/** A place and those it lies in, innermost first; a circle that two devices made between them is cut. */
function chainOf(place: Known, known: ReadonlyMap<string, Known>): Known[] {
  const chain: Known[] = [];
  let at: Known | undefined = place;
  while (at && !chain.includes(at)) {
    chain.push(at);
    at = at.under === null ? undefined : known.get(at.under);
  }
  return chain;
}
