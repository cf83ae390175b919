/** Throw every cache away and make it again from the ledger. */

import { getTableName } from 'drizzle-orm';
import type { Entry } from '../ledger/entry.ts';
import { entryId } from '../ledger/entry.ts';
import { CACHES } from '../schema/caches.ts';
import { type Db, prepared, run } from '../store/statements.ts';
import { applyEntry, nothingTouched, type Touched } from './apply.ts';
import { deriveTouched } from './derive.ts';

/**
 * Rebuild in one transaction. Entries are applied in the order (clock, device), which every file agrees on.
 * @returns the number of entries applied
 */
export function rebuild(db: Db, progress?: (done: number) => void): number {
  return db.transaction(() => {
    for (const table of CACHES) run(db, `DELETE FROM "${getTableName(table)}"`);
    run(db, 'DELETE FROM words');
    const touched: Touched = nothingTouched();
    let done = 0;
    // Read in pages of keys: a statement that is being iterated keeps the connection from writing.
    const keys = prepared(db, 'SELECT key FROM entries ORDER BY clock, device').all() as { key: number }[];
    const text = prepared(db, 'SELECT text FROM entries WHERE key = ?');
    for (const { key } of keys) {
      const entry = JSON.parse((text.get(key) as { text: string }).text) as Entry;
      applyEntry(db, { ...entry, id: entryId(entry.device, entry.seq) }, touched);
      done++;
      if (done % 1000 === 0) progress?.(done);
    }
    deriveTouched(db, touched);
    return done;
  })();
}
