/**
 * The civil calendar: the Gregorian leap rule (ISO 8601), and months that are added and clamped to a shorter
 * month's end (RFC 9557's model, Temporal's `overflow: 'constrain'`; as a rule for due dates: common practice).
 */
import { describe, expect, it } from 'vitest';
import {
  addDays,
  addMonths,
  dayOf,
  daysInMonth,
  dayText,
  endOfMonthAfter,
  firstDayOfMonth,
  isDate,
  isLeapYear,
  lastDayOfMonth,
  monthFrom,
  monthOf,
  parseDay,
  partsOf,
} from '../../../domain/calendar/day.ts';
import { showDay, showWhen } from '../../../domain/calendar/show.ts';
import { day, when } from '../notation.ts';

const plusMonths = (text: string, months: number) => dayText(addMonths(day(text), months));

describe('a month after the 31st', () => {
  it('is the 28th of February, or the 29th in a leap year', () => {
    expect(plusMonths('2025-01-31', 1)).toBe('2025-02-28');
    expect(plusMonths('2024-01-31', 1)).toBe('2024-02-29');
  });

  it('is the 30th of a month that has no 31st', () =>
    expect([plusMonths('2025-03-31', 1), plusMonths('2025-08-31', 1)]).toEqual(['2025-04-30', '2025-09-30']));

  it('is kept by a series counted from its anchor, and lost for good by one counted from the clamped day', () => {
    expect([1, 2, 3].map(n => plusMonths('2025-01-31', n))).toEqual([
      '2025-02-28',
      '2025-03-31',
      '2025-04-30',
    ]);
    expect(plusMonths(plusMonths('2025-01-31', 1), 1)).toBe('2025-03-28');
  });
});

describe('29 February', () => {
  it('is 28 February a year later and 29 February four years later', () =>
    expect([plusMonths('2024-02-29', 12), plusMonths('2024-02-29', 48)]).toEqual([
      '2025-02-28',
      '2028-02-29',
    ]));

  it('is not in 2100, and is in 2000', () => {
    expect([isLeapYear(2100), isLeapYear(2000), isLeapYear(1900), isLeapYear(2024)]).toEqual([
      false,
      true,
      false,
      true,
    ]);
    expect(plusMonths('2096-02-29', 48)).toBe('2100-02-28');
    expect(parseDay('2100-02-29')).toBeNull();
    expect(dayText(addDays(day('2100-02-28'), 1))).toBe('2100-03-01');
  });

  it('is not reached from 28 February of a common year: the day of the month is kept', () =>
    expect(plusMonths('2023-02-28', 12)).toBe('2024-02-28'));
});

describe('months', () => {
  it('roll over the turn of the year, both ways', () =>
    expect([
      plusMonths('2020-12-15', 1),
      plusMonths('2020-12-15', 36),
      plusMonths('2021-01-15', -1),
      plusMonths('1970-01-31', -2),
    ]).toEqual(['2021-01-15', '2023-12-15', '2020-12-15', '1969-11-30']));

  it('begin on the first and end on the last, before 1970 too', () => {
    const month = monthFrom(1968, 2);
    expect([dayText(firstDayOfMonth(month)), dayText(lastDayOfMonth(month))]).toEqual([
      '1968-02-01',
      '1968-02-29',
    ]);
    expect(monthOf(day('1968-02-29'))).toBe(month);
    expect(monthFrom(1970, 1)).toBe(0);
  });

  it('end on the last day of the month some months on, from any day of the month', () =>
    expect(['2019-04-01', '2019-04-30'].map(t => dayText(endOfMonthAfter(day(t), 58)))).toEqual([
      '2024-02-29',
      '2024-02-29',
    ]));

  it('have the lengths that everybody knows', () =>
    expect(Array.from({ length: 12 }, (_, i) => daysInMonth(2025, i + 1))).toEqual([
      31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31,
    ]));
});

describe('a date', () => {
  it('is counted from 1 January 1970', () => {
    expect([dayOf(1970, 1, 1), dayOf(1970, 1, 2), dayOf(1969, 12, 31)]).toEqual([0, 1, -1]);
    // POSIX: 2000-01-01T00:00:00Z is second 946684800.
    expect(dayOf(2000, 1, 1)).toBe(946_684_800 / 86_400);
  });

  it('that the calendar does not have is refused, not moved', () => {
    for (const [y, m, d] of [
      [2025, 2, 29],
      [2025, 4, 31],
      [2025, 13, 1],
      [2025, 0, 1],
      [2025, 1, 0],
      [2025, 1.5, 1],
      [Number.NaN, 1, 1],
    ] as const) {
      expect(isDate(y, m, d)).toBe(false);
      expect(() => dayOf(y, m, d)).toThrow(RangeError);
    }
  });

  it('is read only in the form 2026-06-14', () => {
    expect(
      ['2026-6-14', '26-06-14', '2026-06-14T03:10', '2026/06/14', ' 2026-06-14', ''].map(parseDay),
    ).toEqual([null, null, null, null, null, null]);
    expect(partsOf(day('2026-06-14'))).toEqual({ year: 2026, month: 6, day: 14 });
    expect(dayText(dayOf(33, 4, 3))).toBe('0033-04-03');
  });

  it('is shown as precisely as it is known', () => {
    expect(showDay(day('2026-06-04'))).toBe('4 Jun 2026');
    expect(['2026', '2026-06', '2026-06-14', '2026-06-14T03:10'].map(t => showWhen(when(t)))).toEqual([
      '2026',
      'Jun 2026',
      '14 Jun 2026',
      '14 Jun 2026 03:10',
    ]);
  });
});
