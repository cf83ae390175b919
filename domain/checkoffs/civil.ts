/**
 * Civil times as people on the floor write them, `YYYY-MM-DDTHH:MM`, and their count of minutes. There is no zone and
 * every day has 24 hours: what is due at 08:00 is due at 08:00 on the day the clocks change, too. Texts of this form
 * compare as times do.
 */
import { type Day, dayText, parseDay } from '../calendar/day.ts';

/** Minutes in a civil day, whatever the clocks do. */
export const DAY_MINUTES = 1440;

/**
 * Minutes after midnight of a clock time.
 * @param text `HH:MM`, 00:00 to 23:59
 * @returns null where it is no such time
 */
export function clockMinutes(text: string): number | null {
  const found = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(text);
  return found ? Number(found[1]) * 60 + Number(found[2]) : null;
}

/**
 * Seconds of a civil time since 1970-01-01T00:00.
 * @param text `YYYY-MM-DDTHH:MM`, or with its seconds `YYYY-MM-DDTHH:MM:SS`
 * @returns null where the text has another form or names a day or time that does not exist
 */
export function civilSeconds(text: string): number | null {
  const day = parseDay(text.slice(0, 10));
  const minutes = text[10] === 'T' ? clockMinutes(text.slice(11, 16)) : null;
  const rest = text.slice(16);
  if (day === null || minutes === null || !/^(:[0-5]\d)?$/.test(rest)) return null;
  return (day * DAY_MINUTES + minutes) * 60 + (rest === '' ? 0 : Number(rest.slice(1)));
}

/** `YYYY-MM-DDTHH:MM` of whole minutes since 1970-01-01T00:00. */
export function civilText(minutes: number): string {
  const day = Math.floor(minutes / DAY_MINUTES) as Day;
  const inDay = minutes - day * DAY_MINUTES;
  const pad = (n: number) => String(n).padStart(2, '0');
  return `${dayText(day)}T${pad(Math.floor(inDay / 60))}:${pad(inDay % 60)}`;
}
