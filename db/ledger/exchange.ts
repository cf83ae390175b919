/**
 * Entries out to, and in from, another device's file, with the photos they name. An export line is the entry's exact
 * stored text.
 */
import { applyEntry, nothingTouched } from '../caches/apply.ts';
import { forgetBook } from '../caches/book.ts';
import { deriveTouched } from '../caches/derive.ts';
import { all, type Db, one, run } from '../store/statements.ts';
import { insertEntry } from './append.ts';
import { type Attachment, attachmentOf, keepAttachment } from './attachments.ts';
import { type Entry, entryId, entryText, hashOf } from './entry.ts';

/** The texts of all entries after what another file already has, in causal order. */
export function entriesSince(db: Db, has: ReadonlyMap<string, number>): string[] {
  return all<{ text: string; device: string; seq: number }>(
    db,
    'SELECT text, device, seq FROM entries ORDER BY clock, device',
  )
    .filter(row => row.seq > (has.get(row.device) ?? 0))
    .map(row => row.text);
}

/** How far this file knows each device. */
export function knownHeads(db: Db): Map<string, number> {
  return new Map(
    all<{ device: string; seq: number }>(db, 'SELECT device, seq FROM heads').map(h => [h.device, h.seq]),
  );
}

/**
 * Take in entries of other devices, in one transaction. Entries already here are passed over.
 * @param texts exact entry texts; each device's entries must follow what is already here
 * @param now UTC milliseconds: when this file learned of them, kept beside the entries
 * @param attachments the photos that came with them; one that has not come is told as missing until it does
 * @returns the cache keys that were touched
 * @throws Error where an entry does not follow its device's previous one here (take the earlier ones in first), is
 *   another one than this file has under its name, or is not in canonical form; where the bytes of a photo are not
 *   those it is named by
 */
export function takeIn(
  db: Db,
  texts: readonly string[],
  now: number,
  attachments: readonly Attachment[] = [],
): string[] {
  const take = db.transaction(() => {
    for (const { sha256, bytes } of attachments) {
      const photo = attachmentOf(bytes);
      if (photo?.sha256 !== sha256) throw new Error(`Photo ${sha256} is not what it is named by.`);
      keepAttachment(db, photo, now);
    }
    const touched = nothingTouched();
    for (const text of texts) {
      const entry = JSON.parse(text) as Entry;
      if (entryText(entry) !== text)
        throw new Error(`Entry ${entry.seq} of device ${entry.device} is not in canonical form.`);
      const head = one<{ seq: number; hash: string }>(
        db,
        'SELECT seq, hash FROM heads WHERE device = ?',
        entry.device,
      );
      if (head && entry.seq <= head.seq) {
        assertSame(db, entry, text);
        continue;
      }
      if (entry.seq !== (head?.seq ?? 0) + 1 || (head && entry.prev !== head.hash))
        throw new Error(
          `Entry ${entry.seq} of device ${entry.device} does not follow entry ${head?.seq ?? 0}, the last one here.`,
        );
      insertEntry(db, entry, text, hashOf(text));
      const id = entryId(entry.device, entry.seq);
      run(db, 'INSERT INTO arrivals (entry, learned_at) VALUES (?, ?)', id, now);
      applyEntry(db, { ...entry, id }, touched);
    }
    return deriveTouched(db, touched);
  });
  try {
    return take();
  } catch (error) {
    forgetBook(db);
    throw error;
  }
}

/** Two entries of one name would come from a file that was copied and written in twice under one device. */
function assertSame(db: Db, entry: Entry, text: string): void {
  const here = one<{ text: string }>(
    db,
    'SELECT text FROM entries WHERE device = ? AND seq = ?',
    entry.device,
    entry.seq,
  );
  if (here?.text !== text)
    throw new Error(
      `Entry ${entry.seq} of device ${entry.device} is another one here: its device wrote twice.`,
    );
}
