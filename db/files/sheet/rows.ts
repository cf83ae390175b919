/** One row: from its texts to typed fields, what was done, and what is wrong. */
import type { BodyRow } from './body-rows.ts';
import { isBlankLike } from './cell-text.ts';
import { Draft, joined } from './draft.ts';
import { sizeAndMore } from './measure-cells.ts';
import type { ReadRow } from './reading-types.ts';
import { readMarkCell, readNumber, readPlaces, readPlain } from './row-cells.ts';
import { type RowContext, readDates, readRecords } from './row-records.ts';
import { becomesOf, detailsOf } from './summaries.ts';

/** Read one row. @param at its place in the body, for the date columns */
export function readRow(row: BodyRow, at: number, context: RowContext): ReadRow {
  const draft = new Draft(row.texts);
  readNumber(draft, row, context.columns, context.numbersArePairs);
  for (const column of context.columns)
    readPlain(draft, column, row.texts[column.index] ?? '', context.family);
  for (const column of context.columns) {
    if (column.plan?.kind !== 'mark') continue;
    const text = row.texts[column.index] ?? '';
    readMarkCell(draft, column, isBlankLike(text) ? null : text);
  }
  readPlaces(draft, row, context.columns);
  sizeAndMore(context.family, draft.fields, context.columns, row.texts);
  const { done, cellNotes } = readDates(draft, row, at, context);
  const records = readRecords(draft, row, done, context);
  for (const note of cellNotes) draft.fields.remarks = joined(draft.fields.remarks, note);
  return {
    row: at + 1,
    line: row.line,
    ok: draft.problems.length === 0,
    number: typeof draft.fields.number === 'string' ? draft.fields.number : null,
    fields: draft.fields,
    records,
    becomes: becomesOf(context.family, draft.fields),
    details: detailsOf(context.family, draft.fields),
    problems: draft.problems,
    notes: draft.notes,
    cells: draft.cells,
  };
}
