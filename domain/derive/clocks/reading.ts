/** What a clock is given and what it gives. */
import type { Day } from '../../calendar/day.ts';
import { parseWhen, type When } from '../../calendar/when.ts';
import type { Assignment, MeterFact, RecordFact, Values } from '../../facts.ts';
import type { Book } from '../../rulebook/book.ts';
import type { Requirement } from '../../rulebook/types.ts';
import type { Basis } from '../due.ts';

/** One date by one clock, before retests, grace and versions are laid over it. */
export interface Reading {
  basis: Basis;
  /** The day it is due; of a projection the earliest it may be, null where no rate is known. */
  dueOn: Day | null;
  /** The latest a projection may fall; null for everything else, and where it may never come. */
  dueTo: Day | null;
  /** The last day on which it is certainly not late; null where that is not known. */
  lateOn: Day | null;
}

/** What is known of one thing, as its clocks need it. */
export interface Subject {
  attributes: Values;
  records: readonly RecordFact[];
  meters: readonly MeterFact[];
  assignment: Assignment | null;
}

export interface ClockInput {
  requirement: Requirement;
  subject: Subject;
  /** The last record that counts, or null. */
  counted: RecordFact | null;
  book: Book;
  tell?: ((sentence: string) => void) | undefined;
}

export const UNJUDGED: Reading = { basis: 'unjudged', dueOn: null, dueTo: null, lateOn: null };
export const NONE: Reading = { basis: 'none', dueOn: null, dueTo: null, lateOn: null };
/** Owed now, whatever the date. */
export const OWED: Reading = { basis: 'retest', dueOn: null, dueTo: null, lateOn: null };

/** A day that stands for itself. */
export function dated(basis: Basis, dueOn: Day | null): Reading {
  return { basis, dueOn, dueTo: null, lateOn: dueOn };
}

/** A partial date among the attributes, or null. */
export function whenAttribute(attributes: Values, key: string): When | null {
  const value = attributes[key];
  return typeof value === 'string' ? parseWhen(value) : null;
}
