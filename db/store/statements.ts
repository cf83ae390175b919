/** Prepared statements, one per text and connection: preparing costs more than most of them run. */
import type Database from 'better-sqlite3';

export type Db = Database.Database;
export type Statement = Database.Statement<unknown[], unknown>;

const byDb = new WeakMap<Db, Map<string, Statement>>();

/** The prepared statement for a text. Values are bound, never pasted. */
export function prepared(db: Db, sql: string): Statement {
  let known = byDb.get(db);
  if (!known) {
    known = new Map();
    byDb.set(db, known);
  }
  let statement = known.get(sql);
  if (!statement) {
    statement = db.prepare(sql);
    known.set(sql, statement);
  }
  return statement;
}

/** One row, typed by the caller, or undefined. */
export function one<T>(db: Db, sql: string, ...values: unknown[]): T | undefined {
  return prepared(db, sql).get(...values) as T | undefined;
}

/** All rows, typed by the caller. */
export function all<T>(db: Db, sql: string, ...values: unknown[]): T[] {
  return prepared(db, sql).all(...values) as T[];
}

/** Run a statement; the number of rows it changed. */
export function run(db: Db, sql: string, ...values: unknown[]): number {
  return prepared(db, sql).run(...values).changes;
}
