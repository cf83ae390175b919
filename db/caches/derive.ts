/**
 * After any apply, the things it touched are derived again from their facts and their cache rows replaced. There
 * is no incremental patching: a deed, a back-dated deed, a void, an exchange and a rule change all end here.
 */

import { lastDay } from '../../domain/calendar/when.ts';
import { derive } from '../../domain/derive/thing.ts';
import { describe as inWords } from '../../domain/describe.ts';
import { numberSort } from '../../domain/number.ts';
import { type Book, changedFamilies } from '../../domain/rulebook/book.ts';
import { KIT_FAMILY } from '../../domain/rulebook/kit.ts';
import { all, type Db, one, prepared, run } from '../store/statements.ts';
import { type Touched, thingKey } from './apply.ts';
import { judgedBy, readBook, standsBy } from './book.ts';
import { deriveCheckoff, deriveDefect } from './checkoffs.ts';
import { asItemFacts, factsOf, identityOf, memberOf, RIG_FAMILY } from './facts.ts';
import { deriveKit, deriveKitTemplate, kitPlace } from './kits.ts';
import { derivePlaces } from './places.ts';
import { deriveStock } from './stock.ts';
import { writeWords } from './words.ts';

/** Derive what was touched. @returns the cache keys that screens refresh by */
export function deriveTouched(db: Db, touched: Touched): string[] {
  const keys = new Set<string>();
  const things = [...touched.things];
  const kinds = new Map(things.map(key => [key, kindOf(db, key)]));
  const ofKind = (...wanted: string[]) => things.filter(key => wanted.includes(kinds.get(key) ?? ''));
  if (ofKind('place', 'unit').length > 0) {
    for (const key of ofKind('unit')) deriveUnit(db, key);
    derivePlaces(db);
    keys.add('places').add('checkoffs');
  }
  for (const key of ofKind('member')) deriveMember(db, key);
  for (const key of ofKind('agency')) deriveAgency(db, key);
  for (const key of ofKind('department')) deriveDepartment(db, key);
  if (ofKind('member').length > 0) keys.add('members');
  if (ofKind('department', 'agency').length > 0) keys.add('department');
  if (ofKind('note').length > 0) keys.add('notes');
  if (ofKind('notice').length > 0) keys.add('notices');
  for (const key of ofKind('check-off')) deriveCheckoff(db, key);
  for (const key of ofKind('defect')) deriveDefect(db, key);
  if (ofKind('check-off', 'defect', 'swap', 'incident').length > 0) keys.add('checkoffs');
  for (const key of ofKind('kit template')) deriveKitTemplate(db, key);
  if (ofKind('kit template').length > 0) keys.add('kits').add('checkoffs');
  for (const key of ofKind('stock')) deriveStock(db, key);
  if (ofKind('stock').length > 0) keys.add('supply');
  if (ofKind('fill').length > 0) keys.add('fills');
  const before = judgedBy(db);
  const book = readBook(db);
  const items = new Set([...ofKind('item'), ...ofKind('place').filter(key => isRig(db, key))]);
  if (ofKind('rulebook').length > 0) {
    keys.add('rulebook');
    for (const key of concernedBy(db, before, book)) items.add(key);
  }
  standsBy(db, book);
  if (items.size > 0) {
    keys.add('due').add('items');
    const write = itemWriter(db, book);
    let [hasKits, haveMoved] = [false, false];
    for (const key of items) {
      const before = kitPlace(db, key);
      const isKit = write(key) === KIT_FAMILY;
      if (isKit || before !== null) {
        deriveKit(db, key, isKit);
        hasKits = true;
        haveMoved ||= kitPlace(db, key) !== before;
      }
    }
    if (hasKits) keys.add('kits').add('checkoffs');
    // A kit is a place as well, and where it lies is known once it is derived itself.
    if (haveMoved) {
      derivePlaces(db);
      keys.add('places');
    }
    if (items.size <= 200)
      for (const key of items)
        keys.add(`item:${one<{ id: string }>(db, 'SELECT id FROM things WHERE key = ?', key)?.id}`);
    else keys.add('item');
  }
  return [...keys];
}

/** Whether a place is a rig, or was one until now and is still told as a thing. */
function isRig(db: Db, key: number): boolean {
  return (
    one(
      db,
      `SELECT 1 FROM places WHERE key = :key AND kind = 'rig' UNION ALL SELECT 1 FROM items WHERE key = :key`,
      { key },
    ) !== undefined
  );
}

/** The things of every family whose rules are not what they were; all of them where that is not known. */
function concernedBy(db: Db, before: Book | null, book: Book): number[] {
  const things = all<{ key: number; family: string | null }>(
    db,
    `SELECT t.key, i.family FROM things t LEFT JOIN items i ON i.key = t.key
     WHERE t.kind = 'item' OR t.key IN (SELECT key FROM places WHERE kind = 'rig')`,
  );
  if (!before) return things.map(t => t.key);
  const changed = changedFamilies(before, book);
  return things.filter(t => t.family === null || changed.has(t.family)).map(t => t.key);
}

function kindOf(db: Db, key: number): string {
  return one<{ kind: string }>(db, 'SELECT kind FROM things WHERE key = ?', key)?.kind ?? 'unknown';
}

/** A writer of item caches that remembers the keys of places over a batch, and tells the family of what it wrote. */
function itemWriter(db: Db, book: Book): (key: number) => string | null {
  const placeKeys = new Map<string, number | null>();
  const placeKey = (id: string): number | null => {
    let known = placeKeys.get(id);
    if (known === undefined) {
      known = thingKey(db, id) ?? null;
      placeKeys.set(id, known);
    }
    return known;
  };
  return key => {
    const derived = derive(asItemFacts(factsOf(db, key)), book);
    if (!derived) {
      writeDue(db, key, []);
      run(db, 'DELETE FROM items WHERE key = ?', key);
      run(db, 'DELETE FROM words WHERE rowid = ?', key);
      return null;
    }
    const { family, number, attributes } = derived;
    // A rig lies in no place of its own; what is due on it counts for whoever rides it.
    const isOwnPlace = family === RIG_FAMILY;
    const place = isOwnPlace ? null : derived.place ? placeKey(derived.place.place) : null;
    const sort = numberSort(number);
    const what = inWords(family, attributes);
    writeItem(db, [
      key,
      family,
      number,
      sort,
      derived.serial,
      what,
      JSON.stringify(attributes),
      derived.place?.place ?? null,
      place,
      derived.assignment,
      derived.condition,
      derived.conditionSince,
      typeof attributes.spec === 'string' ? attributes.spec : null,
      derived.seenOn,
      derived.place ? lastDay(derived.place.since) : null,
    ]);
    writeDue(
      db,
      key,
      derived.due.map(row => [
        key,
        family,
        sort,
        isOwnPlace ? key : place,
        row.requirement,
        row.basis,
        row.lastOn,
        row.dueOn,
        row.dueTo,
        row.warnOn,
        row.lateOn,
        row.from,
        row.to,
        row.late,
        row.own,
      ]),
    );
    const { maker = '', model = '' } = attributes;
    if (!isOwnPlace)
      writeWords(db, key, 'item', `${number} ${derived.serial ?? ''} ${what} ${maker} ${model}`);
    return family;
  };
}

type Row = readonly (string | number | null)[];

const ITEM = `key, family, number, number_sort, serial, what, attributes, place, place_key, assignment, condition,
  condition_since, spec, seen_on, placed_on`;
const DUE = `item, family, number_sort, place_key, requirement, basis, last_on, due_on, due_to, warn_on, late_on,
  from_day, to_day, late, own`;

/** Everything was derived anew; what came out the same is left as it lies, for writing costs more than looking. */
function writeItem(db: Db, row: Row): void {
  if (sameRows(rowsOf(db, `SELECT ${ITEM} FROM items WHERE key = ?`, row[0]), [row])) return;
  prepared(
    db,
    `INSERT OR REPLACE INTO items (${ITEM}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  ).run(...row);
}

function writeDue(db: Db, item: number, rows: readonly Row[]): void {
  const before = rowsOf(db, `SELECT ${DUE} FROM due WHERE item = ? ORDER BY key`, item);
  if (sameRows(before, rows)) return;
  if (before.length > 0) run(db, 'DELETE FROM due WHERE item = ?', item);
  const insert = prepared(db, `INSERT INTO due (${DUE}) VALUES (${'?, '.repeat(14)}?)`);
  for (const row of rows) insert.run(...row);
}

function rowsOf(db: Db, sql: string, ...values: unknown[]): Row[] {
  return prepared(db, sql)
    .raw()
    .all(...values) as Row[];
}

function sameRows(a: readonly Row[], b: readonly Row[]): boolean {
  return a.length === b.length && a.every((row, i) => row.every((value, j) => value === b[i]?.[j]));
}

function deriveUnit(db: Db, key: number): void {
  const unit = identityOf(factsOf(db, key));
  if (!unit) run(db, 'DELETE FROM units WHERE key = ?', key);
  else
    run(
      db,
      'INSERT OR REPLACE INTO units (key, name, kind, station) VALUES (?, ?, ?, ?)',
      key,
      unit.name,
      unit.kind ?? null,
      unit.station ?? null,
    );
}

function deriveMember(db: Db, key: number): void {
  const member = memberOf(factsOf(db, key));
  if (!member) {
    run(db, 'DELETE FROM members WHERE key = ?', key);
    run(db, 'DELETE FROM words WHERE rowid = ?', key);
    return;
  }
  run(
    db,
    'INSERT OR REPLACE INTO members (key, number, name, position, grants) VALUES (?, ?, ?, ?, ?)',
    key,
    member.number,
    member.name,
    member.position ?? null,
    JSON.stringify(member.grants ?? []),
  );
  writeWords(db, key, 'member', `${member.number} ${member.name}`);
}

function deriveAgency(db: Db, key: number): void {
  const agency = identityOf(factsOf(db, key));
  if (!agency) run(db, 'DELETE FROM agencies WHERE key = ?', key);
  else
    run(
      db,
      'INSERT OR REPLACE INTO agencies (key, name, rin, rin_expires) VALUES (?, ?, ?, ?)',
      key,
      agency.name,
      agency.rin ?? null,
      agency.rinExpires ?? null,
    );
}

function deriveDepartment(db: Db, key: number): void {
  const department = identityOf(factsOf(db, key));
  if (!department) run(db, 'DELETE FROM departments WHERE key = ?', key);
  else
    run(
      db,
      'INSERT OR REPLACE INTO departments (key, name, zone, state, demo) VALUES (?, ?, ?, ?, ?)',
      key,
      department.name,
      department.zone,
      department.state ?? null,
      department.demo === true ? 1 : 0,
    );
}
