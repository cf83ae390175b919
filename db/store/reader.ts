/** The reader worker: answers questions on a connection that cannot write, and notices what others have written. */
import { parentPort, workerData } from 'node:worker_threads';
import { entryCount } from '../ledger/append.ts';
import { verifySteps } from '../ledger/verify.ts';
import { ask } from './ask.ts';
import { type Clock, systemClock } from './clock.ts';
import { damageProblem } from './damage.ts';
import type { FromWorker, ToWorker, WorkerData } from './messages.ts';
import { openForReading } from './open.ts';
import type { Db } from './statements.ts';

const data = workerData as WorkerData;
const clock: Clock = data.today === null ? systemClock : { ...systemClock, today: data.today };
const canceled = new Int32Array(data.cancel);
const port = parentPort;
const say = (message: FromWorker) => port?.postMessage(message);
const db: Db = openForReading(data.file);

/** How often another process's writing is looked for, in milliseconds. */
const LOOK_MS = 1000;
/** Between two pages of the background check, in milliseconds. */
const BETWEEN_PAGES_MS = 20;
const EVERYTHING = ['due', 'items', 'item', 'places', 'members', 'department', 'rulebook'];
let version = db.pragma('data_version', { simple: true }) as number;
/** How many entries screens have been told of: this process's own writer tells of its own. */
let announced = entryCount(db);

const looking = setInterval(() => {
  const now = db.pragma('data_version', { simple: true }) as number;
  if (now === version) return;
  version = now;
  const count = entryCount(db);
  if (count > announced) say({ kind: 'changed', touched: EVERYTHING });
  announced = Math.max(announced, count);
}, LOOK_MS);

// One question at a time: each sees one state of the file, inside a transaction of its own.
let queue: Promise<void> = Promise.resolve();
port?.on('message', (message: ToWorker) => {
  queue = queue.then(() => answer(message));
});

async function answer(message: ToWorker): Promise<void> {
  try {
    if (message.kind === 'ask') {
      const watch = (done: number, total: number) => {
        say({ kind: 'progress', id: message.id, done, total, what: message.question });
        return Atomics.load(canceled, 0) === message.id ? 'stop' : 'go on';
      };
      say({
        kind: 'answer',
        id: message.id,
        answer: await ask(db, clock, message.question, message.args, watch),
      });
    } else if (message.kind === 'wrote') {
      if (message.before > announced) say({ kind: 'changed', touched: EVERYTHING });
      announced = Math.max(announced, message.after);
      say({ kind: 'answer', id: message.id, answer: { ok: true, value: null } });
    } else if (message.kind === 'close') {
      clearInterval(looking);
      db.close();
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
}

say({ kind: 'ready' });

// The whole chain is checked in the background, a page at a time, so that no question waits for it.
const steps = verifySteps(db);
function checkOn(): void {
  if (!db.open) return;
  const step = steps.next();
  if (!step.done) setTimeout(checkOn, BETWEEN_PAGES_MS);
  else if (step.value.firstBad) say({ kind: 'damaged', problem: damageProblem(step.value.firstBad) });
}
setTimeout(checkOn, BETWEEN_PAGES_MS);
