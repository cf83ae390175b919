/** What a thing in storage must have done before it comes back. */
import type { Day } from '../calendar/day.ts';
import type { Book } from '../rulebook/book.ts';
import type { Requirement } from '../rulebook/types.ts';
import { stateOn } from './due.ts';
import { type Derived, dueRows, inForce } from './thing.ts';

/**
 * The requirements that wait while the thing is in storage and would be late, never done or owed on the day it came
 * back; empty for a thing that is not in storage.
 */
export function owedBeforeReturn(derived: Derived, book: Book, day: Day): Requirement[] {
  if (derived.assignment !== 'storage') return [];
  const versions = (book.versions.get(derived.family) ?? []).filter(v => inForce(v, day));
  const waiting = new Set(
    versions.filter(v => v.requirement.inStorage === 'waits').map(v => v.requirement.id),
  );
  const late = dueRows(versions, { ...derived, assignment: null }, book)
    .filter(row => waiting.has(row.requirement) && inForce(row, day))
    .filter(row => ['overdue', 'never done', 'retest owed', 'life ended'].includes(stateOn(row, day)))
    .map(row => row.requirement);
  return versions.flatMap(v => (late.includes(v.requirement.id) ? [v.requirement] : []));
}
