import { expect, it } from 'vitest';
import { seeded } from '../kit/seeded.ts';
import { Killing } from './trial.ts';

const TIMES = 12;
const SEED = 31_107;

/** A dozen of them with every run of the tests; `npm run kills -- --times 200` for as many as one likes. */
it(`a file whose program was killed ${TIMES} times in an import, a record or a migration is as before or as after`, {
  timeout: 180_000,
}, async () => {
  const killing = new Killing();
  try {
    await killing.prepare();
    const random = seeded(SEED);
    for (let n = 0; n < TIMES; n++) {
      const outcome = await killing.kill(n, random);
      expect(outcome.state).toBeGreaterThanOrEqual(0);
      expect(outcome.state).toBeLessThanOrEqual(outcome.last);
    }
  } finally {
    killing.close();
  }
});
