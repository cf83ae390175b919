/**
 * The clock kinds: how a requirement's date is reached from the facts of one thing. Each kind is one function;
 * `tell` collects the arithmetic as sentences where somebody asks why, and is absent where nobody does.
 */
import {
  addDays,
  addMonths,
  type Day,
  endOfMonthAfter,
  lastDayOfMonth,
  type Month,
  monthOf,
  parseDay,
} from '../calendar/day.ts';
import { showDay, showWhen } from '../calendar/show.ts';
import { firstDay, lastDay, parseWhen, type When } from '../calendar/when.ts';
import type { RecordFact, Values } from '../facts.ts';
import type { Book } from '../rulebook/book.ts';
import type { Clock, ConstructionPeriod, Every, Permit, Requirement, SpecPeriod } from '../rulebook/types.ts';
import type { Basis } from './due.ts';

/** One date by one clock, before retests and versions are laid over it. */
export interface Reading {
  basis: Basis;
  dueOn: Day | null;
}

export interface ClockInput {
  requirement: Requirement;
  attributes: Values;
  /** The last record that counts, or null. */
  counted: RecordFact | null;
  book: Book;
  tell?: ((sentence: string) => void) | undefined;
}

const UNJUDGED: Reading = { basis: 'unjudged', dueOn: null };
const NONE: Reading = { basis: 'none', dueOn: null };

/** The date of a requirement for one thing, by its clock. */
export function readClock(input: ClockInput): Reading {
  const { clock } = input.requirement;
  switch (clock.kind) {
    case 'since last':
      return sinceLast(input, clock);
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

/** A partial date among the attributes, or null. */
export function whenAttribute(attributes: Values, key: string): When | null {
  const value = attributes[key];
  return typeof value === 'string' ? parseWhen(value) : null;
}

function sinceLast(input: ClockInput, clock: Clock & { kind: 'since last' }): Reading {
  const { requirement, counted, tell } = input;
  if (counted) return { basis: 'counted', dueOn: countOn(input, counted.effective, clock.every) };
  const made = whenAttribute(input.attributes, 'made');
  const inService = whenAttribute(input.attributes, 'inService');
  const { first } = clock;
  if (first.counts === 'made') {
    if (made === null) {
      tell?.(
        'Nothing is on record and the manufacture date is not known, so there is nothing to count from.',
      );
      return { basis: 'first', dueOn: null };
    }
    tell?.(`Nothing is on record; the first counts from manufacture, ${showWhen(made)}.`);
    return { basis: 'counted', dueOn: countOn(input, made, first.plus) };
  }
  if (first.counts === 'in service') {
    if (inService === null) {
      tell?.('Nothing is on record and the day it was placed in service is not known.');
      return { basis: 'first', dueOn: null };
    }
    tell?.(
      `Nothing is on record; the first counts from the day it was placed in service, ${showWhen(inService)}.`,
    );
    return { basis: 'first', dueOn: countOn(input, inService, first.plus) };
  }
  const afterMade = made === null ? null : dueDay(requirement, made, first.plus);
  const placed = inService === null ? null : lastDay(inService);
  if (afterMade === null && placed === null) {
    tell?.(
      'Nothing is on record, and neither the manufacture date nor the day it was placed in service is known.',
    );
    return { basis: 'first', dueOn: null };
  }
  const dueOn = Math.max(afterMade ?? Number.NEGATIVE_INFINITY, placed ?? Number.NEGATIVE_INFINITY) as Day;
  tell?.(
    `Nothing is on record. The first is due at the later of ${spanText(first.plus)} after manufacture (${
      made === null || afterMade === null ? 'not known' : `${showWhen(made)}, so ${showDay(afterMade)}`
    }) and the day it was placed in service (${inService === null ? 'not known' : showWhen(inService)}): ${showDay(dueOn)}.`,
  );
  return { basis: 'first', dueOn };
}

/** The table's or the permit's word on one cylinder; null with the reason told where nothing can be judged. */
interface CylinderRule {
  months: number | null;
  lifeMonths: number | null | 'label';
  by: string;
}

function cylinderRule(
  input: ClockInput,
  specs: readonly SpecPeriod[],
  constructions: readonly ConstructionPeriod[],
): CylinderRule | null {
  const { attributes, book, tell } = input;
  const { spec, construction } = attributes;
  if (typeof spec === 'string' && spec !== '') {
    const line = specs.find(s => s.spec === spec);
    if (line) {
      const marked = line.unless && attributes[line.unless.attribute] === line.unless.is ? line.unless : null;
      return {
        months: marked ? marked.months : line.months,
        lifeMonths: line.lifeMonths,
        by: marked ? marked.clause : `Table 1, specification ${spec}`,
      };
    }
    const permit = permitFor(book, spec);
    if (permit) return { ...permit, by: `${spec}, as confirmed from ${permit.basis}` };
    tell?.(
      `${spec} is a permit that the department has not confirmed. Read the permit or the label in hand and confirm its construction, interval and life.`,
    );
    return null;
  }
  const line = constructions.find(c => c.construction === construction);
  if (line)
    return {
      ...line,
      by: `construction (${construction}); no specification or permit is on file, read the label`,
    };
  tell?.('Neither the specification or permit nor the construction of this cylinder is known.');
  return null;
}

/** A permit by its number: an exemption (`DOT-E`) of old is the special permit (`DOT-SP`) of the same number. Common practice. */
export function permitFor(book: Book, spec: string): Permit | undefined {
  const [letters, number] = spec.split(' ');
  return book.permits.get(spec) ?? book.permits.get(`${letters === 'DOT-E' ? 'DOT-SP' : 'DOT-E'} ${number}`);
}

function cylinderPeriod(input: ClockInput, clock: Clock & { kind: 'cylinder period' }): Reading {
  const { counted, tell } = input;
  const rule = cylinderRule(input, clock.specs, clock.constructions);
  if (!rule) return UNJUDGED;
  if (rule.months === null) {
    tell?.(`Not requalified: ${rule.by}.`);
    return NONE;
  }
  const every = { months: rule.months };
  tell?.(`Every ${spanText(every)}, by ${rule.by}.`);
  if (counted) return { basis: 'counted', dueOn: countOn(input, counted.effective, every) };
  const made = whenAttribute(input.attributes, 'made');
  if (made === null) {
    tell?.('No requalification is on record and the manufacture month is not known.');
    return { basis: 'first', dueOn: null };
  }
  tell?.(
    `No requalification is on record; the first counts from the original test month marked on it, ${showWhen(made)}, not from purchase.`,
  );
  return { basis: 'counted', dueOn: countOn(input, made, every) };
}

function cylinderLife(input: ClockInput, clock: Clock & { kind: 'cylinder life' }): Reading {
  const { attributes, tell } = input;
  const rule = cylinderRule(input, clock.specs, clock.constructions);
  if (!rule) return UNJUDGED;
  const label = attributes.lifeLabel_months;
  const months = rule.lifeMonths === 'label' ? (typeof label === 'number' ? label : null) : rule.lifeMonths;
  if (rule.lifeMonths === 'label' && months === null) {
    tell?.(`By ${rule.by}, the label decides its life: enter the life printed on the label.`);
    return UNJUDGED;
  }
  if (months === null) {
    tell?.(`No fixed life: ${rule.by}.`);
    return NONE;
  }
  const made = whenAttribute(attributes, 'made');
  if (made === null) {
    tell?.('Its life counts from the manufacture month, which is not known.');
    return UNJUDGED;
  }
  tell?.(`Its life is ${spanText({ months })} from manufacture, by ${rule.by}.`);
  return { basis: 'life', dueOn: countOn(input, made, { months }) };
}

function printedDate(input: ClockInput, clock: Clock & { kind: 'printed date' }): Reading {
  const printed = whenAttribute(input.attributes, clock.attribute);
  if (printed === null) return NONE;
  input.tell?.(`The printed date is ${showWhen(printed)}: good through ${showDay(lastDay(printed))}.`);
  return { basis: 'counted', dueOn: lastDay(printed) };
}

function madeBefore(input: ClockInput, clock: Clock & { kind: 'made before' }): Reading {
  const limit = parseDay(clock.day) as Day;
  const made = whenAttribute(input.attributes, 'made');
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
  return { basis: 'life', dueOn: addDays(limit, -1) };
}

/** Count a span from a partial date by the requirement's rule of days, and tell the arithmetic. */
function countOn(input: ClockInput, from: When, every: Every): Day {
  const due = dueDay(input.requirement, from, every);
  const { dueAt } = input.requirement;
  const how =
    dueAt === 'month end'
      ? ', on time through the last day of that month'
      : dueAt === 'month start'
        ? ', only before that month begins'
        : '';
  input.tell?.(`${showWhen(from)} plus ${spanText(every)}${how}: ${showDay(due)}.`);
  return due;
}

/**
 * The last day on time. A partial date counts from its last day; months keep the day of the month, clamped to a
 * shorter month's end; `month end` runs through the due month, `month start` ends the day before it.
 */
export function dueDay(requirement: Requirement, from: When, every: Every): Day {
  const anchor = lastDay(from);
  if ('days' in every) return addDays(anchor, every.days);
  if (requirement.dueAt === 'month end') return endOfMonthAfter(anchor, every.months);
  if (requirement.dueAt === 'month start')
    return lastDayOfMonth((monthOf(anchor) + every.months - 1) as Month);
  // A month is all that is known: "April" plus a year is the end of April, also where the year is a leap year.
  if (from.length === 7) return endOfMonthAfter(anchor, every.months);
  return addMonths(anchor, every.months);
}

/** `12 months`, `5 years`, `7 days`. */
export function spanText(every: Every): string {
  if ('days' in every) return `${every.days} ${every.days === 1 ? 'day' : 'days'}`;
  if (every.months >= 24 && every.months % 12 === 0) return `${every.months / 12} years`;
  return `${every.months} ${every.months === 1 ? 'month' : 'months'}`;
}
