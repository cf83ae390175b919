/** The occurrences of random schedules beside a walk over every day of the window. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, type Day, partsOf } from '../../../domain/calendar/day.ts';
import { occurrences, type Rhythm, type Schedule, type Weekday } from '../../../domain/checkoffs/schedule.ts';
import { day } from '../notation.ts';
import { schedule } from './sheets.ts';

/** Whether a schedule falls on a day, told from the day alone: no skipping ahead. */
function fallsOn({ every, from, until }: Schedule, on: Day): boolean {
  if (on < from || (until !== null && on > until)) return false;
  const { day: inMonth } = partsOf(on);
  const isLast = partsOf(addDays(on, 1)).day === 1;
  const weekday = (((on + 4) % 7) + 7) % 7;
  if (every.kind === 'daily') return true;
  if (every.kind === 'each shift') return every.hours <= 24 || (on - from) % (every.hours / 24) === 0;
  if (every.kind === 'weekly') return weekday === every.weekday;
  if ('day' in every) return inMonth === every.day || (isLast && inMonth < every.day);
  if (weekday !== every.weekday) return false;
  return every.nth === 'last' ? partsOf(addDays(on, 7)).day <= 7 : Math.ceil(inMonth / 7) === every.nth;
}

describe('the occurrences of any schedule', () => {
  const weekday = fc.integer({ min: 0, max: 6 }) as fc.Arbitrary<Weekday>;
  const rhythm: fc.Arbitrary<Rhythm> = fc.oneof(
    fc.constant({ kind: 'daily' as const }),
    fc.record({
      kind: fc.constant('each shift' as const),
      hours: fc.constantFrom(1, 6, 8, 12, 24, 48, 72, 96),
      from: fc.constantFrom('00:00', '07:00', '18:30'),
    }),
    fc.record({ kind: fc.constant('weekly' as const), weekday }),
    fc.record({ kind: fc.constant('monthly' as const), day: fc.integer({ min: 1, max: 31 }) }),
    fc.record({
      kind: fc.constant('monthly' as const),
      weekday,
      nth: fc.constantFrom(1, 2, 3, 4, 'last' as const) as fc.Arbitrary<1 | 2 | 3 | 4 | 'last'>,
    }),
  );
  // Some start before 1970, where days count below zero.
  const starts = fc.integer({ min: day('1969-06-01'), max: day('2032-12-31') }) as fc.Arbitrary<Day>;
  const cases = fc.record({
    every: rhythm,
    from: starts,
    lasts: fc.option(fc.integer({ min: 0, max: 400 })),
    ahead: fc.integer({ min: -100, max: 100 }),
    window: fc.integer({ min: 0, max: 400 }),
    graceHours: fc.constantFrom(0, 0.5, 4, 40),
  });

  it('are those that a walk over the days finds, each before the next', () => {
    fc.assert(
      fc.property(cases, ({ every, from, lasts, ahead, window, graceHours }) => {
        const until = lasts === null ? null : addDays(from, lasts);
        const one = schedule(every, { from, until, graceHours });
        const [first, last] = [addDays(from, ahead), addDays(from, ahead + window)];
        const walked: string[] = [];
        for (let on = first; on <= last; on = addDays(on, 1)) {
          const shifts = every.kind === 'each shift' ? Math.max(1, 24 / every.hours) : 0;
          if (!fallsOn(one, on)) continue;
          if (shifts === 0) walked.push(`${on} 0`);
          for (let n = 1; n <= shifts; n += 1) walked.push(`${on} ${n}`);
        }
        const found = occurrences(one, first, last);
        expect(found.map(o => `${o.on} ${o.shift}`)).toEqual(walked);
        for (const [n, o] of found.entries()) {
          expect(o.dueAt <= o.graceUntil && o.graceUntil < o.nextDueAt).toBe(true);
          const next = found[n + 1];
          if (next) expect(o.nextDueAt).toBe(next.dueAt);
        }
      }),
      { numRuns: 600 },
    );
  });
});
