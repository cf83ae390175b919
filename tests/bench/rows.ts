/** The rows that an act wrote, caught so that bare SQL can write the same ones. */
import { all, type Db } from '../../db/store/statements.ts';

type Row = Record<string, unknown>;

/** Tables that an act writes in, with the columns that are not generated. */
const TABLES = [
  'entries',
  'heads',
  'things',
  'facts',
  'fact_refs',
  'voids',
  'items',
  'due',
  'places',
  'units',
  'agencies',
  'words',
] as const;

interface Written {
  table: string;
  sql: string;
  rows: unknown[][];
}

/** Everything in `after` that is not, or is otherwise, in the file attached as `before`. */
export function rowsBetween(after: Db, before: string): { writes: Written[]; gone: Map<string, number[]> } {
  after.prepare('ATTACH ? AS before').run(before);
  try {
    const writes: Written[] = [];
    const gone = new Map<string, number[]>();
    for (const table of TABLES) {
      const columns = (
        after.prepare('SELECT name FROM pragma_table_info(?)').pluck().all(table) as string[]
      ).map(c => `"${c}"`);
      if (table === 'words') columns.unshift('rowid');
      const key = table === 'heads' ? 'device' : 'rowid';
      const list = columns.join(', ');
      const changed = all<Row>(
        after,
        `SELECT ${list} FROM main."${table}" EXCEPT SELECT ${list} FROM before."${table}"`,
      );
      if (changed.length > 0)
        writes.push({
          table,
          sql: `INSERT OR REPLACE INTO "${table}" (${list}) VALUES (${columns.map(() => '?').join(', ')})`,
          rows: changed.map(row => Object.values(row)),
        });
      if (key === 'device') continue;
      const removed = all<{ key: number }>(
        after,
        `SELECT rowid AS key FROM before."${table}" EXCEPT SELECT rowid FROM main."${table}"`,
      );
      if (removed.length > 0)
        gone.set(
          table,
          removed.map(r => r.key),
        );
    }
    return { writes, gone };
  } finally {
    after.exec('DETACH before');
  }
}

/** Write the rows in one transaction, with statements prepared once. */
export function writeBare(db: Db, { writes, gone }: ReturnType<typeof rowsBetween>): () => void {
  const inserts = writes.map(w => ({ statement: db.prepare(w.sql), rows: w.rows }));
  const deletes = [...gone].map(([table, keys]) => ({
    statement: db.prepare(`DELETE FROM "${table}" WHERE rowid = ?`),
    keys,
  }));
  const write = db.transaction(() => {
    for (const { statement, keys } of deletes) for (const key of keys) statement.run(key);
    for (const { statement, rows } of inserts) for (const row of rows) statement.run(...row);
  });
  return () => write.immediate();
}
