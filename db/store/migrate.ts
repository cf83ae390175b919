/** Bringing an older file up to this program's shape: backed up first, then migrated, then guarded. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { rebuild } from '../caches/rebuild.ts';
import { guard } from './guards.ts';
import { CannotOpen } from './refusal.ts';
import { type Db, one, run } from './statements.ts';

/** The shape of the caches this program keeps; another one in the file means they are made again. */
export const CACHE_SHAPE = '5';

/** Where the migrations are: beside the source, or beside the bundle. */
export function migrationsFolder(): string {
  for (const place of ['./migrations', '../../migrations', '../migrations']) {
    const folder = fileURLToPath(new URL(place, import.meta.url));
    if (existsSync(`${folder}/meta/_journal.json`)) return folder;
  }
  throw new Error('The migrations are not beside the program.');
}

interface Journal {
  entries: { tag: string; when: number }[];
}

/**
 * Bring an open file up to date.
 * @param backup called once before an older file that holds anything is changed
 * @throws CannotOpen for a file that a newer version wrote
 */
export function bringUpToDate(db: Db, name: string, backup: () => void, folder = migrationsFolder()): void {
  const journal = JSON.parse(readFileSync(`${folder}/meta/_journal.json`, 'utf8')) as Journal;
  const known = journal.entries.length;
  const has = db.pragma('user_version', { simple: true }) as number;
  if (has > known)
    throw new CannotOpen(
      'newer file',
      `${name} was written by a newer version of Baybook (file format ${has}; this one knows up to ${known}).`,
      'Open it with the newer version.',
    );
  if (has < known) {
    if (has > 0) backup();
    // drizzle's table rebuilds fail with foreign keys on, and its own OFF does nothing inside its transaction.
    db.pragma('foreign_keys = OFF');
    migrate(drizzle(db), { migrationsFolder: folder });
    if ((db.pragma('foreign_key_check') as unknown[]).length > 0)
      throw new Error('A migration broke a foreign key.');
    db.pragma('foreign_keys = ON');
  }
  const shape = one<{ value: string }>(db, "SELECT value FROM meta WHERE name = 'cacheShape'")?.value;
  if (has === known && shape === CACHE_SHAPE) return;
  // The version comes last and with the rest: a file that was cut off on the way is brought up to date again.
  db.transaction(() => {
    guard(db);
    rebuild(db);
    run(db, "INSERT OR REPLACE INTO meta (name, value) VALUES ('cacheShape', ?)", CACHE_SHAPE);
    db.pragma(`user_version = ${known}`);
  })();
}
