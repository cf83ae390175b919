/** A department of a test's own: a real file (or one in memory where durability is not what is tested). */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { onTestFinished } from 'vitest';
import type { ActAnswer, ActRequest, Answer, Deed, Problem } from '../../../db/api.ts';
import { act } from '../../../db/store/act.ts';
import { ask } from '../../../db/store/ask.ts';
import type { Clock } from '../../../db/store/clock.ts';
import { type Opening, openForWriting } from '../../../db/store/open.ts';
import { all, type Db, one } from '../../../db/store/statements.ts';
import { adminOf, NOON, openingDeeds } from './opening.ts';

/** A clock that a test sets; one second passes at every look. */
export class TestClock implements Clock {
  ms: number;
  constructor(ms = NOON) {
    this.ms = ms;
  }
  now(): number {
    this.ms += 1000;
    return this.ms;
  }
}

/** A folder that is gone when the test is done. */
export function scratch(): string {
  const folder = mkdtempSync(join(tmpdir(), 'baybook-db-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export class TestDepartment {
  readonly db: Db;
  readonly clock: TestClock;
  /** The member who acts where none is named: an administrator. */
  admin = '';

  constructor(db: Db, clock = new TestClock()) {
    this.db = db;
    this.clock = clock;
    this.admin = adminOf(db);
  }

  act(deeds: Deed[], request: Partial<ActRequest> = {}): Answer<ActAnswer> {
    return act(this.db, this.clock, { by: this.admin, deeds, ...request });
  }

  /** Do one deed that must succeed. @returns the entry's id */
  must(action: string, body: Record<string, unknown>, request: Partial<ActRequest> = {}): string {
    const secret = action === 'member.pin' ? { secret: '4711' } : {};
    const answer = this.act([{ action, body, ...secret }], request);
    if (!answer.ok) throw new Error(`${action} was refused: ${answer.error.code}: ${answer.error.message}`);
    return answer.value.entries[0] ?? '';
  }

  /** Do one deed that must be refused. @returns every problem */
  refused(action: string, body: Record<string, unknown>, request: Partial<ActRequest> = {}): Problem[] {
    const answer = this.act([{ action, body }], request);
    if (answer.ok) throw new Error(`${action} was not refused.`);
    return answer.errors ?? [answer.error];
  }

  /** Codes of the problems of a deed that must be refused. */
  codes(action: string, body: Record<string, unknown>, request: Partial<ActRequest> = {}): string[] {
    return this.refused(action, body, request).map(p => p.code);
  }

  async ask<T>(question: string, args: unknown = {}): Promise<T> {
    const answer = await ask(this.db, this.clock, question, args);
    if (!answer.ok) throw new Error(`${question} was refused: ${answer.error.message}`);
    return answer.value as T;
  }

  count(table: string): number {
    return one<{ n: number }>(this.db, `SELECT count(*) AS n FROM "${table}"`)?.n ?? 0;
  }

  /** Entries as they are stored, in the order they were written here. */
  texts(): { text: string; hash: string }[] {
    return all(this.db, 'SELECT text, hash FROM entries ORDER BY key');
  }

  conditionOf(item: string): string | undefined {
    return one<{ condition: string }>(
      this.db,
      'SELECT i.condition FROM items i JOIN things t ON t.key = i.key WHERE t.id = ?',
      item,
    )?.condition;
  }
}

/** Open a department in a new file. */
export function newDepartment(
  options: {
    folder?: string;
    opening?: Opening;
    clock?: TestClock;
    book?: Parameters<typeof openingDeeds>[0];
  } = {},
): TestDepartment & { file: string } {
  const file = join(options.folder ?? scratch(), 'larkspur.baybook');
  const db = openForWriting(file, { create: true, ...options.opening });
  onTestFinished(() => void db.close());
  const clock = options.clock ?? new TestClock();
  const answer = act(db, clock, { by: null, deeds: openingDeeds(options.book) });
  if (!answer.ok) throw new Error(answer.error.message);
  return Object.assign(new TestDepartment(db, clock), { file });
}

/** Stations, rigs, places and an agency to work with, by name. */
export interface Ground {
  station: string;
  unit: string;
  rig: string;
  bed: string;
  rack: string;
  vendor: string;
  agency: string;
}

export function layGround(d: TestDepartment): Ground {
  const station = d.must('station.add', { name: 'Station 31', on: '2015-01-01' });
  const unit = d.must('unit.add', {
    name: 'Engine 31',
    kind: 'engine',
    station,
    rig: { name: 'Engine 31' },
    on: '2015-01-01',
  });
  const rig = `${unit}.r`;
  const place = (name: string, kind: string, under?: string) =>
    d.must('place.add', { name, kind, ...(under ? { under } : {}), on: '2015-01-01' });
  return {
    station,
    unit,
    rig,
    bed: place('hosebed driver side', 'compartment', rig),
    rack: place('hose rack', 'rack', station),
    vendor: place('Juniper Hose Repair', 'vendor'),
    agency: d.must('agency.add', { name: 'Juniper Cylinder Testing', rin: 'A123', on: '2015-01-01' }),
  };
}

/** A hose made in 2021 and in service since November of that year. */
export function aHose(d: TestDepartment, number: string, more: Record<string, unknown> = {}): string {
  return d.must('item.receive', {
    family: 'hose',
    number,
    attributes: {
      diameter_in: '1.75',
      length_ft: 50,
      use: 'attack',
      made: '2021-09',
      inService: '2021-11-09',
    },
    on: '2021-11-09',
    ...more,
  });
}

/**
 * The bytes of a department with its ground laid, to start many histories from: opened in memory, so that five
 * hundred of them cost seconds and no disk. Every rule of the store but durability holds there as in a file.
 * @param families whose shipped requirements it has adopted; those that are tracked where none are named
 */
export function template(families?: readonly string[]): { bytes: Buffer; ground: Ground } {
  const folder = mkdtempSync(join(tmpdir(), 'baybook-db-'));
  try {
    const db = openForWriting(join(folder, 'template.baybook'), { create: true });
    const clock = new TestClock(Date.UTC(2015, 0, 2, 18));
    const opened = act(db, clock, { by: null, deeds: openingDeeds(families) });
    if (!opened.ok) throw new Error(opened.error.message);
    const ground = layGround(new TestDepartment(db, clock));
    // A database in memory has no write-ahead log, and one whose header says so does not open there.
    db.pragma('journal_mode = DELETE');
    const bytes = db.serialize();
    db.close();
    return { bytes, ground };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

let shared: ReturnType<typeof template> | undefined;

/** A department in memory with its ground laid, for whatever does not ask what is on the disk. */
export function departmentInMemory(): { d: TestDepartment; g: Ground } {
  shared ??= template();
  const d = fromTemplate(shared.bytes, 'first');
  onTestFinished(() => void d.db.close());
  return { d, g: shared.ground };
}

/** A copy of the template as another device: its first entry will name the head it was copied at. */
export function fromTemplate(bytes: Buffer, device: string, clock = new TestClock()): TestDepartment {
  const db = new Database(bytes);
  db.pragma('recursive_triggers = ON');
  db.pragma('foreign_keys = ON');
  const head = one<{ hash: string }>(db, 'SELECT hash FROM heads');
  db.prepare("UPDATE meta SET value = ? WHERE name = 'device'").run(device);
  db.prepare("INSERT INTO meta (name, value) VALUES ('copiedAt', ?)").run(head?.hash);
  return new TestDepartment(db, clock);
}
