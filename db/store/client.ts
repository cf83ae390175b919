/** What a host holds: the two doors to one department's file, each behind a worker thread. */
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { type Day, parseDay } from '../../domain/calendar/day.ts';
import type { Answer, Doors, Problem } from '../api.ts';
import { dayIn, systemClock } from './clock.ts';
import type { FromWorker, ToWorker, WorkerData } from './messages.ts';
import { CannotOpen } from './refusal.ts';

export interface Department extends Doors {
  file: string;
  /** Write the whole file as it stands between two acts into a new file. */
  copyTo(path: string): Promise<Answer<unknown>>;
  /** Told the cache keys that an act touched, this process's or another's. @returns how to stop being told */
  onChange(listener: (touched: string[]) => void): () => void;
  close(): Promise<void>;
}

export interface OpenOptions {
  /** Make a new file where none is. */
  create?: boolean;
  /** `YYYY-MM-DD`: the day compared with where it is not today. */
  today?: string;
}

export type Progress = (done: number, total: number, what: string) => void;

/** @throws CannotOpen with `.problem` for a file that cannot be opened */
export async function openDepartment(file: string, options: OpenOptions = {}): Promise<Department> {
  const { department } = await open(file, options);
  return department;
}

/**
 * Make the demo department in a new file and open it.
 * @throws CannotOpen where there is a file already
 */
export async function runDemo(
  file: string,
  options: { on?: string; seed?: number; onProgress?: Progress } = {},
): Promise<Department> {
  if (existsSync(file))
    throw new CannotOpen(
      'file exists',
      `There is a file ${file} already.`,
      'Give the path of a new file for the demo.',
    );
  const on = options.on ? parseDay(options.on) : dayIn('America/Denver', systemClock.now());
  if (on === null) throw new CannotOpen('bad day', `${options.on} is not a day.`, 'Write it as 2026-11-25.');
  const { department, writer } = await open(file, {
    create: true,
    ...(options.on ? { today: options.on } : {}),
  });
  try {
    await writer.call({ kind: 'demo', on, seed: options.seed ?? 1 }, options.onProgress);
  } catch (error) {
    await department.close();
    throw error;
  }
  return department;
}

async function open(file: string, options: OpenOptions): Promise<{ department: Department; writer: Line }> {
  const today = options.today === undefined ? null : parseDay(options.today);
  if (options.today !== undefined && today === null)
    throw new CannotOpen('bad day', `${options.today} is not a day.`, 'Write it as 2026-11-25.');
  const data: WorkerData = {
    file,
    create: options.create ?? false,
    today: today as Day | null,
    cancel: new SharedArrayBuffer(4),
  };
  const listeners = new Set<(touched: string[]) => void>();
  const changed = (touched: string[]) => {
    for (const listener of listeners) listener(touched);
  };
  // The writer first: it makes the file and brings it up to date.
  let reader: Line | null = null;
  const wrote = (before: number, after: number) => reader?.tell({ kind: 'wrote', before, after });
  const writer = await Line.to('writer', data, { changed, wrote, damaged: () => {} });
  const damaged = (problem: Problem) => writer.tell({ kind: 'damaged', problem });
  const reading = await Line.to('reader', data, { changed, wrote: () => {}, damaged });
  reader = reading;
  const department: Department = {
    file,
    act: request => writer.call({ kind: 'act', request }) as ReturnType<Doors['act']>,
    ask: ((question: string, args: unknown) => reading.call({ kind: 'ask', question, args })) as Doors['ask'],
    copyTo: path => writer.call({ kind: 'copy', path }),
    onChange(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async close() {
      await reading.close();
      await writer.close();
    },
  };
  return { department, writer };
}

/** What a worker says unasked. */
interface Hears {
  changed(touched: string[]): void;
  wrote(before: number, after: number): void;
  damaged(problem: Problem): void;
}

/** One worker and the calls waiting on it. */
class Line {
  readonly #worker: Worker;
  readonly #waiting = new Map<
    number,
    { done(answer: Answer<unknown>): void; fail(error: Error): void; progress: Progress | undefined }
  >();
  #next = 1;
  /** Why nothing more is answered, once the worker has ended. */
  #ended: Error | null = null;
  #closing: Promise<void> | null = null;

  private constructor(worker: Worker) {
    this.#worker = worker;
  }

  static to(name: 'writer' | 'reader', data: WorkerData, hears: Hears): Promise<Line> {
    return new Promise((resolve, reject) => {
      const worker = new Worker(workerUrl(name), { workerData: data });
      const line = new Line(worker);
      worker.on('error', error => {
        reject(error);
        line.#failAll(error);
      });
      worker.on('exit', () => {
        line.#ended = new Error(`The ${name} has ended.`);
        line.#failAll(line.#ended);
      });
      worker.on('message', (message: FromWorker) => {
        if (message.kind === 'ready') resolve(line);
        else if (message.kind === 'cannot open') {
          void worker.terminate();
          reject(asError(message.problem));
        } else if (message.kind === 'changed') hears.changed(message.touched);
        else if (message.kind === 'wrote') hears.wrote(message.before, message.after);
        else if (message.kind === 'damaged') hears.damaged(message.problem);
        else line.#receive(message);
      });
    });
  }

  call(message: WithoutId<ToWorker>, progress?: Progress): Promise<Answer<unknown>> {
    const id = this.#next++;
    return new Promise((done, fail) => {
      if (this.#ended) return fail(this.#ended);
      this.#waiting.set(id, { done, fail, progress });
      this.#worker.postMessage({ ...message, id });
    });
  }

  /** Say something that nobody waits for: a worker that has ended has no need to know. */
  tell(message: WithoutId<ToWorker>): void {
    this.#worker.postMessage({ ...message, id: this.#next++ });
  }

  /** However often it is asked to, the worker ends once. */
  close(): Promise<void> {
    this.#closing ??= this.#close();
    return this.#closing;
  }

  async #close(): Promise<void> {
    if (this.#ended) return;
    const ended = new Promise(resolve => this.#worker.once('exit', resolve));
    await this.call({ kind: 'close' });
    await ended;
  }

  #receive(
    message: Exclude<FromWorker, { kind: 'ready' | 'cannot open' | 'changed' | 'wrote' | 'damaged' }>,
  ): void {
    const waiting = this.#waiting.get(message.id);
    if (!waiting) return;
    if (message.kind === 'progress') {
      waiting.progress?.(message.done, message.total, message.what);
      return;
    }
    this.#waiting.delete(message.id);
    if (message.kind === 'broken') waiting.fail(new Error(message.message));
    else waiting.done(message.kind === 'answer' ? message.answer : { ok: true, value: null });
  }

  #failAll(error: Error): void {
    for (const { fail } of this.#waiting.values()) fail(error);
    this.#waiting.clear();
  }
}

type WithoutId<T> = T extends unknown ? Omit<T, 'id'> : never;

/** The worker's file beside this one: source when run from source, bundle when bundled. */
function workerUrl(name: string): URL {
  const extension = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  return new URL(`./${name}${extension}`, import.meta.url);
}

function asError(problem: Problem): CannotOpen {
  return new CannotOpen(problem.code, problem.message, problem.todo);
}
