/** The date columns of a sheet: every cell as typed, the order of day and month, and months kept as first days. */
import type { Outcome } from '../../../domain/facts.ts';
import type { BodyRow } from './body-rows.ts';
import { isBlankLike } from './cell-text.ts';
import type { Column } from './columns.ts';
import {
  type DayOrder,
  exists,
  isOpen,
  type OrderReading,
  orderEvidence,
  settleOrders,
} from './day-order.ts';
import type { Cell } from './grid.ts';
import { readOutcome } from './outcomes.ts';
import { type DateShape, dateShapeOf } from './typed-dates.ts';

/** A cell of a date column: the date, and a result or a remark that stands in the same cell. */
export interface DateCell {
  shape: DateShape;
  outcome: Outcome | null;
  note: string;
}

export interface DateColumn {
  column: Column;
  /** By place of the row in the body. */
  cells: DateCell[];
  reading: OrderReading;
  /** The text of its one date, where a heading or a title gives it for a whole column of results; else null. */
  said: string | null;
  /** Texts that show why the order is asked. */
  examples: string[];
}

/** A date that a title above the headings gives for the whole sheet: `Test date: May 6, 2026`. */
export interface TitleDate {
  line: number;
  text: string;
}

const TITLE_DATE =
  /^(?:(?:date\s*(?:of\s*)?)?(?:service\s*|annual\s*|hose\s*|ladder\s*|flow\s*)*(?:test(?:ed|ing)?|date)\s*(?:date|on)?)\s*[:-]?\s*(.*)$/i;

/** The one date that the titles give, or null where there is none or several. */
export function titleDateOf(titles: readonly { line: number; texts: readonly string[] }[]): TitleDate | null {
  const found: TitleDate[] = [];
  for (const { line, texts } of titles) {
    for (const [i, text] of texts.entries()) {
      const rest = TITLE_DATE.exec(text)?.[1];
      const date = rest === '' ? (texts[i + 1] ?? '') : rest;
      const shape = dateShapeOf(date ?? null);
      if (date !== undefined && shape.kind === 'date' && !shape.loose && shape.day !== null)
        found.push({ line, text: date });
    }
  }
  return found.length === 1 ? (found[0] ?? null) : null;
}

/** Fields of which a month is all that is marked on the thing. */
const MONTH_FIELDS = new Set(['made', 'heatLabelExpires', 'last requalification', 'last crack examination']);
/** From so many serial dates on, all on the first of a month, a column holds months. */
const ENOUGH_FIRSTS = 3;
const EXAMPLES = 5;

/**
 * Read the date columns as wholes. A column of results counts among them where its heading gives the year, or
 * a title above the headings the day, and no other column does.
 * @param answers day order by column index, where a person has said
 */
export function dateColumnsOf(
  columns: readonly Column[],
  rows: readonly BodyRow[],
  answers: Readonly<Record<string, DayOrder>>,
  titleDate: TitleDate | null,
): Map<number, DateColumn> {
  const read = new Map<number, DateColumn>();
  for (const column of columns) {
    const said = column.year === null ? titleFor(column, columns, titleDate) : String(column.year);
    if (said === null || column.plan?.kind !== 'outcome') continue;
    const reading: OrderReading = { order: 'month first', asked: false, holdsOpen: false };
    read.set(column.index, { column, cells: resultsOf(column, rows, said), reading, said, examples: [] });
  }
  const dates = columns.filter(column => column.plan?.kind === 'date');
  const cellsByColumn = new Map(dates.map(column => [column.index, cellsOf(column, rows)]));
  const orders = settleOrders(
    new Map([...cellsByColumn].map(([index, cells]) => [index, orderEvidence(cells.map(c => c.shape))])),
    answers,
  );
  for (const column of dates) {
    const cells = cellsByColumn.get(column.index) ?? [];
    const reading = orders.get(column.index) ?? { order: 'month first', asked: false, holdsOpen: false };
    read.set(column.index, {
      column,
      cells: MONTH_FIELDS.has(column.plan?.field ?? '') ? monthsFromFirsts(cells) : cells,
      reading,
      said: null,
      examples: reading.asked ? examplesOf(column, rows, cells, reading) : [],
    });
  }
  return read;
}

function titleFor(column: Column, columns: readonly Column[], titleDate: TitleDate | null): string | null {
  const { plan } = column;
  if (titleDate === null || plan?.kind !== 'outcome') return null;
  const dated = columns.some(c => c.plan?.kind === 'date' && c.plan.activity === plan.activity);
  return dated ? null : titleDate.text;
}

function cellsOf(column: Column, rows: readonly BodyRow[]): DateCell[] {
  const canHoldResult = column.plan?.activity !== undefined;
  return rows.map(row => {
    const shape = dateShapeOf(cellOf(column, row));
    if (shape.kind !== 'unreadable' || shape.why !== 'text') return { shape, outcome: null, note: '' };
    return withWords(row.texts[column.index] ?? '', canHoldResult) ?? { shape, outcome: null, note: '' };
  });
}

/** The cell, with the month of its own column where the sheet keeps the two apart. */
function cellOf(column: Column, row: BodyRow): Cell {
  const cell = row.cells[column.index] ?? null;
  const year = row.texts[column.index] ?? '';
  const month = column.monthIn === null ? '' : (row.texts[column.monthIn] ?? '');
  if (isBlankLike(month) || !/^('?\d{2}|\d{4})$/.test(year)) return cell;
  return `${month}${/^\d/.test(month) ? '/' : ' '}${year}`;
}

/** A column of results that all have one date: each result is of that date, and a blank cell of none. */
function resultsOf(column: Column, rows: readonly BodyRow[], date: string): DateCell[] {
  const when = dateShapeOf(date);
  return rows.map(row => {
    const said = readOutcome(row.texts[column.index] ?? '', column.polarity);
    const shape: DateShape = said?.outcome ? when : { kind: 'blank' };
    return { shape, outcome: said?.outcome ?? null, note: said?.note ?? '' };
  });
}

const DATE_THEN_WORDS = /^(.*?\d)(?:\s*[-–,;:(]\s*|\s+)([a-z][a-z ,./-]*)\)?$/i;
const WORDS_THEN_DATE = /^([a-z][a-z ./-]*?)(?:\s*[-–,;:(]\s*|\s+)(\d.*?)\)?$/i;
const DATE_THEN_BRACKETS = /^(.*?\d)\s*\(([^()]+)\)$/;

const QUARTER =
  /^(?:q\s*[1-4]|[1-4](?:st|nd|rd|th)?\s*(?:q|qtr|quarter))\b\.?[\s,/-]*(?:of\s+)?('?\d{2}|\d{4})$/i;

/** `5/6/24 P`, `FAIL 5/6/24`: a result beside the date; `5/6/24 (annual)`: a remark in brackets. */
function withWords(text: string, canHoldResult: boolean): DateCell | null {
  const after = DATE_THEN_WORDS.exec(text);
  const before = WORDS_THEN_DATE.exec(text);
  const pairs = [
    [after?.[1], after?.[2]],
    [before?.[2], before?.[1]],
  ];
  for (const [date, words] of canHoldResult ? pairs : []) {
    if (date === undefined || words === undefined) continue;
    const shape = dateShapeOf(date);
    const said = readOutcome(words);
    if (shape.kind === 'date' && said?.outcome) return { shape, outcome: said.outcome, note: said.note };
  }
  // A quarter is no date the ledger has a form for: the year is kept, the quarter as a remark.
  const year = QUARTER.exec(text)?.[1];
  if (year !== undefined) {
    const shape = dateShapeOf(year.length === 2 ? `'${year}` : year);
    return { shape, outcome: null, note: text };
  }
  const brackets = DATE_THEN_BRACKETS.exec(text);
  const shape = brackets ? dateShapeOf(brackets[1] ?? '') : null;
  return shape?.kind === 'date' ? { shape, outcome: null, note: (brackets?.[2] ?? '').trim() } : null;
}

/** A spreadsheet keeps `Apr-16` as 1 April: where every such date of the column is a first, months were meant. */
function monthsFromFirsts(cells: DateCell[]): DateCell[] {
  const serials = cells.filter(({ shape }) => shape.kind === 'date' && shape.serial);
  if (serials.length < ENOUGH_FIRSTS) return cells;
  if (!serials.every(({ shape }) => shape.kind === 'date' && shape.day === 1)) return cells;
  return cells.map(cell =>
    cell.shape.kind === 'date' && cell.shape.serial ? { ...cell, shape: { ...cell.shape, day: null } } : cell,
  );
}

function examplesOf(
  column: Column,
  rows: readonly BodyRow[],
  cells: readonly DateCell[],
  reading: OrderReading,
): string[] {
  const texts = (test: (cell: DateCell) => boolean) =>
    cells.flatMap((cell, i) => (test(cell) ? [rows[i]?.texts[column.index] ?? ''] : []));
  const other: DayOrder = reading.order === 'day first' ? 'month first' : 'day first';
  const only = (order: DayOrder, not: DayOrder) =>
    texts(({ shape }) => shape.kind === 'date' && shape.open && exists(shape, order) && !exists(shape, not));
  const against = only(other, reading.order);
  const forIt = only(reading.order, other);
  const either = texts(({ shape }) => shape.kind === 'date' && isOpen(shape));
  // Each side of a mixed column is shown first, so that a person sees why it is asked.
  return [...new Set([...against.slice(0, 2), ...forIt.slice(0, 1), ...either])].slice(0, EXAMPLES);
}
