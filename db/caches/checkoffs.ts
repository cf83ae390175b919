/** Carry lists, check-offs and defects from their facts, and the rows by which they are found. */
import { firstDay, lastDay, type When } from '../../domain/calendar/when.ts';
import { carryListFrom, type LineFact } from '../../domain/carry/list.ts';
import type { CarryLine } from '../../domain/carry/types.ts';
import type { ExceptionKind, NextStep, PlaceMark } from '../../domain/checkoffs/marks.ts';
import type { CheckoffKnown } from '../actions/types.ts';
import { all, type Db, one, prepared, run } from '../store/statements.ts';
import { asTold, factsOf, identityOf, type PlainFact, tellerOf, textOf } from './facts.ts';

/** The lines in force by these facts, of which those that are no lines are passed over. */
export function carryListOf(facts: readonly PlainFact[]): CarryLine[] {
  return carryListFrom(facts.filter(f => f.kind === 'carry line') as unknown as LineFact[]);
}

/** A check-off with its marks, or null where no fact says what it is. */
export function checkoffOf(db: Db, key: number): CheckoffKnown | null {
  const facts = factsOf(db, key);
  const begun = identityOf(facts);
  if (!begun) return null;
  const signed = asTold(facts.filter(f => f.kind === 'signed')).at(0);
  return {
    of: String(begun.of),
    rig: textOf(begun.rig),
    places: Array.isArray(begun.places) ? (begun.places as string[]) : null,
    scope: begun.scope === 'operated only' ? 'operated only' : 'whole',
    started: begun.started as When,
    marks: asTold(facts.filter(f => f.kind === 'mark')).map(f => ({
      ...(f.values as unknown as PlaceMark),
      fact: f.id,
      byName: tellerOf(db, f.id)?.name ?? null,
    })),
    signed: signed?.effective ?? null,
    signedBy: textOf(signed?.values.by),
    countersigned: facts.some(f => f.kind === 'countersigned'),
    setAside: facts.some(f => f.kind === 'set aside'),
  };
}

/** What a defect's facts say of it. */
export interface DefectTold {
  of: string;
  checkoff: string | null;
  line: string | null;
  what: string;
  item: string | null;
  place: string | null;
  kind: ExceptionKind;
  next: NextStep;
  short: number | null;
  note: string | null;
  since: string;
  by: string | null;
  closedOn: string | null;
  closedHow: string | null;
  closedNote: string | null;
}

export function defectOf(facts: readonly PlainFact[]): DefectTold | null {
  const found = facts.find(f => f.kind === 'identity');
  if (!found) return null;
  const v = found.values;
  const closed = asTold(facts.filter(f => f.kind === 'closed')).at(0);
  return {
    of: String(v.of),
    checkoff: textOf(v.checkoff),
    line: textOf(v.line),
    what: textOf(v.what) ?? '',
    item: textOf(v.item),
    place: textOf(v.place),
    kind: v.kind as ExceptionKind,
    next: v.next as NextStep,
    short: typeof v.short === 'number' ? v.short : null,
    note: textOf(v.note),
    since: found.effective,
    by: textOf(v.by),
    closedOn: closed?.effective ?? null,
    closedHow: closed ? String(closed.values.how) : null,
    closedNote: textOf(closed?.values.note),
  };
}

export function deriveCheckoff(db: Db, key: number): void {
  run(db, 'DELETE FROM checkoffs WHERE key = ?', key);
  run(db, 'DELETE FROM looked WHERE checkoff = ?', key);
  const facts = factsOf(db, key);
  const begun = identityOf(facts);
  if (!begun) return;
  const signed = asTold(facts.filter(f => f.kind === 'signed')).at(0);
  const counter = asTold(facts.filter(f => f.kind === 'countersigned')).at(0);
  const setAside = facts.some(f => f.kind === 'set aside');
  const marks = signed
    ? (signed.values.marks as PlaceMark[])
    : asTold(facts.filter(f => f.kind === 'mark')).map(f => f.values as unknown as PlaceMark);
  const latest = new Map(marks.map(m => [m.place.toLowerCase(), m]));
  const occurs = begun.for as { on: When; shift: number } | null;
  run(
    db,
    `INSERT INTO checkoffs (key, holder, rig, schedule, occurs_on, shift, state, started_at, finished_at, signed_on,
       signed_by, countersigned_by, lines, exceptions) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    key,
    String(begun.of),
    textOf(begun.rig),
    textOf(begun.schedule),
    occurs ? lastDay(occurs.on) : null,
    occurs?.shift ?? 0,
    signed ? (counter ? 'countersigned' : 'signed') : setAside ? 'set aside' : 'draft',
    String(begun.started),
    textOf(signed?.values.finished),
    signed ? firstDay(signed.effective) : null,
    textOf(signed?.values.by),
    textOf(counter?.values.by),
    typeof signed?.values.lines === 'number' ? signed.values.lines : null,
    [...latest.values()].reduce((n, m) => n + m.exceptions.length, 0),
  );
  if (!signed) return;
  const insert = prepared(db, 'INSERT INTO looked (checkoff, place_key, on_day) VALUES (?, ?, ?)');
  for (const mark of latest.values()) {
    const place =
      mark.at === null ? undefined : one<{ key: number }>(db, 'SELECT key FROM things WHERE id = ?', mark.at);
    if (place && mark.leftOut === null && mark.present)
      insert.run(key, place.key, firstDay(signed.effective));
  }
}

export function deriveDefect(db: Db, key: number): void {
  run(db, 'DELETE FROM defects WHERE key = ?', key);
  const told = defectOf(factsOf(db, key));
  if (!told) return;
  const [item] =
    told.item === null ? [] : all<{ key: number }>(db, 'SELECT key FROM things WHERE id = ?', told.item);
  run(
    db,
    `INSERT INTO defects (key, holder, checkoff, line, what, place, item, kind, "next", short, note, since, found_by,
       closed_on, closed_how, closed_note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    key,
    told.of,
    told.checkoff,
    told.line,
    told.what,
    told.place,
    item?.key ?? null,
    told.kind,
    told.next,
    told.short,
    told.note,
    told.since,
    told.by,
    told.closedOn,
    told.closedHow,
    told.closedNote,
  );
}
