/** The dates of one row against each other and today: the century of two-digit years, and what cannot be. */
import { type Day, daysInMonth, isDate, partsOf } from '../../../domain/calendar/day.ts';
import { showDay, showWhen } from '../../../domain/calendar/show.ts';
import { firstDay, lastDay, parseWhen, type When } from '../../../domain/calendar/when.ts';
import { type DayOrder, exists, inOrder } from './day-order.ts';
import type { TypedDate } from './typed-dates.ts';

/** `made`: nothing else of the thing is earlier. `past`: done, so not after today. `expiry`: may lie ahead. */
export type DateRole = 'made' | 'past' | 'expiry';

export interface RowDate {
  role: DateRole;
  shape: TypedDate;
  order: DayOrder;
  /** As typed, and what the date is of: `Last service test`. */
  text: string;
  title: string;
  /** What was done, for the message that it came before the thing was made: `tested`. */
  done: string;
}

export interface DateProblem {
  /** `impossible date`, `date in the future`, or what was done and `before made`: `tested before made`. */
  code: string;
  wrong: string;
  todo: string;
}

export interface SettledDate {
  when: When | null;
  problem: DateProblem | null;
}

/** Two-digit years are not taken further back than this, unless the row itself holds a date that old. */
const REACH_YEARS = 70;
/** And then so far before that date: fifteen years. */
const REACH_BEFORE_KNOWN_DAYS = 5479;
const FIRST_YEAR = 1900;
const LAST_YEAR = 2100;
const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/**
 * Settle the dates of a row.
 *
 * A two-digit year is the latest century that is not after today and agrees with the row: made before everything
 * else, done after it was made. An expiry takes the century nearest to today. A year that would then be over
 * seventy years back is taken as the coming one, and so refused as a date in the future, unless another date of
 * the row, written in full, is as old.
 */
export function settleRowDates(dates: readonly RowDate[], today: Day): SettledDate[] {
  const settled = dates.map(date => impossible(date));
  const candidates = dates.map((date, i) => (settled[i] ? [] : whensOf(date)));
  const certain = dates.flatMap((date, i) =>
    date.shape.shortYear || date.role === 'expiry' ? [] : (candidates[i] ?? []).slice(0, 1),
  );
  const reach = reachOf(certain, today);
  const made = dates.findIndex((date, i) => date.role === 'made' && (candidates[i]?.length ?? 0) > 0);
  const madeWhen = made < 0 ? null : chooseMade(candidates[made] ?? [], certain, reach, today);
  // A making that is itself ahead of today contradicts everything; it alone is refused then.
  const madeBefore = madeWhen !== null && firstDay(madeWhen) <= today ? madeWhen : null;

  return dates.map((date, i) => {
    const problem = settled[i];
    if (problem) return { when: null, problem };
    const options = candidates[i] ?? [];
    const when =
      date.role === 'made'
        ? chooseMade(options, certain, reach, today)
        : date.role === 'past'
          ? choosePast(options, madeWhen, reach, today)
          : chooseExpiry(options, madeWhen, today);
    return { when, problem: when === null ? null : contradiction(date, when, madeBefore, today) };
  });
}

function whensOf(date: RowDate): When[] {
  const { year, shortYear } = date.shape;
  const { month, day } = inOrder(date.shape, date.order);
  const years = shortYear ? [2000 + year, 1900 + year] : [year];
  return years
    .filter(y => month === null || day === null || isDate(y, month, day))
    .map(y =>
      parseWhen([String(y).padStart(4, '0'), ...[month, day].filter(n => n !== null).map(pad)].join('-')),
    )
    .filter(when => when !== null);
}

/** The earliest day a two-digit year may reach back to. */
function reachOf(certain: readonly When[], today: Day): Day {
  const year = partsOf(today).year - REACH_YEARS;
  const oldest = certain
    .map(firstDay)
    .filter(day => partsOf(day).year >= FIRST_YEAR)
    .reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const reach = firstDay(parseWhen(String(year)) as When);
  return Math.min(reach, oldest - REACH_BEFORE_KNOWN_DAYS) as Day;
}

function chooseMade(options: readonly When[], certain: readonly When[], reach: Day, today: Day): When | null {
  const possible = options.filter(when => firstDay(when) <= today && firstDay(when) >= reach);
  const agrees = possible.find(when => certain.every(other => firstDay(when) <= lastDay(other)));
  return agrees ?? possible[0] ?? options[0] ?? null;
}

function choosePast(options: readonly When[], made: When | null, reach: Day, today: Day): When | null {
  const possible = options.filter(when => firstDay(when) <= today && firstDay(when) >= reach);
  const agrees = possible.find(when => made === null || lastDay(when) >= firstDay(made));
  return agrees ?? possible[0] ?? options[0] ?? null;
}

function chooseExpiry(options: readonly When[], made: When | null, today: Day): When | null {
  const possible = options.filter(when => made === null || lastDay(when) >= firstDay(made));
  const nearest = [...possible].sort((a, b) => away(a, today) - away(b, today));
  return nearest[0] ?? options[0] ?? null;
}

function away(when: When, today: Day): number {
  return Math.abs(firstDay(when) - today);
}

/** Why the date exists in no calendar, or null. */
function impossible(date: RowDate): DateProblem | null {
  const { shape, order, text, title } = date;
  const { month, day } = inOrder(shape, order);
  const todo = `Enter the date as on the record, such as 6/14/${2000 + (shape.year % 100)}, or leave the cell empty.`;
  const refuse = (why: string): DateProblem => ({
    code: 'impossible date',
    wrong: `${title} ${text} does not exist: ${why}.`,
    todo,
  });
  if (!shape.shortYear && (shape.year < FIRST_YEAR || shape.year > LAST_YEAR)) {
    return refuse(`the year ${shape.year} cannot be right`);
  }
  if (exists(shape, order)) return null;
  if (month === null || month < 1 || month > 12) {
    const other = order === 'month first' ? 'day first' : 'month first';
    const hint = shape.open && exists(shape, other) ? `; the dates of this column are read ${order}` : '';
    return refuse(`there is no month ${month}${hint}`);
  }
  const year = shape.shortYear ? 2000 + shape.year : shape.year;
  return refuse(
    day === 0 ? 'there is no day 0' : `${MONTHS[month - 1]} ${year} has ${daysInMonth(year, month)} days`,
  );
}

/** Why the date cannot be so, or null: after today, or before the thing was made. */
function contradiction(date: RowDate, when: When, made: When | null, today: Day): DateProblem | null {
  const { role, title, text, shape } = date;
  if (role !== 'expiry' && firstDay(when) > today) {
    const read = shape.shortYear ? ` (read as ${showWhen(when)})` : '';
    return {
      code: 'date in the future',
      wrong: `${title} ${text}${read} is after today, ${showDay(today)}.`,
      todo: shape.shortYear
        ? 'Enter the date it was done, with all four digits of the year.'
        : 'Enter the date it was done; what is still to come is not recorded.',
    };
  }
  if (role === 'made' || made === null || lastDay(when) >= firstDay(made)) return null;
  return {
    code: `${role === 'expiry' ? 'expires' : date.done} before made`,
    wrong:
      role === 'expiry'
        ? `${title} ${showWhen(when)} is before it was made, ${showWhen(made)}.`
        : `It was ${date.done} ${showWhen(when)}, before it was made, ${showWhen(made)}.`,
    todo: 'One of the two dates is wrong: check both against the mark and the record.',
  };
}

function pad(n: number): string {
  return String(n).padStart(2, '0');
}
