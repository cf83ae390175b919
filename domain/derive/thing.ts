/**
 * `derive`: from the facts of one thing and the adopted book, everything that is shown of it. Pure and whole:
 * the same facts give the same answer whatever order they arrived in, and nothing is patched incrementally.
 */

import type { Day } from '../calendar/day.ts';
import { showWhen } from '../calendar/show.ts';
import { firstDay, lastDay, type When } from '../calendar/when.ts';
import {
  type Assignment,
  type AssignmentFact,
  type Condition,
  type ConditionFact,
  type Fact,
  type HowKnown,
  inOrder,
  type OwedFact,
  type PlaceFact,
  type RecordFact,
  type Values,
} from '../facts.ts';
import type { Book, RuleVersion } from '../rulebook/book.ts';
import type { Requirement, Condition as RuleCondition } from '../rulebook/types.ts';
import { readClock } from './clocks.ts';
import type { DueRow } from './due.ts';

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
    }
  }
  if (family === undefined) return null;
  const owed = whatIsOwed(records, owings);
  const lastPlace = places.at(-1);
  const lastCondition = conditions.at(-1);
  const explicit = lastCondition?.values.condition ?? 'serviceable';
  const owesRetest = owed.length > 0 && RETEST_SHOWS.has(explicit);
  const gone = explicit === 'retired' || explicit === 'disposed';
  return {
    family,
    number,
    serial,
    attributes,
    places: spans(places, f => f.values),
    assignments: spans(assignments, f => f.values.assignment),
    conditions: spans(conditions, f => f.values),
    records,
    owed,
    place: lastPlace ? { ...lastPlace.values, since: lastPlace.effective } : null,
    seenOn: lastSeen(places, records),
    assignment: assignments.at(-1)?.values.assignment ?? null,
    condition: owesRetest ? 'retest owed' : explicit,
    conditionSince: owesRetest ? (owed[0]?.since ?? null) : (lastCondition?.effective ?? null),
    due: gone ? [] : dueRows(book.versions.get(family) ?? [], attributes, records, owed, book),
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

function dueRows(
  versions: readonly RuleVersion[],
  attributes: Values,
  records: readonly RecordFact[],
  owed: readonly Owed[],
  book: Book,
): DueRow[] {
  const all = versions.map(v => dueRow(v, attributes, records, owed, book));
  return all.filter((row, i) => {
    const requirement = versions[i]?.requirement;
    return row.basis !== 'none' && requirement && coveringRow(requirement, row, all) === null;
  });
}

/**
 * The row of another requirement that settles this one too and is due no later, or null. A failure, a damage or
 * an end of life is never covered. Several versions of the other one may cover this one between them.
 */
export function coveringRow(requirement: Requirement, row: DueRow, rows: readonly DueRow[]): DueRow | null {
  if (!requirement.coveredBy || (row.basis !== 'counted' && row.basis !== 'first')) return null;
  const covering = rows.filter(
    other =>
      requirement.coveredBy?.includes(other.requirement) &&
      (other.basis === 'counted' || other.basis === 'first' || other.basis === 'retest') &&
      (other.dueOn === null || (row.dueOn !== null && other.dueOn <= row.dueOn)),
  );
  return spanIsFilled(row, covering) ? (covering.at(-1) ?? null) : null;
}

/** Whether every day of a span lies in one of the others. */
function spanIsFilled(row: DueRow, others: readonly DueRow[]): boolean {
  const start = (span: DueRow) => span.from ?? Number.NEGATIVE_INFINITY;
  const end = (span: DueRow) => span.to ?? Number.POSITIVE_INFINITY;
  let reached = start(row);
  for (const other of [...others].sort((a, b) => start(a) - start(b))) {
    if (start(other) > reached) return false;
    reached = Math.max(reached, end(other));
    if (reached >= end(row)) return true;
  }
  return false;
}

/** One requirement version on one thing. `tell` collects the arithmetic for a person who asks why. */
export function dueRow(
  version: RuleVersion,
  attributes: Values,
  records: readonly RecordFact[],
  owed: readonly Owed[],
  book: Book,
  tell?: (sentence: string) => void,
): DueRow {
  const { requirement, from, to } = version;
  const base = { requirement: requirement.id, from, to, late: requirement.late };
  const lastDone = records.findLast(r => isOf(requirement, r) && r.values.outcome !== 'not completed');
  const lastOn = lastDone ? lastDay(lastDone.effective) : null;
  const unmet = requirement.appliesTo.find(c => !holds(c, attributes));
  if (unmet) {
    tell?.(`It does not concern this thing: ${conditionText(unmet)}.`);
    return { ...base, basis: 'none', lastOn, dueOn: null, warnOn: null };
  }
  const counted = countedRecord(requirement, records);
  const reading = readClock({ requirement, attributes, counted, book, tell });
  const claim = owed.find(o => o.activity === requirement.activity);
  if (claim && reading.basis !== 'none') {
    tell?.(
      claim.because === 'failed'
        ? `It failed the ${requirement.activity} of ${showWhen(claim.since)}, so it is owed now, whatever the date; only a pass settles it.`
        : `Since ${showWhen(claim.since)} (${claim.because}) a ${requirement.activity} is owed, whatever the date; only a pass settles it.`,
    );
    return { ...base, basis: 'retest', lastOn, dueOn: null, warnOn: null };
  }
  const { dueOn } = reading;
  return {
    ...base,
    ...reading,
    lastOn,
    warnOn: dueOn === null ? null : ((dueOn - requirement.warnDays) as Day),
  };
}

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

function holds(condition: RuleCondition, attributes: Values): boolean {
  const value = attributes[condition.attribute];
  if ('known' in condition) return value !== undefined;
  if ('in' in condition) return typeof value === 'string' && condition.in.includes(value);
  return !(typeof value === 'string' && condition.notIn.includes(value));
}

function conditionText(condition: RuleCondition): string {
  if ('known' in condition) return `no ${condition.attribute} is on file`;
  if ('in' in condition) return `only where ${condition.attribute} is ${condition.in.join(' or ')}`;
  return `not where ${condition.attribute} is ${condition.notIn.join(' or ')}`;
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
