/** Writing entries: the only place where the ledger grows. */
import type { Via } from '../api.ts';
import { type Db, one, prepared, run } from '../store/statements.ts';
import { type Entry, entryId, entryText, FORMAT, hashOf } from './entry.ts';

export interface Head {
  device: string;
  seq: number;
  clock: number;
  recordedAt: number;
  hash: string;
}

/** Where the next entry of this file's own device goes. */
export interface Writing {
  device: string;
  head: Head | null;
  /** The highest Lamport clock of any device known. */
  clock: number;
  /** The head this file was copied at, for the first entry of a new device. */
  copiedAt: string | null;
}

/** Where this file's device stands. */
export function readWriting(db: Db): Writing {
  const device = one<{ value: string }>(db, "SELECT value FROM meta WHERE name = 'device'")?.value;
  if (!device) throw new Error('The file has no device; it was not opened by the store.');
  const head = one<Head>(
    db,
    'SELECT device, seq, clock, recorded_at AS recordedAt, hash FROM heads WHERE device = ?',
    device,
  );
  const clock = one<{ clock: number | null }>(db, 'SELECT max(clock) AS clock FROM heads')?.clock ?? 0;
  const copied = one<{ value: string }>(db, "SELECT value FROM meta WHERE name = 'copiedAt'")?.value;
  return { device, head: head ?? null, clock, copiedAt: copied ?? null };
}

/** How many entries the ledger holds, of all devices. */
export function entryCount(db: Db): number {
  return one<{ n: number }>(db, 'SELECT coalesce(sum(seq), 0) AS n FROM heads')?.n ?? 0;
}

export interface Telling {
  by: string | null;
  via: Via;
  batch: string | null;
  action: string;
  v: number;
  body: Record<string, unknown>;
}

/**
 * Add one entry of this device. Must run inside a transaction.
 * @param now UTC milliseconds; a clock that went backward is not obeyed: the previous entry's time is kept
 * @returns the entry with its id; `writing` is moved on to it
 */
export function append(db: Db, writing: Writing, telling: Telling, now: number): Entry & { id: string } {
  const seq = (writing.head?.seq ?? 0) + 1;
  const id = entryId(writing.device, seq);
  const entry: Entry = {
    format: FORMAT,
    device: writing.device,
    seq,
    clock: writing.clock + 1,
    recordedAt: Math.max(now, writing.head?.recordedAt ?? 0),
    by: telling.by,
    via: telling.via,
    batch: telling.batch ?? id,
    action: telling.action,
    v: telling.v,
    body: telling.body,
    prev: writing.head?.hash ?? writing.copiedAt,
  };
  const text = entryText(entry);
  const hash = hashOf(text);
  insertEntry(db, entry, text, hash);
  writing.head = { device: entry.device, seq, clock: entry.clock, recordedAt: entry.recordedAt, hash };
  writing.clock = entry.clock;
  // The body as the ledger has it, so that what is applied now is what a replay will apply.
  return { ...(JSON.parse(text) as Entry), id };
}

/** Put an entry's exact text into the ledger and move its device's head. */
export function insertEntry(db: Db, entry: Entry, text: string, hash: string): void {
  prepared(db, 'INSERT INTO entries (text, hash) VALUES (?, ?)').run(text, hash);
  run(
    db,
    `INSERT INTO heads (device, seq, clock, recorded_at, hash) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (device) DO UPDATE SET seq = excluded.seq, clock = excluded.clock,
       recorded_at = excluded.recorded_at, hash = excluded.hash`,
    entry.device,
    entry.seq,
    entry.clock,
    entry.recordedAt,
    hash,
  );
}
