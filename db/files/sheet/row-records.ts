/** The dates of a row and what they say was done. */
import type { Day } from '../../../domain/calendar/day.ts';
import { firstDay, type When } from '../../../domain/calendar/when.ts';
import type { Outcome } from '../../../domain/facts.ts';
import type { BodyRow } from './body-rows.ts';
import { isBlankLike } from './cell-text.ts';
import type { Column } from './columns.ts';
import type { DateCell, DateColumn } from './date-columns.ts';
import { exists, isOpen } from './day-order.ts';
import type { Draft } from './draft.ts';
import type { FieldPlan } from './fields.ts';
import { readOutcome } from './outcomes.ts';
import type { ReadRecord } from './reading-types.ts';
import { type RowDate, settleRowDates } from './row-dates.ts';

export interface RowContext {
  family: string;
  today: Day;
  columns: readonly Column[];
  dates: ReadonlyMap<number, DateColumn>;
  /** Most numbers are two numbers and a dash. */
  numbersArePairs: boolean;
}

/** A date of an activity with the result that stands beside it. */
interface Done {
  column: Column;
  when: When;
  outcome: Outcome | null;
  /** A result stands beside it that cannot be read: nothing is recorded. */
  unclear: boolean;
  note: string;
}

export function readDates(
  draft: Draft,
  row: BodyRow,
  at: number,
  context: RowContext,
): { done: Done[]; cellNotes: string[] } {
  const readable: { date: RowDate; column: Column; plan: FieldPlan; cell: DateCell; byColumn: boolean }[] =
    [];
  for (const { column, cells, reading, said } of context.dates.values()) {
    const { plan } = column;
    const cell = cells[at];
    if (!plan || !cell) continue;
    if (plan.kind === 'date') draft.set(plan.field, null);
    const text = said ?? row.texts[column.index] ?? '';
    const { shape } = cell;
    if (shape.kind === 'blank') continue;
    const problem = dateProblem(plan, text, cell, context.dates.get(column.index));
    if (problem) {
      draft.refuse(column, problem.code, problem.wrong, problem.todo);
    } else if (shape.kind === 'date') {
      const date: RowDate = {
        role: plan.role ?? 'past',
        shape,
        order: reading.order,
        text,
        title: plan.title,
        done: plan.done ?? 'placed in service',
      };
      // Only the rest of the column tells that this date is day first, or a month.
      const byColumn = (shape.open && reading.order === 'day first') || (shape.serial && shape.day === null);
      readable.push({ date, column, plan, cell, byColumn });
      if (shape.rin !== undefined) draft.set('rin', shape.rin);
    }
  }
  const settled = settleRowDates(
    readable.map(r => r.date),
    context.today,
  );
  // What was done weighs more than when it was placed in service: its problem is named first.
  const order = readable
    .map((_, i) => i)
    .sort((a, b) => weight(readable[b]?.plan) - weight(readable[a]?.plan));
  for (const i of order) {
    const problem = settled[i]?.problem;
    if (problem) draft.refuse(readable[i]?.column ?? null, problem.code, problem.wrong, problem.todo);
  }
  const done: Done[] = [];
  const cellNotes: string[] = [];
  for (const [i, { column, plan, cell, byColumn }] of readable.entries()) {
    const when = settled[i]?.when ?? null;
    if (when === null) continue;
    if (byColumn) draft.cells[column.index] = when;
    if (plan.activity === undefined) {
      draft.set(plan.field, when);
      if (cell.note !== '') cellNotes.push(`${plan.title}: ${cell.note}`);
    } else {
      done.push({ column, when, outcome: cell.outcome, unclear: false, note: cell.note });
    }
  }
  return { done, cellNotes };
}

function weight(plan: FieldPlan | undefined): number {
  return plan?.activity === undefined ? 0 : 1;
}

function dateProblem(
  plan: FieldPlan,
  text: string,
  { shape }: DateCell,
  dates: DateColumn | undefined,
): { code: string; wrong: string; todo: string } | null {
  const todo = 'Enter one date, such as 6/14/2026, or leave the cell empty.';
  if (shape.kind === 'unreadable') {
    const whys = {
      'no year': `${plan.title} “${text}” has no year, or the spreadsheet program has swapped its parts.`,
      several: `${plan.title} “${text}” holds more than one date.`,
      text: `${plan.title} “${text}” cannot be read as a date.`,
    };
    return { code: 'date unreadable', wrong: whys[shape.why], todo };
  }
  if (shape.kind !== 'date') return null;
  if (shape.loose && shape.month === null && plan.activity !== undefined) {
    return { code: 'date unreadable', wrong: `${plan.title} “${text}” cannot be read as a date.`, todo };
  }
  const reading = dates?.reading;
  if (!reading?.asked) return null;
  const contrary =
    shape.open &&
    !exists(shape, reading.order) &&
    exists(shape, reading.order === 'day first' ? 'month first' : 'day first');
  if (!contrary && !(reading.holdsOpen && isOpen(shape))) return null;
  return {
    code: 'day order undecided',
    wrong: contrary
      ? `${plan.title} ${text} is written the other way round from the rest of its column.`
      : `${plan.title} ${text} can be read with the day first or the month first.`,
    todo: 'Answer which comes first in this column, or write the month as a word.',
  };
}

/** What was done: each date of an activity with its result, the readings with the latest. */
export function readRecords(
  draft: Draft,
  row: BodyRow,
  done: readonly Done[],
  context: RowContext,
): ReadRecord[] {
  const activities = new Set(
    context.columns.flatMap(c => (c.plan?.activity === undefined ? [] : [c.plan.activity])),
  );
  const records: ReadRecord[] = [];
  for (const activity of activities) {
    const dates = done.filter(d => d.column.plan?.activity === activity);
    const latest = dates.reduce<Done | null>(
      (a, b) => (a === null || firstDay(b.when) > firstDay(a.when) ? b : a),
      null,
    );
    readOutcomes(draft, row, activity, dates, latest, context);
    refuseContraries(draft, dates, context);
    const readings = readingsOf(draft, activity, context.columns);
    for (const date of dates.filter(d => !d.unclear)) {
      records.push({
        activity,
        on: date.when,
        outcome: date.outcome ?? 'pass',
        readings: date === latest ? readings : {},
        note: date.note === '' ? null : date.note,
      });
    }
    if ([...context.dates.values()].some(d => d.column.plan?.activity === activity)) {
      draft.fields[`last ${activity}`] = latest?.when ?? null;
    }
    draft.fields[`outcome ${activity}`] = latest && !latest.unclear ? (latest.outcome ?? 'pass') : null;
  }
  return records;
}

/** Columns ticked for pass and for fail that share the date of a title or a year, both ticked. */
function refuseContraries(draft: Draft, dates: readonly Done[], context: RowContext): void {
  const ticked = dates.filter(d => context.dates.get(d.column.index)?.said !== null);
  for (const [i, date] of ticked.entries()) {
    const other = ticked.slice(0, i).find(d => d.when === date.when && d.outcome !== date.outcome);
    if (!other) continue;
    draft.refuse(date.column, 'result unreadable', CONTRARY, 'Leave only the one that is so.');
    date.unclear = true;
    other.unclear = true;
  }
}

const CONTRARY = 'Two results of one date contradict each other.';

function readingsOf(
  draft: Draft,
  activity: string,
  columns: readonly Column[],
): Record<string, string | number> {
  const readings: Record<string, string | number> = {};
  for (const { plan } of columns) {
    if (plan?.kind !== 'measure' || plan.activity !== activity) continue;
    const value = draft.fields[plan.field];
    if (typeof value === 'string' || typeof value === 'number') readings[plan.field] = value;
  }
  return readings;
}

/** Put each result to its date: one column a date where there are as many, else all to the latest. */
function readOutcomes(
  draft: Draft,
  row: BodyRow,
  activity: string,
  dates: readonly Done[],
  latest: Done | null,
  context: RowContext,
): void {
  const columns = context.columns.filter(c => c.plan?.kind === 'outcome' && c.plan.activity === activity);
  const dateColumns = context.columns.filter(c => c.plan?.kind === 'date' && c.plan.activity === activity);
  const paired = columns.length === dateColumns.length && columns.length > 1;
  for (const [i, column] of columns.entries()) {
    const text = row.texts[column.index] ?? '';
    const said = readOutcome(text, column.polarity);
    if (context.dates.has(column.index) && said !== undefined) continue;
    const target = paired ? (dates.find(d => d.column.index === dateColumns[i]?.index) ?? null) : latest;
    if (said === undefined || (said.untested && target)) {
      const wrong =
        said === undefined
          ? `Result “${text}” says neither pass nor fail.`
          : `Result “${text}” stands beside a date.`;
      draft.refuse(column, 'result unreadable', wrong, 'Enter Pass, Fail or Not completed.');
      if (target) target.unclear = true;
      continue;
    }
    if (said.outcome === null) continue;
    if (target === null) withoutDate(draft, column, text, said.outcome, dateColumns[paired ? i : 0], row);
    else if (target.outcome !== null && target.outcome !== said.outcome) {
      draft.refuse(column, 'result unreadable', CONTRARY, 'Leave only the one that is so.');
      target.unclear = true;
    } else {
      target.outcome = said.outcome;
      if (said.note !== '') target.note = target.note === '' ? said.note : `${target.note}; ${said.note}`;
    }
  }
}

/** A result with no date beside it: a pass is worth nothing; a fail may not be lost. */
function withoutDate(
  draft: Draft,
  column: Column,
  text: string,
  outcome: Outcome,
  dateColumn: Column | undefined,
  row: BodyRow,
): void {
  // A date that could not be read has its own problem.
  if (dateColumn && !isBlankLike(row.texts[dateColumn.index] ?? '')) return;
  if (outcome === 'pass') draft.note(column, `Result “${text}” has no date, so nothing is recorded.`);
  else
    draft.refuse(
      column,
      'result without date',
      `Result “${text}” has no date.`,
      'Enter the day it was done.',
    );
}
