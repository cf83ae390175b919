/** So many units of a meter since the last one that counts. */
import { addDays } from '../../calendar/day.ts';
import { showDay, showWhen } from '../../calendar/show.ts';
import type { Clock } from '../../rulebook/types.ts';
import { meterPoints, project, totalOn } from '../meters.ts';
import { type ClockInput, dated, type Reading, UNJUDGED } from './reading.ts';

/**
 * Due when the mark is reached; certain once a reading shows it, until then a range from how fast the meter rose.
 * Without a reading at or before the last one that counts it is not judged.
 */
export function meter(input: ClockInput, clock: Clock & { kind: 'meter' }): Reading {
  const { counted, subject, tell } = input;
  const { points, backward } = meterPoints(subject.meters, clock.meter);
  if (backward) {
    const { before, after } = backward;
    tell?.(
      `The ${clock.meter} read ${before.values.reading} on ${showWhen(before.effective)} and ${after.values.reading} on ${showWhen(after.effective)}, and no replaced meter is noted. Void the one that is wrong.`,
    );
    return UNJUDGED;
  }
  const last = points.at(-1);
  if (!last) {
    tell?.(`No reading of ${clock.meter} is on file.`);
    return UNJUDGED;
  }
  const base = counted ? totalOn(points, counted.effective) : null;
  if (counted && !base) {
    tell?.(
      `The ${clock.meter} were not read by ${showWhen(counted.effective)}, so there is nothing to count from.`,
    );
    return UNJUDGED;
  }
  const from = base?.total ?? 0;
  const mark = from + clock.every;
  tell?.(
    counted && base
      ? `Every ${clock.every} ${clock.meter}: ${base.total} at the last one of ${showWhen(counted.effective)} (read ${showDay(base.day)}) and ${clock.every} more is ${mark}.`
      : `Every ${clock.every} ${clock.meter}: nothing is on record, so it counts from new, to ${mark}.`,
  );
  const reached = points.find(p => p.total >= mark && (!base || p.day >= base.day));
  if (reached) {
    const dueOn = reached.total === mark ? reached.day : addDays(reached.day, -1);
    tell?.(
      reached.total === mark
        ? `The reading of ${showDay(reached.day)} is ${reached.total}: the mark is reached, due that day.`
        : `The reading of ${showDay(reached.day)} is ${reached.total}: the mark was passed by then, so it is late from that day on and counts as due the day before.`,
    );
    return dated('counted', dueOn);
  }
  const likely = project(points, mark);
  if (!likely) {
    tell?.(
      `Last read ${last.total} on ${showDay(last.day)}: ${mark - last.total} left. The readings show no rate yet, so no date is told.`,
    );
    return { basis: 'projected', dueOn: null, dueTo: null, lateOn: null };
  }
  tell?.(
    `Last read ${last.total} on ${showDay(last.day)}: ${mark - last.total} left. At the rates seen it is likely reached between ${showDay(likely.from)} and ${likely.to === null ? 'no day that can be told' : showDay(likely.to)}; a reading decides.`,
  );
  return { basis: 'projected', dueOn: likely.from, dueTo: likely.to, lateOn: null };
}
