/** Dates and days as people read them: `14 Jun 2026`, with the days left beside it. */
import { format, parseISO } from 'date-fns';
import { showWhen } from '../../../domain/calendar/show.ts';
import { parseWhen } from '../../../domain/calendar/when.ts';
import styles from './words.module.css';

/** A date as precisely as it is known; what cannot be read is shown as it came. */
export function dateText(text: string): string {
  // What was always so begins before every date.
  if (text.startsWith('0000')) return 'from the start';
  const when = parseWhen(text);
  return when === null ? text : showWhen(when);
}

/** A day in a fixed width, so that days, months and years line up down a column. */
export function DateText({ date }: { date: string | null }) {
  if (date === null) return <span className={styles.none}>–</span>;
  return <time dateTime={date}>{dateText(date)}</time>;
}

/** `12 days left`, `today`, `164 days ago`. */
export function daysWords(days: number): string {
  if (days === 0) return 'today';
  const n = Math.abs(days).toLocaleString('en-US');
  const unit = Math.abs(days) === 1 ? 'day' : 'days';
  return days > 0 ? `${n} ${unit} left` : `${n} ${unit} ago`;
}

/** Days left as a figure for a column headed in days: a true minus sign, thousands apart. */
export function daysFigure(days: number | null): string {
  if (days === null) return '';
  return days < 0 ? `−${Math.abs(days).toLocaleString('en-US')}` : days.toLocaleString('en-US');
}

/** A date, or a moment of the ledger where that is what it is. */
export const whenText = (text: string, zone: string): string =>
  text.endsWith('Z') ? momentText(text, zone) : dateText(text);

/** A moment of the ledger on the department's clock: `14 Jun 2026 09:40`. */
export function momentText(iso: string, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(new Date(iso));
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find(p => p.type === type)?.value ?? '';
  return `${part('day')} ${part('month')} ${part('year')} ${part('hour')}:${part('minute')}`;
}

/** A month of a group: `June 2026`. */
export function monthText(month: string): string {
  return format(parseISO(`${month}-01`), 'MMMM yyyy');
}
