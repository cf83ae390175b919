/**
 * Dates as people type them in the US: `6/14/2026`, `14 Jun 2026`, `Jun 2026`, `2026`, `today`. The store judges
 * them; here they are only brought to its form, so that a date that does not exist is refused there by name.
 */
import { showWhen } from '../../../domain/calendar/show.ts';
import { parseWhen } from '../../../domain/calendar/when.ts';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

export interface ReadDate {
  /** What goes to the store: a partial date, or what was typed where no form fits. */
  text: string;
  /** How it was read, for the person who typed it. */
  words: string;
}

/** @param today `YYYY-MM-DD`, the department's own */
export function readDate(typed: string, today: string): ReadDate {
  const said = typed.trim().toLowerCase();
  if (said === '' || said === 'today') return { text: today, words: `Today, ${shown(today)}` };
  const text = fromNumbers(said) ?? fromWords(said) ?? typed.trim();
  const when = parseWhen(text);
  if (when === null)
    return { text, words: 'Not a date yet. Write 6/14/2026, 14 Jun 2026, Jun 2026 or 2026.' };
  return { text, words: text === today ? `Today, ${showWhen(when)}` : showWhen(when) };
}

function shown(day: string): string {
  const when = parseWhen(day);
  return when === null ? day : showWhen(when);
}

/** Month first, as written in the US; year first is the store's own form. */
function fromNumbers(said: string): string | null {
  const us = /^(\d{1,2})[/.-](\d{1,2})[/.-](\d{4}|\d{2})(?:\s+(\d{1,2}):(\d{2}))?$/.exec(said);
  if (us)
    return partial(us[3], us[1], us[2], us[4] === undefined ? '' : `T${us[4].padStart(2, '0')}:${us[5]}`);
  const month = /^(\d{1,2})[/-](\d{4})$/.exec(said);
  if (month) return partial(month[2], month[1]);
  const own = /^(\d{4}-\d{2}-\d{2})[ t](\d{2}:\d{2})$/.exec(said);
  return own ? `${own[1]}T${own[2]}` : null;
}

function fromWords(said: string): string | null {
  const dayFirst = /^(?:(\d{1,2})[ -])?([a-z]{3,9})\.?[ -,]+(\d{4})$/.exec(said);
  if (dayFirst) return partial(dayFirst[3], monthNumber(dayFirst[2]), dayFirst[1]);
  const monthFirst = /^([a-z]{3,9})\.?[ -](\d{1,2}),? +(\d{4})$/.exec(said);
  if (monthFirst) return partial(monthFirst[3], monthNumber(monthFirst[1]), monthFirst[2]);
  return null;
}

function monthNumber(word: string | undefined): string | undefined {
  const at = MONTHS.findIndex(m => word?.startsWith(m));
  return at < 0 ? undefined : String(at + 1);
}

function partial(year = '', month?: string, day?: string, time = ''): string | null {
  if (month === undefined) return null;
  const full = year.length === 2 ? `20${year}` : year;
  return `${full}-${month.padStart(2, '0')}${day === undefined ? '' : `-${day.padStart(2, '0')}`}${time}`;
}
