/**
 * Backups: a consistent copy of the file, an anchor beside it, and what a copy is to the file that is open. A copy
 * is only ever read here; it is restored as a file of its own and never over another.
 */
import { existsSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { basename } from 'node:path';
import Database from 'better-sqlite3';
import { readAnchor } from '../../domain/anchors.ts';
import type { BackupContents, BackupRelation, LedgerHead } from '../api.ts';
import { headsOf, verifyLedger } from '../ledger/verify.ts';
import { APPLICATION_ID } from '../store/open.ts';
import { CannotOpen } from '../store/refusal.ts';
import { all, type Db, one } from '../store/statements.ts';
import { ANCHOR_ENDING } from './anchor.ts';
import { toDisk } from './disk.ts';

/**
 * Write the whole file as it stands between two acts into a new file.
 * @throws CannotOpen where there is a file of that name: a backup is never written over
 */
export function writeCopy(db: Db, path: string): void {
  if (existsSync(path))
    throw new CannotOpen(
      'file exists',
      `There is a file ${basename(path)} already.`,
      'Give the backup another name.',
    );
  // Under its name only once it is whole and on the disk: a copy that was cut off must not pass for a backup.
  const part = `${path}.part`;
  rmSync(part, { force: true });
  try {
    db.prepare('VACUUM INTO ?').run(part);
    toDisk(part);
    renameSync(part, path);
  } catch (error) {
    rmSync(part, { force: true });
    throw new CannotOpen(
      'not copied',
      `The copy could not be written: ${error instanceof Error ? error.message : String(error)}.`,
      'Look whether the disk is full or failing, then back up again.',
    );
  }
}

/** The heads an anchor names, or null where there is none beside the copy. */
function anchorBeside(path: string): LedgerHead[] | null {
  if (!existsSync(path + ANCHOR_ENDING)) return null;
  const lines = readFileSync(path + ANCHOR_ENDING, 'utf8').split(/\r?\n/);
  const heads = lines.filter(line => line.startsWith('head:')).map(readAnchor);
  const known = heads.filter(h => h !== null);
  if (known.length < heads.length || !lines.some(line => line.startsWith('entries:')))
    throw damaged(`The anchor beside ${basename(path)} cannot be read.`);
  return known;
}

/**
 * Check a copy from its first byte to its last and tell what it holds.
 * @param knownFormat the newest file format this program reads
 * @throws CannotOpen naming what is wrong with it
 */
export function examineCopy(path: string, knownFormat: number): BackupContents {
  const db = openCopy(path, knownFormat);
  try {
    let page: unknown;
    try {
      page = db.pragma('quick_check(1)', { simple: true });
    } catch (error) {
      page = error instanceof Error ? error.message : String(error);
    }
    if (page !== 'ok') throw damaged(`${basename(path)} is damaged: ${page}.`);
    const { firstBad, devices, entries } = verifyLedger(db);
    if (firstBad)
      throw damaged(
        `Entry ${firstBad.seq} of device ${firstBad.device} in ${basename(path)} is not what was written: ${firstBad.what}`,
      );
    const anchor = anchorBeside(path);
    for (const head of anchor ?? []) {
      const hash = hashAt(db, head.device, head.seq);
      if (hash === head.hash) continue;
      throw damaged(
        hash === null
          ? `The anchor beside ${basename(path)} names entry ${head.seq} of device ${head.device}; the ledger ends before it.`
          : `Entry ${head.seq} of device ${head.device} in ${basename(path)} is not the one its anchor names.`,
      );
    }
    return { ...holdings(db), heads: devices, entries, anchored: anchor !== null };
  } catch (error) {
    // A page that SQLite cannot read ends up here whichever question met it.
    if (error instanceof Database.SqliteError)
      throw damaged(`${basename(path)} is damaged: ${error.message}.`);
    throw error;
  } finally {
    db.close();
  }
}

/**
 * What a copy is to the open file, by their ledgers alone: each device's entries are compared at the last number
 * both have, and where those differ the last one they share is looked for.
 */
export function relationTo(open: Db, copyPath: string): BackupRelation {
  const copy = new Database(copyPath, { readonly: true });
  try {
    const here = new Map(headsOf(open).map(h => [h.device, h.seq]));
    const there = new Map(headsOf(copy).map(h => [h.device, h.seq]));
    let shared = 0;
    let onlyHere = 0;
    let onlyThere = 0;
    for (const device of new Set([...here.keys(), ...there.keys()])) {
      const a = here.get(device) ?? 0;
      const b = there.get(device) ?? 0;
      const common = sharedUpTo(
        Math.min(a, b),
        seq => hashAt(open, device, seq) === hashAt(copy, device, seq),
      );
      shared += common;
      onlyHere += a - common;
      onlyThere += b - common;
    }
    return { is: relationWord(shared, onlyHere, onlyThere), onlyHere, onlyInBackup: onlyThere };
  } finally {
    copy.close();
  }
}

function relationWord(shared: number, onlyHere: number, onlyThere: number): BackupRelation['is'] {
  if (onlyHere === 0 && onlyThere === 0) return 'same';
  if (shared === 0) return 'unrelated';
  if (onlyThere === 0) return 'older';
  return onlyHere === 0 ? 'newer' : 'diverged';
}

/** The last number up to which two chains are one: entries name the one before, so what is equal stays equal below. */
function sharedUpTo(most: number, isSame: (seq: number) => boolean): number {
  let [low, high] = [0, most];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (isSame(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

function openCopy(path: string, knownFormat: number): Db {
  const name = basename(path);
  if (!existsSync(path))
    throw new CannotOpen('no file', `There is no backup ${name}.`, 'Choose one of those listed.');
  let db: Db;
  let format: number;
  let id: unknown;
  try {
    db = new Database(path, { readonly: true });
    id = db.pragma('application_id', { simple: true });
    format = db.pragma('user_version', { simple: true }) as number;
  } catch (error) {
    throw damaged(`${name} cannot be read: ${error instanceof Error ? error.message : error}.`);
  }
  if (id === APPLICATION_ID && format > 0 && format <= knownFormat) return db;
  db.close();
  if (id !== APPLICATION_ID || format === 0)
    throw new CannotOpen(
      'not ours',
      `${name} is not a department’s file.`,
      'Choose a backup that Baybook made.',
    );
  throw new CannotOpen(
    'newer file',
    `${name} was written by a newer version of Baybook (file format ${format}; this one knows up to ${knownFormat}).`,
    'Restore it with the newer version.',
  );
}

function holdings(db: Db): Pick<BackupContents, 'department' | 'things' | 'members' | 'lastAt'> {
  const count = (sql: string) => one<{ n: number }>(db, sql)?.n ?? 0;
  const last = one<{ at: number | null }>(db, 'SELECT max(recorded_at) AS at FROM heads')?.at ?? null;
  return {
    department: all<{ name: string }>(db, 'SELECT name FROM departments ORDER BY key')[0]?.name ?? null,
    things: count(
      "SELECT count(*) AS n FROM items WHERE condition NOT IN ('retired', 'disposed') AND family <> 'apparatus'",
    ),
    members: count('SELECT count(*) AS n FROM members'),
    lastAt: last === null ? null : new Date(last).toISOString(),
  };
}

function hashAt(db: Db, device: string, seq: number): string | null {
  return (
    one<{ hash: string }>(db, 'SELECT hash FROM entries WHERE device = ? AND seq = ?', device, seq)?.hash ??
    null
  );
}

const damaged = (message: string) =>
  new CannotOpen(
    'damaged backup',
    message,
    'It is not restored. Keep it for evidence and choose another backup.',
  );
