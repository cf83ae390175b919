/** The clock the store is given: nothing below the hosts reads the machine's own. */
import { type Day, dayOf } from '../../domain/calendar/day.ts';

export interface Clock {
  /** UTC milliseconds now. */
  now(): number;
  /** The day to compare with where it is not today in the department's zone; for scripts and tests. */
  today?: Day;
}

export const systemClock: Clock = { now: () => Date.now() };

/**
 * The civil day of an instant in an IANA time zone.
 * @throws RangeError for an unknown zone
 */
export function dayIn(zone: string, instant: number): Day {
  const quarter = Math.floor(instant / QUARTER_MS);
  if (last?.zone === zone && last.quarter === quarter) return last.day;
  const parts = formatter(zone).formatToParts(instant);
  const part = (type: string) => Number(parts.find(p => p.type === type)?.value);
  const day = dayOf(part('year'), part('month'), part('day'));
  last = { zone, quarter, day };
  return day;
}

/** Zones lie whole quarters of an hour from UTC and change on them, so a day begins with one and never inside it. */
const QUARTER_MS = 15 * 60_000;
let last: { zone: string; quarter: number; day: Day } | undefined;

/** Whether the runtime knows an IANA time zone by this name. */
export function isZone(zone: string): boolean {
  try {
    formatter(zone);
    return true;
  } catch {
    return false;
  }
}

const formatters = new Map<string, Intl.DateTimeFormat>();

function formatter(zone: string): Intl.DateTimeFormat {
  let known = formatters.get(zone);
  if (!known) {
    known = new Intl.DateTimeFormat('en-US', {
      timeZone: zone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      calendar: 'gregory',
    });
    formatters.set(zone, known);
  }
  return known;
}
