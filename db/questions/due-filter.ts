/** The filter of Coming due as SQL: every value bound, every state a range that an index can walk. */
import { z } from 'zod';
import { type Day, firstDayOfMonth, lastDayOfMonth, monthFrom } from '../../domain/calendar/day.ts';
import { DUE_STATES, type DueState } from '../../domain/derive/due.ts';
import { familyOf } from '../../domain/rulebook/index.ts';
import type { DueFilter } from '../api.ts';
import { readBook } from '../caches/book.ts';
import { all } from '../store/statements.ts';
import { day, dayAsked } from './fields.ts';
import { type Asking, CannotAnswer } from './types.ts';

const state = z.enum(DUE_STATES);

/** What `unit` and `month` take for rows that have none. */
export const NONE = 'none';

/** The fields of the filter, for the schemas of the questions that take it. */
export const filterFields = {
  on: day.optional(),
  within: z.number().int().min(0).max(36_500).optional(),
  family: z.string().optional(),
  station: z.string().optional(),
  unit: z.string().optional(),
  state: z.union([state, z.array(state)]).optional(),
  requirement: z.string().optional(),
  month: z
    .string()
    .refine(m => m === NONE || /^\d{4}-(0[1-9]|1[0-2])$/.test(m), {
      error: 'is not a month. Write 2026-11, or none.',
    })
    .optional(),
  text: z.string().max(200).optional(),
};

export interface Where {
  sql: string;
  values: Record<string, unknown>;
  on: Day;
}

/** The rows of `due d` whose version of the requirement is in force on the day `:on`. */
export const IN_FORCE = '(d.from_day IS NULL OR d.from_day <= :on) AND (d.to_day IS NULL OR d.to_day > :on)';

/** Rows whose state depends on the day compared with, and that are not past on it. */
const STANDS = `((d.basis IN ('counted', 'first', 'life') AND d.late_on >= :on)
  OR (d.basis = 'projected' AND (d.late_on IS NULL OR d.late_on >= :on) AND (d.due_to IS NULL OR d.due_to >= :on)))`;

/** The rows of `due d` in each state on the day `:on`. Says the same as `stateOn`; a test holds them together. */
export const STATE_SQL: Readonly<Record<DueState, string>> = {
  'life ended': "(d.basis = 'life' AND d.late_on < :on)",
  'retest owed': "(d.basis = 'retest')",
  'never done': "(d.basis = 'first' AND (d.due_on IS NULL OR d.late_on < :on))",
  overdue: "(d.basis IN ('counted', 'projected') AND d.late_on < :on)",
  'not judged': `(d.basis = 'unjudged'
    OR (d.basis = 'projected' AND d.due_to < :on AND (d.late_on IS NULL OR d.late_on >= :on)))`,
  'due soon': `(${STANDS} AND d.warn_on <= :on)`,
  current: `(${STANDS} AND (d.warn_on IS NULL OR d.warn_on > :on))`,
  'not applicable': '(0)',
};

/**
 * @throws CannotAnswer for a family, unit or station that the department does not have
 */
export function whereOf(asking: Asking, filter: DueFilter, withState = true): Where {
  const on = dayAsked(asking, filter.on);
  const parts = [IN_FORCE];
  const values: Record<string, unknown> = { on };
  if (filter.family !== undefined) {
    if (!familyOf(filter.family))
      throw new CannotAnswer(
        'unknown family',
        `There is no family ${filter.family}.`,
        'Use a family of the rule book.',
        'family',
      );
    parts.push('d.family = :family');
    values.family = filter.family;
  }
  if (filter.requirement !== undefined) {
    parts.push('d.requirement = :requirement');
    values.requirement = filter.requirement;
  }
  if (filter.within !== undefined) {
    parts.push('(d.due_on IS NULL OR d.due_on <= :until)');
    values.until = on + filter.within;
  }
  if (filter.month === NONE) parts.push('d.due_on IS NULL');
  else if (filter.month !== undefined) {
    parts.push('d.due_on BETWEEN :monthFrom AND :monthTo');
    const month = monthFrom(Number(filter.month.slice(0, 4)), Number(filter.month.slice(5)));
    Object.assign(values, { monthFrom: firstDayOfMonth(month), monthTo: lastDayOfMonth(month) });
  }
  if (filter.unit?.trim().toLowerCase() === NONE)
    parts.push('(d.place_key IS NULL OR d.place_key NOT IN (SELECT key FROM places WHERE unit IS NOT NULL))');
  else if (filter.unit !== undefined) {
    parts.push('d.place_key IN (SELECT key FROM places WHERE unit = :unit OR rig = :rig)');
    Object.assign(values, unitKeys(asking, filter.unit));
  }
  if (filter.station !== undefined) {
    parts.push('d.place_key IN (SELECT key FROM places WHERE station = :station)');
    values.station = stationKey(asking, filter.station);
  }
  if (withState && filter.state !== undefined) {
    const states = Array.isArray(filter.state) ? filter.state : [filter.state];
    parts.push(states.length === 0 ? '0' : `(${states.map(s => STATE_SQL[s]).join(' OR ')})`);
  }
  textWords(filter.text).forEach((word, i) => {
    parts.push(wordSql(asking, word, i, values));
  });
  return { sql: parts.join(' AND '), values, on };
}

/** The words of a text filter, each to be found somewhere. */
export function textWords(text: string | undefined): string[] {
  return (text ?? '').split(/\s+/).filter(w => /[\p{L}\p{N}]/u.test(w));
}

/** A word as a full-text prefix query; quotes in it are doubled, so nothing in it is an operator. */
export function prefixQuery(word: string): string {
  return `"${word.replaceAll('"', '""')}"*`;
}

/** One word is found in the thing's own words, in its place's name, or in the requirement's title. */
function wordSql(asking: Asking, word: string, i: number, values: Record<string, unknown>): string {
  values[`word${i}`] = prefixQuery(word);
  const found = `SELECT rowid FROM words WHERE words MATCH :word${i}`;
  const parts = [`d.item IN (${found})`, `d.place_key IN (${found})`];
  const lower = word.toLowerCase();
  const requirements = [...readBook(asking.db).versions.values()]
    .flat()
    .map(v => v.requirement)
    .filter(r =>
      r.title
        .toLowerCase()
        .split(/\s+/)
        .some(w => w.startsWith(lower)),
    )
    .map(r => r.id);
  [...new Set(requirements)].forEach((id, n) => {
    values[`word${i}rule${n}`] = id;
    parts.push(`d.requirement = :word${i}rule${n}`);
  });
  return `(${parts.join(' OR ')})`;
}

function unitKeys(asking: Asking, name: string): { unit: number; rig: number } {
  const wanted = name.trim().toLowerCase();
  const unit = all<{ key: number }>(
    asking.db,
    'SELECT u.key FROM units u JOIN things t ON t.key = u.key WHERE lower(u.name) = ? OR t.id = ?',
    wanted,
    name,
  )[0];
  const rig = all<{ key: number }>(
    asking.db,
    "SELECT p.key FROM places p JOIN things t ON t.key = p.key WHERE p.kind = 'rig' AND (lower(p.name) = ? OR t.id = ?)",
    wanted,
    name,
  )[0];
  if (!unit && !rig)
    throw new CannotAnswer(
      'not found',
      `There is no unit or rig ${name}.`,
      'Check its name in the department.',
      'unit',
    );
  // A unit's own name decides: what rides with Engine 31 is on whatever rig its crew rides.
  return { unit: unit?.key ?? -1, rig: unit ? -1 : (rig?.key ?? -1) };
}

function stationKey(asking: Asking, name: string): number {
  const station = all<{ key: number }>(
    asking.db,
    "SELECT p.key FROM places p JOIN things t ON t.key = p.key WHERE p.kind = 'station' AND (lower(p.name) = ? OR t.id = ?)",
    name.trim().toLowerCase(),
    name,
  )[0];
  if (!station)
    throw new CannotAnswer(
      'not found',
      `There is no station ${name}.`,
      'Check its name in the department.',
      'station',
    );
  return station.key;
}
