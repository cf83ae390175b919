/** Counting a span from a partial date, and saying the arithmetic. */
import {
  addDays,
  addMonths,
  type Day,
  endOfMonthAfter,
  lastDayOfMonth,
  type Month,
  monthOf,
} from '../../calendar/day.ts';
import { showDay, showWhen } from '../../calendar/show.ts';
import { lastDay, type When } from '../../calendar/when.ts';
import type { Every, Requirement } from '../../rulebook/types.ts';
import type { ClockInput } from './reading.ts';

/** Count a span from a partial date by the requirement's rule of days, and tell the arithmetic. */
export function countOn(input: ClockInput, from: When, every: Every): Day {
  const due = dueDay(input.requirement, from, every);
  const { dueAt } = input.requirement;
  const how =
    dueAt === 'month end'
      ? ', on time through the last day of that month'
      : dueAt === 'month start'
        ? ', only before that month begins'
        : '';
  input.tell?.(`${showWhen(from)} plus ${spanText(every)}${how}: ${showDay(due)}.`);
  return due;
}

/**
 * The last day on time. A partial date counts from its last day; months keep the day of the month, clamped to a
 * shorter month's end; `month end` runs through the due month, `month start` ends the day before it.
 */
export function dueDay(requirement: Requirement, from: When, every: Every): Day {
  const anchor = lastDay(from);
  if ('days' in every) return addDays(anchor, every.days);
  if (requirement.dueAt === 'month end') return endOfMonthAfter(anchor, every.months);
  if (requirement.dueAt === 'month start')
    return lastDayOfMonth((monthOf(anchor) + every.months - 1) as Month);
  // A month is all that is known: "April" plus a year is the end of April, also where the year is a leap year.
  if (from.length === 7) return endOfMonthAfter(anchor, every.months);
  return addMonths(anchor, every.months);
}

/** `12 months`, `5 years`, `7 days`. */
export function spanText(every: Every): string {
  if ('days' in every) return `${every.days} ${every.days === 1 ? 'day' : 'days'}`;
  if (every.months >= 24 && every.months % 12 === 0) return `${every.months / 12} years`;
  return `${every.months} ${every.months === 1 ? 'month' : 'months'}`;
}
