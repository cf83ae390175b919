/** Writing: one durable deed, and the import of five thousand rows. */
import { closeSync, copyFileSync, fsyncSync, openSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { act, prepare } from '../../db/store/act.ts';
import { openForWriting, settings } from '../../db/store/open.ts';
import { all, type Db } from '../../db/store/statements.ts';
import { sheet } from '../db/kill/jobs.ts';
import { adminOf } from '../db/kit/opening.ts';
import { seeded } from '../db/kit/seeded.ts';
import { clock } from './departments.ts';
import type { Measured } from './measure.ts';
import { rowsBetween, writeBare } from './rows.ts';
import { median } from './timing.ts';

export const ROWS = 5000;

/** One record of one thing, on the disk when it returns; the bare side beside it, turn by turn. */
export function oneDeed(file: string, deeds: number): Measured {
  const [oursFile, bareFile] = [`${file}.ours`, `${file}.bare`];
  copy(file, oursFile);
  const ours = openForWriting(oursFile);
  const by = adminOf(ours);
  const hoses = all<{ id: string; key: number }>(
    ours,
    "SELECT t.id, i.key FROM items i JOIN things t ON t.key = i.key WHERE i.family = 'hose'",
  );
  copy(file, bareFile);
  const bare = new Database(bareFile);
  settings(bare);
  const random = seeded(deeds);
  const took: { ours: number[]; bare: number[] } = { ours: [], bare: [] };
  for (let n = -20; n < deeds; n++) {
    const { id, key } = random.pick(hoses);
    const body = {
      item: id,
      activity: 'service test',
      outcome: 'pass',
      readings: { testPressure_psi: 300, held_s: 300 },
      on: '2026-11-25',
    };
    const began = performance.now();
    const answer = act(ours, clock, { by, deeds: [{ action: 'record.add', body }] });
    const oursTook = performance.now() - began;
    if (!answer.ok) throw new Error(answer.error.message);
    const write = sameRows(ours, bare, key);
    const bareBegan = performance.now();
    write();
    const bareTook = performance.now() - bareBegan;
    if (n < 0) continue;
    took.ours.push(oursTook);
    took.bare.push(bareTook);
  }
  ours.close();
  bare.close();
  for (const made of [oursFile, bareFile]) remove(made);
  return {
    name: 'One durable deed (a record)',
    unit: 'ms',
    ours: median(took.ours),
    bare: median(took.bare),
    bareIs:
      'one transaction, synchronous=FULL: the same rows of entries, heads, facts, items and due, given as values; nothing hashed, checked or derived',
    aim: { ratio: 2.5 },
  };
}

const BARE_DEED = {
  entry: 'INSERT INTO entries (text, hash) VALUES (?, ?)',
  head: `INSERT INTO heads (device, seq, clock, recorded_at, hash) VALUES (?, ?, ?, ?, ?)
    ON CONFLICT (device) DO UPDATE SET seq = excluded.seq, clock = excluded.clock,
      recorded_at = excluded.recorded_at, hash = excluded.hash`,
  fact: `INSERT INTO facts (id, entry, batch, n, thing, kind, effective, clock, device, seq, recorded_at, "values")
    VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  item: `INSERT OR REPLACE INTO items (key, family, number, number_sort, serial, what, attributes, place, place_key,
      assignment, condition, condition_since, spec) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  undue: 'DELETE FROM due WHERE item = ?',
  due: `INSERT INTO due (item, family, number_sort, place_key, requirement, basis, last_on, due_on, warn_on,
      from_day, to_day, late) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
};

/** The rows that the last deed wrote, as values, and a function that writes them bare. */
function sameRows(ours: Db, bare: Db, item: number): () => void {
  const read = (sql: string, ...values: unknown[]) =>
    ours
      .prepare(sql)
      .raw()
      .all(...values) as unknown[][];
  const [entry] = read('SELECT text, hash FROM entries ORDER BY key DESC LIMIT 1');
  const [head] = read('SELECT device, seq, clock, recorded_at, hash FROM heads ORDER BY clock DESC LIMIT 1');
  const [fact] = read(
    `SELECT id, entry, batch, n, thing, kind, effective, clock, device, seq, recorded_at, "values"
     FROM facts ORDER BY key DESC LIMIT 1`,
  );
  const [row] = read(
    `SELECT key, family, number, number_sort, serial, what, attributes, place, place_key, assignment, condition,
       condition_since, spec FROM items WHERE key = ?`,
    item,
  );
  const due = read(
    `SELECT item, family, number_sort, place_key, requirement, basis, last_on, due_on, warn_on, from_day, to_day, late
     FROM due WHERE item = ?`,
    item,
  );
  if (!entry || !head || !fact || !row) throw new Error('The deed wrote nothing.');
  const s = statementsOf(bare);
  const write = bare.transaction(() => {
    s.entry.run(...entry);
    s.head.run(...head);
    s.fact.run(...fact);
    s.undue.run(item);
    s.item.run(...row);
    for (const values of due) s.due.run(...values);
  });
  return () => write.immediate();
}

type Statements = Record<keyof typeof BARE_DEED, Database.Statement>;
const prepared = new WeakMap<Db, Statements>();

function statementsOf(db: Db): Statements {
  let known = prepared.get(db);
  if (!known) {
    known = Object.fromEntries(
      Object.entries(BARE_DEED).map(([k, sql]) => [k, db.prepare(sql)]),
    ) as Statements;
    prepared.set(db, known);
  }
  return known;
}

/** A sheet read, planned, checked and written as one act; the bare side writes the rows it came to. */
export async function importSheet(file: string, runs: number): Promise<Measured> {
  const bytes = Buffer.from(sheet(ROWS)).toString('base64');
  const deed = {
    action: 'import.commit',
    body: { name: 'hose.csv', bytes, family: 'hose', accept: { places: 'all', permits: [] } },
  };
  const took: { ours: number[]; bare: number[] } = { ours: [], bare: [] };
  for (let run = 0; run < runs; run++) {
    const [oursFile, bareFile] = [`${file}.ours`, `${file}.bare`];
    copy(file, oursFile);
    const ours = openForWriting(oursFile);
    const by = adminOf(ours);
    const began = performance.now();
    const ready = await prepare({ by, deeds: [deed] });
    const answer = ready.ok ? act(ours, clock, ready.value) : ready;
    took.ours.push(performance.now() - began);
    if (!answer.ok) throw new Error(answer.error.message);
    if (answer.value.entries.length < ROWS) throw new Error('The sheet was not taken.');
    const rows = rowsBetween(ours, file);
    ours.close();
    copy(file, bareFile);
    const bare = new Database(bareFile);
    settings(bare);
    const write = writeBare(bare, rows);
    const bareBegan = performance.now();
    write();
    took.bare.push(performance.now() - bareBegan);
    bare.close();
    for (const made of [oursFile, bareFile]) remove(made);
  }
  return {
    name: `Import of ${ROWS.toLocaleString('en-US')} rows`,
    unit: 'ms',
    ours: median(took.ours),
    bare: median(took.bare),
    bareIs:
      'one transaction with every row the import came to (two entries and more a row of the sheet), given as values; no sheet read, nothing planned, hashed, checked or derived',
  };
}

/** A copy that is on the disk already: else the first commits would wait for all of it to be written. */
function copy(from: string, to: string): void {
  remove(to);
  copyFileSync(from, to);
  const written = openSync(to, 'r+');
  fsyncSync(written);
  closeSync(written);
}

function remove(file: string): void {
  for (const ending of ['', '-wal', '-shm']) rmSync(`${file}${ending}`, { force: true });
}
