/** Counting due rows by state in SQL without telling the rule of states twice. */
import { addDays, type Day } from '../../domain/calendar/day.ts';
import { type Basis, DUE_STATES, type DueState, stateOn } from '../../domain/derive/due.ts';

/**
 * Rows by what their state depends on: their basis, and where the day asked about lies. One number for the latter
 * keeps what is sorted for the grouping small, which is most of its cost.
 */
export const CELL = `d.basis AS basis, CASE WHEN d.late_on < :on THEN 1 WHEN d.due_to < :on THEN 4
  WHEN d.due_on IS NULL THEN 0 WHEN d.warn_on <= :on THEN 2 ELSE 3 END AS lies`;

export interface Cell {
  basis: Basis;
  /** No date, past, warned, before its warning, or past the range of a projection. */
  lies: 0 | 1 | 2 | 3 | 4;
  n: number;
}

/** The state of a cell, by the same rule as a row: a row that lies so stands in for all of them. */
function cellState({ basis, lies }: Cell, on: Day): DueState {
  const [before, after] = [addDays(on, -1), addDays(on, 1)];
  return stateOn(
    {
      basis,
      dueOn: lies === 0 ? null : lies === 1 || lies === 4 ? before : after,
      dueTo: lies === 4 ? before : null,
      lateOn: lies === 0 || lies === 4 ? null : lies === 1 ? before : after,
      warnOn: lies === 0 ? null : lies === 3 ? after : before,
    },
    on,
  );
}

/** Cells counted by state, the heaviest first; states with nothing in them are left out. */
export function tally(cells: readonly Cell[], on: Day): Partial<Record<DueState, number>> {
  const byState: Partial<Record<DueState, number>> = {};
  for (const cell of cells) {
    const state = cellState(cell, on);
    byState[state] = (byState[state] ?? 0) + cell.n;
  }
  return Object.fromEntries(DUE_STATES.filter(s => byState[s]).map(s => [s, byState[s]]));
}
