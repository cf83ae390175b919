/** What reading a sheet gives. */
import type { Outcome } from '../../../domain/facts.ts';
import type { DayOrder } from './day-order.ts';

/** A column and what it is taken for; `field` null where it is left aside. */
export interface ColumnGuess {
  index: number;
  heading: string;
  field: string | null;
  examples: string[];
}

export interface SheetReading {
  family: string;
  /** The line of the headings (the lower one of two); 0 where the sheet has none. */
  headingLine: number;
  columns: ColumnGuess[];
  questions: { kind: 'day order'; column: number; heading: string; examples: string[] }[];
  rows: ReadRow[];
  /** Lines that are no rows: titles between rows, totals, notes, headings printed again. */
  leftOut: { line: number; text: string; why: string }[];
  /** The date above the headings that the results were taken to be of, where no column gives one; else null. */
  titleDate: { line: number; text: string } | null;
}

export interface ReadProblem {
  /** The heading of the column, or null where no one column is to blame. */
  column: string | null;
  wrong: string;
  todo: string;
  code: string;
}

/**
 * Something a row says was done. `on` is as precise as the sheet: a day, a month or a year. A blank result, or
 * none, counts as `pass`: sheets of this kind carry the date of the last good test.
 */
export interface ReadRecord {
  activity: string;
  on: string;
  outcome: Outcome;
  readings: Record<string, string | number>;
  /** What stood beside the result: the leak of `FAIL - leak`. */
  note: string | null;
}

export interface ReadRow {
  /** 1 is the first row under the headings; blank and left-out lines are not counted. */
  row: number;
  /** The line as a spreadsheet program numbers it. */
  line: number;
  /** false where there is any problem. */
  ok: boolean;
  number: string | null;
  /** Every field read, under the names of `fieldsOf`; decimals are text, whole numbers numbers, dates partial. */
  fields: Record<string, string | number | boolean | null>;
  records: ReadRecord[];
  /** The family's own summary of the row, and everything else that was read. */
  becomes: Record<string, string | number | null>;
  details: Record<string, string | number | boolean | null>;
  problems: ReadProblem[];
  /** What a person should know and that does not refuse the row. */
  notes: { column: string | null; note: string }[];
  /** The row as text for the refused-rows sheet; dates that only their column explains are written out. */
  cells: string[];
}

export interface ReadOptions {
  family: string;
  /** Fields by column index where a person has corrected the guess; null leaves the column aside. */
  mapping?: Record<string, string | null>;
  dayOrder?: Record<string, DayOrder>;
}
