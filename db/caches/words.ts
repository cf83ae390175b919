/** The words by which things are found: one full-text row a thing. */
import { type Db, one, run } from '../store/statements.ts';

/** Set the words of a thing; nothing is written where they are the same already. */
export function writeWords(db: Db, key: number, kind: string, text: string): void {
  const known = one<{ text: string }>(db, 'SELECT text FROM words WHERE rowid = ?', key);
  if (known?.text === text) return;
  if (known) run(db, 'DELETE FROM words WHERE rowid = ?', key);
  run(db, 'INSERT INTO words (rowid, text, kind) VALUES (?, ?, ?)', key, text, kind);
}
