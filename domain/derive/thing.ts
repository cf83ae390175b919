/**
 * `derive`: from the facts of one thing and the adopted book, everything that is shown of it. Pure and whole:
 * the same facts give the same answer whatever order they arrived in, and nothing is patched incrementally.
 */

import { addDays, type Day } from '../calendar/day.ts';
import { showDay, showWhen } from '../calendar/show.ts';
import { firstDay, lastDay, type When } from '../calendar/when.ts';
import {
  type Assignment,
  type AssignmentFact,
  type Condition,
  type ConditionFact,
  type Fact,
  type HowKnown,
  inOrder,
  type MeterFact,
  type OwedFact,
  type PlaceFact,
  type RecordFact,
  type Values,
} from '../facts.ts';
import type { Book, RuleVersion } from '../rulebook/book.ts';
import { isConfirmed } from '../rulebook/force.ts';
import type { Requirement, Condition as RuleCondition, WhenLate } from '../rulebook/types.ts';
import { withArticle } from '../rulebook/words.ts';
import { readClock, type Subject } from './clocks/index.ts';
import { compare, type Decimal, decimalOf } from './decimal.ts';
import type { DueRow } from './due.ts';

/** The step that tells of a duty that rests while its thing is in storage. */
export const WAITS_IN_STORAGE = 'It is in storage, where this waits: it is owed before it comes back.';

/** Something that was so from one time until another (`until` null: still so). */
export interface Span<T> {
  from: When;
  until: When | null;
  fact: string;
  value: T;
}

/** An activity owed now, and since when and why. */
export interface Owed {
  activity: string;
  since: When;
  because: string;
  fact: string;
}

export interface Derived {
  family: string;
  number: string;
  serial: string | null;
  attributes: Values;
  places: Span<{ place: string; how: HowKnown }>[];
  assignments: Span<Assignment>[];
  conditions: Span<{ condition: Condition; reason?: string; tag?: string }>[];
  records: RecordFact[];
  meters: MeterFact[];
  owed: Owed[];
  /** The last known place, or null; and how and since when it is known. */
  place: { place: string; how: HowKnown; since: When } | null;
  /**
   * The last day somebody had it before them: its place known by more than a sheet or hearsay, or a record made of it.
   * Of a partial date its first day, since no news is not good news.
   */
  seenOn: Day | null;
  assignment: Assignment | null;
  /** As shown: a serviceable thing that owes a retest is `retest owed`. */
  condition: Condition;
  conditionSince: When | null;
  due: DueRow[];
}

/**
 * @param facts the facts of one thing that count (not voided, known and effective where an old day is asked for)
 * @returns null where no fact says what the thing is
 */
export function derive(facts: readonly Fact[], book: Book): Derived | null {
  const ordered = [...facts].sort(inOrder);
  let family: string | undefined;
  let number = '';
  let serial: string | null = null;
  const attributes: Record<string, string | number | boolean | null> = {};
  const places: PlaceFact[] = [];
  const assignments: AssignmentFact[] = [];
  const conditions: ConditionFact[] = [];
  const records: RecordFact[] = [];
  const owings: OwedFact[] = [];
  const meters: MeterFact[] = [];
  for (const fact of ordered) {
    switch (fact.kind) {
      case 'identity':
        family = fact.values.family ?? family;
        number = fact.values.number ?? number;
        if (fact.values.serial !== undefined) serial = fact.values.serial;
        for (const [key, value] of Object.entries(fact.values.attributes ?? {})) {
          if (value === null) delete attributes[key];
          else attributes[key] = value;
        }
        break;
      case 'place':
        places.push(fact);
        break;
      case 'assignment':
        assignments.push(fact);
        break;
      case 'condition':
        conditions.push(fact);
        break;
      case 'record':
        records.push(fact);
        break;
      case 'owed':
        owings.push(fact);
        break;
      case 'meter':
        meters.push(fact);
        break;
    }
  }
  if (family === undefined) return null;
  const owed = whatIsOwed(records, owings);
  const lastPlace = places.at(-1);
  const lastCondition = conditions.at(-1);
  const explicit = lastCondition?.values.condition ?? 'serviceable';
  const owesRetest = owed.length > 0 && RETEST_SHOWS.has(explicit);
  const gone = explicit === 'retired' || explicit === 'disposed';
  const assignment = assignments.at(-1)?.values.assignment ?? null;
  const subject: DueSubject = { attributes, records, meters, owed, assignment };
  return {
    family,
    number,
    serial,
    attributes,
    places: spans(places, f => f.values),
    assignments: spans(assignments, f => f.values.assignment),
    conditions: spans(conditions, f => f.values),
    records,
    meters,
    owed,
    place: lastPlace ? { ...lastPlace.values, since: lastPlace.effective } : null,
    seenOn: lastSeen(places, records),
    assignment,
    condition: owesRetest ? 'retest owed' : explicit,
    conditionSince: owesRetest ? (owed[0]?.since ?? null) : (lastCondition?.effective ?? null),
    due: gone ? [] : dueRows(book.versions.get(family) ?? [], subject, book),
  };
}

/** Conditions over which an owed retest shows: a thing tagged out or away stays shown as that. */
const RETEST_SHOWS: ReadonlySet<Condition> = new Set([
  'received',
  'serviceable',
  'limited use',
  'retest owed',
]);

/** Ways of knowing a place that are not seeing the thing there. */
const UNSEEN: ReadonlySet<HowKnown> = new Set(['sheet', 'told']);

function lastSeen(places: readonly PlaceFact[], records: readonly RecordFact[]): Day | null {
  let last: Day | null = null;
  for (const { effective } of [...places.filter(p => !UNSEEN.has(p.values.how)), ...records]) {
    const day = firstDay(effective);
    if (last === null || day > last) last = day;
  }
  return last;
}

function spans<F extends Fact, T>(facts: readonly F[], value: (fact: F) => T): Span<T>[] {
  return facts.map((fact, i) => ({
    from: fact.effective,
    until: facts[i + 1]?.effective ?? null,
    fact: fact.id,
    value: value(fact),
  }));
}

/**
 * What is owed whatever the date: each activity whose last completed record is a failure, and each activity
 * named by a repair or a happening with no pass of it at or after that time. The earliest claim is kept.
 */
function whatIsOwed(records: readonly RecordFact[], owings: readonly OwedFact[]): Owed[] {
  const claims = new Map<string, Owed>();
  const done = records.filter(r => r.values.outcome !== 'not completed');
  const claim = (owed: Owed) => {
    const known = claims.get(owed.activity);
    if (!known || owed.since < known.since) claims.set(owed.activity, owed);
  };
  for (const activity of new Set(done.map(r => r.values.activity))) {
    const ofActivity = done.filter(r => r.values.activity === activity);
    const lastPass = ofActivity.findLastIndex(r => r.values.outcome === 'pass');
    const failed = ofActivity[lastPass + 1];
    if (failed) claim({ activity, since: failed.effective, because: 'failed', fact: failed.id });
  }
  for (const owing of owings) {
    for (const activity of owing.values.activities) {
      const met = done.some(
        r => r.values.activity === activity && r.values.outcome === 'pass' && isAfter(r, owing),
      );
      if (!met) claim({ activity, since: owing.effective, because: owing.values.because, fact: owing.id });
    }
  }
  return [...claims.values()].sort((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : 0));
}

/**
 * Whether a pass came after a happening. Dates are cautious: an overload some time in 2024 is settled by no test of
 * that year, and a test known to the month by no month that holds the happening.
 */
function isAfter(pass: RecordFact, happening: OwedFact): boolean {
  if (pass.effective === happening.effective) return inOrder(happening, pass) < 0;
  const [tested, happened] = [firstDay(pass.effective), lastDay(happening.effective)];
  const sameDay = tested === happened && pass.effective.length >= 10 && happening.effective.length >= 10;
  return tested > happened || (sameDay && pass.effective > happening.effective);
}

/** What is known of one thing, as its due rows need it. */
export type DueSubject = Subject & { owed: readonly Owed[] };

/**
 * What a thing's due rows need, from what is known of it now and the facts they count: its records, happenings and
 * meter readings, in any order.
 */
export function subjectOf(
  attributes: Values,
  assignment: Assignment | null,
  facts: readonly (RecordFact | OwedFact | MeterFact)[],
): DueSubject {
  const ordered = [...facts].sort(inOrder);
  const records = ordered.filter(f => f.kind === 'record');
  const owings = ordered.filter(f => f.kind === 'owed');
  const meters = ordered.filter(f => f.kind === 'meter');
  return { attributes, records, meters, owed: whatIsOwed(records, owings), assignment };
}

/** Every row that the versions of a thing's family make of it, the covered and the unconcerned left out. */
export function dueRows(versions: readonly RuleVersion[], subject: DueSubject, book: Book): DueRow[] {
  const all = versions.map(v => dueRow(v, subject, book));
  return all.flatMap((row, i) => {
    const requirement = versions[i]?.requirement;
    return row.basis === 'none' || !requirement
      ? []
      : leftUncovered(row, coveringRows(requirement, row, versions, all));
  });
}

/**
 * The rows of other requirements that settle this one too and are due no later, or that are the stricter of two of
 * one duty. A failure, a damage or an end of life is covered by no other duty.
 * @param rows the rows of `versions`, in their order
 */
export function coveringRows(
  requirement: Requirement,
  row: DueRow,
  versions: readonly RuleVersion[],
  rows: readonly DueRow[],
): DueRow[] {
  return rows.filter((other, i) => {
    const rival = versions[i]?.requirement;
    return rival !== undefined && rival !== requirement && covers(rival, other, requirement, row);
  });
}

/** A row for the days of its span in which nothing covers it: none, itself, or parts of it. */
function leftUncovered(row: DueRow, covering: readonly DueRow[]): DueRow[] {
  if (covering.length === 0) return [row];
  const start = (span: DueRow) => span.from ?? Number.NEGATIVE_INFINITY;
  const end = (span: DueRow) => span.to ?? Number.POSITIVE_INFINITY;
  const day = (n: number) => (Number.isFinite(n) ? (n as Day) : null);
  const left: DueRow[] = [];
  let from = start(row);
  for (const other of [...covering].sort((a, b) => start(a) - start(b))) {
    const until = Math.min(start(other), end(row));
    if (until > from) left.push({ ...row, from: day(from), to: day(until) });
    from = Math.max(from, end(other));
  }
  if (from < end(row)) left.push({ ...row, from: day(from), to: row.to });
  return left;
}

function covers(rival: Requirement, other: DueRow, requirement: Requirement, row: DueRow): boolean {
  const isDated = row.basis === 'counted' || row.basis === 'first' || row.basis === 'projected';
  const isSameDuty =
    rival.id !== requirement.id &&
    (requirement.besides === rival.id ||
      rival.besides === requirement.id ||
      (requirement.besides !== undefined && requirement.besides === rival.besides));
  if (isSameDuty) {
    // Of two of one duty the stricter is listed; of two that say the same the one that stands beside gives way.
    const standsBeside = requirement.besides === rival.id;
    const givesWay = standsBeside || (rival.besides !== requirement.id && requirement.id > rival.id);
    // What would stop less, or be late on a later day or on none that is certain, hides nothing.
    const heavier = WEIGHT[other.late] - WEIGHT[row.late];
    if (heavier < 0) return false;
    if (row.basis === 'retest') return other.basis === 'retest' && givesWay;
    if (!isDated || other.basis === 'none' || other.basis === 'unjudged' || other.basis === 'life')
      return false;
    if (lateBy(other) > lateBy(row)) return false;
    const order = comesBy(other) - comesBy(row);
    return order < 0 || (order === 0 && givesWay);
  }
  return (
    isDated &&
    requirement.coveredBy?.includes(rival.id) === true &&
    (other.basis === 'counted' || other.basis === 'first' || other.basis === 'retest') &&
    comesBy(other) <= comesBy(row)
  );
}

/** Where a row lies among others: what is owed whatever the date comes first, what has no date at all last. */
export function comesBy({ basis, dueOn }: DueRow): number {
  if (dueOn !== null) return dueOn;
  return basis === 'projected' ? Number.MAX_SAFE_INTEGER : Number.MIN_SAFE_INTEGER;
}

/** The last day on which a row is certainly not late: none of what is owed already, every one of what is not certain. */
function lateBy({ basis, lateOn }: DueRow): number {
  if (lateOn !== null) return lateOn;
  return basis === 'projected' ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
}

const WEIGHT: Readonly<Record<WhenLate, number>> = { notes: 0, limits: 1, blocks: 2 };

/** One requirement version on one thing. `tell` collects the arithmetic for a person who asks why. */
export function dueRow(
  version: RuleVersion,
  subject: DueSubject,
  book: Book,
  tell?: (sentence: string) => void,
): DueRow {
  const { requirement, from, to } = version;
  const { attributes, records, owed } = subject;
  const lastDone = records.findLast(r => isOf(requirement, r) && r.values.outcome !== 'not completed');
  const base = {
    requirement: requirement.id,
    from,
    to,
    // What the department has not confirmed stops nothing.
    late: isConfirmed(requirement) ? requirement.late : 'notes',
    own: requirement.own?.change ?? null,
    lastOn: lastDone ? lastDay(lastDone.effective) : null,
  };
  const without = (basis: 'none' | 'unjudged' | 'retest'): DueRow => ({
    ...base,
    basis,
    dueOn: null,
    dueTo: null,
    warnOn: null,
    lateOn: null,
  });
  const unmet = requirement.appliesTo.find(c => !holds(c, attributes));
  if (unmet) {
    tell?.(`It does not concern this thing: ${conditionText(unmet)}.`);
    return without('none');
  }
  const counted = countedRecord(requirement, records);
  const reading = readClock({ requirement, subject, counted, book, tell });
  const claim = owed.find(o => o.activity === requirement.activity);
  // What is owed after a happening is owed by duties that have no date of their own as well; without one there is
  // nothing in them to judge.
  const concerns =
    reading.basis !== 'none' || (claim !== undefined && HAS_NO_DATE.has(requirement.clock.kind));
  if (!isConfirmed(requirement) && concerns) {
    tell?.(
      'All its sources are from memory and the department has not confirmed it, so nothing is judged by it: confirm it from the document in hand.',
    );
    return without('unjudged');
  }
  if (claim && concerns) {
    tell?.(
      claim.because === 'failed'
        ? `It failed the ${requirement.activity} of ${showWhen(claim.since)}, so it is owed now, whatever the date; only a pass settles it.`
        : `Since ${showWhen(claim.since)} (${claim.because}) ${withArticle(requirement.activity)} is owed, whatever the date; only a pass settles it.`,
    );
    return without('retest');
  }
  if (requirement.inStorage === 'waits' && subject.assignment === 'storage' && reading.basis !== 'none') {
    tell?.(WAITS_IN_STORAGE);
    return without('none');
  }
  const grace = reading.basis === 'life' ? 0 : (requirement.graceDays ?? 0);
  if (grace > 0 && reading.lateOn !== null)
    tell?.(
      `The department allows ${grace} days of grace, through ${showDay(addDays(reading.lateOn, grace))}.`,
    );
  return {
    ...base,
    ...reading,
    lateOn: reading.lateOn === null ? null : addDays(reading.lateOn, grace),
    warnOn: reading.dueOn === null ? null : addDays(reading.dueOn, -requirement.warnDays),
  };
}

/** Clocks with no date of their own, over which a happening still owes the activity. */
const HAS_NO_DATE: ReadonlySet<Requirement['clock']['kind']> = new Set([
  'after happenings',
  'once',
  'reading limit',
]);

/** The last record from which a requirement counts, or null. */
export function countedRecord(requirement: Requirement, records: readonly RecordFact[]): RecordFact | null {
  return (
    records.findLast(
      r =>
        isOf(requirement, r) && (requirement.countedOutcomes as readonly string[]).includes(r.values.outcome),
    ) ?? null
  );
}

/** Whether a record is of an activity that can satisfy the requirement. */
export function isOf(requirement: Requirement, record: RecordFact): boolean {
  return requirement.satisfiedBy.includes(record.values.activity);
}

/** Whether a condition holds for a thing with these attributes. */
export function holds(condition: RuleCondition, attributes: Values): boolean {
  const value = attributes[condition.attribute];
  if ('known' in condition) return (value !== undefined) === condition.known;
  if ('is' in condition) return (value === true) === condition.is;
  if ('in' in condition) return typeof value === 'string' && condition.in.includes(value);
  if ('notIn' in condition) return !(typeof value === 'string' && condition.notIn.includes(value));
  if ('matches' in condition)
    return typeof value === 'string' && condition.matches.some(m => folded(m) === folded(value));
  const amount = decimalOf(value);
  if ('atLeast' in condition) return amount !== null && order(amount, condition.atLeast) >= 0;
  return amount !== null && order(amount, condition.below) < 0;
}

function order(amount: Decimal, limit: string): number {
  const known = decimalOf(limit);
  return known ? compare(amount, known) : Number.NaN;
}

/** Text as two people would call it the same: capitals and spaces apart. */
function folded(text: string): string {
  return text.toLowerCase().replace(/\s+/g, ' ').trim();
}

function conditionText(condition: RuleCondition): string {
  const { attribute } = condition;
  if ('known' in condition)
    return condition.known ? `no ${attribute} is on file` : `a ${attribute} is on file`;
  if ('is' in condition) return condition.is ? `only with ${attribute}` : `only without ${attribute}`;
  if ('in' in condition) return `only where ${attribute} is ${condition.in.join(' or ')}`;
  if ('notIn' in condition) return `not where ${attribute} is ${condition.notIn.join(' or ')}`;
  if ('matches' in condition) return `only where ${attribute} is ${condition.matches.join(' or ')}`;
  if ('atLeast' in condition) return `only where ${attribute} is ${condition.atLeast} or more`;
  return `only where ${attribute} is under ${condition.below}`;
}

/** The day an end of life falls on, by the versions in force on a day; the earliest where there are several. */
export function lifeEndsOn(derived: Derived, day: Day): Day | null {
  const ends = derived.due
    .filter(r => r.basis === 'life' && inForce(r, day) && r.dueOn !== null)
    .map(r => r.dueOn as Day);
  return ends.length > 0 ? (Math.min(...ends) as Day) : null;
}

/** Whether a version's span of force holds a day. */
export function inForce(span: { from: Day | null; to: Day | null }, day: Day): boolean {
  return (span.from === null || span.from <= day) && (span.to === null || day < span.to);
}
