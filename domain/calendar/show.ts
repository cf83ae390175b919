/** Dates as people read them on screen and paper: `14 Jun 2026`, `Jun 2026`, `2026`. */
import { type Day, partsOf } from './day.ts';
import type { When } from './when.ts';

/** January to December, written out. */
export const MONTH_NAMES = [
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
] as const;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** `14 Jun 2026`. */
export function showDay(day: Day): string {
  const { year, month, day: inMonth } = partsOf(day);
  return `${inMonth} ${MONTHS[month - 1]} ${year}`;
}

/** As precisely as the date is known: `14 Jun 2026`, `14 Jun 2026 03:10`, `Jun 2026`, `2026`. */
export function showWhen(when: When): string {
  const month = when.length >= 7 ? `${MONTHS[Number(when.slice(5, 7)) - 1]} ` : '';
  const day = when.length >= 10 ? `${Number(when.slice(8, 10))} ` : '';
  const time = when.length > 10 ? ` ${when.slice(11)}` : '';
  return `${day}${month}${when.slice(0, 4)}${time}`;
}
