/**
 * A file's facts and caches with every integer key replaced by the name it stands for, so that two files that
 * learned the same things in another order can be compared row by row.
 */
import { getTableName } from 'drizzle-orm';
import { expect } from 'vitest';
import { CACHES } from '../../../db/schema/caches.ts';
import { all, type Db } from '../../../db/store/statements.ts';

export type Dump = Record<string, string[]>;

/** Which columns hold the key of a thing, by table. */
const THING_KEYS: Readonly<Record<string, readonly string[]>> = {
  facts: ['thing'],
  items: ['key', 'place_key'],
  due: ['item', 'place_key'],
  places: ['key', 'parent', 'rig', 'kit', 'unit', 'station'],
  units: ['key'],
  members: ['key'],
  agencies: ['key'],
  departments: ['key'],
  checkoffs: ['key'],
  looked: ['checkoff', 'place_key'],
  defects: ['key', 'item'],
  kits: ['key'],
  kit_templates: ['key'],
  stocks: ['key'],
  stock_places: ['stock'],
  stock_lots: ['stock'],
  words: ['rowid'],
};

/** Every cache table, and with them the search words. */
export function dump(db: Db): Dump {
  const things = new Map(
    all<{ key: number; id: string }>(db, 'SELECT key, id FROM things').map(t => [t.key, t.id]),
  );
  const facts = new Map(
    all<{ key: number; id: string }>(db, 'SELECT key, id FROM facts').map(f => [f.key, f.id]),
  );
  const dumped: Dump = {};
  for (const name of [...CACHES.map(getTableName), 'words']) {
    const rows = all<Record<string, unknown>>(
      db,
      name === 'words' ? 'SELECT rowid, text, kind FROM words' : `SELECT * FROM "${name}"`,
    );
    dumped[name] = rows
      .map(row => {
        for (const column of THING_KEYS[name] ?? []) {
          const key = row[column];
          row[column] = key === null ? null : (things.get(key as number) ?? `no thing ${key}`);
        }
        if (name === 'fact_refs') row.fact = facts.get(row.fact as number) ?? `no fact ${row.fact}`;
        // A row's own key says only when this file learned of it.
        if (!THING_KEYS[name]?.includes('key')) delete row.key;
        return JSON.stringify(row);
      })
      .sort();
  }
  return dumped;
}

/** What is shown: the derived tables, without the facts, voids and things they were derived from. */
export function derivedOnly(dumped: Dump): Dump {
  const { things, facts, fact_refs, voids, ...derived } = dumped;
  return derived;
}

/** Expect two dumps to be the same; told row by row only where they are not. */
export function expectSame(dumped: Dump, expected: Dump): void {
  if (JSON.stringify(dumped) !== JSON.stringify(expected)) expect(dumped).toEqual(expected);
}
