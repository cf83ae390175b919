/**
 * The sheet reader: from the bytes of a department's spreadsheet to typed rows, each with what it becomes or why it
 * is refused. Pure over bytes and cells: no store, no clock.
 */
export { guessFamily } from './family-guess.ts';
export { fieldsOf } from './fields.ts';
export { type Cell, type Grid, readGrid } from './grid.ts';
export { readSheet } from './reading.ts';
export type { ColumnGuess, ReadOptions, ReadRow, SheetReading } from './reading-types.ts';
export { refusedCsv } from './refused-csv.ts';
export { SheetError } from './sheet-error.ts';
