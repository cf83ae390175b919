/** What the verdicts on a cylinder are reached from: its dates by the book, and what the department has chosen. */
import type { Day } from '../calendar/day.ts';
import { type Derived, inForce, lifeEndsOn } from '../derive/thing.ts';
import { type Book, policyOn } from '../rulebook/book.ts';
import { type CylinderDates, type CylinderPolicies, EXAMINATIONS } from './cylinder.ts';

/** The dates of a cylinder by the versions in force on a day. */
export function cylinderDates(derived: Derived, book: Book, on: Day): CylinderDates {
  const activityOf = (requirement: string) =>
    book.versions.get('cylinder')?.find(v => v.requirement.id === requirement)?.requirement.activity ?? '';
  const now = derived.due.filter(r => inForce(r, on));
  const examinations = now.filter(r => EXAMINATIONS.includes(activityOf(r.requirement)));
  const [first] = examinations.filter(r => r.dueOn !== null).sort((x, y) => (x.dueOn ?? 0) - (y.dueOn ?? 0));
  // A count that ends a life (4380 fills of a 3HT) ends it as a date does, once a reading shows that it is reached.
  const worn = now.filter(r => r.basis === 'counted' && activityOf(r.requirement) === 'retirement');
  const ends = [lifeEndsOn(derived, on), ...worn.map(r => r.dueOn)].filter(d => d !== null);
  return {
    requalifyBy: first?.dueOn ?? null,
    examination: first ? activityOf(first.requirement) : 'requalification',
    lifeEnds: ends.length > 0 ? (Math.min(...ends) as Day) : null,
    unjudged: now.some(r => r.basis === 'unjudged') || examinations.some(r => r.basis === 'first'),
    owed: derived.owed.map(o => o.activity),
  };
}

/** What the department has chosen of cylinders for a day. */
export function cylinderPolicies(book: Book, on: Day): CylinderPolicies {
  return {
    fillInDueMonth: policyOn(book, 'fill in due month', on) as CylinderPolicies['fillInDueMonth'],
    chargedPastDue: policyOn(book, 'charged past due', on) as CylinderPolicies['chargedPastDue'],
  };
}
