/** Backups hold what the ledger holds, are refused where damaged, and never restored over a file. Our own design, no source. */
import { copyFileSync, existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { LedgerHead } from '../../db/api.ts';
import { ANCHOR_ENDING, anchorText } from '../../db/files/anchor.ts';
import { examineCopy, relationTo, writeCopy } from '../../db/files/backup.ts';
import { headsOf, verifyLedger } from '../../db/ledger/verify.ts';
import { checkBackup } from '../../db/store/checking.ts';
import { openDepartment } from '../../db/store/client.ts';
import { openForWriting } from '../../db/store/open.ts';
import { all, type Db, one } from '../../db/store/statements.ts';
import { readAnchor } from '../../domain/anchors.ts';
import { restoreBeside } from '../../electron/backups.ts';
import { newDepartment, scratch, TestDepartment } from './kit/department.ts';
import { openingDeed } from './kit/opening.ts';

const FORMAT = 99;

function withStations(names: string[] = ['Station 31', 'Station 32']) {
  const folder = scratch();
  const d = newDepartment({ folder });
  for (const name of names) d.must('station.add', { name });
  return { d, folder, copy: join(folder, 'copy.baybook') };
}

/** Opens a file as the store does; what is opened there is another device. */
function opened(file: string): TestDepartment {
  const db = openForWriting(file);
  onTestFinished(() => void db.close());
  return new TestDepartment(db);
}

function refusal(path: string): { code: string; message: string } {
  try {
    examineCopy(path, FORMAT);
  } catch (error) {
    if (error instanceof Error && 'problem' in error)
      return error.problem as { code: string; message: string };
    throw error;
  }
  throw new Error('It was not refused.');
}

/** Go round the guards of a copy, as somebody with another program could. */
function tamper(path: string, deed: (db: Db) => void): void {
  const db = new Database(path);
  for (const { name } of all<{ name: string }>(db, "SELECT name FROM sqlite_master WHERE type = 'trigger'"))
    db.exec(`DROP TRIGGER "${name}"`);
  deed(db);
  db.close();
}

function putAnchor(path: string): void {
  writeFileSync(path + ANCHOR_ENDING, anchorText(basename(path), examineCopy(path, FORMAT)));
}

describe('a backup', () => {
  it('holds every entry byte for byte, the PINs, and passes the check of the ledger', () => {
    const { d, copy } = withStations();
    d.act([{ action: 'member.pin', body: { member: d.admin }, secret: '481516' }]);
    writeCopy(d.db, copy);
    const db = new Database(copy, { readonly: true });
    onTestFinished(() => void db.close());
    expect(verifyLedger(db)).toEqual(verifyLedger(d.db));
    expect(all(db, 'SELECT text, hash FROM entries ORDER BY key')).toEqual(d.texts());
    expect(one(db, 'SELECT count(*) AS n FROM pin_verifiers')).toEqual({ n: 1 });
    expect(examineCopy(copy, FORMAT)).toMatchObject({
      department: 'Larkspur Valley Fire District',
      entries: d.count('entries'),
      heads: headsOf(d.db),
      anchored: false,
    });
  });

  it('is never written over a file', () => {
    const { d, copy } = withStations();
    writeFileSync(copy, 'mine');
    expect(() => writeCopy(d.db, copy)).toThrow('already');
    expect(readFileSync(copy, 'utf8')).toBe('mine');
  });

  it('made while writes go on is a state between two acts, and the writing goes on', {
    timeout: 60_000,
  }, async () => {
    const folder = scratch();
    const department = await openDepartment(join(folder, 'd.baybook'), { create: true });
    onTestFinished(() => department.close());
    const done = await department.act({ by: null, deeds: [openingDeed('empty')] });
    if (!done.ok) throw new Error(done.error.message);
    const by = `${done.value.entries[0]}.m`;
    const pairs = Array.from({ length: 60 }, (_, n) =>
      department.act({
        by,
        deeds: [`A ${n}`, `B ${n}`].map(name => ({ action: 'station.add', body: { name } })),
      }),
    );
    await pairs[20];
    const copy = join(folder, 'copy.baybook');
    const copied = department.copyTo(copy);
    const answers = await Promise.all(pairs);
    expect(await copied).toMatchObject({ ok: true });
    expect(answers.every(a => a.ok)).toBe(true);
    const checked = await checkBackup({ copy, open: department.file });
    expect(checked).toMatchObject({ ok: true, value: { relation: { onlyInBackup: 0 } } });
    const db = new Database(copy, { readonly: true });
    onTestFinished(() => void db.close());
    const batches = all<{ n: number }>(
      db,
      "SELECT count(*) AS n FROM entries WHERE json_extract(text, '$.action') = 'station.add' GROUP BY json_extract(text, '$.batch')",
    );
    expect(batches.length).toBeGreaterThanOrEqual(21);
    // An act brings two stations: none is in the copy by half.
    expect(new Set(batches.map(b => b.n))).toEqual(new Set([2]));
  });
});

describe('a damaged backup is refused, with what is wrong', () => {
  it('where it is no file, no database, or of another program', () => {
    const { copy } = withStations();
    expect(refusal(copy).code).toBe('no file');
    writeFileSync(copy, 'x'.repeat(8192));
    expect(refusal(copy).code).toBe('damaged backup');
    const other = join(copy, '..', 'other.baybook');
    new Database(other).exec('CREATE TABLE t (a)').close();
    expect(refusal(other).code).toBe('not ours');
  });

  it('where it is cut off in the middle', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    truncateSync(copy, 40_960);
    expect(refusal(copy)).toMatchObject({ code: 'damaged backup' });
  });

  it('where bytes of it were lost on the disk', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    const bytes = readFileSync(copy);
    const at = bytes.indexOf('"name":"Station 32"');
    expect(at).toBeGreaterThan(0);
    bytes.fill(0, at - 600, at + 600);
    writeFileSync(copy, bytes);
    expect(refusal(copy)).toMatchObject({ code: 'damaged backup' });
  });

  it('where an entry was changed', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    tamper(copy, db => db.exec(`UPDATE entries SET text = replace(text, 'Station 32', 'Station 33')`));
    expect(refusal(copy)).toMatchObject({
      code: 'damaged backup',
      message: expect.stringMatching(/Entry \d+ of device \w+ in copy\.baybook is not what was written/),
    });
  });

  it('where its end was cut off: its own chain cannot tell, the anchor beside it can', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    const whole = examineCopy(copy, FORMAT);
    putAnchor(copy);
    expect(examineCopy(copy, FORMAT)).toEqual({ ...whole, anchored: true });
    const anchor = readFileSync(copy + ANCHOR_ENDING, 'utf8');
    expect(anchor).toContain(`entries: ${whole.entries}`);
    tamper(copy, db => {
      const last = one<{ key: number }>(db, 'SELECT max(key) AS key FROM entries');
      db.prepare('DELETE FROM entries WHERE key = ?').run(last?.key);
      db.exec(
        `UPDATE heads SET seq = seq - 1, hash = (SELECT e.hash FROM entries e WHERE e.device = heads.device AND e.seq = heads.seq - 1)`,
      );
    });
    expect(refusal(copy).message).toContain('the ledger ends before it');
    writeFileSync(copy + ANCHOR_ENDING, 'torn');
    expect(refusal(copy).message).toContain('cannot be read');
  });

  it('where a newer Baybook wrote it', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    try {
      examineCopy(copy, 0);
      throw new Error('It was not refused.');
    } catch (error) {
      expect(error).toMatchObject({ problem: { code: 'newer file' } });
    }
  });
});

describe('what a backup is to the open file', () => {
  it('the same, until something is written', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    expect(relationTo(d.db, copy)).toEqual({ is: 'same', onlyHere: 0, onlyInBackup: 0 });
  });

  it('older: the open file has gone on', () => {
    const { d, copy } = withStations();
    writeCopy(d.db, copy);
    d.must('station.add', { name: 'Station 33' });
    d.must('station.add', { name: 'Station 34' });
    expect(relationTo(d.db, copy)).toEqual({ is: 'older', onlyHere: 2, onlyInBackup: 0 });
  });

  it('newer: the open file is itself an earlier copy', () => {
    const { d, folder, copy } = withStations();
    const early = join(folder, 'early.baybook');
    writeCopy(d.db, early);
    d.must('station.add', { name: 'Station 33' });
    writeCopy(d.db, copy);
    expect(relationTo(opened(early).db, copy)).toEqual({ is: 'newer', onlyHere: 0, onlyInBackup: 1 });
  });

  it('diverged: both have gone on, on devices of their own', () => {
    const { d, folder, copy } = withStations();
    const early = join(folder, 'early.baybook');
    writeCopy(d.db, early);
    const other = opened(early);
    other.must('station.add', { name: 'Station 40' });
    d.must('station.add', { name: 'Station 33' });
    d.must('station.add', { name: 'Station 34' });
    writeCopy(d.db, copy);
    expect(relationTo(other.db, copy)).toEqual({ is: 'diverged', onlyHere: 1, onlyInBackup: 2 });
  });

  it('diverged too where one device’s chain was forked: the last entry both have is found', () => {
    const { d, folder, copy } = withStations();
    const forked = join(folder, 'forked.baybook');
    writeCopy(d.db, copy);
    copyFileSync(copy, forked);
    d.must('station.add', { name: 'Station 33' });
    // A file put back over another by hand can go on as the same device.
    const db = new Database(forked);
    db.pragma('recursive_triggers = ON');
    onTestFinished(() => void db.close());
    const fork = new TestDepartment(db);
    fork.must('station.add', { name: 'Station 50' });
    fork.must('station.add', { name: 'Station 51' });
    expect(relationTo(d.db, forked)).toEqual({ is: 'diverged', onlyHere: 1, onlyInBackup: 2 });
  });

  it('unrelated: another department', () => {
    const { d } = withStations();
    const other = withStations();
    writeCopy(other.d.db, other.copy);
    expect(relationTo(d.db, other.copy).is).toBe('unrelated');
  });
});

describe('a restored backup', () => {
  it('lies beside the others under a name of its own and goes on as another device from the head it was copied at', () => {
    const { d, folder, copy } = withStations();
    writeCopy(d.db, copy);
    const [head] = headsOf(d.db) as [LedgerHead];
    expect(restoreBeside(folder, copy)).toBe('copy restored.baybook');
    expect(restoreBeside(folder, copy)).toBe('copy restored (2).baybook');
    const restored = opened(join(folder, 'copy restored.baybook'));
    const entry = restored.must('station.add', { name: 'Station 40' });
    expect(entry.startsWith(head.device)).toBe(false);
    expect(JSON.parse(restored.texts().at(-1)?.text ?? '{}')).toMatchObject({ seq: 1, prev: head.hash });
    expect(verifyLedger(restored.db, head)).toMatchObject({ ok: true, entries: d.count('entries') + 1 });
    expect(examineCopy(copy, FORMAT).entries).toBe(d.count('entries'));
    expect(existsSync(join(folder, 'larkspur.baybook'))).toBe(true);
    expect(readdirSync(folder).filter(n => n.endsWith('.part'))).toEqual([]);
  });
});

describe('a head on paper', () => {
  it('is read as typed, and not where it is torn', () => {
    const hash = 'a'.repeat(64);
    expect(readAnchor(`head: k3f9ab12 14 ${hash}`)).toEqual({ device: 'k3f9ab12', seq: 14, hash });
    expect(readAnchor(` K3F9AB12   14 ${hash.toUpperCase()} `)).toEqual({
      device: 'k3f9ab12',
      seq: 14,
      hash,
    });
    // Paper holds the first sixteen digits; fewer name no entry.
    expect(readAnchor(`k3f9ab12 14 ${hash.slice(0, 16)}`)?.hash).toBe(hash.slice(0, 16));
    expect(readAnchor(`k3f9ab12 14 ${hash.slice(0, 15)}`)).toBeNull();
    expect(readAnchor(`k3f9ab12 14 ${hash}a`)).toBeNull();
    expect(readAnchor('')).toBeNull();
  });
});

describe('a backup that was not closed', () => {
  it('is not restored: what stands in its journal would not come along', () => {
    const folder = scratch();
    const backup = join(folder, 'District.baybook');
    writeFileSync(backup, 'main file');
    writeFileSync(`${backup}-wal`, 'more');
    expect(() => restoreBeside(folder, backup)).toThrow(/not all of it is in this one file/);
    expect(readdirSync(folder).sort()).toEqual(['District.baybook', 'District.baybook-wal']);
  });
});
