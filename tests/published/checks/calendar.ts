/** Months added, months that end, days with no time zone, and which of several clocks wins. */
import { Temporal } from 'temporal-polyfill';
import { expect } from 'vitest';
import { z } from 'zod';
import { dayIn } from '../../../db/store/clock.ts';
import {
  addMonths,
  type Day,
  dayText,
  endOfMonthAfter,
  firstDayOfMonth,
  monthFrom,
  parseDay,
} from '../../../domain/calendar/day.ts';
import { departmentWith, rowOf } from '../department.ts';
import { type Check, inputsOf, type Vector } from '../vectors.ts';

export const CALENDAR_CHECKS: readonly Check[] = [
  { ids: /^CAL-00\d$/, run: monthsAdded },
  { ids: /^CAL-010$/, run: monthStampPlusYears },
  { ids: /^CAL-011$/, run: monthGranularOverdue },
  { ids: /^CAL-012$/, run: dayGranularOverdue },
  { ids: /^CAL-013$/, run: tieShowsAllReasons },
  { ids: /^CAL-014$/, run: lateEveningBelongsToItsDay },
];

function monthsAdded(v: Vector) {
  const { date, months } = inputsOf(v, { date: z.string(), months: z.number() });
  expect(dayText(addMonths(dayFrom(date), months))).toBe(v.expected);
}

function monthStampPlusYears(v: Vector) {
  const { stamp, years } = inputsOf(v, { stamp: z.string(), years: z.number() });
  const [month, year] = stamp.split('-').map(Number);
  const day = firstDayOfMonth(monthFrom(year ?? Number.NaN, month ?? Number.NaN));
  const [dueYear, dueMonth] = dayText(endOfMonthAfter(day, years * 12)).split('-');
  expect(`${dueMonth}-${dueYear}`).toBe(v.expected);
}

/** Shown on a steel cylinder tested five years before the due month. */
async function monthGranularOverdue(v: Vector) {
  const { due_month, as_of } = inputsOf(v, { due_month: z.string(), as_of: z.array(z.string()) });
  const tested = yearsBefore(due_month, 5);
  expect(await lateness('cylinder', { spec: '3AA' }, 'requalification', tested, as_of)).toEqual(v.expected);
}

/** Shown on a ladder whose service test was a year before the due day. */
async function dayGranularOverdue(v: Vector) {
  const { due, as_of } = inputsOf(v, { due: z.string(), as_of: z.array(z.string()) });
  expect(await lateness('ladder', {}, 'service test', yearsBefore(due, 1), as_of)).toEqual(v.expected);
}

async function lateness(
  family: string,
  attributes: Record<string, string>,
  activity: string,
  on: string,
  days: readonly string[],
) {
  const department = await departmentWith();
  const requirement = `${family}.${activity.replace(' ', '-')}`;
  const states = [];
  for (const day of days)
    states.push(
      rowOf(await department.trial(family, attributes, [{ activity, on }], day), requirement)?.state,
    );
  return states.map(state => (state === 'overdue' ? 'overdue' : 'not_overdue'));
}

/** A carbon cylinder whose requalification and life end in the same month. */
async function tieShowsAllReasons(v: Vector) {
  const { clocks } = inputsOf(v, { clocks: z.object({ hydro: z.string(), life_end: z.string() }) });
  const { effective, reasons } = z
    .object({ effective: z.string(), reasons: z.array(z.string()) })
    .parse(v.expected);
  const department = await departmentWith();
  const item = department.receive(
    'cylinder',
    { construction: 'carbon', made: yearsBefore(clocks.life_end, 15) },
    [{ activity: 'requalification', on: yearsBefore(clocks.hydro, 5) }],
  );
  const on = `${effective}-01`;
  const page = await department.page(item, on);
  expect(page.next?.dueOn.slice(0, 7)).toBe(effective);
  // The words of the vector for our two requirements.
  const titles: Record<string, string> = { hydro: 'Requalification', life_end: 'End of life' };
  expect(page.next?.titles.sort()).toEqual(reasons.map(r => titles[r]).sort());
  const { number } = page;
  const why = await department.ask('due.explain', { number, requirement: 'cylinder.requalification', on });
  const winners = why.clocks.filter(c => c.wins).map(c => c.requirement);
  expect(winners.sort()).toEqual(['cylinder.end-of-life', 'cylinder.requalification']);
}

/** 23:30 in Chicago, five hours behind, is already the next day in UTC; the deed is dated on the floor. */
async function lateEveningBelongsToItsDay(v: Vector) {
  const { local, utc_offset_hours } = inputsOf(v, { local: z.string(), utc_offset_hours: z.number() });
  const { month } = z.object({ month: z.string() }).parse(v.expected);
  const zone = 'America/Chicago';
  const at = Temporal.PlainDateTime.from(local).toZonedDateTime(zone);
  expect(at.offsetNanoseconds / 3_600_000_000_000).toBe(utc_offset_hours);
  expect(at.toInstant().toString().slice(0, 7)).not.toBe(month);
  expect(dayText(dayIn(zone, at.epochMilliseconds)).slice(0, 7)).toBe(month);

  // A deed without a date is dated by the store's clock.
  const department = await departmentWith({ clock: { now: () => at.epochMilliseconds } });
  const item = department.receive('cylinder', { spec: '3AA' }, []);
  department.act('record.add', { item, activity: 'requalification', outcome: 'pass', rin: 'A123' });
  const due = (await department.page(item, local.slice(0, 10))).due;
  expect(due.find(r => r.requirement === 'cylinder.requalification')?.lastOn).toBe(local.slice(0, 10));

  // A deed dated with its clock time counts from that month.
  const shipped = await departmentWith();
  const history = [{ activity: 'requalification', on: local }];
  const trial = await shipped.trial('cylinder', { spec: '3AA' }, history, '2025-01-01');
  expect(rowOf(trial, 'cylinder.requalification')?.dueOn).toBe('2029-04-30');
}

function dayFrom(text: string): Day {
  const day = parseDay(text);
  if (day === null) throw new Error(`${text} is not a day.`);
  return day;
}

/** A day or a month some years before; for dates other than 29 February. */
function yearsBefore(text: string, years: number): string {
  return `${Number(text.slice(0, 4)) - years}${text.slice(4)}`;
}
