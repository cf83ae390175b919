/**
 * Stations, rigs and the places inside them. Every place is derived whenever one is touched: there are hundreds,
 * not thousands, and a place's whole name and station depend on those above it.
 */
import { numberSort } from '../../domain/number.ts';
import { all, type Db, prepared, run } from '../store/statements.ts';
import { identityOf } from './facts.ts';
import { factsByThing } from './many.ts';
import { writeWords } from './words.ts';

interface Known {
  key: number;
  id: string;
  kind: string;
  name: string;
  under: string | null;
  unit: string | null;
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
  for (const { key, id, facts } of factsByThing(db, 'place')) {
    const identity = identityOf(facts);
    if (!identity) {
      run(db, 'DELETE FROM words WHERE rowid = ?', key);
      continue;
    }
    known.set(id, {
      key,
      id,
      kind: String(identity.kind),
      name: String(identity.name),
      under: typeof identity.under === 'string' ? identity.under : null,
      unit: typeof identity.unit === 'string' ? identity.unit : null,
    });
  }
  run(db, 'DELETE FROM places');
  const insert = prepared(
    db,
    `INSERT INTO places (key, kind, name, path, path_sort, parent, rig, unit, station)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
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
    insert.run(
      place.key,
      place.kind,
      place.name,
      path,
      numberSort(path),
      (place.under && known.get(place.under)?.key) ?? null,
      rig?.key ?? null,
      unit?.key ?? null,
      station?.key ?? null,
    );
    writeWords(db, place.key, place.kind === 'rig' || place.kind === 'station' ? place.kind : 'place', path);
  }
}

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
