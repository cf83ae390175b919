/** Opening a department's file: where it may lie, how SQLite is set, whose device writes in it. */
import { createHash, randomInt } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, openSync, realpathSync, renameSync, rmSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { keepGuarded } from './guards.ts';
import { bringUpToDate, migrationsFolder } from './migrate.ts';
import { refuseNetworkFolder } from './network.ts';
import { CannotOpen } from './refusal.ts';
import { type Db, one, run } from './statements.ts';

/** "Bayb": tells our files from other SQLite files. */
export const APPLICATION_ID = 0x42617962;

/** Settings of every connection. WAL reopens at synchronous=NORMAL unless told otherwise each time. */
export function settings(db: Db): void {
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  db.pragma('recursive_triggers = ON');
  db.pragma('cache_size = -65536');
  db.pragma('busy_timeout = 5000');
}

export interface Opening {
  /** Make a new file where none is. */
  create?: boolean;
  migrations?: string;
  /** For tests: the file system type of a folder. */
  fileSystemType?: (folder: string) => number;
}

/**
 * Open a file for writing, bring it up to date and settle which device writes in it.
 * @throws CannotOpen for a missing file, a network folder, a newer file, or a file of another kind
 */
export function openForWriting(path: string, opening: Opening = {}): Db {
  const file = resolve(path);
  refuseNetworkFolder(path.startsWith('\\\\') ? path : file, opening.fileSystemType);
  const isNew = !existsSync(file);
  if (isNew && !opening.create)
    throw new CannotOpen('no file', `There is no file ${path}.`, 'Give the path of a department’s file.');
  if (!existsSync(dirname(file)))
    throw new CannotOpen('no folder', `There is no folder ${dirname(path)}.`, 'Make the folder first.');
  const db = new Database(file);
  try {
    refuseOthers(db, path, isNew);
    settings(db);
    if (isNew) db.pragma(`application_id = ${APPLICATION_ID}`);
    bringUpToDate(db, basename(file), () => backUp(db, file), opening.migrations ?? migrationsFolder());
    keepGuarded(db);
    settleDevice(db, file);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** Open a file that the writer has open for reading only. */
export function openForReading(path: string): Db {
  const db = new Database(resolve(path), { readonly: true });
  db.pragma('cache_size = -65536');
  db.pragma('busy_timeout = 5000');
  return db;
}

function refuseOthers(db: Db, path: string, isNew: boolean): void {
  if (isNew) return;
  let id: unknown;
  try {
    id = db.pragma('application_id', { simple: true });
  } catch {
    id = null;
  }
  // A file with nothing in it is one whose making was cut off at its very beginning: it is made again.
  const empty = id === 0 && one(db, 'SELECT 1 FROM sqlite_master') === undefined;
  if (empty) db.pragma(`application_id = ${APPLICATION_ID}`);
  else if (id !== APPLICATION_ID)
    throw new CannotOpen(
      'not ours',
      `${path} is not a department’s file.`,
      'Choose a file that Baybook made; a spreadsheet is brought in with Import.',
    );
}

/** A whole copy of the file as it was, beside it, before it is changed to a newer format. */
function backUp(db: Db, file: string): void {
  const version = db.pragma('user_version', { simple: true }) as number;
  const copy = `${file}.before-format-${version + 1}`;
  if (existsSync(copy)) return;
  // Under its name only once it is whole and on the disk: a copy that was cut off must not pass for a backup.
  const part = `${copy}.part`;
  rmSync(part, { force: true });
  db.prepare('VACUUM INTO ?').run(part);
  const written = openSync(part, 'r+');
  fsyncSync(written);
  closeSync(written);
  renameSync(part, copy);
}

/**
 * A file that was copied or restored is another device: two files that both go on writing as one device would
 * make two entries with one name. The file remembers where it lives, as a hash.
 */
function settleDevice(db: Db, file: string): void {
  const home = createHash('sha256')
    .update(`${hostname()}\n${realpathSync(file)}`)
    .digest('hex');
  const read = (name: string) =>
    one<{ value: string }>(db, 'SELECT value FROM meta WHERE name = ?', name)?.value;
  const write = (name: string, value: string) =>
    run(db, 'INSERT OR REPLACE INTO meta (name, value) VALUES (?, ?)', name, value);
  db.transaction(() => {
    const device = read('device');
    if (device !== undefined && read('home') === home) return;
    const old = device
      ? one<{ hash: string }>(db, 'SELECT hash FROM heads WHERE device = ?', device)?.hash
      : undefined;
    // A device that has written nothing yet can go on in the copy: nothing bears its name.
    if (device === undefined || old !== undefined) write('device', newDevice());
    if (old !== undefined) write('copiedAt', old);
    write('home', home);
  })();
}

/** Eight random base-36 characters. */
function newDevice(): string {
  return Array.from({ length: 8 }, () => randomInt(36).toString(36)).join('');
}
