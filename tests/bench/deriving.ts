/** Deriving what is shown from the facts, and making every cache again from the ledger. */
import { copyFileSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { readBook } from '../../db/caches/book.ts';
import { asItemFacts } from '../../db/caches/facts.ts';
import { factsByThing } from '../../db/caches/many.ts';
import { rebuild } from '../../db/caches/rebuild.ts';
import { openForReading, openForWriting, settings } from '../../db/store/open.ts';
import { one } from '../../db/store/statements.ts';
import { derive } from '../../domain/derive/thing.ts';
import type { Measured } from './measure.ts';
import { rowsBetween, writeBare } from './rows.ts';
import { median, timed } from './timing.ts';

/** `derive` over every thing, per thousand entries; beside the same number of dates by arithmetic alone. */
export async function deriving(file: string, runs: number): Promise<Measured> {
  const db = openForReading(file);
  const book = readBook(db);
  const things = factsByThing(db, 'item').map(t => asItemFacts(t.facts));
  const entries = one<{ n: number }>(db, 'SELECT count(*) AS n FROM entries')?.n ?? 1;
  db.close();
  const ours = await timed(runs, () => {
    let rows = 0;
    for (const facts of things) rows += derive(facts, book)?.due.length ?? 0;
    return rows;
  });
  // The dates as plain numbers, so that the loop has nothing to do but count.
  const dates = things.flatMap(facts => {
    const rows = derive(facts, book)?.due ?? [];
    const last = facts.findLast(f => f.kind === 'record')?.effective ?? '2023-01-01';
    const [year, month, day] = `${last}-01-01`.split('-').map(Number);
    return rows.map(() => [year ?? 0, month ?? 1, day ?? 1] as const);
  });
  let sum = 0;
  const bare = await timed(runs, () => {
    for (const [year, month, day] of dates) sum += twelveMonthsOn(year, month, day);
  });
  if (!Number.isFinite(sum)) throw new Error('The loop counted nothing.');
  return {
    name: 'Deriving, per 1,000 entries',
    unit: 'ms',
    ours: (median(ours) / entries) * 1000,
    bare: (median(bare) / entries) * 1000,
    bareIs:
      'a loop over as many dates, already read as whole numbers: the day twelve months on, by integer arithmetic; no facts ordered, no rule looked at',
  };
}

/** The day number of the same date a year on, clamped to the month's end. */
function twelveMonthsOn(year: number, month: number, day: number): number {
  const y = year + 1;
  const leap = y % 4 === 0 && (y % 100 !== 0 || y % 400 === 0);
  const length = month === 2 ? (leap ? 29 : 28) : 30 + ((month + (month >> 3)) & 1);
  const inMonth = Math.min(day, length);
  const shifted = month > 2 ? y : y - 1;
  const m = month > 2 ? month - 3 : month + 9;
  const dayOfYear = Math.floor((153 * m + 2) / 5) + inMonth - 1;
  return (
    shifted * 365 +
    Math.floor(shifted / 4) -
    Math.floor(shifted / 100) +
    Math.floor(shifted / 400) +
    dayOfYear -
    719_468
  );
}

/** `rebuild`, per thousand entries; beside bare SQL that reads every entry's text and writes the same rows. */
export function rebuilding(file: string, runs: number): Measured {
  const [oursFile, bareFile] = [`${file}.ours`, `${file}.bare`];
  const ours: number[] = [];
  const bare: number[] = [];
  let entries = 1;
  for (let run = 0; run < runs; run++) {
    copyFileSync(file, oursFile);
    const db = openForWriting(oursFile);
    const began = performance.now();
    entries = rebuild(db);
    ours.push(performance.now() - began);
    db.close();

    copyFileSync(file, bareFile);
    const plain = new Database(bareFile);
    settings(plain);
    const empty = `${file}.empty`;
    makeEmpty(plain, empty);
    const rows = rowsBetween(plain, empty);
    const caches = { ...rows, writes: rows.writes.filter(w => w.table !== 'entries' && w.table !== 'heads') };
    const write = writeBare(plain, caches);
    const texts = plain.prepare('SELECT text FROM entries ORDER BY key');
    const bareBegan = performance.now();
    plain.transaction(() => {
      for (const { table } of caches.writes) plain.exec(`DELETE FROM "${table}"`);
      for (const { text } of texts.all() as { text: string }[]) JSON.parse(text);
      write();
    })();
    bare.push(performance.now() - bareBegan);
    plain.close();
    for (const made of [oursFile, bareFile, empty])
      for (const ending of ['', '-wal', '-shm']) rmSync(`${made}${ending}`, { force: true });
  }
  return {
    name: 'Rebuilding every cache, per 1,000 entries',
    unit: 'ms',
    ours: (median(ours) / entries) * 1000,
    bare: (median(bare) / entries) * 1000,
    bareIs:
      'one transaction: the cache tables emptied, every entry’s text read and parsed, the same rows written, given as values',
  };
}

/** A file with the same tables and nothing in them. */
function makeEmpty(db: Database.Database, file: string): void {
  rmSync(file, { force: true });
  const empty = new Database(file);
  for (const sql of db
    .prepare(
      "SELECT sql FROM sqlite_master WHERE type = 'table' AND sql IS NOT NULL AND name NOT LIKE 'words\\_%' ESCAPE '\\' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'",
    )
    .pluck()
    .all() as string[])
    empty.exec(sql);
  empty.close();
}
