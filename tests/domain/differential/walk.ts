/** Dates as text, walked one day or one month at a time: slow, and sharing nothing with the integer calendar. */

const LENGTHS = '31 28 31 30 31 30 31 31 30 31 30 31'.split(' ').map(Number);

function length(year: number, month: number): number {
  const leap = year % 400 === 0 || (year % 4 === 0 && year % 100 !== 0);
  return (LENGTHS[month - 1] ?? Number.NaN) + (month === 2 && leap ? 1 : 0);
}

const two = (n: number) => (n < 10 ? `0${n}` : `${n}`);

const tomorrows = new Map<string, string>();

/** The day after a day. */
export function tomorrow(day: string): string {
  let next = tomorrows.get(day);
  if (next === undefined) {
    const [year = 0, month = 0, inMonth = 0] = day.split('-').map(Number);
    if (inMonth < length(year, month)) next = `${day.slice(0, 8)}${two(inMonth + 1)}`;
    else next = `${nextMonth(day.slice(0, 7))}-01`;
    tomorrows.set(day, next);
  }
  return next;
}

/** The month after a month. */
export function nextMonth(month: string): string {
  const [year = 0, m = 0] = month.split('-').map(Number);
  return m === 12 ? `${year + 1}-01` : `${year}-${two(m + 1)}`;
}

/** The last day of a month, found by walking until the month is over. */
export function endOf(month: string): string {
  let day = `${month}-28`;
  while (tomorrow(day).startsWith(month)) day = tomorrow(day);
  return day;
}

/** A month some months on. */
export function monthsOn(month: string, months: number): string {
  let at = month;
  for (let i = 0; i < months; i += 1) at = nextMonth(at);
  return at;
}

/** A day some days on. */
export function daysOn(day: string, days: number): string {
  let at = day;
  for (let i = 0; i < days; i += 1) at = tomorrow(at);
  return at;
}

/** The same day of the month some months on; where that month is over before it, its last day. */
export function sameDayOn(day: string, months: number): string {
  const month = monthsOn(day.slice(0, 7), months);
  const wanted = `${month}-${day.slice(8, 10)}`;
  const last = endOf(month);
  return wanted < last ? wanted : last;
}

/** The latest day that a partial date can mean. */
export function latest(text: string): string {
  if (text.length === 4) return `${text}-12-31`;
  return text.length === 7 ? endOf(text) : text.slice(0, 10);
}

/** The earliest day that a partial date can mean. */
export function earliest(text: string): string {
  if (text.length === 4) return `${text}-01-01`;
  return text.length === 7 ? `${text}-01` : text.slice(0, 10);
}
