/** The district's days and clock times as instants, and the partial dates that its deeds carry. */
import { type Day, dayText, firstDayOfMonth, type Month, monthOf } from '../../../domain/calendar/day.ts';

export const ZONE = 'America/Denver';
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const localHour = new Intl.DateTimeFormat('en-US', { timeZone: ZONE, hour: '2-digit', hourCycle: 'h23' });

/**
 * The instant of a local time. Clocks change at two in the morning, so noon's offset holds from three o'clock on.
 * @param time `07:40`, not before 03:00
 * @returns UTC milliseconds
 */
export function instantOf(day: Day, time: string): number {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  if (hours < 3) throw new RangeError(`${time} may lie before a change of the clocks.`);
  const evening = day * DAY_MS + 19 * HOUR_MS;
  const behind = 19 - Number(localHour.format(evening));
  return day * DAY_MS + (hours + behind) * HOUR_MS + minutes * 60_000;
}

/** `2026-11` of the month so many months after a day's month (before it, for a negative count). */
export function monthText(day: Day, months = 0): string {
  return dayText(firstDayOfMonth((monthOf(day) + months) as Month)).slice(0, 7);
}

/** The three months of the quarter after the one a day lies in. */
export function nextQuarter(day: Day): [Month, Month, Month] {
  const first = (Math.floor(monthOf(day) / 3) + 1) * 3;
  return [first as Month, (first + 1) as Month, (first + 2) as Month];
}
