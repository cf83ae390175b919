/**
 * The clock kinds: how a requirement's date is reached from the facts of one thing. Each kind is one function;
 * `tell` collects the arithmetic as sentences where somebody asks why, and is absent where nobody does.
 */
import type { Clock } from '../../rulebook/types.ts';
import { fixedMonth, life, madeBefore, once, printedDate, sinceLast } from './calendar.ts';
import { cylinderLife, cylinderPeriod } from './cylinder.ts';
import { meter } from './meter.ts';
import { type ClockInput, NONE, type Reading, UNJUDGED } from './reading.ts';
import { readingLimit } from './reading-limit.ts';

export { dueDay, spanText } from './count.ts';
export { permitFor } from './cylinder.ts';
export { type ClockInput, type Reading, type Subject, whenAttribute } from './reading.ts';

/** The date of a requirement for one thing, by its clock. */
export function readClock(input: ClockInput, clock: Clock = input.requirement.clock): Reading {
  switch (clock.kind) {
    case 'since last':
      return sinceLast(input, clock);
    case 'once':
      return once(input, clock);
    case 'fixed month':
      return fixedMonth(input, clock);
    case 'meter':
      return meter(input, clock);
    case 'first of':
      return firstOf(input, clock);
    case 'life':
      return life(input, clock);
    case 'reading limit':
      return readingLimit(input, clock);
    case 'after happenings':
      input.tell?.('Nothing is due by a date: it is owed after a happening or a repair.');
      return NONE;
    case 'cylinder period':
      return cylinderPeriod(input, clock);
    case 'cylinder life':
      return cylinderLife(input, clock);
    case 'printed date':
      return printedDate(input, clock);
    case 'made before':
      return madeBefore(input, clock);
  }
}

/**
 * Whichever comes first. What one of them cannot tell is said, and the others decide; where none can tell, it is not
 * judged. A projection that comes first is late by the first of the others that is certain.
 */
function firstOf(input: ClockInput, clock: Clock & { kind: 'first of' }): Reading {
  input.tell?.('Whichever comes first:');
  const readings = clock.clocks.map(c => readClock(input, c));
  const owed = readings.find(r => r.basis === 'retest');
  if (owed) return owed;
  const told = readings.filter(r => r.basis !== 'none' && r.basis !== 'unjudged');
  const winner = told.reduce<Reading | null>(
    (first, r) => (first && comesBy(first) <= comesBy(r) ? first : r),
    null,
  );
  if (!winner) return readings.some(r => r.basis === 'unjudged') ? UNJUDGED : NONE;
  if (winner.basis !== 'projected') return winner;
  const certain = told.filter(r => r.lateOn !== null).sort((a, b) => comesBy(a) - comesBy(b));
  const [first] = certain;
  if (!first) return winner;
  // Past it a life has ended, which a row of a range could not say.
  return first.basis === 'life' ? first : { ...winner, lateOn: first.lateOn };
}

/** Where a reading lies among others: what was never done comes first, what no rate tells comes last. */
function comesBy(reading: Reading): number {
  if (reading.dueOn !== null) return reading.dueOn;
  return reading.basis === 'projected' ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
}
