import { copyFileSync, existsSync, readdirSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { takeIn } from '../../db/ledger/exchange.ts';
import { verifyLedger } from '../../db/ledger/verify.ts';
import { assertGuarded } from '../../db/store/guards.ts';
import {
  APPLICATION_ID,
  type Opening,
  openForReading,
  openForWriting,
  settings,
} from '../../db/store/open.ts';
import { CannotOpen } from '../../db/store/refusal.ts';
import { all, type Db, one } from '../../db/store/statements.ts';
import { aHose, layGround, newDepartment, scratch, TestDepartment } from './kit/department.ts';
import { dump } from './kit/dump.ts';
import { migrationsKnown, olderFile } from './kit/older.ts';

function problemOf(file: string, opening?: Opening) {
  try {
    openForWriting(file, opening).close();
  } catch (error) {
    if (error instanceof CannotOpen) return error.problem;
    throw error;
  }
  throw new Error(`${file} was opened.`);
}

describe('a file that cannot be opened', () => {
  it('is refused with what to do where there is none, or no folder', () => {
    const folder = scratch();
    expect(problemOf(join(folder, 'none.baybook')).code).toBe('no file');
    expect(problemOf(join(folder, 'deep', 'none.baybook'), { create: true }).code).toBe('no folder');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('is refused in a network folder, by the type of its file system', () => {
    const file = join(scratch(), 'larkspur.baybook');
    // linux/magic.h: NFS_SUPER_MAGIC, SMB2 ("0xFE534D42", as a signed number too), 9P (WSL's network drives).
    for (const [type, name] of [
      [0x6969, 'NFS'],
      [0xfe534d42, 'SMB 2'],
      [0xfe534d42 | 0, 'SMB 2'],
      [0x01021997, '9P'],
    ] as const) {
      const problem = problemOf(file, { create: true, fileSystemType: () => type });
      expect(problem).toMatchObject({ code: 'network folder' });
      expect(problem.message).toContain(name);
    }
    expect(existsSync(file)).toBe(false);
    // EXT4_SUPER_MAGIC and TMPFS_MAGIC are disks of this computer.
    for (const type of [0xef53, 0x01021994])
      openForWriting(file, { create: true, fileSystemType: () => type }).close();
  });

  it('is refused by a UNC path before anything touches the network', () => {
    const asked: string[] = [];
    const fileSystemType = (folder: string) => asked.push(folder);
    const path = '\\\\stations\\shared\\larkspur.baybook';
    expect(problemOf(path, { create: true, fileSystemType }).code).toBe('network folder');
    expect(asked).toEqual([]);
  });

  it('is refused where it is another program’s database, or no database at all', () => {
    const folder = scratch();
    const other = join(folder, 'other.db');
    const db = new Database(other);
    db.exec('CREATE TABLE t (a)');
    db.close();
    expect(problemOf(other).code).toBe('not ours');
    const sheet = join(folder, 'hose.csv');
    writeFileSync(sheet, 'Number,Size\n31-107,1.75\n'.repeat(100));
    expect(problemOf(sheet).code).toBe('not ours');
  });

  it('is refused by name where a newer program wrote it, and left as it was', () => {
    const d = newDepartment();
    d.db.pragma(`user_version = ${migrationsKnown() + 1}`);
    const before = d.texts();
    const problem = problemOf(d.file);
    expect(problem.code).toBe('newer file');
    expect(problem.message).toContain('larkspur.baybook');
    expect(problem.message).toContain(`file format ${migrationsKnown() + 1}`);
    expect(d.texts()).toEqual(before);
    expect(readdirSync(join(d.file, '..')).filter(n => n.includes('before-format'))).toEqual([]);
  });
});

describe('a file whose making was cut off', () => {
  it('is made again where nothing was written yet', () => {
    const folder = scratch();
    const empty = join(folder, 'empty.baybook');
    writeFileSync(empty, '');
    openForWriting(empty).close();
    // The write-ahead log was set, the file not yet marked as ours.
    const unmarked = join(folder, 'unmarked.baybook');
    const begun = new Database(unmarked);
    settings(begun);
    begun.close();
    const db = openForWriting(unmarked);
    expect(db.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
    db.close();
  });

  it('is finished where the tables were made and the guards were not', () => {
    const d = newDepartment();
    const file = join(scratch(), 'begun.baybook');
    d.db.prepare('VACUUM INTO ?').run(file);
    const begun = new Database(file);
    begun.exec('DROP TRIGGER entries_no_update');
    begun.pragma('user_version = 0');
    begun.close();
    const db = openForWriting(file);
    assertGuarded(db);
    expect(db.pragma('user_version', { simple: true })).toBe(migrationsKnown());
    db.close();
  });

  it('whose guards somebody went round is opened with them put back, and the check names what was changed', () => {
    const d = newDepartment();
    layGround(d);
    const file = join(scratch(), 'unguarded.baybook');
    d.db.prepare('VACUUM INTO ?').run(file);
    const opened = new Database(file);
    opened.exec('DROP TRIGGER entries_no_update');
    opened.exec("UPDATE entries SET text = replace(text, 'Station 31', 'Station 41') WHERE key = 3");
    opened.close();
    const db = openForWriting(file);
    assertGuarded(db);
    expect(verifyLedger(db).firstBad).toMatchObject({ seq: 3, what: 'Its text is not what was hashed.' });
    db.close();
  });
});

describe('an older file', () => {
  const formats = Array.from({ length: migrationsKnown() }, (_, i) => i + 1);

  it.each(formats)(
    'of format %i is brought up to date with every fact and cache, and its entries untouched',
    format => {
      const d = aDepartmentWithHistory();
      const folder = scratch();
      const file = olderFile(folder, 'older.baybook', format, d.file);
      const db = openForWriting(file);
      try {
        expect(dump(db)).toEqual(dump(d.db));
        expect(all(db, 'SELECT text, hash FROM entries ORDER BY key')).toEqual(d.texts());
        expect(verifyLedger(db)).toMatchObject({ ok: true, entries: d.count('entries') });
        expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
        expect(db.pragma('user_version', { simple: true })).toBe(migrationsKnown());
        expect(() => db.exec('DELETE FROM entries')).toThrow('The ledger is only added to');
      } finally {
        db.close();
      }
      const backup = `${file}.before-format-${format + 1}`;
      expect(existsSync(backup)).toBe(format < migrationsKnown());
      expect(existsSync(`${backup}.part`)).toBe(false);
      if (!existsSync(backup)) return;
      const copy = new Database(backup, { readonly: true });
      expect(copy.pragma('user_version', { simple: true })).toBe(format);
      expect(all(copy, 'SELECT text, hash FROM entries ORDER BY key')).toEqual(d.texts());
      copy.close();
    },
  );

  it('is not migrated on the strength of a backup that was cut off', () => {
    const d = aDepartmentWithHistory();
    const file = olderFile(scratch(), 'older.baybook', 1, d.file);
    writeFileSync(`${file}.before-format-2.part`, 'cut off');
    openForWriting(file).close();
    const copy = new Database(`${file}.before-format-2`, { readonly: true });
    expect(one(copy, 'SELECT count(*) AS n FROM entries')).toEqual({ n: d.count('entries') });
    copy.close();
  });

  it('keeps the backup of the first try where the migration itself was cut off', () => {
    const d = aDepartmentWithHistory();
    const file = olderFile(scratch(), 'older.baybook', 1, d.file);
    openForWriting(file).close();
    const half = new Database(file);
    half.pragma('user_version = 1');
    half.close();
    openForWriting(file).close();
    const copy = new Database(`${file}.before-format-2`, { readonly: true });
    expect(one(copy, "SELECT count(*) AS n FROM sqlite_master WHERE name = 'words'")).toEqual({ n: 0 });
    copy.close();
  });

  it('whose caches have another shape has them made again from the ledger', () => {
    const d = aDepartmentWithHistory();
    const expected = dump(d.db);
    d.db.exec(
      "DELETE FROM due; UPDATE items SET what = 'x'; UPDATE meta SET value = 'old' WHERE name = 'cacheShape'",
    );
    const db = openForWriting(d.file);
    expect(dump(db)).toEqual(expected);
    db.close();
  });
});

describe('a file that was copied', () => {
  it('goes on as another device, whose first entry names the head it was copied at', () => {
    const d = aDepartmentWithHistory();
    const head = d.texts().at(-1)?.hash;
    const copy = copied(d.db, d.file);
    try {
      expect(deviceOf(copy.db)).not.toBe(deviceOf(d.db));
      copy.must('station.add', { name: 'Station 40' });
      copy.must('station.add', { name: 'Station 41' });
      d.must('station.add', { name: 'Station 50' });
      const written = copy
        .texts()
        .slice(-2)
        .map(t => JSON.parse(t.text) as { seq: number; prev: string });
      expect(written.map(e => e.seq)).toEqual([1, 2]);
      expect(written[0]?.prev).toBe(head);
      expect(verifyLedger(copy.db)).toMatchObject({ ok: true });
      // Neither file's entries bear a name of the other's, so each can be taken in by the other.
      takeIn(
        d.db,
        copy.texts().map(t => t.text),
        d.clock.now(),
      );
      expect(verifyLedger(d.db)).toMatchObject({ ok: true, entries: d.count('entries') });
      expect(d.count('entries')).toBe(copy.count('entries') + 1);
    } finally {
      copy.db.close();
    }
  });

  it('stays the same device where it is opened again in its place', () => {
    const d = aDepartmentWithHistory();
    const again = openForWriting(d.file);
    expect(deviceOf(again)).toBe(deviceOf(d.db));
    again.close();
  });

  it('and was never written in can go on: nothing bears its name yet', () => {
    const d = aDepartmentWithHistory();
    const once = copied(d.db, d.file);
    const twice = copied(once.db, once.file);
    expect(deviceOf(twice.db)).toBe(deviceOf(once.db));
    twice.must('station.add', { name: 'Station 40' });
    const first = JSON.parse(twice.texts().at(-1)?.text ?? '{}') as { prev: string };
    expect(first.prev).toBe(d.texts().at(-1)?.hash);
    once.db.close();
    twice.db.close();
  });
});

describe('a file cut short by a full disk or a bad copy', () => {
  it('is not taken for a whole one', () => {
    const d = aDepartmentWithHistory();
    const folder = scratch();
    const file = join(folder, 'short.baybook');
    d.db.prepare('VACUUM INTO ?').run(file);
    truncateSync(file, 40_960);
    expect(() => {
      const db = openForWriting(file);
      try {
        const found = verifyLedger(db);
        if (!found.ok) throw new Error(found.firstBad?.what);
      } finally {
        db.close();
      }
    }).toThrow();
  });
});

function aDepartmentWithHistory() {
  const d = newDepartment();
  const g = layGround(d);
  const hose = aHose(d, '31-107', { place: g.bed, assignment: 'first line' });
  aHose(d, '31-108', { place: g.rack });
  const record = d.must('record.add', {
    item: hose,
    activity: 'service test',
    outcome: 'fail',
    on: '2026-06-14',
  });
  d.must('item.tagOut', { item: hose, reason: 'Burst at 250 psi', on: '2026-06-14' });
  d.must('void', { target: record, why: 'Another hose' });
  return d;
}

function copied(db: Db, from: string): TestDepartment & { file: string } {
  db.pragma('wal_checkpoint(TRUNCATE)');
  const file = join(scratch(), 'copy.baybook');
  copyFileSync(from, file);
  return Object.assign(new TestDepartment(openForWriting(file)), { file });
}

function deviceOf(db: Db): string | undefined {
  return one<{ value: string }>(db, "SELECT value FROM meta WHERE name = 'device'")?.value;
}

describe('a connection for reading', () => {
  it('sees what the writer has committed and can write nothing', () => {
    const d = newDepartment();
    const reading = openForReading(d.file);
    d.must('station.add', { name: 'Station 31' });
    expect(one(reading, 'SELECT name FROM places')).toEqual({ name: 'Station 31' });
    for (const table of ['places', 'meta', 'pin_verifiers', 'due'])
      expect(() => reading.exec(`DELETE FROM ${table}`)).toThrow(/readonly/);
    reading.close();
  });
});
