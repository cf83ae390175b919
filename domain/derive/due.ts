/** What one requirement says of one thing: the last time, the next time, and on what ground. */
import type { Day } from '../calendar/day.ts';
import type { OwnVersion, WhenLate } from '../rulebook/types.ts';

/**
 * On what ground a due row stands.
 * - `counted`: a date reached from a record, a manufacture date or a printed date
 * - `first`: nothing is on record and the first one is owed
 * - `projected`: a range of days in which a meter is likely to reach its mark
 * - `retest`: owed now, whatever the date, since a failure, a repair or a happening
 * - `life`: the date is an end of life
 * - `unjudged`: the rule lacks a value the department must confirm, or the thing lacks one
 * - `none`: the requirement does not concern this thing
 */
export const BASES = ['counted', 'first', 'projected', 'retest', 'life', 'unjudged', 'none'] as const;
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
  /** The day it is due; of a projection the earliest it may be. */
  dueOn: Day | null;
  /** The latest a projection may fall; null for everything else, and where it may never come. */
  dueTo: Day | null;
  warnOn: Day | null;
  /** The last day on which it is not late: the due day and the department's grace; null where no day is certain. */
  lateOn: Day | null;
  late: WhenLate;
  /** Whether the version in force is looser than the book ships it, or of the department's own making. */
  own: OwnVersion['change'] | null;
}

/** What the state of a due row depends on. */
export type Datings = Pick<DueRow, 'basis' | 'dueOn' | 'dueTo' | 'warnOn' | 'lateOn'>;

/**
 * The state of a due row compared with a day. On time through the due day itself and the department's days of grace;
 * overdue the day after. A life that ends on a day has ended the day after. A projection is never overdue by itself:
 * past its range nothing is known until the meter is read, unless another clock beside it is certain.
 */
export function stateOn(row: Datings, day: Day): DueState {
  const isLate = row.lateOn !== null && day > row.lateOn;
  switch (row.basis) {
    case 'none':
      return 'not applicable';
    case 'unjudged':
      return 'not judged';
    case 'retest':
      return 'retest owed';
    case 'first':
      if (row.dueOn === null || isLate) return 'never done';
      break;
    case 'life':
      if (isLate) return 'life ended';
      break;
    case 'counted':
      if (isLate) return 'overdue';
      break;
    case 'projected':
      if (isLate) return 'overdue';
      if (row.dueTo !== null && day > row.dueTo) return 'not judged';
      break;
  }
  return row.warnOn !== null && day >= row.warnOn ? 'due soon' : 'current';
}

/** The heaviest of several states; `not applicable` where there is none. */
export function heaviest(states: readonly DueState[]): DueState {
  return DUE_STATES.find(s => states.includes(s)) ?? 'not applicable';
}
