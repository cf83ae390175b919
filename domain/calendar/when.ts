/**
 * When something was so on the floor, as precisely as it is known: `2024`, `2024-01`, `2024-01-17`, or with a
 * local clock time `2024-01-17T03:10`. Plain text order puts a coarser date before the finer ones inside it.
 */
import { type Day, dayOf, firstDayOfMonth, isDate, lastDayOfMonth, monthFrom } from './day.ts';

declare const whenBrand: unique symbol;
/** A civil date with its precision. */
export type When = string & { readonly [whenBrand]: true };
export type Precision = 'year' | 'month' | 'day' | 'minute';

const FORM = /^(\d{4})(?:-(\d{2})(?:-(\d{2})(?:T(\d{2}):(\d{2}))?)?)?$/;

/**
 * Read a partial date.
 * @returns null where the text has another form or names a month, day or time that does not exist
 */
export function parseWhen(text: string): When | null {
  const m = FORM.exec(text);
  if (!m) return null;
  const [, year, month, day, hour, minute] = m;
  if (month !== undefined && (Number(month) < 1 || Number(month) > 12)) return null;
  if (day !== undefined && !isDate(Number(year), Number(month), Number(day))) return null;
  if (hour !== undefined && (Number(hour) > 23 || Number(minute) > 59)) return null;
  return text as When;
}

/** How precisely the date is known. */
export function precisionOf(when: When): Precision {
  if (when.length === 4) return 'year';
  if (when.length === 7) return 'month';
  return when.length === 10 ? 'day' : 'minute';
}

/** The first day the date can mean. */
export function firstDay(when: When): Day {
  const year = Number(when.slice(0, 4));
  if (when.length === 4) return dayOf(year, 1, 1);
  const month = Number(when.slice(5, 7));
  if (when.length === 7) return firstDayOfMonth(monthFrom(year, month));
  return dayOf(year, month, Number(when.slice(8, 10)));
}

/** The last day the date can mean: the end of a year or a month that is all that is known. */
export function lastDay(when: When): Day {
  const year = Number(when.slice(0, 4));
  if (when.length === 4) return dayOf(year, 12, 31);
  if (when.length === 7) return lastDayOfMonth(monthFrom(year, Number(when.slice(5, 7))));
  return firstDay(when);
}

/**
 * A deed of a day on which something of the kind was told with a time comes after it: nobody takes a rig out in the
 * afternoon for the morning. A day alone would sort before every time of it.
 */
export const afterTold = (on: string, told: When | null): string => (told?.startsWith(on) ? told : on);
