/**
 * When a check-off falls due. A schedule says how often a sheet of a rig is gone through, by whom and by when; its
 * occurrences are counted from the schedule alone, whatever was done or left.
 *
 * That rigs are checked daily or weekly is NFPA 1911's and, for staffed rigs in Washington, WAC 296-305-04505(1)
 * (domain/rulebook/apparatus-chassis). Which weekday, by what time and with what grace is the department's own.
 */
import { type Day, dayText, firstDayOfMonth, lastDayOfMonth, type Month, monthOf } from '../calendar/day.ts';
import { civilText, clockMinutes, DAY_MINUTES } from './civil.ts';

/** 0 is Sunday, 6 Saturday. */
export type Weekday = 0 | 1 | 2 | 3 | 4 | 5 | 6;

/** How often. */
export type Rhythm =
  | { kind: 'daily' }
  /**
   * The first shift of the day starts at `from`, the others follow every `hours`. A shift belongs to the day whose
   * first shift it follows, even where it starts after midnight. Shifts of 48 or 72 hours start on the schedule's
   * first day and every two or three days from it.
   */
  | {
      kind: 'each shift' /** A divisor of 24, or a multiple of it. */;
      hours: number /** HH:MM */;
      from: string;
    }
  | { kind: 'weekly'; weekday: Weekday }
  /** That day of each month; the last day of a month that is shorter. */
  | { kind: 'monthly' /** 1 to 31 */; day: number }
  /** The first Saturday of each month, say. There is no fifth one: not every month has it. */
  | { kind: 'monthly'; weekday: Weekday; nth: 1 | 2 | 3 | 4 | 'last' };

export interface Schedule {
  /** Its name in the ledger. */
  schedule: string;
  title: string;
  every: Rhythm;
  /** The names of the places of the rig it goes through; null: the whole rig. */
  places: readonly string[] | null;
  /** Every line of those places, or those alone that are made sure of by operating them. */
  scope: 'whole' | 'operated only';
  /** The position that does it; null: whoever is there. */
  by: string | null;
  /** HH:MM on its day: of the day's first shift where it goes by shift, the others follow by as many hours. */
  dueBy: string;
  /** Hours after it fell due in which it is not called late. */
  graceHours: number;
  /** Its first day, and the last day on which it still falls. */
  from: Day;
  until: Day | null;
}

/** One time that a check-off falls due. */
export interface Occurrence {
  schedule: string;
  on: Day;
  /** 1 for the first shift of the day; 0 where it does not go by shift. */
  shift: number;
  /** When its shift starts, `YYYY-MM-DDTHH:MM`; null where it does not go by shift. */
  startsAt: string | null;
  /** `YYYY-MM-DDTHH:MM`: on time through that minute. */
  dueAt: string;
  /** The last minute that is on time with the grace. It never reaches to where the next one falls due. */
  graceUntil: string;
  /** When the next one falls due. Where the schedule has ended, when it would have: an old one is not open for ever. */
  nextDueAt: string;
}

/** What is wrong with a schedule and what it should be, in a sentence; null where it can be counted. */
export function scheduleFault({ every, dueBy, graceHours, from, until }: Schedule): string | null {
  if (clockMinutes(dueBy) === null) return `Due by “${dueBy}” is not a time: write it as 07:30.`;
  if (!Number.isFinite(graceHours) || graceHours < 0) return 'The grace is a number of hours, 0 or more.';
  if (until !== null && until < from)
    return `It ends on ${dayText(until)}, before it starts on ${dayText(from)}.`;
  if (every.kind === 'each shift') {
    if (clockMinutes(every.from) === null) return `Shifts from “${every.from}”: write the time as 07:00.`;
    if (!Number.isInteger(every.hours) || every.hours < 1 || (24 % every.hours && every.hours % 24))
      return `Shifts of ${every.hours} hours do not fill whole days: 8, 12, 24 or 48 do.`;
  }
  if ('weekday' in every && !(Number.isInteger(every.weekday) && every.weekday >= 0 && every.weekday <= 6))
    return `There is no weekday ${every.weekday}: 0 is Sunday, 6 Saturday.`;
  if ('nth' in every && ![1, 2, 3, 4, 'last'].includes(every.nth))
    return 'Of a month’s weekdays it is the first to the fourth, or the last.';
  if ('day' in every && !(Number.isInteger(every.day) && every.day >= 1 && every.day <= 31))
    return `No month has a day ${every.day}.`;
  return null;
}

/**
 * Every time a check-off falls due on the days of a window, the earliest first.
 * @param from the window's first day
 * @param to its last day; before `from`: nothing falls in it
 * @throws RangeError with what is wrong with the schedule, by `scheduleFault`
 */
export function occurrences(schedule: Schedule, from: Day, to: Day): Occurrence[] {
  const fault = scheduleFault(schedule);
  if (fault !== null) throw new RangeError(fault);
  const last = schedule.until === null || to < schedule.until ? to : schedule.until;
  const found: Occurrence[] = [];
  for (let on = nextOn(schedule, from); on <= last; on = nextOn(schedule, after(on)))
    found.push(...ofDay(schedule, on));
  return found;
}

/** Those of one day on which it falls. */
function ofDay({ schedule, every, dueBy, graceHours, from }: Schedule, on: Day): Occurrence[] {
  const atFirst = (clockMinutes(dueBy) ?? 0) + on * DAY_MINUTES;
  const next = nextOn({ every, from }, after(on)) * DAY_MINUTES + (clockMinutes(dueBy) ?? 0);
  const occurrence = (shift: number, startsAt: string | null, due: number, nextDue: number): Occurrence => ({
    schedule,
    on,
    shift,
    startsAt,
    dueAt: civilText(due),
    graceUntil: civilText(Math.min(due + Math.round(graceHours * 60), nextDue - 1)),
    nextDueAt: civilText(nextDue),
  });
  if (every.kind !== 'each shift') return [occurrence(0, null, atFirst, next)];
  const step = every.hours * 60;
  const shifts = Math.max(1, 24 / every.hours);
  const start = on * DAY_MINUTES + (clockMinutes(every.from) ?? 0);
  return Array.from({ length: shifts }, (_, n) =>
    occurrence(
      n + 1,
      civilText(start + n * step),
      atFirst + n * step,
      n + 1 < shifts ? atFirst + (n + 1) * step : next,
    ),
  );
}

/** The first day, not before a day, on which it falls; whether the schedule still runs is not asked. */
function nextOn({ every, from }: Pick<Schedule, 'every' | 'from'>, day: Day): Day {
  const start = day < from ? from : day;
  if (every.kind === 'daily') return start;
  if (every.kind === 'each shift') {
    const days = Math.max(1, every.hours / 24);
    return (from + Math.ceil((start - from) / days) * days) as Day;
  }
  if (every.kind === 'weekly') return weekdayFrom(start, every.weekday);
  const inMonth = dayInMonth(every, monthOf(start));
  return inMonth >= start ? inMonth : dayInMonth(every, (monthOf(start) + 1) as Month);
}

function dayInMonth(every: Extract<Rhythm, { kind: 'monthly' }>, month: Month): Day {
  const [first, last] = [firstDayOfMonth(month), lastDayOfMonth(month)];
  if ('day' in every) return Math.min(first + every.day - 1, last) as Day;
  // The last week of a month holds each weekday once, and the last of it is that one.
  if (every.nth === 'last') return weekdayFrom((last - 6) as Day, every.weekday);
  return (weekdayFrom(first, every.weekday) + (every.nth - 1) * 7) as Day;
}

/** The first such weekday, not before a day. 1970-01-01, day 0, was a Thursday. */
function weekdayFrom(day: Day, weekday: Weekday): Day {
  const ahead = (weekday - (day + 4)) % 7;
  return (day + (ahead < 0 ? ahead + 7 : ahead)) as Day;
}

function after(day: Day): Day {
  return (day + 1) as Day;
}
