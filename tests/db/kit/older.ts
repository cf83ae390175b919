/** A file as an older program left it: the first migrations only, with the rows of a department in it. */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { migrationsFolder } from '../../../db/store/migrate.ts';
import { APPLICATION_ID, settings } from '../../../db/store/open.ts';

interface Journal {
  entries: { tag: string }[];
}

/** How many migrations this program knows. */
export function migrationsKnown(): number {
  return journalOf(migrationsFolder()).entries.length;
}

function journalOf(folder: string): Journal {
  return JSON.parse(readFileSync(join(folder, 'meta/_journal.json'), 'utf8')) as Journal;
}

/** A migrations folder with the first `count` migrations only. */
function firstMigrations(folder: string, count: number): string {
  const here = join(folder, `first-${count}`);
  const from = migrationsFolder();
  mkdirSync(join(here, 'meta'), { recursive: true });
  const journal = journalOf(from);
  journal.entries = journal.entries.slice(0, count);
  writeFileSync(join(here, 'meta/_journal.json'), JSON.stringify(journal));
  for (const { tag } of journal.entries) cpSync(join(from, `${tag}.sql`), join(here, `${tag}.sql`));
  return here;
}

/**
 * Make a file at an older format.
 * @param count how many migrations the older program knew, 1 or more
 * @param source a file of this program whose rows it gets, table by table
 */
export function olderFile(folder: string, name: string, count: number, source: string): string {
  const file = join(folder, name);
  const db = new Database(file);
  settings(db);
  db.pragma(`application_id = ${APPLICATION_ID}`);
  migrate(drizzle(db), { migrationsFolder: firstMigrations(folder, count) });
  db.prepare('ATTACH ? AS source').run(source);
  const tables = db
    .prepare(
      `SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'
         AND name NOT LIKE 'words\\_%' ESCAPE '\\' AND name <> '__drizzle_migrations'`,
    )
    .pluck()
    .all() as string[];
  db.transaction(() => {
    for (const table of tables) {
      // Generated columns are no part of table_info.
      const columns = db.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[];
      if (table === 'words') columns.unshift('rowid');
      const list = columns.map(c => `"${c}"`).join(', ');
      db.exec(`INSERT INTO main."${table}" (${list}) SELECT ${list} FROM source."${table}"`);
    }
  })();
  db.exec('DETACH source');
  for (const table of ['entries', 'arrivals', 'attachments'].filter(name => tables.includes(name)))
    for (const deed of ['UPDATE', 'DELETE'])
      db.exec(
        `CREATE TRIGGER "${table}_no_${deed.toLowerCase()}" BEFORE ${deed} ON "${table}"
         BEGIN SELECT RAISE(ABORT, 'The ledger is only added to: correct it with another entry.'); END`,
      );
  db.pragma(`user_version = ${count}`);
  db.close();
  return file;
}
