/** Counting due rows by state in SQL without telling the rule of states twice. */
import type { Day } from '../../domain/calendar/day.ts';
import { type Basis, DUE_STATES, type DueState, stateOn } from '../../domain/derive/due.ts';

/**
 * Rows by what their state depends on: their basis, and where the day asked about lies. One number for the latter
 * keeps what is sorted for the grouping small, which is most of its cost.
 */
export const CELL = `d.basis AS basis, CASE WHEN d.due_on IS NULL THEN 0 WHEN d.due_on < :on THEN 1
  WHEN d.warn_on <= :on THEN 2 ELSE 3 END AS lies`;

export interface Cell {
  basis: Basis;
  /** No date, past, warned, or before its warning. */
  lies: 0 | 1 | 2 | 3;
  n: number;
}

/** The state of a cell, by the same rule as a row: a row that lies so stands in for all of them. */
function cellState({ basis, lies }: Cell, on: Day): DueState {
  const dueOn = lies === 0 ? null : ((on + (lies === 1 ? -1 : 1)) as Day);
  const warnOn = lies === 0 ? null : ((on + (lies === 3 ? 1 : 0)) as Day);
  return stateOn({ basis, dueOn, warnOn }, on);
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
