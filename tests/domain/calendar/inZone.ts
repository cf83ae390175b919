/**
 * Run by itself in a process with a TZ of its own: compares the calendar with two other libraries on seeded cases
 * and prints what it found as JSON.
 * Arguments: seed, cases, zone of the instants.
 */
import {
  addMonths as addMonthsToDate,
  differenceInCalendarDays,
  getDaysInMonth,
  lastDayOfMonth as lastOf,
} from 'date-fns';
import { Temporal } from 'temporal-polyfill';
import { dayIn } from '../../../db/store/clock.ts';
import {
  addDays,
  addMonths,
  dayOf,
  daysInMonth,
  dayText,
  endOfMonthAfter,
  firstDayOfMonth,
  lastDayOfMonth,
  monthOf,
  parseDay,
  partsOf,
} from '../../../domain/calendar/day.ts';

const [seed = 0, cases = 0] = process.argv.slice(2, 4).map(Number);
const zone = process.argv[4] ?? 'UTC';
const EPOCH = new Temporal.PlainDate(1970, 1, 1);
const wrong: string[] = [];
const counts = { days: 0, sums: 0, instants: 0, nearChange: 0 };

/** A small generator (mulberry32), so that a run can be repeated: whole numbers from 0 to below n. */
let state = seed;
function below(n: number): number {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4_294_967_296) * n);
}

function same(what: string, ours: unknown, theirs: unknown): void {
  if (ours !== theirs && wrong.length < 20) wrong.push(`${what}: ours ${ours}, theirs ${theirs}`);
}

/** Local text of a Date of date-fns. */
function localText(date: Date): string {
  const pad = (n: number) => String(n).padStart(2, '0');
  return `${date.getFullYear()}-${pad(date.getMonth() + 1)}-${pad(date.getDate())}`;
}

/** Every day of two and a half centuries, walked by Temporal. */
function everyDay(): void {
  let plain = new Temporal.PlainDate(1900, 1, 1);
  for (let count = plain.since(EPOCH).days; plain.year < 2150; count += 1) {
    const ours = dayOf(plain.year, plain.month, plain.day);
    const text = plain.toString();
    same(`the count of ${text}`, ours, count);
    same(`the text of ${text}`, dayText(ours), text);
    same(`the day read from ${text}`, parseDay(text), ours);
    const { year, month, day } = partsOf(ours);
    same(`the parts of ${text}`, `${year} ${month} ${day}`, `${plain.year} ${plain.month} ${plain.day}`);
    if (plain.day === 1) {
      same(`the length of ${text}`, daysInMonth(year, month), plain.daysInMonth);
      same(
        `the month of ${text}`,
        dayText(lastDayOfMonth(monthOf(ours))),
        plain.with({ day: plain.daysInMonth }).toString(),
      );
      same(`the first of ${text}`, firstDayOfMonth(monthOf(ours)), ours);
    }
    plain = plain.add({ days: 1 });
    counts.days += 1;
  }
}

/** Seeded sums of months and days, a third of them from the last days of a month. */
function sums(): void {
  for (let i = 0; i < cases; i += 1) {
    const year = 1900 + below(250);
    const month = 1 + below(12);
    const length = new Temporal.PlainYearMonth(year, month).daysInMonth;
    const inMonth = below(3) === 0 ? length - below(3) : 1 + below(length);
    const months = below(1200) - 300;
    const days = below(40_000) - 20_000;
    const plain = new Temporal.PlainDate(year, month, inMonth);
    const local = new Date(year, month - 1, inMonth);
    const ours = dayOf(year, month, inMonth);
    const title = `${plain} plus ${months} months`;

    const later = plain.add({ months }, { overflow: 'constrain' });
    const sum = addMonths(ours, months);
    const localLater = addMonthsToDate(local, months);
    same(title, dayText(sum), later.toString());
    same(`${title}, date-fns`, dayText(sum), localText(localLater));
    same(`days from ${plain} to ${later}`, sum - ours, plain.until(later, { largestUnit: 'days' }).days);
    same(`${title}, days by date-fns`, sum - ours, differenceInCalendarDays(localLater, local));

    const end = dayText(endOfMonthAfter(ours, months));
    same(`the end of the month of ${title}`, end, later.with({ day: later.daysInMonth }).toString());
    same(`the end of the month of ${title}, date-fns`, end, localText(lastOf(localLater)));
    same(`the length of ${year}-${month}`, daysInMonth(year, month), length);
    same(`the length of ${year}-${month}, date-fns`, daysInMonth(year, month), getDaysInMonth(local));
    same(`${plain} plus ${days} days`, dayText(addDays(ours, days)), plain.add({ days }).toString());
    counts.sums += 1;
  }
}

/** Seeded instants: half within a day and a half of a change of the zone's offset, many at a local midnight. */
function instants(): void {
  const changes: Temporal.ZonedDateTime[] = [];
  let at: Temporal.ZonedDateTime | null = Temporal.ZonedDateTime.from(`1970-01-01T00:00[${zone}]`);
  while (at && at.year < 2060) {
    at = at.getTimeZoneTransition('next');
    if (at) changes.push(at);
  }
  const HOUR = 3_600_000;
  for (let i = 0; i < cases; i += 1) {
    const change = changes[below(changes.length)];
    let instant: number;
    if (change && i % 2 === 0) {
      instant = change.epochMilliseconds + below(72 * HOUR) - 36 * HOUR;
      if (i % 4 === 0)
        instant = change.startOfDay().add({ days: below(3) - 1 }).epochMilliseconds + below(3) - 1;
      counts.nearChange += 1;
    } else instant = below(130 * 365 * 24) * HOUR - 20 * 365 * 24 * HOUR + below(HOUR);
    const theirs = Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone).toPlainDate();
    same(`the day of ${instant} in ${zone}`, dayText(dayIn(zone, instant)), theirs.toString());
    counts.instants += 1;
  }
}

everyDay();
sums();
instants();

const winter = new Date(2026, 0, 15).getTimezoneOffset();
const summer = new Date(2026, 6, 15).getTimezoneOffset();
process.stdout.write(JSON.stringify({ ...counts, offsets_min: [winter, summer], wrong }));
