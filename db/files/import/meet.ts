/** A row that bears a number already known: the same thing, or a conflict to be settled side by side. */
import { showWhen } from '../../../domain/calendar/show.ts';
import { parseWhen } from '../../../domain/calendar/when.ts';
import { capital } from '../../../domain/capital.ts';
import type { Derived } from '../../../domain/derive/thing.ts';
import type { RecordFact, Value } from '../../../domain/facts.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import type { ReadRow } from '../sheet/index.ts';

export interface Conflict {
  field: string;
  sheet: string;
  known: string;
}

/** Fields in which a sheet and the department cannot both be right; places and remarks may well have changed. */
const MUST_AGREE: Readonly<Record<string, readonly string[]>> = {
  hose: ['diameter_in', 'length_ft', 'made'],
  ladder: ['type', 'length_ft', 'material', 'made'],
  cylinder: ['spec', 'servicePressure_psi', 'made'],
  pack: ['made'],
};

/** Where the row and the known thing disagree: its serial, what it is, or the outcome of a test on one day. */
export function conflictsWith(row: ReadRow, known: Derived): Conflict[] {
  const conflicts: Conflict[] = [];
  const { serial } = row.fields;
  if (typeof serial === 'string' && known.serial !== null && !sameText(serial, known.serial))
    conflicts.push({ field: 'Serial', sheet: serial, known: known.serial });
  for (const field of MUST_AGREE[known.family] ?? []) {
    const sheet = row.fields[field] ?? null;
    const had = known.attributes[field] ?? null;
    if (sheet !== null && had !== null && !sameValue(sheet, had))
      conflicts.push({ field: titleOf(known.family, field), sheet: shown(sheet), known: shown(had) });
  }
  for (const record of row.records) {
    const same = known.records.find(r => isSameDeed(r, record) && r.values.outcome !== record.outcome);
    const agrees = known.records.some(r => isSameDeed(r, record) && r.values.outcome === record.outcome);
    if (same && !agrees)
      conflicts.push({
        field: `${capital(record.activity)} of ${shown(record.on)}`,
        sheet: record.outcome,
        known: same.values.outcome,
      });
  }
  return conflicts;
}

/** Whether the serial or the manufacture date says that it is the same thing. */
export function isIdentified(row: ReadRow, known: Derived): boolean {
  const { serial, made } = row.fields;
  const sameSerial = typeof serial === 'string' && known.serial !== null && sameText(serial, known.serial);
  const had = known.attributes.made;
  return sameSerial || (typeof made === 'string' && typeof had === 'string' && sameValue(made, had));
}

/** The records of a row that the known thing does not have yet. */
export function recordsNotKnown(row: ReadRow, known: Derived): ReadRow['records'] {
  return row.records.filter(record => !known.records.some(r => isSameDeed(r, record)));
}

/** The same activity on the same day; where one of the two knows only the month or year, within it. */
function isSameDeed(known: RecordFact, record: ReadRow['records'][number]): boolean {
  if (known.values.activity !== record.activity) return false;
  const day = known.effective.slice(0, 10);
  return day.startsWith(record.on) || record.on.startsWith(day);
}

function sameValue(a: Value, b: Value): boolean {
  if (typeof a === 'string' && typeof b === 'string') {
    // A date known to the month agrees with a day inside it; "2.5" and "2.50" are one measure.
    if (parseWhen(a) && parseWhen(b)) return a.startsWith(b) || b.startsWith(a);
  }
  const [x, y] = [Number(a), Number(b)];
  if (Number.isFinite(x) && Number.isFinite(y)) return x === y;
  return sameText(String(a), String(b));
}

function titleOf(family: string, key: string): string {
  return familyOf(family)?.attributes.find(a => a.key === key)?.title ?? key;
}

function sameText(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}

function shown(value: Value): string {
  const when = typeof value === 'string' && /^\d{4}-\d{2}/.test(value) ? parseWhen(value) : null;
  return when ? showWhen(when) : String(value);
}
