import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Entry, entryText, hashOf } from '../../db/ledger/entry.ts';
import { openForReading, openForWriting } from '../../db/store/open.ts';
import { aHose, layGround, newDepartment, scratch } from './kit/department.ts';

/**
 * RFC 8785 a second time, by the letter of its section 3.2: no whitespace, property names sorted by their UTF-16
 * code units, strings and numbers as ECMAScript's JSON.stringify writes them.
 */
function canonicalByTheBook(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalByTheBook).join(',')}]`;
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const names = Object.keys(value).sort((a, b) => {
    for (let i = 0; i < Math.min(a.length, b.length); i++) {
      const difference = a.charCodeAt(i) - b.charCodeAt(i);
      if (difference !== 0) return difference;
    }
    return a.length - b.length;
  });
  const members = value as Record<string, unknown>;
  return `{${names.map(n => `${JSON.stringify(n)}:${canonicalByTheBook(members[n])}`).join(',')}}`;
}

describe('an entry’s exact bytes', () => {
  it('are the canonical JSON of RFC 8785 and its SHA-256, by a second writing of both', () => {
    const d = newDepartment();
    layGround(d);
    aHose(d, '31-107', { attributes: { remarks: 'jacket “frayed” at 12 ft\n\t\u0001 €\u{1F692}' } });
    for (const { text, hash } of d.texts()) {
      expect(text).toBe(canonicalByTheBook(JSON.parse(text)));
      expect(hash).toBe(createHash('sha256').update(Buffer.from(text, 'utf8')).digest('hex'));
    }
  });

  it('are those of the standard’s own example of sorting', () => {
    // RFC 8785, section 3.2.3: the order of these names by UTF-16 code units.
    const values: Record<string, string> = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\u{1F600}': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    const order = [
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ];
    const text = entryText({ ...anEntry, body: values });
    const body = JSON.parse(text).body as Record<string, string>;
    expect(text).toBe(canonicalByTheBook({ ...anEntry, body: values }));
    const written = [...text.slice(text.indexOf('"body"')).matchAll(/:"([^"]+)"/g)].map(m => m[1]);
    expect(written.slice(0, 7)).toEqual(order);
    expect(body).toEqual(values);
  });

  it('are the same for any body that a body may hold', () => {
    const body = fc.dictionary(
      fc.string({ unit: 'binary' }),
      fc.jsonValue({ stringUnit: 'binary', noUnicodeString: false }).filter(onlyWholeNumbers),
      { noNullPrototype: true },
    );
    fc.assert(
      fc.property(body, b => {
        const entry = { ...anEntry, body: b };
        const text = entryText(entry);
        expect(text).toBe(canonicalByTheBook(entry));
        expect(hashOf(text)).toBe(createHash('sha256').update(Buffer.from(text)).digest('hex'));
      }),
      { numRuns: 300, seed: 8785 },
    );
  });

  it('hold no decimal and no number that another language would read differently', () => {
    for (const number of [1.5, 2 ** 53, Number.NaN, Number.POSITIVE_INFINITY, 1e-7])
      expect(() => entryText({ ...anEntry, body: { deep: [{ number }] } })).toThrow(/^deep\[0\]\.number is/);
  });
});

const anEntry: Entry = {
  format: 1,
  device: 'abcde',
  seq: 1,
  clock: 1,
  recordedAt: 0,
  by: null,
  via: 'claimed',
  batch: 'abcde-1',
  action: 'station.add',
  v: 1,
  body: {},
  prev: null,
};

function onlyWholeNumbers(value: unknown): boolean {
  if (typeof value === 'number') return Number.isSafeInteger(value) && !Object.is(value, -0);
  if (value === null || typeof value !== 'object') return true;
  return Object.values(value).every(onlyWholeNumbers);
}

describe('the ledger’s table', () => {
  const TAMPERING: [string, string][] = [
    ['UPDATE', "UPDATE entries SET hash = 'x' WHERE key = 1"],
    ['UPDATE of the text', `UPDATE entries SET text = replace(text, 'Larkspur', 'Meadow')`],
    ['DELETE', 'DELETE FROM entries WHERE key = 1'],
    ['DELETE of all', 'DELETE FROM entries'],
    [
      'REPLACE by key',
      "REPLACE INTO entries (key, text, hash) SELECT key, text, 'x' FROM entries WHERE key = 1",
    ],
    [
      'INSERT OR REPLACE by device and number',
      "INSERT OR REPLACE INTO entries (text, hash) SELECT text, 'x' FROM entries WHERE key = 1",
    ],
    ['UPDATE OR REPLACE', 'UPDATE OR REPLACE entries SET key = 2 WHERE key = 1'],
    [
      'an upsert',
      `INSERT INTO entries (key, text, hash) SELECT key, text, hash FROM entries WHERE key = 1
       ON CONFLICT (key) DO UPDATE SET hash = 'x'`,
    ],
    ['UPDATE of an arrival', 'UPDATE arrivals SET learned_at = 0'],
    ['DELETE of an arrival', 'DELETE FROM arrivals'],
    ['REPLACE of an arrival', "REPLACE INTO arrivals (entry, learned_at) VALUES ('other-1', 0)"],
  ];

  it.each(TAMPERING)('takes no %s: SQLite itself refuses', (_what, sql) => {
    const d = newDepartment();
    layGround(d);
    d.db.prepare("INSERT INTO arrivals (entry, learned_at) VALUES ('other-1', 1)").run();
    const before = d.texts();
    expect(() => d.db.prepare(sql).run()).toThrow('The ledger is only added to');
    expect(d.texts()).toEqual(before);
    expect(d.count('arrivals')).toBe(1);
  });

  it('takes none on a connection that only reads, nor on another one that writes', () => {
    const d = newDepartment();
    const reading = openForReading(d.file);
    const writing = openForWriting(d.file);
    try {
      for (const [, sql] of TAMPERING)
        expect(() => reading.prepare(sql).run()).toThrow(/readonly|only added/);
      for (const [, sql] of TAMPERING.slice(0, 8))
        expect(() => writing.prepare(sql).run()).toThrow('The ledger is only added to');
    } finally {
      reading.close();
      writing.close();
    }
  });

  it('has no way past the generated columns: they say what the hashed text says', () => {
    const d = newDepartment();
    const columns = ['device', 'seq', 'clock', 'recordedAt', 'by', 'via', 'batch', 'action', 'v', 'prev'];
    const rows = d.db
      .prepare(
        'SELECT text, device, seq, clock, recorded_at AS recordedAt, by, via, batch, action, v, prev FROM entries',
      )
      .all() as Record<string, unknown>[];
    for (const row of rows) {
      const entry = JSON.parse(String(row.text)) as Record<string, unknown>;
      for (const column of columns) expect(row[column]).toEqual(entry[column]);
    }
    expect(() =>
      d.db.prepare("INSERT INTO entries (text, hash, device) VALUES ('{}', '', 'x')").run(),
    ).toThrow();
  });

  it('holds one entry a device and number', () => {
    const d = newDepartment();
    expect(() =>
      d.db.prepare('INSERT INTO entries (text, hash) SELECT text, hash FROM entries WHERE key = 1').run(),
    ).toThrow(/UNIQUE/);
  });
});

describe('every connection that writes', () => {
  it('syncs every commit, fires triggers of triggers and enforces types', () => {
    const file = join(scratch(), 'larkspur.baybook');
    for (const create of [true, false]) {
      const db = openForWriting(file, { create });
      // https://www.sqlite.org/pragma.html: synchronous 2 is FULL, 1 NORMAL.
      expect(db.pragma('synchronous', { simple: true })).toBe(2);
      expect(db.pragma('recursive_triggers', { simple: true })).toBe(1);
      expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
      expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
      const tables = db
        .prepare(
          `SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'`,
        )
        .all() as { name: string; strict: number }[];
      const loose = tables.filter(t => t.strict === 0 && !t.name.startsWith('words_'));
      expect(loose.map(t => t.name)).toEqual(['__drizzle_migrations']);
      expect(tables.length).toBeGreaterThan(14);
      db.close();
    }
  });

  it('refuses text where a column is a whole number', () => {
    const d = newDepartment();
    expect(() =>
      d.db
        .prepare(
          "INSERT INTO due (item, family, number_sort, requirement, basis, late) VALUES ('x', '', '', '', '', '')",
        )
        .run(),
    ).toThrow(/cannot store TEXT value in INTEGER column/);
  });

  it('through a plain connection of another program too: guards and types are in the file', () => {
    const d = newDepartment();
    const plain = new Database(d.file);
    expect(() => plain.prepare('DELETE FROM entries').run()).toThrow('The ledger is only added to');
    expect(() => plain.prepare("UPDATE entries SET hash = 'x'").run()).toThrow('The ledger is only added to');
    plain.close();
  });
});
