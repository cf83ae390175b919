/**
 * Things in the trade's notation, one line a fact, told in the order of the lines:
 *
 *     ladder L-4: inService 2024-01-10, material aluminum
 *     2025-01-31  passed   inspection
 *     2025-02-01  passed   service test: load_lb 500
 *     2025-02-03  owes     service test: overload
 *     2025-02-05  is       tagged out
 *     always      amended  inService 2024-01-12
 */
import { type Day, dayText, parseDay } from '../../domain/calendar/day.ts';
import { parseWhen, type When } from '../../domain/calendar/when.ts';
import { type DueRow, type DueState, stateOn } from '../../domain/derive/due.ts';
import { explain, type Why } from '../../domain/derive/explain.ts';
import { type Derived, derive, inForce } from '../../domain/derive/thing.ts';
import {
  ASSIGNMENTS,
  CONDITIONS,
  type Fact,
  type Outcome,
  type Value,
  type Values,
} from '../../domain/facts.ts';
import { type Adoption, type Book, bookFrom, type PolicyChoice } from '../../domain/rulebook/book.ts';
import { familyOf, SHIPPED_REQUIREMENTS } from '../../domain/rulebook/index.ts';
import type { Permit } from '../../domain/rulebook/types.ts';

/** A day that must be one. */
export function day(text: string): Day {
  const known = parseDay(text);
  if (known === null) throw new Error(`${text} is not a day.`);
  return known;
}

/** A partial date that must be one. */
export function when(text: string): When {
  const known = parseWhen(text);
  if (known === null) throw new Error(`${text} is not a date.`);
  return known;
}

/** The shipped book as adopted from the opening on, with what the department decided besides. */
export function book(
  decided: {
    policies?: readonly PolicyChoice[];
    permits?: readonly Permit[];
    adoptions?: readonly Adoption[];
    /** Nothing else of the shipped book is adopted. */
    only?: readonly string[];
  } = {},
): Book {
  const opening = SHIPPED_REQUIREMENTS.filter(r => decided.only?.includes(r.id) ?? true).map(requirement => ({
    requirement,
    from: null,
  }));
  return bookFrom([...opening, ...(decided.adoptions ?? [])], decided.policies ?? [], decided.permits ?? []);
}

export const SHIPPED = book();

/** A shipped requirement by its id. */
export function shipped(id: string) {
  const known = SHIPPED_REQUIREMENTS.find(r => r.id === id);
  if (!known) throw new Error(`No requirement ${id} is shipped.`);
  return known;
}

const OUTCOME: Readonly<Record<string, Outcome>> = {
  passed: 'pass',
  failed: 'fail',
  stopped: 'not completed',
};

/** The facts of one thing from its lines. */
export function factsFrom(text: string): Fact[] {
  const [heading = '', ...lines] = text
    .split('\n')
    .map(l => l.trim())
    .filter(l => l !== '');
  const m = /^(\S+) (\S+?)(?:: (.*))?$/.exec(heading);
  const family = m?.[1] ?? '';
  if (!m || !familyOf(family)) throw new Error(`"${heading}" names no family and number.`);
  const at = (n: number, effective: string) => ({
    id: `fact ${n}`,
    effective: effective as When,
    clock: n,
    device: 'aaaaa',
    n: 0,
    recordedAt: n,
  });
  const identity: Fact = {
    ...at(0, '0000'),
    kind: 'identity',
    values: { family, number: m[2] ?? '', attributes: attributesFrom(family, m[3] ?? '') },
  };
  return [identity, ...lines.map((line, i) => factFrom(family, line, at, i + 1))];
}

type At = (n: number, effective: string) => Omit<Extract<Fact, { kind: 'place' }>, 'kind' | 'values'>;

function factFrom(family: string, line: string, at: At, n: number): Fact {
  const m = /^(\S+)\s+(\S+)\s+(.+)$/.exec(line);
  const [, on = '', verb = '', rest = ''] = m ?? [];
  const base = at(n, on === 'always' ? '0000' : when(on));
  const outcome = OUTCOME[verb];
  if (outcome) {
    const [activity = '', figures] = rest.split(': ');
    const readings = figures === undefined ? {} : { readings: readingsFrom(family, activity, figures) };
    return { ...base, kind: 'record', values: { activity, outcome, ...readings } };
  }
  switch (verb) {
    case 'owes': {
      const [activities = '', because = ''] = rest.split(': ');
      return { ...base, kind: 'owed', values: { activities: activities.split(', '), because } };
    }
    case 'is': {
      const condition = CONDITIONS.find(c => c === rest);
      if (condition) return { ...base, kind: 'condition', values: { condition } };
      break;
    }
    case 'as': {
      const assignment = ASSIGNMENTS.find(a => a === rest);
      if (assignment) return { ...base, kind: 'assignment', values: { assignment } };
      break;
    }
    case 'at':
      return { ...base, kind: 'place', values: { place: rest, how: 'sight' } };
    case 'renumbered':
      return { ...base, kind: 'identity', values: { number: rest } };
    case 'amended':
      return { ...base, kind: 'identity', values: { attributes: attributesFrom(family, rest) } };
  }
  throw new Error(`"${line}" says nothing that is known.`);
}

/** `steerTread_32nds 3, otherTread_32nds 6`, of one activity. */
function readingsFrom(family: string, activity: string, text: string): Values {
  const known = familyOf(family)?.activities.find(a => a.id === activity)?.readings ?? [];
  return Object.fromEntries(
    text.split(', ').map(pair => {
      const [key = '', figure = ''] = pair.split(' ');
      const type = known.find(r => r.key === key)?.type;
      if (type === undefined || figure === '') throw new Error(`"${pair}" is no reading of a ${activity}.`);
      return [key, type === 'whole' ? Number(figure) : figure];
    }),
  );
}

/** `made 2019-04, star yes, lifeLabel_months 360, inService -` (a dash clears). */
function attributesFrom(family: string, text: string): Values {
  const attributes: Record<string, Value> = {};
  for (const pair of text.split(', ').filter(p => p !== '')) {
    const [key = '', ...words] = pair.split(' ');
    const type = familyOf(family)?.attributes.find(a => a.key === key)?.type;
    const said = words.join(' ');
    if (type === undefined || said === '') throw new Error(`"${pair}" is no attribute of a ${family}.`);
    if (said === '-') attributes[key] = null;
    else if (type === 'whole') attributes[key] = Number(said);
    else if (type === 'flag') attributes[key] = said === 'yes';
    else attributes[key] = said;
  }
  return attributes;
}

/** What is derived of a thing in notation. */
export function thing(text: string, by: Book = SHIPPED): Derived {
  const derived = derive(factsFrom(text), by);
  if (!derived) throw new Error('Nothing says what the thing is.');
  return derived;
}

/** The row of a requirement in force on a day, or undefined where it owes none. */
export function rowOn(derived: Derived, requirement: string, on: string): DueRow | undefined {
  return derived.due.find(r => r.requirement === requirement && inForce(r, day(on)));
}

/** The rows in force on a day. */
export function inForceOn(derived: Derived, on: string): DueRow[] {
  return derived.due.filter(r => inForce(r, day(on)));
}

/** The last day on time for a requirement of a thing in notation; null without a date, undefined without a row. */
export function dueOn(text: string, requirement: string, by: Book = SHIPPED, on = '2026-11-25') {
  const row = rowOn(thing(text, by), requirement, on);
  return row && (row.dueOn === null ? null : dayText(row.dueOn));
}

/** The state of a requirement of a thing in notation on a day; undefined without a row. */
export function state(
  text: string,
  requirement: string,
  on: string,
  by: Book = SHIPPED,
): DueState | undefined {
  const row = rowOn(thing(text, by), requirement, on);
  return row && stateOn(row, day(on));
}

/** Why, for a requirement of a thing in notation on a day. */
export function why(text: string, requirement: string, on: string, by: Book = SHIPPED): Why {
  const told = explain(thing(text, by), requirement, by, day(on));
  if (!told) throw new Error(`${requirement} is not in force on ${on}.`);
  return told;
}
