/** Dates and moments as they stand on paper. */

import { parseDay } from '../../domain/calendar/day.ts';
import { showDay, showWhen } from '../../domain/calendar/show.ts';
import { parseWhen } from '../../domain/calendar/when.ts';

/** A date as precisely as it is known; `–` where there is none, and what cannot be read as it came. */
export function dateText(text: string | null): string {
  if (text === null) return '–';
  // What was always so begins before every date.
  if (text.startsWith('0000')) return 'from the start';
  const when = parseWhen(text);
  return when === null ? text : showWhen(when);
}

/** When it is due, or since when it is owed; of a projection the day from which it is likely. */
export function dueText(row: {
  dueOn: string | null;
  dueTo: string | null;
  owedSince: string | null;
}): string {
  const day = dateText(row.dueOn ?? row.owedSince);
  return row.dueTo === null ? day : `from ${day}`;
}

/** `Wed 25 Nov 2026`: whom a paper is for knows the shift by the weekday. */
export function weekdayText(text: string): string {
  const day = parseDay(text);
  if (day === null) return text;
  const weekday = new Intl.DateTimeFormat('en-US', { weekday: 'long', timeZone: 'UTC' });
  return `${weekday.format(new Date(`${text}T00:00:00Z`))} ${showDay(day)}`;
}

/** A moment of the ledger on the department's clock: `14 Jun 2026 09:40`. */
export function momentText(moment: string | number, zone: string): string {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(new Date(moment));
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find(p => p.type === type)?.value ?? '';
  return `${part('day')} ${part('month')} ${part('year')} ${part('hour')}:${part('minute')}`;
}

/** Days left as a figure: a true minus sign, thousands apart. */
export function daysFigure(days: number | null): string {
  if (days === null) return '';
  return days < 0 ? `−${figure(-days)}` : figure(days);
}

export const figure = (n: number): string => n.toLocaleString('en-US');

/** `1 row`, `12 rows`. */
export const counted = (n: number, one: string, many = `${one}s`): string =>
  `${figure(n)} ${n === 1 ? one : many}`;

/** A text cut to so many characters, with the sign that it goes on. */
export const brief = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, most - 1).trimEnd()}…`;
