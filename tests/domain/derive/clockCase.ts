/** One thing judged by requirements of a test's own. */
import { dayText } from '../../../domain/calendar/day.ts';
import { stateOn } from '../../../domain/derive/due.ts';
import { type Derived, derive, inForce } from '../../../domain/derive/thing.ts';
import type { Assignment, Fact, Outcome, Values } from '../../../domain/facts.ts';
import { type Book, bookFrom } from '../../../domain/rulebook/book.ts';
import type { Clock, First, Requirement } from '../../../domain/rulebook/types.ts';
import { day, shipped, when } from '../notation.ts';

export const IN_SERVICE: First = { counts: 'in service', plus: { months: 0 } };

/** A requirement of this clock: passes of `test` count. */
export function rule(clock: Clock, more: Partial<Requirement> = {}): Requirement {
  const { bindings: _bindings, coveredBy: _coveredBy, ...plain } = shipped('hose.service-test');
  return {
    ...plain,
    id: 'a',
    appliesTo: [],
    activity: 'test',
    satisfiedBy: ['test'],
    warnDays: 0,
    clock,
    ...more,
  };
}

export interface Told {
  attributes?: Values;
  /** `2025-01-31 test pass`, with readings after it. */
  done?: readonly [on: string, activity: string, outcome: Outcome, readings?: Values][];
  /** Meter, reading, and whether it is a replaced one. */
  read?: readonly [on: string, meter: string, reading: number, replaced?: boolean][];
  assignment?: Assignment;
}

export function bookOf(...rules: Requirement[]): Book {
  return bookFrom(
    rules.map(requirement => ({ requirement, from: null })),
    [],
    [],
  );
}

export function thingOf(book: Book, { attributes = {}, done = [], read = [], assignment }: Told): Derived {
  const at = (clock: number, on: string) => ({
    ...{ id: `f${clock}`, effective: when(on), clock, device: 'a', n: 0, recordedAt: 0 },
  });
  const facts: Fact[] = [
    { ...at(0, '1900'), kind: 'identity', values: { family: 'hose', number: '1', attributes } },
    ...done.map(
      ([on, activity, outcome, readings], i): Fact => ({
        ...at(i + 1, on),
        kind: 'record',
        values: { activity, outcome, ...(readings ? { readings } : {}) },
      }),
    ),
    ...read.map(
      ([on, meter, reading, meterReplaced = false], i): Fact => ({
        ...at(100 + i, on),
        kind: 'meter',
        values: { meter, reading, meterReplaced },
      }),
    ),
  ];
  if (assignment) facts.push({ ...at(200, '2000'), kind: 'assignment', values: { assignment } });
  const derived = derive(facts, book);
  if (!derived) throw new Error('Nothing says what it is.');
  return derived;
}

/** Requirement, basis, due day, latest day and state of every row on a day. */
export function rowsOn(rules: readonly Requirement[], told: Told, on: string) {
  return thingOf(bookOf(...rules), told)
    .due.filter(r => inForce(r, day(on)))
    .map(r => ({
      id: r.requirement,
      basis: r.basis,
      due: r.dueOn === null ? null : dayText(r.dueOn),
      to: r.dueTo === null ? null : dayText(r.dueTo),
      state: stateOn(r, day(on)),
      late: r.late,
    }));
}
