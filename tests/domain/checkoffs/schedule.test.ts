/**
 * When check-offs fall due. Daily or weekly: NFPA 1911 (2007), read second-hand; daily for staffed rigs in Washington:
 * WAC 296-305-04505(1), read. A reserve rig's weekly check on Saturday and the Monday ladder check are departments' own
 * (read in their procedures). Weekdays are the calendar's: 1 March 2026 was a Sunday.
 */
import { describe, expect, it } from 'vitest';
import { dayText } from '../../../domain/calendar/day.ts';
import {
  occurrences,
  type Rhythm,
  type Schedule,
  scheduleFault,
  type Weekday,
} from '../../../domain/checkoffs/schedule.ts';
import { day } from '../notation.ts';
import { dueAt, schedule } from './sheets.ts';

const SATURDAY = 6;
const within = (every: Rhythm, from: string, to: string, rest: Partial<Schedule> = {}) =>
  occurrences(schedule(every, rest), day(from), day(to));
const days = (every: Rhythm, from: string, to: string, rest: Partial<Schedule> = {}) =>
  within(every, from, to, rest).map(o => dayText(o.on));

describe('a daily check', () => {
  it('falls due each day of the window, its first and last day too', () =>
    expect(dueAt(within({ kind: 'daily' }, '2026-02-27', '2026-03-01'))).toEqual([
      '2026-02-27T08:00',
      '2026-02-28T08:00',
      '2026-03-01T08:00',
    ]));

  it('is not owed before its schedule began or after it ended', () =>
    expect(
      days({ kind: 'daily' }, '2026-01-01', '2026-12-31', {
        from: day('2026-05-30'),
        until: day('2026-06-01'),
      }),
    ).toEqual(['2026-05-30', '2026-05-31', '2026-06-01']));

  it('falls due by the clock on the wall where the clocks change: 8 March and 1 November 2026', () => {
    // At 02:30, an hour that 8 March does not have and 1 November has twice.
    const early = { dueBy: '02:30', graceHours: 1 };
    for (const [from, to] of [
      ['2026-03-07', '2026-03-09'],
      ['2026-10-31', '2026-11-02'],
    ] as const) {
      const found = within({ kind: 'daily' }, from, to, early);
      expect(found.map(o => o.dueAt.slice(10))).toEqual(['T02:30', 'T02:30', 'T02:30']);
      expect(found.map(o => o.graceUntil.slice(10))).toEqual(['T03:30', 'T03:30', 'T03:30']);
      expect(found[0]?.nextDueAt).toBe(found[1]?.dueAt);
    }
  });

  it('has no empty window to fail on', () =>
    expect(within({ kind: 'daily' }, '2026-03-02', '2026-03-01')).toEqual([]));
});

describe('a check each shift', () => {
  it('of 24 hours is one a day, the first and only shift of it', () =>
    expect(
      within({ kind: 'each shift', hours: 24, from: '07:00' }, '2026-03-08', '2026-03-09').map(o => [
        o.dueAt,
        o.shift,
        o.startsAt,
      ]),
    ).toEqual([
      ['2026-03-08T08:00', 1, '2026-03-08T07:00'],
      ['2026-03-09T08:00', 1, '2026-03-09T07:00'],
    ]));

  it('of 12 hours is due an hour into each of the two', () =>
    expect(
      dueAt(within({ kind: 'each shift', hours: 12, from: '07:00' }, '2026-11-01', '2026-11-01')),
    ).toEqual(['2026-11-01T08:00', '2026-11-01T20:00']));

  it('that starts at or after midnight belongs to the day whose shifts it follows', () =>
    expect(
      within({ kind: 'each shift', hours: 8, from: '08:00' }, '2026-03-07', '2026-03-07', {
        dueBy: '08:30',
      }).map(o => [dayText(o.on), o.shift, o.startsAt, o.dueAt]),
    ).toEqual([
      ['2026-03-07', 1, '2026-03-07T08:00', '2026-03-07T08:30'],
      ['2026-03-07', 2, '2026-03-07T16:00', '2026-03-07T16:30'],
      ['2026-03-07', 3, '2026-03-08T00:00', '2026-03-08T00:30'],
    ]));

  it('of 48 hours starts every second day from the first day of the schedule, wherever the window begins', () => {
    const shifts = { kind: 'each shift', hours: 48, from: '07:00' } as const;
    const from = day('2026-03-06');
    expect(days(shifts, '2026-03-07', '2026-03-12', { from })).toEqual([
      '2026-03-08',
      '2026-03-10',
      '2026-03-12',
    ]);
  });

  it('gives the next shift as what follows it, and the next day after the last one', () =>
    expect(
      within({ kind: 'each shift', hours: 12, from: '07:00' }, '2026-03-08', '2026-03-08').map(
        o => o.nextDueAt,
      ),
    ).toEqual(['2026-03-08T20:00', '2026-03-09T08:00']));
});

describe('a weekly check', () => {
  it('falls on its weekday: Saturdays for the reserve rig', () =>
    expect(days({ kind: 'weekly', weekday: SATURDAY }, '2026-03-01', '2026-03-21')).toEqual([
      '2026-03-07',
      '2026-03-14',
      '2026-03-21',
    ]));

  it('begins on the first such day of its schedule', () =>
    expect(
      days({ kind: 'weekly', weekday: 1 }, '2026-01-01', '2026-03-10', { from: day('2026-03-03') }),
    ).toEqual(['2026-03-09']));
});

describe('a monthly check', () => {
  it('on the 31st falls on the last day of a shorter month', () =>
    expect(days({ kind: 'monthly', day: 31 }, '2026-01-01', '2026-04-30')).toEqual([
      '2026-01-31',
      '2026-02-28',
      '2026-03-31',
      '2026-04-30',
    ]));

  it('on the 30th falls on 29 February of a leap year, and on the 30th again after it', () =>
    expect(days({ kind: 'monthly', day: 30 }, '2028-02-01', '2028-03-31')).toEqual([
      '2028-02-29',
      '2028-03-30',
    ]));

  it('on the first Saturday falls on the 1st to the 7th', () =>
    expect(days({ kind: 'monthly', weekday: SATURDAY, nth: 1 }, '2026-07-01', '2026-09-30')).toEqual([
      '2026-07-04',
      '2026-08-01',
      '2026-09-05',
    ]));

  it('on the last Sunday falls on the fifth where the month has one', () =>
    expect(days({ kind: 'monthly', weekday: 0, nth: 'last' }, '2026-02-01', '2026-03-31')).toEqual([
      '2026-02-22',
      '2026-03-29',
    ]));

  it('that fell earlier in the month than its schedule began waits for the next month', () =>
    expect(
      days({ kind: 'monthly', day: 1 }, '2026-01-01', '2026-12-31', { from: day('2026-11-02') }),
    ).toEqual(['2026-12-01']));
});

describe('the grace', () => {
  it('runs in hours and parts of them from when it fell due', () =>
    expect(within({ kind: 'daily' }, '2026-03-08', '2026-03-08', { graceHours: 1.5 })[0]?.graceUntil).toBe(
      '2026-03-08T09:30',
    ));

  it('ends before the next one falls due, however long it is', () =>
    expect(within({ kind: 'daily' }, '2026-03-08', '2026-03-08', { graceHours: 48 })[0]?.graceUntil).toBe(
      '2026-03-09T07:59',
    ));
});

describe('a schedule that cannot be counted', () => {
  const wrong: [string, Schedule][] = [
    ['8:00 is no time', schedule({ kind: 'daily' }, { dueBy: '8:00' })],
    ['24:00 is no time', schedule({ kind: 'daily' }, { dueBy: '24:00' })],
    ['a grace under nothing', schedule({ kind: 'daily' }, { graceHours: -1 })],
    ['a grace that is no number', schedule({ kind: 'daily' }, { graceHours: Number.NaN })],
    ['it ends before it starts', schedule({ kind: 'daily' }, { until: day('2025-12-31') })],
    ['ten hours do not fill a day', schedule({ kind: 'each shift', hours: 10, from: '07:00' })],
    ['nor do 36', schedule({ kind: 'each shift', hours: 36, from: '07:00' })],
    ['shifts of no length', schedule({ kind: 'each shift', hours: 0, from: '07:00' })],
    ['shifts from no time', schedule({ kind: 'each shift', hours: 24, from: '7' })],
    ['an eighth weekday', schedule({ kind: 'weekly', weekday: 7 as Weekday })],
    ['a fifth Saturday', schedule({ kind: 'monthly', weekday: 6, nth: 5 as 4 })],
    ['a 32nd', schedule({ kind: 'monthly', day: 32 })],
  ];
  it.each(wrong)('is refused with what to write instead: %s', (_, one) => {
    expect(scheduleFault(one)).toMatch(/^\S.*\.$/);
    expect(() => occurrences(one, day('2026-01-01'), day('2026-01-31'))).toThrow(RangeError);
  });

  it('is not one whose last day is its first', () =>
    expect(scheduleFault(schedule({ kind: 'daily' }, { until: day('2026-01-01') }))).toBeNull());
});
