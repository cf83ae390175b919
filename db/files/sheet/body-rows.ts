/** Which lines under the headings are rows. */
import type { Cell, Grid } from './grid.ts';
import { filledCells, type Layout, lineOf } from './layout.ts';

export interface BodyRow {
  /** Index into the grid's cells. */
  at: number;
  line: number;
  cells: Cell[];
  texts: string[];
  /** The title of the section the row stands under (`ENGINE 31`), or ''. */
  section: string;
}

export interface LeftOut {
  line: number;
  text: string;
  why: string;
}

const CLOSING =
  /^(sub|grand)?[\s-]*totals?\b|^(count|sum|average|avg|end of|printed|page \d|notes?:|note -|legend|key:|signed|signature|revised|updated|last updated|source|\* |\*\*)|^\w+ by\b.*:|^[\w ]+ by:?$|^date:/i;

/**
 * The rows under the headings. Blank lines are dropped; titles between rows, totals, notes at the end and
 * headings printed again are left out and listed.
 * @param numberColumn the column that holds the number, or -1
 */
export function bodyRows(
  grid: Grid,
  texts: readonly string[][],
  layout: Layout,
  numberColumn: number,
): { rows: BodyRow[]; leftOut: LeftOut[] } {
  const lines = texts.flatMap((row, at) =>
    at >= layout.bodyAt && row.some(t => t !== '') ? [{ at, row, filled: filledCells(row) }] : [],
  );
  const full = lines.filter(l => l.filled >= 3 || l.filled === layout.headings.length);
  const known = knownShapes(full.map(l => l.row[numberColumn] ?? ''));
  const lastFull = lines.findLastIndex(l => l.filled >= 3 && !isClosing(l.row, numberColumn, known));
  const rows: BodyRow[] = [];
  const leftOut: LeftOut[] = [];
  let section = '';
  for (const [i, { at, row, filled }] of lines.entries()) {
    const why = whyLeftOut(row, filled, layout, numberColumn, known, i > lastFull);
    if (why === null) {
      rows.push({ at, line: lineOf(grid, at), cells: grid.cells[at] ?? [], texts: row, section });
      continue;
    }
    const text = row.filter(t => t !== '').join(' ');
    leftOut.push({ line: lineOf(grid, at), text, why });
    if (why === SECTION) section = text;
  }
  fillDown(rows, numberColumn);
  return { rows, leftOut };
}

const SECTION = 'A title between the rows.';

function whyLeftOut(
  row: readonly string[],
  filled: number,
  layout: Layout,
  numberColumn: number,
  known: ReadonlySet<string>,
  afterLast: boolean,
): string | null {
  if (isHeadingAgain(row, layout.headings)) return 'The headings printed again.';
  if (isClosing(row, numberColumn, known)) return 'A total or a note, not a row.';
  const number = row[numberColumn] ?? '';
  // One cell alone must look like the other numbers; beside another cell a short word with a digit is one too.
  const looksNumbered =
    known.size === 0 || known.has(shapeOfNumber(number)) || (filled > 1 && /^\S{1,12}$/.test(number));
  const numbered = /\d/.test(number) && looksNumbered;
  const wide = layout.headings.filter(heading => heading !== '').length > 3;
  if (filled <= 2 && afterLast && !numbered && wide) return 'A note under the last row.';
  if (filled === 1 && !numbered && layout.headings.filter(h => h !== '').length > 2) return SECTION;
  return null;
}

function isHeadingAgain(row: readonly string[], headings: readonly string[]): boolean {
  const filled = row.filter(t => t !== '');
  const again = row.filter(
    (text, i) => text !== '' && (headings[i] ?? '').toLowerCase().endsWith(text.toLowerCase()),
  );
  return filled.length >= 2 && again.length === filled.length;
}

function isClosing(row: readonly string[], numberColumn: number, known: ReadonlySet<string>): boolean {
  const labels = row.filter(text => text.endsWith(':')).length;
  if (labels > 1) return true;
  const number = row[numberColumn] ?? '';
  if (number !== '' && known.has(shapeOfNumber(number)) && /\d/.test(number) && !CLOSING.test(number))
    return false;
  const first = row.find(text => text !== '') ?? '';
  // A label and what it says, such as a signature; a title between the rows stands alone.
  if (first.endsWith(':') && filledCells(row) > 1) return true;
  return CLOSING.test(first) || row.some(text => /^(sub|grand)?[\s-]*totals?\s*:?$/i.test(text));
}

/** How numbers look in this sheet; of many rows, a look that only one has may be a total's. */
function knownShapes(numbers: readonly string[]): Set<string> {
  const counts = new Map<string, number>();
  for (const number of numbers)
    counts.set(shapeOfNumber(number), (counts.get(shapeOfNumber(number)) ?? 0) + 1);
  return new Set([...counts].flatMap(([shape, count]) => (count > 1 || numbers.length < 4 ? [shape] : [])));
}

/** `31-100` as `9-9`: letters kept, runs of digits one. */
function shapeOfNumber(text: string): string {
  return text.toUpperCase().replace(/\d+/g, '9');
}

const DITTO = /^(["”″〃]|''|do\.?|ditto|same|same as above|↓)$/i;

/** A ditto mark stands for the cell above it, save in the number: no two things have one number. */
function fillDown(rows: BodyRow[], numberColumn: number): void {
  for (const [i, row] of rows.entries()) {
    const above = rows[i - 1];
    if (!above || !row.texts.some(text => DITTO.test(text))) continue;
    const takes = row.texts.map((text, c) => c !== numberColumn && DITTO.test(text));
    row.cells = row.texts.map((_, c) => (takes[c] ? above.cells[c] : row.cells[c]) ?? null);
    row.texts = row.texts.map((text, c) => (takes[c] ? (above.texts[c] ?? '') : text));
  }
}
