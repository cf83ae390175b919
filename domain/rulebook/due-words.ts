/** What is said beside a date: that its rule is the department's own, and that it is a range and not a day. */

import { parseDay } from '../calendar/day.ts';
import { showDay } from '../calendar/show.ts';
import type { OwnVersion } from './types.ts';

/** What stands after the title wherever a date by such a rule appears; empty where the rule is as it ships. */
export const OWN_MARK: Readonly<Record<OwnVersion['change'], string>> = {
  looser: 'LOOSER RULE',
  stricter: 'stricter rule',
  other: 'own rule',
  local: 'local rule',
};

/** What the mark of a looser rule means, for the foot of a list or a paper. */
export const LOOSER_MEANS =
  'LOOSER RULE: the department has made this rule looser than the published one, with a written reason; the rule book tells it.';

/** A title with its mark: `Service test · LOOSER RULE`. */
export function markedTitle({ title, own }: { title: string; own: OwnVersion['change'] | null }): string {
  return own === null ? title : `${title} · ${OWN_MARK[own]}`;
}

/**
 * A projection in words: a range, never a day. Null where the date is no projection.
 * @param dueOn its earliest day, `YYYY-MM-DD`
 * @param dueTo its latest
 */
export function rangeWords(dueOn: string | null, dueTo: string | null): string | null {
  if (dueOn === null || dueTo === null) return null;
  const [from, to] = [parseDay(dueOn), parseDay(dueTo)];
  return from === null || to === null ? null : `likely ${showDay(from)} to ${showDay(to)}; a reading decides`;
}

/** What is owed, with the mark of the department’s own rule, and the range of a projection. */
export function titleWords(row: {
  title: string;
  own: OwnVersion['change'] | null;
  dueOn: string | null;
  dueTo: string | null;
}): string {
  const range = rangeWords(row.dueOn, row.dueTo);
  return `${markedTitle(row)}${range === null ? '' : ` · ${range}`}`;
}
