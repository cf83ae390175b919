/** `npm run kills -- --times 200 --seed 1`: kill the program at random moments and tell what was found each time. */
import { parseArgs } from 'node:util';
import { seeded } from '../kit/seeded.ts';
import { JOBS } from './jobs.ts';
import { Killing, type Outcome } from './trial.ts';

const { values } = parseArgs({
  options: { times: { type: 'string', default: '200' }, seed: { type: 'string', default: '20261125' } },
});
const times = Number(values.times);
const random = seeded(Number(values.seed));
const killing = new Killing();
const outcomes: Outcome[] = [];
let bad = 0;
try {
  await killing.prepare();
  for (let n = 0; n < times; n++) {
    try {
      outcomes.push(await killing.kill(n, random));
    } catch (error) {
      bad++;
      console.log(`Kill ${n + 1}: ${error instanceof Error ? error.message : error}`);
    }
    if ((n + 1) % 20 === 0) console.log(`${n + 1} of ${times}`);
  }
} finally {
  killing.close();
}
console.log(`\nSeed ${values.seed}, ${times} kills: ${outcomes.length} as before or as after, ${bad} not.`);
for (const job of JOBS) {
  const ofJob = outcomes.filter(o => o.job === job);
  const before = ofJob.filter(o => o.state === 0).length;
  const after = ofJob.filter(o => o.state === o.last).length;
  const told =
    job === 'record'
      ? `${before} before the first of ${ofJob[0]?.last} records, ${after} after the last, ${ofJob.length - before - after} between two`
      : job === 'migration'
        ? `${ofJob.length} opened with every fact, cache and entry, and a whole backup`
        : `${before} as before, ${after} as after`;
  console.log(`${job.padEnd(10)} ${String(ofJob.length).padStart(4)}: ${told}`);
}
process.exitCode = bad === 0 && outcomes.length === times ? 0 : 1;
