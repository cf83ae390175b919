/** What the address of Readiness says, so that Back undoes the last step and a unit can be linked to. */
import { VERDICTS, type Verdict } from '../../../domain/coverage/readiness.ts';
import type { DueSearch } from '../coming-due/filter.ts';

export interface ReadinessSearch {
  /** The unit whose reasons are open. */
  unit?: string;
  /** The reason whose why is open: thing and requirement. */
  item?: string;
  duty?: string;
  /** Only units of this station, by name. */
  station?: string;
  verdict?: Verdict;
}

/** Read the address; what is not understood is left out. */
export function readReadinessSearch(raw: Record<string, unknown>): ReadinessSearch {
  const said: ReadinessSearch = {};
  if (typeof raw.unit === 'string') said.unit = raw.unit;
  if (typeof raw.item === 'string') said.item = raw.item;
  if (typeof raw.duty === 'string') said.duty = raw.duty;
  if (typeof raw.station === 'string' && raw.station !== '') said.station = raw.station;
  const verdict = VERDICTS.find(v => v === raw.verdict);
  if (verdict) said.verdict = verdict;
  return said;
}

/** The filter alone: nothing is open. */
export function filterOf({ station, verdict }: ReadinessSearch): ReadinessSearch {
  return { ...(station ? { station } : {}), ...(verdict ? { verdict } : {}) };
}

/** Exactly the rows behind a count: what is due from today on, and not what is late already. */
export const dueWithin = (unit: string, days: number): DueSearch => ({
  unit,
  within: days,
  state: ['due soon', 'current'],
});
