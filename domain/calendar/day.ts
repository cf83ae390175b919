/**
 * Civil days as whole numbers: no clock, no time zone, nothing that a daylight-saving change could move.
 * A `Day` counts from 1970-01-01 (day 0), a `Month` from January 1970 (month 0), proleptic Gregorian.
 */
declare const dayBrand: unique symbol;
declare const monthBrand: unique symbol;

/** A civil day, counted from 1970-01-01. */
export type Day = number & { readonly [dayBrand]: true };
/** A calendar month, counted from January 1970. */
export type Month = number & { readonly [monthBrand]: true };

const MONTH_LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/** A leap year by the Gregorian rule: 2000 is one, 2100 is not. */
export function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** Days in a month; `month` 1 to 12. */
export function daysInMonth(year: number, month: number): number {
  return month === 2 && isLeapYear(year) ? 29 : (MONTH_LENGTHS[month - 1] ?? 0);
}

/**
 * The day of a civil date.
 * @param month 1 to 12
 * @param day 1 to the length of the month
 * @throws RangeError where the calendar has no such date
 */
export function dayOf(year: number, month: number, day: number): Day {
  if (!isDate(year, month, day)) throw new RangeError(`${year}-${month}-${day} is not a date.`);
  // Days before 1 March of a year that starts in March: leap days then come last and need no special case.
  const y = month > 2 ? year : year - 1;
  const m = month > 2 ? month - 3 : month + 9;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * m + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return (era * 146_097 + dayOfEra - 719_468) as Day;
}

/** Whether the calendar has this date: 30 February does not exist, 29 February only in leap years. */
export function isDate(year: number, month: number, day: number): boolean {
  return (
    Number.isInteger(year) &&
    Number.isInteger(month) &&
    Number.isInteger(day) &&
    month >= 1 &&
    month <= 12 &&
    day >= 1 &&
    day <= daysInMonth(year, month)
  );
}

/** Year, month (1 to 12) and day of the month of a day. */
export function partsOf(day: Day): { year: number; month: number; day: number } {
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra -
      Math.floor(dayOfEra / 1460) +
      Math.floor(dayOfEra / 36_524) -
      Math.floor(dayOfEra / 146_096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const m = Math.floor((5 * dayOfYear + 2) / 153);
  const month = m < 10 ? m + 3 : m - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * m + 2) / 5) + 1,
  };
}

/** The month a day lies in. */
export function monthOf(day: Day): Month {
  const { year, month } = partsOf(day);
  return monthFrom(year, month);
}

/** The month of a year and a month number (1 to 12). */
export function monthFrom(year: number, month: number): Month {
  return ((year - 1970) * 12 + month - 1) as Month;
}

/** The last day of a month. */
export function lastDayOfMonth(month: Month): Day {
  const year = 1970 + Math.floor(month / 12);
  const inYear = month - (year - 1970) * 12 + 1;
  return dayOf(year, inYear, daysInMonth(year, inYear));
}

/** The first day of a month. */
export function firstDayOfMonth(month: Month): Day {
  const year = 1970 + Math.floor(month / 12);
  return dayOf(year, month - (year - 1970) * 12 + 1, 1);
}

/** A day some days later (or earlier, for a negative count). */
export function addDays(day: Day, days: number): Day {
  return (day + days) as Day;
}

/**
 * The same day of the month some months later, or that month's last day where it is shorter:
 * 31 January + 1 month is 28 or 29 February. Count a series from its anchor, never from the clamped day.
 */
export function addMonths(day: Day, months: number): Day {
  const { year, month, day: inMonth } = partsOf(day);
  const target = (year - 1970) * 12 + month - 1 + months;
  const targetYear = 1970 + Math.floor(target / 12);
  const targetMonth = target - (targetYear - 1970) * 12 + 1;
  return dayOf(targetYear, targetMonth, Math.min(inMonth, daysInMonth(targetYear, targetMonth)));
}

/** The last day of the month that lies some months after a day's month. */
export function endOfMonthAfter(day: Day, months: number): Day {
  return lastDayOfMonth((monthOf(day) + months) as Month);
}

/** `YYYY-MM-DD`. */
export function dayText(day: Day): string {
  const { year, month, day: inMonth } = partsOf(day);
  return `${String(year).padStart(4, '0')}-${pad(month)}-${pad(inMonth)}`;
}

/**
 * Read `YYYY-MM-DD`.
 * @returns null where the text has another form or the calendar has no such date
 */
export function parseDay(text: string): Day | null {
  const m = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!m) return null;
  const [year, month, day] = [Number(m[1]), Number(m[2]), Number(m[3])];
  return isDate(year, month, day) ? dayOf(year, month, day) : null;
}

function pad(n: number): string {
  return String(n).padStart(2, '0');
}
