/** Whether the dates of a column are written month first, as in the United States, or day first. */
import { isDate } from '../../../domain/calendar/day.ts';
import type { DateShape, TypedDate } from './typed-dates.ts';

export type DayOrder = 'day first' | 'month first';

/** What the values of one column say about their order. */
export interface OrderEvidence {
  dayFirstOnly: number;
  monthFirstOnly: number;
  /** Values that are a date both ways, and a different one. */
  either: number;
}

/** How a column is read: its order, and whether a person must say before its open dates count. */
export interface OrderReading {
  order: DayOrder;
  /** Ask: the column, or the sheet, holds both habits. */
  asked: boolean;
  /** Rows whose date could be either are held back until the question is answered. */
  holdsOpen: boolean;
}

/** A share of contrary values from which a column counts as truly mixed and not as one with a slip in it. */
const MIXED_SHARE = 0.25;

/** Which order each date of a column allows; dates that exist in neither order are no evidence. */
export function orderEvidence(shapes: Iterable<DateShape>): OrderEvidence {
  const evidence = { dayFirstOnly: 0, monthFirstOnly: 0, either: 0 };
  for (const shape of shapes) {
    if (shape.kind !== 'date' || !shape.open || shape.loose) continue;
    const [monthFirst, dayFirst] = [exists(shape, 'month first'), exists(shape, 'day first')];
    if (monthFirst && dayFirst && shape.month !== shape.day) evidence.either++;
    else if (monthFirst && !dayFirst) evidence.monthFirstOnly++;
    else if (dayFirst && !monthFirst) evidence.dayFirstOnly++;
  }
  return evidence;
}

/**
 * The order of each date column. A column that only makes sense day first is read so; with no sign of day-first
 * writing anywhere, US order holds without a question. Asked is where one column holds both habits, or where
 * no value of a column decides and another column of the sheet is day first.
 */
export function settleOrders(
  columns: ReadonlyMap<number, OrderEvidence>,
  answers: Readonly<Record<string, DayOrder>>,
): Map<number, OrderReading> {
  const dayFirstSomewhere = [...columns.values()].some(e => e.dayFirstOnly > 0 && e.monthFirstOnly === 0);
  const readings = new Map<number, OrderReading>();
  for (const [column, e] of columns) {
    const answer = answers[String(column)];
    if (answer) readings.set(column, { order: answer, asked: false, holdsOpen: false });
    else readings.set(column, settle(e, dayFirstSomewhere));
  }
  return readings;
}

function settle(e: OrderEvidence, dayFirstSomewhere: boolean): OrderReading {
  const { dayFirstOnly: day, monthFirstOnly: month } = e;
  if (day > 0 && month > 0) {
    const fewer = Math.min(day, month);
    const split = fewer >= 2 && fewer / (day + month) >= MIXED_SHARE;
    return { order: day > month ? 'day first' : 'month first', asked: true, holdsOpen: split };
  }
  if (day > 0) return { order: 'day first', asked: false, holdsOpen: false };
  const undecided = month === 0 && e.either > 0 && dayFirstSomewhere;
  return { order: 'month first', asked: undecided, holdsOpen: undecided };
}

/** The month and the day of a date as typed, read in an order. */
export function inOrder(shape: TypedDate, order: DayOrder): { month: number | null; day: number | null } {
  return shape.open && order === 'day first'
    ? { month: shape.day, day: shape.month }
    : { month: shape.month, day: shape.day };
}

/** Whether a date could be either of two days: its order matters. */
export function isOpen(shape: TypedDate): boolean {
  return (
    shape.open && shape.month !== shape.day && exists(shape, 'month first') && exists(shape, 'day first')
  );
}

/** Whether the calendar has the date in that order; of a two-digit year, in either century. */
export function exists(shape: TypedDate, order: DayOrder): boolean {
  const { month, day } = inOrder(shape, order);
  if (month !== null && (month < 1 || month > 12)) return false;
  if (month === null || day === null) return true;
  return shape.shortYear
    ? isDate(2000 + shape.year, month, day) || isDate(1900 + shape.year, month, day)
    : isDate(shape.year, month, day);
}
