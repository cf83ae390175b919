/** Sheets for the tests, written as a person would see them. */

import {
  type ColumnGuess,
  type Grid,
  type ReadOptions,
  type ReadRow,
  readGrid,
  readSheet,
  type SheetReading,
} from '../../../db/files/sheet/index.ts';
import { type Day, parseDay } from '../../../domain/calendar/day.ts';

/** The day the published sheets are read on. */
export const TODAY = day('2026-11-25');

export function day(text: string): Day {
  const parsed = parseDay(text);
  if (parsed === null) throw new RangeError(text);
  return parsed;
}

export async function gridOf(text: string, name = 'sheet.csv'): Promise<Grid> {
  return readGrid(new TextEncoder().encode(text), name);
}

type Options = Partial<ReadOptions & { today: Day }>;

export async function read(family: string, text: string, options: Options = {}): Promise<SheetReading> {
  return readSheet(await gridOf(text), { family, today: TODAY, ...options });
}

/** The row of a number; a test that asks for one that is not there is wrong itself. */
export function rowOf(reading: SheetReading, number: string): ReadRow {
  const row = reading.rows.find(r => r.number === number);
  if (!row) throw new Error(`no row ${number}`);
  return row;
}

/** Headings and what they are read as, in the sheet's order. */
export function columnsOf(reading: SheetReading): Record<string, string | null> {
  const pair = ({ heading, field }: ColumnGuess) => [heading, field] as const;
  return Object.fromEntries(reading.columns.map(pair));
}

export function codesOf(row: ReadRow): string[] {
  return row.problems.map(p => p.code);
}
