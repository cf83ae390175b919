import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { LedgerHead } from '../../db/api.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { entryText, hashOf } from '../../db/ledger/entry.ts';
import { headsOf, verifyLedger, verifyTail } from '../../db/ledger/verify.ts';
import { openForWriting } from '../../db/store/open.ts';
import { all, type Db } from '../../db/store/statements.ts';
import { aHose, layGround, newDepartment, scratch, TestDepartment } from './kit/department.ts';
import { dump } from './kit/dump.ts';
import { seeded } from './kit/seeded.ts';

/** A department of two devices: the file, and the entries as they were written. */
function twoDevices() {
  const first = newDepartment();
  const g = layGround(first);
  const hose = aHose(first, '31-107', { place: g.bed });
  first.db.pragma('wal_checkpoint(TRUNCATE)');
  const file = join(scratch(), 'copy.baybook');
  copyFileSync(first.file, file);
  const d = new TestDepartment(openForWriting(file));
  for (let i = 0; i < 12; i++)
    d.must('record.add', {
      item: hose,
      activity: 'inspection',
      outcome: 'pass',
      on: `2026-${String(i + 1)
        .padStart(2, '0')
        .replace('12', '11')}`,
    });
  const entries = all<{ key: number; text: string; hash: string; device: string; seq: number }>(
    d.db,
    'SELECT key, text, hash, device, seq FROM entries ORDER BY key',
  );
  // Packed, so that every entry's bytes are in the file once.
  const packed = join(scratch(), 'packed.baybook');
  d.db.prepare('VACUUM INTO ?').run(packed);
  d.db.close();
  return { file: packed, entries, own: entries.at(-1)?.device ?? '' };
}

/** Work on a copy of a file with its guards taken off, as somebody with a database tool could. */
function tampered<T>(file: string, how: (db: Db) => void, then: (db: Db) => T): T {
  const copy = join(scratch(), 'tampered.baybook');
  copyFileSync(file, copy);
  const db = new Database(copy);
  try {
    for (const name of db.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger'").pluck().all())
      db.exec(`DROP TRIGGER "${name}"`);
    how(db);
    return then(db);
  } finally {
    db.close();
  }
}

describe('verifying', () => {
  it('finds a whole ledger whole, however often it was copied', () => {
    const { file, entries } = twoDevices();
    const db = new Database(file, { readonly: true });
    expect(verifyLedger(db)).toMatchObject({ ok: true, entries: entries.length, devices: headsOf(db) });
    expect(verifyTail(db)).toBeNull();
    for (const head of headsOf(db)) expect(verifyLedger(db, head).ok).toBe(true);
    db.close();
  });

  it('finds and names any one byte changed in the stored text of any entry', () => {
    const { file, entries } = twoDevices();
    const bytes = readFileSync(file);
    const random = seeded(20261125);
    const copy = join(scratch(), 'byte.baybook');
    const places: { at: number; device: string; seq: number }[] = [];
    const where = storedAt(file, bytes);
    for (const { text, device, seq } of entries) {
      // The adopted book is longer than a page: its beginning is what lies in one piece.
      const stored = Buffer.from(text, 'utf8').subarray(0, 400);
      const start = where(stored);
      for (let i = 0; i < 12; i++) places.push({ at: start + random.below(stored.length), device, seq });
    }
    // Every byte of one entry as well.
    const one = entries.at(-3);
    if (!one) throw new Error('There are no entries.');
    const start = where(Buffer.from(one.text));
    for (let i = 0; i < Buffer.byteLength(one.text); i++)
      places.push({ at: start + i, device: one.device, seq: one.seq });
    for (const { at, device, seq } of places) {
      const changed = Buffer.from(bytes);
      changed[at] = ((changed[at] ?? 0) + 1 + random.below(255)) % 256;
      writeFileSync(copy, changed);
      const db = new Database(copy, { readonly: true });
      try {
        expect(verifyLedger(db).firstBad, `byte ${at}`).toEqual({
          device,
          seq,
          what: 'Its text is not what was hashed.',
        });
      } finally {
        db.close();
      }
    }
    expect(places.length).toBeGreaterThan(500);
  });

  it('finds a text that was changed together with its hash, by the entry after it', () => {
    const { file, entries, own } = twoDevices();
    for (const seq of [1, 5, 11]) {
      const bad = tampered(
        file,
        db => rewrite(db, own, seq, text => text.replace('"pass"', '"fail"')),
        db => verifyLedger(db),
      );
      expect(bad.firstBad).toEqual({
        device: own,
        seq: seq + 1,
        what: 'It does not follow the entry before it.',
      });
    }
    const last = entries.at(-1);
    const bad = tampered(
      file,
      db => rewrite(db, own, last?.seq ?? 0, text => text.replace('"pass"', '"fail"')),
      db => verifyLedger(db),
    );
    expect(bad.firstBad).toEqual({
      device: own,
      seq: last?.seq,
      what: 'It is not the entry that was written last.',
    });
  });

  it('finds a whole chain written anew, by an anchor on paper', () => {
    const { file, own } = twoDevices();
    const anchor = anchorOf(file, own, 9);
    const forged = (db: Db) => {
      let prev: string | null = null;
      for (let seq = 5; seq <= 12; seq++)
        rewrite(db, own, seq, text => {
          const entry = JSON.parse(text.replace('"pass"', '"fail"'));
          const written = entryText(seq === 5 ? entry : { ...entry, prev });
          prev = hashOf(written);
          return written;
        });
      db.prepare('UPDATE heads SET hash = ? WHERE device = ?').run(prev, own);
    };
    expect(tampered(file, forged, db => verifyLedger(db)).ok).toBe(true);
    // Paper holds the first sixteen digits of the hash.
    const printed = { ...anchor, hash: anchor.hash.slice(0, 16) };
    for (const kept of [anchor, printed])
      expect(tampered(file, forged, db => verifyLedger(db, kept)).firstBad?.seq).toBe(anchor.seq);
    expect(tampered(file, forged, db => verifyLedger(db, anchor)).firstBad).toEqual({
      device: own,
      seq: 9,
      what: 'It is not the entry that the anchor names: its hash differs.',
    });
  });

  it('finds and names any one entry that was removed', () => {
    const { file, entries } = twoDevices();
    for (const removed of entries) {
      const bad = tampered(
        file,
        db => void db.prepare('DELETE FROM entries WHERE key = ?').run(removed.key),
        db => verifyLedger(db),
      );
      expect(bad.firstBad).toMatchObject({ device: removed.device, seq: removed.seq });
      expect(bad.firstBad?.what).toMatch(/is missing|are gone/);
    }
  });

  it('finds and names two entries that changed places', () => {
    const { file, own } = twoDevices();
    for (let seq = 1; seq < 12; seq++) {
      const bad = tampered(
        file,
        db => {
          const swapped = [seq, seq + 1].map(s => textOf(db, own, s));
          db.prepare('DELETE FROM entries WHERE device = ? AND seq IN (?, ?)').run(own, seq, seq + 1);
          swapped.forEach((text, i) => {
            const moved = entryText({ ...JSON.parse(text), seq: seq + 1 - i });
            db.prepare('INSERT INTO entries (text, hash) VALUES (?, ?)').run(moved, hashOf(moved));
          });
        },
        db => verifyLedger(db),
      );
      // The first of a chain has none before it to follow: then the one after it tells.
      expect(bad.firstBad?.device).toBe(own);
      expect([seq, seq + 1]).toContain(bad.firstBad?.seq);
      expect(bad.firstBad?.what).toMatch(/does not follow|names a head/);
    }
  });

  it('does not mind in which rows of the table the entries lie: their order is in their text', () => {
    const { file } = twoDevices();
    tampered(
      file,
      db => {
        const before = dump(db);
        const rows = all<{ text: string; hash: string }>(db, 'SELECT text, hash FROM entries ORDER BY key');
        db.exec('DELETE FROM entries');
        for (const { text, hash } of rows.reverse())
          db.prepare('INSERT INTO entries (text, hash) VALUES (?, ?)').run(text, hash);
        rebuild(db);
        expect(dump(db)).toEqual(before);
      },
      db => expect(verifyLedger(db).ok).toBe(true),
    );
  });

  it('finds a tail that was cut off, though the chain that is left is whole, by an anchor', () => {
    const { file, own } = twoDevices();
    const anchor = anchorOf(file, own, 12);
    for (const left of [1, 6, 11]) {
      const cut = (db: Db) => {
        db.prepare('DELETE FROM entries WHERE device = ? AND seq > ?').run(own, left);
        db.prepare(
          `UPDATE heads SET (seq, clock, recorded_at, hash) =
             (SELECT seq, clock, recorded_at, hash FROM entries WHERE device = :own AND seq = :left) WHERE device = :own`,
        ).run({ own, left });
      };
      expect(tampered(file, cut, db => verifyLedger(db)).ok).toBe(true);
      expect(tampered(file, cut, db => verifyLedger(db, anchor)).firstBad).toEqual({
        device: own,
        seq: left + 1,
        what: 'The anchor names entry 12 of this device; the ledger ends before it.',
      });
    }
    const gone = (db: Db) => {
      db.prepare('DELETE FROM entries WHERE device = ?').run(own);
      db.prepare('DELETE FROM heads WHERE device = ?').run(own);
    };
    expect(tampered(file, gone, db => verifyLedger(db, anchor)).firstBad).toMatchObject({
      device: own,
      seq: 1,
    });
  });

  it('finds a tail of the device that a file was copied from, by the head that the copy names', () => {
    const { file, entries, own } = twoDevices();
    const old = entries[0]?.device ?? '';
    const bad = tampered(
      file,
      db => {
        const last = entries.filter(e => e.device === old).length;
        db.prepare('DELETE FROM entries WHERE device = ? AND seq = ?').run(old, last);
        db.prepare(
          `UPDATE heads SET (seq, clock, recorded_at, hash) =
             (SELECT seq, clock, recorded_at, hash FROM entries WHERE device = :old AND seq = :left) WHERE device = :old`,
        ).run({ old, left: last - 1 });
      },
      db => verifyLedger(db),
    );
    expect(bad.firstBad).toMatchObject({ device: own, seq: 1 });
  });

  it('finds clocks that do not rise and times that fall, though every hash fits', () => {
    for (const [field, value, what] of [
      ['clock', 1, 'Its clock does not rise.'],
      ['recordedAt', 5, 'Its time is before the entry before it.'],
    ] as const) {
      const { file, own } = twoDevices();
      const bad = tampered(
        file,
        db => {
          rewrite(db, own, 12, text => entryText({ ...JSON.parse(text), [field]: value }));
          db.prepare(
            'UPDATE heads SET hash = (SELECT hash FROM entries WHERE device = :own AND seq = 12) WHERE device = :own',
          ).run({ own });
        },
        db => verifyLedger(db),
      );
      expect(bad.firstBad).toEqual({ device: own, seq: 12, what });
    }
  });

  it('finds a text that says the same in other bytes', () => {
    const { file, own } = twoDevices();
    const bad = tampered(
      file,
      db => rewrite(db, own, 7, text => text.replace('{', '{ ')),
      db => verifyLedger(db),
    );
    expect(bad.firstBad).toEqual({ device: own, seq: 7, what: 'Its text is not in canonical form.' });
  });

  it('looks at the last entries at once when a file is opened', () => {
    const { file, own } = twoDevices();
    expect(
      tampered(
        file,
        db => db.prepare("UPDATE entries SET hash = 'x' WHERE device = ? AND seq = 12").run(own),
        db => verifyTail(db),
      ),
    ).toMatchObject({ device: own, seq: 12 });
    expect(
      tampered(
        file,
        db => db.prepare('DELETE FROM entries WHERE device = ? AND seq = 12').run(own),
        db => verifyTail(db),
      ),
    ).toMatchObject({ device: own, seq: 12 });
  });

  it('tells how far it has come and stops when asked to', () => {
    const { file, entries } = twoDevices();
    const db = new Database(file, { readonly: true });
    const told: number[] = [];
    verifyLedger(db, undefined, (done, total) => {
      expect(total).toBe(entries.length);
      told.push(done);
      return 'go on';
    });
    expect(told.at(-1)).toBe(entries.length);
    expect(() => verifyLedger(db, undefined, () => 'stop')).toThrow('canceled');
    db.close();
  });
});

/** Where a text lies in the file: not in what a page left behind when its rows moved to another. */
function storedAt(file: string, bytes: Buffer): (text: Buffer) => number {
  const db = new Database(file, { readonly: true });
  const leaves = db
    .prepare("SELECT pgoffset, pgsize FROM dbstat WHERE name = 'entries' AND pagetype = 'leaf'")
    .all() as { pgoffset: number; pgsize: number }[];
  db.close();
  return text => {
    for (const { pgoffset, pgsize } of leaves) {
      const at = bytes.subarray(pgoffset, pgoffset + pgsize).indexOf(text);
      if (at >= 0) return pgoffset + at;
    }
    throw new Error('The text is not in one piece in the file.');
  };
}

function textOf(db: Db, device: string, seq: number): string {
  return String(db.prepare('SELECT text FROM entries WHERE device = ? AND seq = ?').pluck().get(device, seq));
}

/** Change an entry's text and set its hash right again. */
function rewrite(db: Db, device: string, seq: number, how: (text: string) => string): void {
  const text = how(textOf(db, device, seq));
  db.prepare('UPDATE entries SET text = ?, hash = ? WHERE device = ? AND seq = ?').run(
    text,
    hashOf(text),
    device,
    seq,
  );
}

function anchorOf(file: string, device: string, seq: number): LedgerHead {
  const db = new Database(file, { readonly: true });
  const hash = String(
    db.prepare('SELECT hash FROM entries WHERE device = ? AND seq = ?').pluck().get(device, seq),
  );
  db.close();
  return { device, seq, hash };
}
