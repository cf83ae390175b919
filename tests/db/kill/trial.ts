/**
 * Kill a process at a random moment of its work, and see that the file is as it was before or as it is after,
 * byte for byte in its ledger and row for row in its caches, and that nothing acknowledged is lost.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { verifyLedger } from '../../../db/ledger/verify.ts';
import { act, prepare } from '../../../db/store/act.ts';
import { openForWriting } from '../../../db/store/open.ts';
import type { Db } from '../../../db/store/statements.ts';
import { dump } from '../kit/dump.ts';
import { migrationsKnown, olderFile } from '../kit/older.ts';
import { NOON, openingDeed } from '../kit/opening.ts';
import type { Seeded } from '../kit/seeded.ts';
import { importRequest, JOBS, type Job, recordRequests, sheet } from './jobs.ts';

const VICTIM = fileURLToPath(new URL('./victim.ts', import.meta.url));

/** What a file holds: its ledger's texts, and those and its caches as one hash. */
interface Holding {
  texts: string;
  all: string;
}

/** A job on a file: how it begins, and every state that it may be found in, in order. */
interface Prepared {
  job: Job;
  /** The file's bytes before the job. */
  start: Buffer;
  states: Holding[];
  /** How long an undisturbed run takes from beginning to end, in milliseconds. */
  took_ms: number;
}

export interface Outcome {
  job: Job;
  after_ms: number;
  /** Which of the job's states the file was found in, and how many there are. */
  state: number;
  last: number;
}

export class Killing {
  readonly #folder = mkdtempSync(join(tmpdir(), 'baybook-kill-'));
  readonly #jobs: Prepared[] = [];

  /** Make the files and run each job once undisturbed. */
  async prepare(): Promise<void> {
    writeFileSync(this.#sheet, sheet(300));
    const ground = await this.#ground();
    this.#jobs.push(
      await this.#undisturbed('import', ground),
      await this.#undisturbed('record', ground),
      await this.#undisturbed('migration', this.#older(ground)),
    );
  }

  /** One kill. @throws Error that says what the file was found to be, where it is neither before nor after */
  async kill(n: number, random: Seeded): Promise<Outcome> {
    const prepared = this.#jobs[n % JOBS.length];
    if (!prepared) throw new Error('Nothing was prepared.');
    this.#put(prepared.start);
    const after_ms = random.below(Math.ceil(prepared.took_ms * 1.15) + 1);
    const { acknowledged } = await this.#run(prepared.job, after_ms);
    if (prepared.job === 'migration') this.#checkHalfMigrated(prepared);
    const found = this.#hold();
    const state = prepared.states.findIndex(s => s.all === found.all);
    const told = `${prepared.job}, killed after ${after_ms} ms`;
    if (state < 0) throw new Error(`${told}: the file is neither as before nor as after.`);
    // What a deed's answer said is done is done; one that was under way may be, or not.
    const least = prepared.job === 'migration' ? 0 : acknowledged;
    if (state < least)
      throw new Error(`${told}: ${acknowledged} deeds were acknowledged, ${state} are there.`);
    return { job: prepared.job, after_ms, state, last: prepared.states.length - 1 };
  }

  close(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }

  get #file(): string {
    return join(this.#folder, 'larkspur.baybook');
  }

  get #sheet(): string {
    return join(this.#folder, 'hose.csv');
  }

  /** A department with some hundred hoses, at the place where it will be worked on: it stays one device. */
  async #ground(): Promise<Buffer> {
    const db = openForWriting(this.#file, { create: true });
    const opened = act(db, { now: () => NOON - 1 }, { by: null, deeds: [openingDeed()] });
    if (!opened.ok) throw new Error(opened.error.message);
    const earlier = sheet(150).replaceAll('Engine 4', 'Engine 3').replaceAll(/^4/gm, '3');
    const ready = await prepare(importRequest(db, Buffer.from(earlier)));
    const brought = ready.ok ? act(db, { now: () => NOON - 1 }, ready.value) : ready;
    if (!brought.ok) throw new Error(brought.error.message);
    db.close();
    return this.#take();
  }

  #older(ground: Buffer): Buffer {
    const source = join(this.#folder, 'source.baybook');
    writeFileSync(source, ground);
    this.#clear();
    olderFile(this.#folder, 'larkspur.baybook', 1, source);
    return this.#take();
  }

  async #undisturbed(job: Job, start: Buffer): Promise<Prepared> {
    this.#put(start);
    const { took_ms } = await this.#run(job, null);
    const states = job === 'record' ? this.#afterEachRecord(start) : [];
    const after = this.#holdAfterRun(start, job, states);
    return { job, start, states: after, took_ms };
  }

  /** The states of a job that is one act: before it and after it. */
  #holdAfterRun(start: Buffer, job: Job, states: Holding[]): Holding[] {
    if (job === 'record') return states;
    const after = this.#hold();
    // An older file is brought up to date by being looked at: it is the same before and after.
    if (job === 'migration') return [after];
    this.#put(start);
    return [this.#hold(), after];
  }

  #afterEachRecord(start: Buffer): Holding[] {
    this.#put(start);
    const db = openForWriting(this.#file);
    const states = [holdingOf(db)];
    for (const request of recordRequests(db)) {
      const answer = act(db, { now: () => NOON }, request);
      if (!answer.ok) throw new Error(answer.error.message);
      states.push(holdingOf(db));
    }
    db.close();
    return states;
  }

  /** The file as the kill left it, before anybody opens it for writing: still the older one, or the newer one. */
  #checkHalfMigrated(prepared: Prepared): void {
    const backup = `${this.#file}.before-format-2`;
    const [expected] = prepared.states;
    if (existsSync(backup)) {
      const copy = new Database(backup, { readonly: true });
      const texts = textsOf(copy);
      const version = copy.pragma('user_version', { simple: true });
      copy.close();
      if (version !== 1 || texts !== expected?.texts)
        throw new Error('The backup is not the file as it was.');
    }
    const left = new Database(this.#file);
    const version = left.pragma('user_version', { simple: true });
    const texts = textsOf(left);
    left.close();
    if (version !== 1 && version !== migrationsKnown()) throw new Error(`The file is at format ${version}.`);
    if (texts !== expected?.texts) throw new Error('An entry was lost.');
    if (version !== 1 && !existsSync(backup)) throw new Error('The file was migrated without a backup.');
  }

  /** Open the file as the program does and see what it holds. @throws Error where it is damaged */
  #hold(): Holding {
    const db = openForWriting(this.#file);
    try {
      const check = db.pragma('integrity_check', { simple: true });
      if (check !== 'ok') throw new Error(`The file is damaged: ${check}`);
      const found = verifyLedger(db);
      if (!found.ok) throw new Error(`The ledger is damaged: ${JSON.stringify(found.firstBad)}`);
      return holdingOf(db);
    } finally {
      db.close();
    }
  }

  #run(job: Job, after_ms: number | null): Promise<{ took_ms: number; acknowledged: number }> {
    const child = spawn(process.execPath, [VICTIM, job, this.#file, this.#sheet], {
      stdio: ['ignore', 'pipe', 'pipe'],
      // Most of a short life is reading the program: the first, undisturbed ones read it for all.
      env: { ...process.env, NODE_COMPILE_CACHE: join(this.#folder, 'compiled') },
    });
    return watch(child, after_ms);
  }

  #clear(): void {
    for (const ending of ['', '-wal', '-shm', '.before-format-2', '.before-format-2.part'])
      rmSync(`${this.#file}${ending}`, { force: true });
  }

  #put(bytes: Buffer): void {
    this.#clear();
    writeFileSync(this.#file, bytes);
  }

  #take(): Buffer {
    return readFileSync(this.#file);
  }
}

function holdingOf(db: Db): Holding {
  const texts = textsOf(db);
  return {
    texts,
    all: createHash('sha256')
      .update(texts)
      .update(JSON.stringify(dump(db)))
      .digest('hex'),
  };
}

function textsOf(db: Db): string {
  return JSON.stringify(db.prepare('SELECT text FROM entries ORDER BY key').pluck().all());
}

/** Let a child work, and kill it so long after it began. */
function watch(
  child: ChildProcess,
  after_ms: number | null,
): Promise<{ took_ms: number; acknowledged: number }> {
  return new Promise((resolve, reject) => {
    let began = 0;
    let took_ms = 0;
    let acknowledged = 0;
    let killed = false;
    let said = '';
    let complaint = '';
    child.stderr?.on('data', chunk => {
      complaint += chunk;
    });
    child.stdout?.on('data', chunk => {
      said += chunk;
      if (began === 0 && said.includes('begin')) {
        began = performance.now();
        if (after_ms !== null)
          setTimeout(() => {
            killed = child.kill('SIGKILL');
          }, after_ms);
      }
      acknowledged = said.split('\n').filter(line => line === 'done').length;
      if (acknowledged > 0) took_ms = performance.now() - began;
    });
    child.on('error', reject);
    child.on('close', code => {
      if (!killed && code !== 0) reject(new Error(complaint));
      else resolve({ took_ms, acknowledged });
    });
  });
}
