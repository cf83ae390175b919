/** Clocks of the calendar: since the last one, one time only, a fixed month, printed dates and ends of life. */
import { addDays, type Day, lastDayOfMonth, type Month, monthOf, parseDay } from '../../calendar/day.ts';
import { MONTH_NAMES, showDay, showWhen } from '../../calendar/show.ts';
import { firstDay, lastDay, precisionOf } from '../../calendar/when.ts';
import type { Clock, First } from '../../rulebook/types.ts';
import { countOn, dueDay, spanText } from './count.ts';
import { type ClockInput, dated, NONE, type Reading, UNJUDGED, whenAttribute } from './reading.ts';

/** So long since the last one that counts; the first by what it counts from. */
export function sinceLast(input: ClockInput, clock: Clock & { kind: 'since last' }): Reading {
  const { counted } = input;
  if (counted) return dated('counted', countOn(input, counted.effective, clock.every));
  return firstOne(input, clock.first);
}

/** One time: what was done settles it for good. */
export function once(input: ClockInput, clock: Clock & { kind: 'once' }): Reading {
  const { counted, tell } = input;
  if (!counted) return firstOne(input, clock.first);
  tell?.(`It is owed one time and was done ${showWhen(counted.effective)}: settled for good.`);
  return NONE;
}

/** The first one, where nothing is on record. */
function firstOne(input: ClockInput, first: First): Reading {
  const { tell } = input;
  const made = whenAttribute(input.subject.attributes, 'made');
  const inService = whenAttribute(input.subject.attributes, 'inService');
  if (first.counts === 'made') {
    if (made === null) {
      tell?.(
        'Nothing is on record and the manufacture date is not known, so there is nothing to count from.',
      );
      return dated('first', null);
    }
    tell?.(`Nothing is on record; the first counts from manufacture, ${showWhen(made)}.`);
    return dated('counted', countOn(input, made, first.plus));
  }
  if (first.counts === 'in service') {
    if (inService === null) {
      tell?.('Nothing is on record and the day it was placed in service is not known.');
      return dated('first', null);
    }
    tell?.(
      `Nothing is on record; the first counts from the day it was placed in service, ${showWhen(inService)}.`,
    );
    return dated('first', countOn(input, inService, first.plus));
  }
  const afterMade = made === null ? null : dueDay(input.requirement, made, first.plus);
  const placed = inService === null ? null : lastDay(inService);
  if (afterMade === null && placed === null) {
    tell?.(
      'Nothing is on record, and neither the manufacture date nor the day it was placed in service is known.',
    );
    return dated('first', null);
  }
  const dueOn = Math.max(afterMade ?? Number.NEGATIVE_INFINITY, placed ?? Number.NEGATIVE_INFINITY) as Day;
  tell?.(
    `Nothing is on record. The first is due at the later of ${spanText(first.plus)} after manufacture (${
      made === null || afterMade === null ? 'not known' : `${showWhen(made)}, so ${showDay(afterMade)}`
    }) and the day it was placed in service (${inService === null ? 'not known' : showWhen(inService)}): ${showDay(dueOn)}.`,
  );
  return dated('first', dueOn);
}

/**
 * The end of a fixed month. A test up to `early_months` before that month counts for it, and a late one moves
 * nothing: the month stays, so that seasonal work stays in its season.
 */
export function fixedMonth(input: ClockInput, clock: Clock & { kind: 'fixed month' }): Reading {
  const { counted, tell } = input;
  const name = MONTH_NAMES[clock.month - 1];
  if (!counted) {
    tell?.(`It is done each ${name}; the first one counts by itself.`);
    return firstOne(input, clock.first);
  }
  const done = lastDay(counted.effective);
  const dueOn = lastDayOfMonth(fixedMonthAfter(monthOf(done), clock));
  tell?.(
    `It is done each ${name}, and that month does not drift. One counts for the ${name} that follows it when it is done no more than ${spanText({ months: clock.early_months })} before that month, and otherwise for the ${name} before. After the one of ${showWhen(counted.effective)} the next is due by the end of ${name}: ${showDay(dueOn)}.`,
  );
  if (!clock.atMost) return dated('counted', dueOn);
  const latest = dueDay(input.requirement, counted.effective, clock.atMost);
  if (latest >= dueOn) return dated('counted', dueOn);
  tell?.(`Never later than ${spanText(clock.atMost)} after the last one: ${showDay(latest)}.`);
  return dated('counted', latest);
}

/** The month that is due next after one done in month `done`: the first of its kind that is not counted as done early. */
export function fixedMonthAfter(done: Month, clock: Clock & { kind: 'fixed month' }): Month {
  const { month, every_months, early_months } = clock;
  // Twice a year comes round every six months; every two years comes round in the same month of a year.
  const round = 12 % every_months === 0 ? every_months : 12;
  const beyond = done + early_months + every_months - round;
  const next = beyond + 1;
  const behind = (((month - 1 - next) % round) + round) % round;
  return (next + behind) as Month;
}

/** The date that is printed on the thing. */
export function printedDate(input: ClockInput, clock: Clock & { kind: 'printed date' }): Reading {
  const printed = whenAttribute(input.subject.attributes, clock.attribute);
  if (printed === null) {
    if (!clock.needed) return NONE;
    input.tell?.('The date printed on it is not on file. Read it and enter it.');
    return UNJUDGED;
  }
  if (clock.plus) return dated('counted', countOn(input, printed, clock.plus));
  input.tell?.(`The printed date is ${showWhen(printed)}: good through ${showDay(lastDay(printed))}.`);
  return dated('counted', lastDay(printed));
}

/** An end that everything made before a day has reached. */
export function madeBefore(input: ClockInput, clock: Clock & { kind: 'made before' }): Reading {
  const limit = parseDay(clock.day) as Day;
  const made = whenAttribute(input.subject.attributes, 'made');
  if (made === null) return NONE;
  if (firstDay(made) >= limit) {
    input.tell?.(`Made ${showWhen(made)}, not before ${showDay(limit)}: no fixed end of life.`);
    return NONE;
  }
  if (lastDay(made) >= limit) {
    input.tell?.(
      `Made ${showWhen(made)}: whether that is before ${showDay(limit)} is not known. Enter the month.`,
    );
    return UNJUDGED;
  }
  input.tell?.(`Made ${showWhen(made)}, before ${showDay(limit)}: it is removed and no test restores it.`);
  return dated('life', addDays(limit, -1));
}

/**
 * A span from manufacture or from the day it was placed in service, after which nothing restores it. Where the day is known it
 * ends on the day the span is full: made 25 November 2015, ten years end on 25 November 2025, and it is not used from
 * that day on. Where only the month is known it runs through that month.
 */
export function life(input: ClockInput, clock: Clock & { kind: 'life' }): Reading {
  const { tell } = input;
  const isMade = clock.counts === 'made';
  const from = whenAttribute(input.subject.attributes, isMade ? 'made' : 'inService');
  if (from === null) {
    // What is not in service yet has not begun that life; what was never dated cannot be judged.
    tell?.(
      isMade
        ? 'Its life counts from the day it was made, which is not known.'
        : 'Its life counts from the day it was placed in service, and none is on file.',
    );
    return isMade ? UNJUDGED : NONE;
  }
  tell?.(
    `Its life is ${spanText(clock.plus)} from ${isMade ? 'manufacture' : 'the day it was placed in service'}.`,
  );
  const full = countOn(input, from, clock.plus);
  if (input.requirement.dueAt !== 'day' || precisionOf(from) === 'month') return dated('life', full);
  tell?.('It is not used from that day on.');
  return { ...dated('life', full), lateOn: addDays(full, -1) };
}
