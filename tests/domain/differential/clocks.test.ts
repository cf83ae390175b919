/** The newer clocks against a naive reading of each, dates as text walked day by day, on seeded things and days. */
import { describe, expect, it } from 'vitest';
import type { Clock, Requirement } from '../../../domain/rulebook/types.ts';
import { seeded } from '../../db/kit/seeded.ts';
import { IN_SERVICE, rowsOn, rule, type Told } from '../derive/clockCase.ts';
import { daysOn, endOf, monthsOn, nextMonth, sameDayOn, tomorrow } from './walk.ts';

const THINGS = 12_000;

/** Due day and state by the naive walk; null where nothing is owed by a date. */
interface Naive {
  due: string;
  lateFrom: string;
  late: string;
}

function naive(clock: Clock, done: string | null, made: string, placed: string): Naive | null {
  const is = (due: string, late: string): Naive => ({ due, lateFrom: tomorrow(due), late });
  switch (clock.kind) {
    case 'fixed month': {
      if (done === null) return is(placed, 'never done');
      // Walk on from the test; months so soon after it that it counts for them are passed over.
      let month = done.slice(0, 7);
      let passed = clock.early_months;
      for (;;) {
        month = nextMonth(month);
        const isOne = clock.every_months === 6 ? 6 : 12;
        if (passed-- > 0) continue;
        if ((Number(month.slice(5)) - clock.month + 12) % isOne === 0) break;
      }
      return is(endOf(month), 'overdue');
    }
    case 'once':
      return done === null ? is(placed, 'never done') : null;
    case 'life': {
      const full = sameDayOn(made, 'months' in clock.plus ? clock.plus.months : 0);
      return { due: full, lateFrom: full, late: 'life ended' };
    }
    case 'since last':
      if (done === null) return is(placed, 'never done');
      return is(
        'months' in clock.every ? sameDayOn(done, clock.every.months) : daysOn(done, clock.every.days),
        'overdue',
      );
    default:
      throw new Error(`${clock.kind} is not walked.`);
  }
}

describe('fixed months, once, lives, grace, storage and whichever first', () => {
  it(`agree with a naive walk on ${THINGS} seeded things`, () => {
    const r = seeded(1910);
    const seen: Record<string, number> = {};
    const aDay = (year: number, span: number) => {
      const month = monthsOn(`${year}-01`, r.below(span * 12));
      return r.chance(0.3) ? endOf(month) : daysOn(`${month}-01`, r.below(28));
    };
    const aClock = (): Clock =>
      r.pick<() => Clock>([
        () => ({
          kind: 'fixed month',
          month: 1 + r.below(12),
          every_months: r.pick([6, 12]),
          early_months: r.below(4),
          first: IN_SERVICE,
        }),
        () => ({ kind: 'once', first: IN_SERVICE }),
        () => ({ kind: 'life', counts: 'made', plus: { months: 60 + r.below(90) } }),
        () => ({
          kind: 'since last',
          every: r.pick([{ months: 1 + r.below(24) }, { days: 7 * r.below(40) }]),
          first: IN_SERVICE,
        }),
      ])();
    for (let i = 0; i < THINGS; i++) {
      const clocks = r.chance(0.3) ? [aClock(), aClock()] : [aClock()];
      const [one] = clocks;
      if (!one) continue;
      const clock: Clock = clocks.length === 1 ? one : { kind: 'first of', clocks };
      const [made, placed] = [aDay(2013, 6), aDay(2016, 6)];
      const done = r.chance(0.8) ? aDay(2022, 3) : null;
      const grace = r.chance(0.4) ? r.below(45) : 0;
      const waits = r.chance(0.3);
      const isStored = r.chance(0.3);
      const readings = clocks.flatMap(c => naive(c, done, made, placed) ?? []);
      readings.sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0));
      const winner = waits && isStored ? undefined : readings[0];
      const from = winner && winner.late !== 'life ended' ? daysOn(winner.lateFrom, grace) : winner?.lateFrom;
      const on = from && r.chance(0.6) ? r.pick([from, daysOn(from, 1), winner?.due ?? from]) : aDay(2022, 6);
      const more: Partial<Requirement> = { graceDays: grace, ...(waits ? { inStorage: 'waits' } : {}) };
      const told: Told = {
        attributes: { made, inService: placed },
        done: done === null ? [] : [[done, 'test', 'pass']],
        ...(isStored ? { assignment: 'storage' } : {}),
      };
      const [row] = rowsOn([rule(clock, more)], told, on);
      const state =
        winner && from ? (on >= from ? winner.late : on >= winner.due ? 'due soon' : 'current') : null;
      const ours = row ? { due: row.due, state: row.state } : { due: null, state: null };
      const theirs = { due: winner?.due ?? null, state };
      if (JSON.stringify(ours) !== JSON.stringify(theirs))
        expect({ i, clock, told, on, ...ours }).toEqual({ i, clock, told, on, ...theirs });
      for (const name of [clock.kind, String(state)]) seen[name] = (seen[name] ?? 0) + 1;
    }
    for (const name of [
      'fixed month',
      'once',
      'life',
      'since last',
      'first of',
      'overdue',
      'never done',
      'life ended',
      'current',
      'due soon',
      'null',
    ])
      expect([name, (seen[name] ?? 0) > 200]).toEqual([name, true]);
  }, 60_000);
});
