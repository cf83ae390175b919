/** Owed while the last reading lies beyond a limit: pressure fallen, agent lost, tread worn. */
import { showWhen } from '../../calendar/show.ts';
import { inOrder, type RecordFact } from '../../facts.ts';
import type { ReadingLimit, Requirement } from '../../rulebook/types.ts';
import { compare, type Decimal, decimalOf, decimalText, minus, times } from '../decimal.ts';
import { type ClockInput, NONE, OWED, type Reading, UNJUDGED } from './reading.ts';

const BEYOND: Readonly<Record<ReadingLimit['owedWhen'], (order: number) => boolean>> = {
  'at or under': order => order <= 0,
  under: order => order < 0,
  over: order => order > 0,
  'at or over': order => order >= 0,
};

/**
 * The last record that holds the reading decides. Beyond the limit, it is owed now until an activity that satisfies
 * it is done after that; a reading that comes back inside the limit settles it as well.
 */
export function readingLimit(input: ClockInput, clock: ReadingLimit): Reading {
  const { requirement, subject, tell } = input;
  const read = subject.records.findLast(r => decimalOf(r.values.readings?.[clock.reading]) !== null);
  const reading = decimalOf(read?.values.readings?.[clock.reading]);
  if (!read || !reading) {
    tell?.('Nothing that decides it has been read yet.');
    return NONE;
  }
  const full = clock.lostFrom === undefined ? null : decimalOf(subject.attributes[clock.lostFrom]);
  const whole = clock.percentOf === undefined ? null : decimalOf(subject.attributes[clock.percentOf]);
  if ((clock.lostFrom !== undefined && !full) || (clock.percentOf !== undefined && !whole)) {
    tell?.('What the reading is compared with is not on file. Enter it, and it can be judged.');
    return UNJUDGED;
  }
  const measured = full ? minus(full, reading) : reading;
  const limit = limitOf(clock, whole);
  const isBeyond = BEYOND[clock.owedWhen](compare(measured, limit));
  const lost = full
    ? `${decimalText(full)} less ${decimalText(reading)} is ${decimalText(measured)}`
    : decimalText(measured);
  const share = whole && clock.percentOf ? ` (${clock.value} % of ${decimalText(whole)})` : '';
  tell?.(
    `Read ${showWhen(read.effective)}: ${lost}. Owed when it is ${clock.owedWhen} ${decimalText(limit)}${share}: it is ${isBeyond ? 'so' : 'not so'}.`,
  );
  if (!isBeyond) return NONE;
  const settled = subject.records.find(r => inOrder(read, r) < 0 && settles(requirement, r));
  if (!settled) return OWED;
  tell?.(`The ${settled.values.activity} of ${showWhen(settled.effective)} came after it and settles it.`);
  return NONE;
}

function limitOf(clock: ReadingLimit, whole: Decimal | null): Decimal {
  const value = decimalOf(clock.value) ?? { units: 0n, places: 0 };
  return whole ? times(times(value, whole), { units: 1n, places: 2 }) : value;
}

function settles(requirement: Requirement, { values }: RecordFact): boolean {
  return (
    requirement.satisfiedBy.includes(values.activity) &&
    (requirement.countedOutcomes as readonly string[]).includes(values.outcome)
  );
}
