/** The writer worker: the one connection of this process that writes. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Answer, Problem } from '../api.ts';
import { writeCopy } from '../files/backup.ts';
import { buildDemo } from '../files/demo/index.ts';
import { entryCount } from '../ledger/append.ts';
import { verifyTail } from '../ledger/verify.ts';
import { act, type Prepared, prepare } from './act.ts';
import { type Clock, systemClock } from './clock.ts';
import { damageProblem } from './damage.ts';
import type { FromWorker, ToWorker, WorkerData } from './messages.ts';
import { openForWriting } from './open.ts';
import { CannotOpen } from './refusal.ts';
import type { Db } from './statements.ts';

const data = workerData as WorkerData;
const clock: Clock = data.today === null ? systemClock : { ...systemClock, today: data.today };
const port = parentPort;
const say = (message: FromWorker) => port?.postMessage(message);

let db: Db | null = null;
let damage: Problem | null = null;
try {
  db = openForWriting(data.file, { create: data.create });
  const bad = verifyTail(db);
  if (bad) {
    damage = damageProblem(bad);
    say({ kind: 'damaged', problem: damage });
  }
  say({ kind: 'ready' });
} catch (error) {
  if (!(error instanceof CannotOpen)) throw error;
  say({ kind: 'cannot open', problem: error.problem });
}

port?.on('message', async (message: ToWorker) => {
  if (!db) return;
  try {
    if (message.kind === 'act') {
      const ready: Answer<Prepared> = damage ? { ok: false, error: damage } : await prepare(message.request);
      const progress = (done: number, total: number) =>
        say({ kind: 'progress', id: message.id, done, total, what: 'Writing' });
      const answer = ready.ok ? act(db, clock, ready.value, progress) : ready;
      say({ kind: 'answer', id: message.id, answer });
      if (answer.ok) {
        say({ kind: 'changed', touched: answer.value.touched });
        const after = entryCount(db);
        say({ kind: 'wrote', before: after - answer.value.entries.length, after });
      }
    } else if (message.kind === 'demo') {
      buildDemo(db, { on: message.on, seed: message.seed, now: clock.now() }, (done, total, what) =>
        say({ kind: 'progress', id: message.id, done, total, what }),
      );
      say({ kind: 'answer', id: message.id, answer: { ok: true, value: null } });
      say({ kind: 'changed', touched: ['due', 'items', 'places', 'members', 'department', 'rulebook'] });
    } else if (message.kind === 'copy') {
      say({ kind: 'answer', id: message.id, answer: copied(db, message.path) });
    } else if (message.kind === 'damaged') {
      damage = message.problem;
      say({ kind: 'answer', id: message.id, answer: { ok: true, value: null } });
    } else if (message.kind === 'close') {
      db.close();
      db = null;
      say({ kind: 'closed', id: message.id });
      port?.close();
    }
  } catch (error) {
    say({
      kind: 'broken',
      id: message.id,
      message: error instanceof Error ? error.message : String(error),
    });
  }
});

function copied(from: Db, path: string): Answer<null> {
  try {
    writeCopy(from, path);
    return { ok: true, value: null };
  } catch (error) {
    if (error instanceof CannotOpen) return { ok: false, error: error.problem };
    throw error;
  }
}
