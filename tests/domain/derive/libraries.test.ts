/**
 * The calendar's clocks against two libraries of others on seeded cases: Temporal (`since last`, `fixed month`, `life`)
 * and an iCalendar recurrence library (RFC 5545) for plain cadences.
 *
 * RFC 5545 skips a month that has no such day (3.3.10), where a due date is clamped to the month's end. The comparison
 * is made honest in the rule itself: `BYMONTHDAY=28,29,30,31` up to the anchor's day with `BYSETPOS=-1` is the last
 * such day that each month has; `BYMONTHDAY=-1` is a month's end.
 */
import rrule from 'rrule';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { dayOf, dayText } from '../../../domain/calendar/day.ts';
import type { When } from '../../../domain/calendar/when.ts';
import { dueRow } from '../../../domain/derive/thing.ts';
import type { RecordFact } from '../../../domain/facts.ts';
import type { Clock, Requirement } from '../../../domain/rulebook/types.ts';
import { book, shipped } from '../notation.ts';

const { RRule } = rrule;
const NOTHING = book({ only: [] });
const FIRST = { counts: 'in service', plus: { months: 0 } } as const;

function seeded(seed: number): (n: number) => number {
  let state = seed;
  return n => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4_294_967_296) * n);
  };
}

/** A day of two centuries, a third of them among the last three of a month, many in February. */
function aDay(below: (n: number) => number): Temporal.PlainDate {
  const month = below(5) === 0 ? 2 : 1 + below(12);
  const { year, daysInMonth } = new Temporal.PlainYearMonth(1950 + below(200), month);
  return new Temporal.PlainDate(
    year,
    month,
    below(3) === 0 ? daysInMonth - below(3) : 1 + below(daysInMonth),
  );
}

function due(
  clock: Clock,
  said: { done?: string; made?: string; dueAt?: Requirement['dueAt'] },
): { dueOn: string; lateOn: string } {
  const requirement: Requirement = {
    ...shipped('hose.service-test'),
    appliesTo: [],
    clock,
    dueAt: said.dueAt ?? 'day',
  };
  const record: RecordFact = {
    ...{ id: 'r', kind: 'record', clock: 1, device: 'a', n: 0, recordedAt: 0 },
    effective: (said.done ?? '2000') as When,
    values: { activity: 'service test', outcome: 'pass' },
  };
  const row = dueRow(
    { requirement, from: null, to: null },
    {
      attributes: said.made ? { made: said.made } : {},
      records: said.done ? [record] : [],
      meters: [],
      owed: [],
      assignment: null,
    },
    NOTHING,
  );
  if (row.dueOn === null || row.lateOn === null)
    throw new Error(`No date: ${JSON.stringify({ clock, said })}`);
  return { dueOn: dayText(row.dueOn), lateOn: dayText(row.lateOn) };
}

const endOf = (d: Temporal.PlainDate) => d.with({ day: d.daysInMonth });
const utc = (d: Temporal.PlainDate) => new Date(Date.UTC(d.year, d.month - 1, d.day));
const text = (date: Date | null | undefined) => date?.toISOString().slice(0, 10);
function agree(ours: unknown, theirs: unknown, what: unknown): void {
  if (JSON.stringify(ours) !== JSON.stringify(theirs))
    expect({ what, is: ours }).toEqual({ what, is: theirs });
}

/** The next fixed month by Temporal: walked month by month, not reckoned. */
function nextFixed(done: Temporal.PlainDate, month: number, every: number, early: number): string {
  const isOne = (m: Temporal.PlainYearMonth) =>
    every >= 12 ? m.month === month : (m.month - month + 12) % every === 0;
  let at = done.toPlainYearMonth().add({ months: early + 1 });
  for (;;) {
    if (isOne(at)) break;
    at = at.add({ months: 1 });
  }
  // Every two years: the round after the one that it counts for.
  if (every > 12) at = at.add({ months: every - 12 });
  return at.toPlainDate({ day: at.daysInMonth }).toString();
}

describe('against Temporal', () => {
  it('since last: 60,000 spans of months, days, month ends and month starts', () => {
    const below = seeded(1);
    for (let i = 0; i < 60_000; i++) {
      const done = aDay(below);
      const n = below(130);
      const clock = (every: { months: number } | { days: number }): Clock => ({
        kind: 'since last',
        every,
        first: FIRST,
      });
      const said = { done: done.toString() };
      const later = done.add({ months: n }, { overflow: 'constrain' });
      switch (i % 4) {
        case 0:
          agree(due(clock({ months: n }), said).dueOn, later.toString(), { said, n });
          break;
        case 1:
          agree(due(clock({ days: n * 7 }), said).dueOn, done.add({ days: n * 7 }).toString(), { said, n });
          break;
        case 2:
          agree(due(clock({ months: n }), { ...said, dueAt: 'month end' }).dueOn, endOf(later).toString(), {
            said,
            n,
          });
          break;
        case 3:
          agree(
            due(clock({ months: n }), { ...said, dueAt: 'month start' }).dueOn,
            later.with({ day: 1 }).subtract({ days: 1 }).toString(),
            { said, n },
          );
      }
    }
  });

  it('fixed month: 40,000 of one to four rounds a year and of every second and third year, with and without a most', () => {
    const below = seeded(2);
    for (let i = 0; i < 40_000; i++) {
      const done = aDay(below);
      const month = 1 + below(12);
      const every = [12, 12, 6, 4, 3, 24, 36][below(7)] ?? 12;
      const early = below(Math.min(every, 12));
      const most = i % 3 === 0 ? 1 + below(20) : null;
      const clock: Clock = {
        kind: 'fixed month',
        month,
        every_months: every,
        early_months: early,
        first: FIRST,
        ...(most === null ? {} : { atMost: { months: most } }),
      };
      const fixed = nextFixed(done, month, every, early);
      const latest = most === null ? fixed : done.add({ months: most }, { overflow: 'constrain' }).toString();
      agree(due(clock, { done: done.toString() }).dueOn, [fixed, latest].sort()[0], {
        ...{ done: done.toString(), month, every, early, most },
      });
    }
  });

  it('life: 30,000 made on a day, in a month or in a year', () => {
    const below = seeded(3);
    for (let i = 0; i < 30_000; i++) {
      const day = aDay(below);
      const months = 1 + below(400);
      const clock: Clock = { kind: 'life', counts: 'made', plus: { months } };
      const known = [10, 10, 7, 4][i % 4] ?? 10;
      const made = day.toString().slice(0, known);
      // The latest it may have been made; a month is all that is known: through the end of the month of the end.
      const from = known === 10 ? day : known === 7 ? endOf(day) : endOf(day.with({ month: 12 }));
      const full = from.add({ months }, { overflow: 'constrain' });
      const dueOn = known === 7 ? endOf(full) : full;
      const lateOn = known === 7 ? dueOn : dueOn.subtract({ days: 1 });
      agree(due(clock, { made }), { dueOn: dueOn.toString(), lateOn: lateOn.toString() }, { made, months });
    }
  });
});

describe('against the recurrence rules of RFC 5545', () => {
  it('every so many months and days: 16,000 second occurrences', () => {
    const below = seeded(4);
    for (let i = 0; i < 16_000; i++) {
      const done = aDay(below);
      const interval = 1 + below(72);
      const dtstart = utc(done);
      const isMonths = i % 3 !== 0;
      const isEnd = i % 3 === 2;
      const days = Array.from({ length: Math.max(done.day - 27, 1) }, (_, n) => Math.min(28, done.day) + n);
      const options = !isMonths
        ? { freq: RRule.DAILY, interval, dtstart, count: 2 }
        : isEnd
          ? { freq: RRule.MONTHLY, interval, dtstart: utc(endOf(done)), bymonthday: -1, count: 2 }
          : { freq: RRule.MONTHLY, interval, dtstart, bymonthday: days, bysetpos: -1, count: 2 };
      const [first, second] = new RRule(options, true).all();
      agree(text(first), (isEnd ? endOf(done) : done).toString(), { done: done.toString() });
      const clock: Clock = {
        kind: 'since last',
        every: isMonths ? { months: interval } : { days: interval },
        first: FIRST,
      };
      agree(due(clock, { done: done.toString(), dueAt: isEnd ? 'month end' : 'day' }).dueOn, text(second), {
        done: done.toString(),
        interval,
        isMonths,
        isEnd,
      });
    }
  });

  it('a fixed month each year: 8,000 first occurrences after what counts as early', () => {
    const below = seeded(5);
    for (let i = 0; i < 8000; i++) {
      const done = aDay(below);
      const month = 1 + below(12);
      const early = below(6);
      const halfYearly = i % 2 === 0;
      const bymonth = halfYearly ? [month, ((month + 5) % 12) + 1] : [month];
      const rule = new RRule(
        { freq: RRule.YEARLY, bymonth, bymonthday: -1, dtstart: new Date(Date.UTC(done.year, 0, 1)) },
        true,
      );
      const next = rule.after(utc(endOf(done.add({ months: early }))), false);
      const clock: Clock = {
        kind: 'fixed month',
        ...{ month, every_months: halfYearly ? 6 : 12, early_months: early, first: FIRST },
      };
      agree(due(clock, { done: done.toString() }).dueOn, text(next), {
        done: done.toString(),
        month,
        early,
        halfYearly,
      });
    }
  });

  it('would skip short months without the clamp, which shows that the comparison can fail', () => {
    const dtstart = new Date(Date.UTC(2025, 0, 31));
    const bare = new RRule({ freq: RRule.MONTHLY, dtstart, count: 2 }).all();
    expect(text(bare[1])).toBe('2025-03-31');
    expect(
      due({ kind: 'since last', every: { months: 1 }, first: FIRST }, { done: '2025-01-31' }).dueOn,
    ).toBe(dayText(dayOf(2025, 2, 28)));
  });
});
