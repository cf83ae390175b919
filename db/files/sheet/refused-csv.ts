/** The refused rows as a sheet of their own, to mend and bring again. */
import Papa from 'papaparse';
import { isBlankLike } from './cell-text.ts';
import { REASON_HEADING } from './heading-fit.ts';
import type { ReadRow, SheetReading } from './reading-types.ts';

const LOCATION_HEADING = 'Location';

/**
 * Headings, the refused rows and a last column that says why; UTF-8 with its mark, so that a spreadsheet program
 * shows feet marks and fractions right. The last column is not read when the sheet is brought again.
 */
export function refusedCsv(reading: SheetReading): string {
  const refused = reading.rows.filter(row => !row.ok);
  const headings = reading.columns.map(column => column.heading);
  const added = addedColumns(reading, refused);
  const fields = [...headings, ...added.map(column => column.heading), REASON_HEADING];
  const data = refused.map(row => [
    ...headings.map((_, i) => row.cells[i] ?? ''),
    ...added.map(column => column.of(row)),
    row.problems.map(p => `${p.column ? `${p.column}: ` : ''}${p.wrong} ${p.todo}`).join(' '),
  ]);
  return `\ufeff${Papa.unparse({ fields, data }, { newline: '\r\n' })}\r\n`;
}

interface AddedColumn {
  heading: string;
  of(row: ReadRow): string;
}

/** What only lines above or between the rows told, and would be lost with them. */
function addedColumns(reading: SheetReading, refused: readonly ReadRow[]): AddedColumn[] {
  const added: AddedColumn[] = [];
  const hasPlace = reading.columns.some(c => c.field === 'place' || c.field === 'station');
  if (!hasPlace && refused.some(row => typeof row.fields.place === 'string')) {
    added.push({ heading: LOCATION_HEADING, of: row => String(row.fields.place ?? '') });
  }
  const { titleDate } = reading;
  const results = reading.columns.filter(c => c.field?.startsWith('outcome '));
  if (titleDate === null || results.length === 0) return added;
  const [first] = results;
  added.push({
    heading: first?.field?.replace('outcome', 'Last') ?? '',
    // A date beside no result would count as a pass.
    of: row => (results.some(c => !isBlankLike(row.cells[c.index] ?? '')) ? titleDate.text : ''),
  });
  return added;
}
