/**
 * The process that is killed: does one job on a file and says on standard output when it begins and after each
 * deed that was acknowledged. Its clock stands still, so that every run that lives writes the same bytes.
 */
import { readFileSync, writeSync } from 'node:fs';
import { act, prepare } from '../../../db/store/act.ts';
import { openForWriting } from '../../../db/store/open.ts';
import { NOON } from '../kit/opening.ts';
import { importRequest, recordRequests } from './jobs.ts';

const [job = '', file = '', input = ''] = process.argv.slice(2);
const clock = { now: () => NOON };
// Straight to the pipe: what is said has been said when the process dies.
const say = (line: string) => writeSync(1, `${line}\n`);

if (job === 'migration') {
  say('begin');
  openForWriting(file).close();
  say('done');
} else if (job === 'import') {
  const db = openForWriting(file);
  const ready = await prepare(importRequest(db, readFileSync(input)));
  if (!ready.ok) throw new Error(ready.error.message);
  say('begin');
  const answer = act(db, clock, ready.value);
  if (!answer.ok) throw new Error(answer.error.message);
  say('done');
  db.close();
} else if (job === 'record') {
  const db = openForWriting(file);
  const requests = recordRequests(db);
  say('begin');
  for (const request of requests) {
    const answer = act(db, clock, request);
    if (!answer.ok) throw new Error(answer.error.message);
    say('done');
  }
  db.close();
} else throw new Error(`There is no job ${job}.`);
