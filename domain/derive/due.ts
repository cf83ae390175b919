/** What one requirement says of one thing: the last time, the next time, and on what ground. */
import type { Day } from '../calendar/day.ts';
import type { WhenLate } from '../rulebook/types.ts';

/**
 * On what ground a due row stands.
 * - `counted`: a date reached from a record, a manufacture date or a printed date
 * - `first`: nothing is on record and the first one is owed
 * - `retest`: owed now, whatever the date, since a failure, a repair or a happening
 * - `life`: the date is an end of life
 * - `unjudged`: the rule lacks a value the department must confirm, or the thing lacks one
 * - `none`: the requirement does not concern this thing
 */
export const BASES = ['counted', 'first', 'retest', 'life', 'unjudged', 'none'] as const;
export type Basis = (typeof BASES)[number];

export const DUE_STATES = [
  'life ended',
  'retest owed',
  'never done',
  'overdue',
  'not judged',
  'due soon',
  'current',
  'not applicable',
] as const;
/** The state of a due row on a day, the heaviest first. */
export type DueState = (typeof DUE_STATES)[number];

export interface DueRow {
  requirement: string;
  /** The days this version of the requirement is in force, `to` not included. */
  from: Day | null;
  to: Day | null;
  basis: Basis;
  /** The last day it was done (passed or failed), null where it never was. */
  lastOn: Day | null;
  dueOn: Day | null;
  warnOn: Day | null;
  late: WhenLate;
}

/**
 * The state of a due row compared with a day. On time through the due day itself; overdue the day after.
 * A life that ends on a day has ended the day after.
 */
export function stateOn(row: Pick<DueRow, 'basis' | 'dueOn' | 'warnOn'>, day: Day): DueState {
  switch (row.basis) {
    case 'none':
      return 'not applicable';
    case 'unjudged':
      return 'not judged';
    case 'retest':
      return 'retest owed';
    case 'first':
      if (row.dueOn === null || day > row.dueOn) return 'never done';
      break;
    case 'life':
      if (row.dueOn !== null && day > row.dueOn) return 'life ended';
      break;
    case 'counted':
      if (row.dueOn !== null && day > row.dueOn) return 'overdue';
      break;
  }
  return row.warnOn !== null && day >= row.warnOn ? 'due soon' : 'current';
}

/** The heaviest of several states; `not applicable` where there is none. */
export function heaviest(states: readonly DueState[]): DueState {
  return DUE_STATES.find(s => states.includes(s)) ?? 'not applicable';
}
