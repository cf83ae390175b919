/**
 * What SQLite itself holds: the ledger and the photos it names take no UPDATE, no DELETE and no REPLACE, and every
 * table is STRICT. A table rebuild in a migration drops triggers and can drop STRICT, so both are put back or asserted
 * after each.
 */
import { all, type Db, one } from './statements.ts';

const TABLES = ['entries', 'arrivals', 'attachments'] as const;
const DEEDS = ['UPDATE', 'DELETE'] as const;
const GUARDS = TABLES.flatMap(table =>
  DEEDS.map(deed => ({ table, deed, name: `${table}_no_${deed.toLowerCase()}` })),
);
const SAYS = 'The ledger is only added to: correct it with another entry.';

/**
 * Put the guards back where any is gone: somebody went round them, and what they changed is for the check of the
 * ledger to name, which must be able to open the file. @throws Error where they do not hold even so
 */
export function keepGuarded(db: Db): void {
  if (GUARDS.some(({ name }) => !isThere(db, name))) guard(db);
  else assertGuarded(db);
}

/** Make the guards again and check that they hold. @throws Error where they do not */
export function guard(db: Db): void {
  for (const { name, table, deed } of GUARDS) {
    db.exec(`DROP TRIGGER IF EXISTS "${name}"`);
    db.exec(
      `CREATE TRIGGER "${name}" BEFORE ${deed} ON "${table}" BEGIN SELECT RAISE(ABORT, '${SAYS}'); END`,
    );
  }
  assertGuarded(db);
}

/** @throws Error where a trigger is missing, REPLACE could slip past one, or a table is not STRICT */
export function assertGuarded(db: Db): void {
  // REPLACE deletes without firing delete triggers unless triggers are recursive.
  if (db.pragma('recursive_triggers', { simple: true }) !== 1)
    throw new Error('recursive_triggers is off: REPLACE would slip past the ledger’s triggers.');
  for (const { name, table, deed } of GUARDS)
    if (!isThere(db, name)) throw new Error(`The guard against ${deed} on ${table} is missing.`);
  const loose = all<{ name: string }>(
    db,
    `SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0
       AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' AND name NOT LIKE 'words\\_%' ESCAPE '\\'
       AND name <> '__drizzle_migrations'`,
  );
  if (loose.length > 0) throw new Error(`Not STRICT: ${loose.map(t => t.name).join(', ')}.`);
}

function isThere(db: Db, trigger: string): boolean {
  return one(db, "SELECT 1 FROM sqlite_master WHERE type = 'trigger' AND name = ?", trigger) !== undefined;
}
