/** The states of the due rows of many things at once, for whoever needs no more of them. */
import type { Day } from '../../domain/calendar/day.ts';
import { type Basis, type DueState, stateOn } from '../../domain/derive/due.ts';
import type { WhenLate } from '../../domain/rulebook/types.ts';
import { all } from '../store/statements.ts';
import { IN_FORCE } from './due-filter.ts';
import type { Asking } from './types.ts';

/** One due row of a thing on a day. */
export interface Standing {
  state: DueState;
  late: WhenLate;
}

/**
 * The due rows in force on a day, by the key of their thing.
 * @param from what they are joined to, after FROM: it names them `d`
 * @param where which of them, in SQL
 */
export function standingOf(
  asking: Asking,
  on: Day,
  from: string,
  where: string,
  values: Record<string, unknown> = {},
): Map<number, Standing[]> {
  const standing = new Map<number, Standing[]>();
  for (const { item, late, ...row } of all<{
    item: number;
    basis: Basis;
    dueOn: Day | null;
    dueTo: Day | null;
    warnOn: Day | null;
    lateOn: Day | null;
    late: WhenLate;
  }>(
    asking.db,
    `SELECT d.item, d.basis, d.due_on AS dueOn, d.due_to AS dueTo, d.warn_on AS warnOn,
       d.late_on AS lateOn, d.late FROM ${from}
     WHERE ${where} AND ${IN_FORCE}`,
    { ...values, on },
  )) {
    const told = { state: stateOn(row, on), late };
    const known = standing.get(item);
    if (known) known.push(told);
    else standing.set(item, [told]);
  }
  return standing;
}

/** The states alone, for the heaviest of them. */
export const statesIn = (standing: readonly Standing[] | undefined): DueState[] =>
  (standing ?? []).map(s => s.state);
