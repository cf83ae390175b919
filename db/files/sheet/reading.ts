/** From a grid to a reading: headings, columns, rows, what is asked and what is refused. */
import type { Day } from '../../../domain/calendar/day.ts';
import { bodyRows } from './body-rows.ts';
import { isBlankLike } from './cell-text.ts';
import { columnsOf } from './columns.ts';
import { dateColumnsOf, titleDateOf } from './date-columns.ts';
import { plansOf } from './fields.ts';
import type { Grid } from './grid.ts';
import { findHeadings, lineOf, tellingLines, textsOf } from './layout.ts';
import type { ReadOptions, ReadRow, SheetReading } from './reading-types.ts';
import { numbersArePairs } from './row-cells.ts';
import { readRow } from './rows.ts';

const EXAMPLES = 3;

/**
 * Read a sheet as one family's. Nothing is written and no store is asked.
 *
 * A row is refused for: a number missing or doubled in the sheet (the first stands), a date that does not
 * exist or lies after `today`, anything done before the thing was made, a measure that cannot be read or is not
 * above zero, a result that says neither pass nor fail, a date whose order only a person can tell.
 * @throws SheetError where the family or a field of the mapping is unknown
 */
export function readSheet(grid: Grid, options: ReadOptions & { today: Day }): SheetReading {
  const { family, today } = options;
  const plans = plansOf(family);
  const texts = textsOf(grid);
  const layout = findHeadings(grid, texts, plans);
  const below = tellingLines(grid, texts, layout);
  const columns = columnsOf(family, layout.headings, below, options.mapping ?? {});
  const numberColumn =
    (columns.find(c => c.plan?.field === 'number') ?? columns.find(c => c.plan?.field === 'serial'))?.index ??
    -1;
  const { rows: body, leftOut } = bodyRows(grid, texts, layout, numberColumn);
  const titles = texts.slice(0, layout.bodyAt).map((row, at) => ({ line: lineOf(grid, at), texts: row }));
  const titleDate = titleDateOf(titles);
  const dates = dateColumnsOf(columns, body, options.dayOrder ?? {}, titleDate);
  const context = {
    family,
    today,
    columns,
    dates,
    numbersArePairs: numbersArePairs(body.map(row => row.texts[numberColumn] ?? '')),
  };
  const rows = body.map((row, at) => readRow(row, at, context));
  refuseDoubled(rows, columns.find(c => c.index === numberColumn)?.heading ?? null);
  return {
    family,
    headingLine: layout.headingLine,
    columns: columns.map(({ index, heading, field }) => ({
      index,
      heading,
      field,
      examples: examplesOf(body, index),
    })),
    questions: [...dates.values()].flatMap(({ column, reading, examples }) =>
      reading.asked
        ? [{ kind: 'day order' as const, column: column.index, heading: column.heading, examples }]
        : [],
    ),
    rows,
    leftOut,
    titleDate: [...dates.values()].some(d => d.said !== null && d.said === titleDate?.text)
      ? titleDate
      : null,
  };
}

/** The second and every later row with a number; capitals and spaces make no other number. */
function refuseDoubled(rows: ReadRow[], heading: string | null): void {
  const first = new Map<string, ReadRow>();
  for (const row of rows) {
    if (row.number === null) continue;
    const key = row.number.toUpperCase().replace(/\s+/g, ' ');
    const before = first.get(key);
    if (before === undefined) {
      first.set(key, row);
      continue;
    }
    row.ok = false;
    row.problems.push({
      column: heading,
      code: 'duplicate number',
      wrong: `The number ${row.number} stands already in line ${before.line}.`,
      todo: 'Give each thing its own number, or delete the line that is not wanted.',
    });
  }
}

function examplesOf(body: readonly { texts: readonly string[] }[], index: number): string[] {
  const examples = new Set<string>();
  for (const { texts } of body) {
    const text = texts[index] ?? '';
    if (!isBlankLike(text)) examples.add(text);
    if (examples.size === EXAMPLES) break;
  }
  return [...examples];
}
