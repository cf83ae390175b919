/** A sheet of what a unit carries: one line a row, as it would stand on the carry list. Nothing is written. */
import Papa from 'papaparse';
import { guessLine } from '../../../domain/carry/guess.ts';
import type { LineBody } from '../../../domain/carry/types.ts';
import type { CarryRow, CarrySheet } from '../../api-checks.ts';
import { type Grid, SheetError } from '../sheet/index.ts';
import { lineOf, textsOf } from '../sheet/layout.ts';

type Field = 'place' | 'what' | 'qty' | 'min' | 'tracked' | 'critical';

/** What each column is called, on sheets that departments keep. */
const CALLED: Readonly<Record<Field, RegExp>> = {
  place: /^(compartment|place|location|where|bay|section|position)\b/,
  what: /^(item|what|description|equipment|article|tool|name)\b/,
  qty: /^(qty|quantity|count|on hand|carried|number|amount)\b/,
  min: /^(min|minimum|least|par|required|req)\b/,
  tracked: /^(tracked|numbered|serialized|asset)\b/,
  critical: /^(critical|essential|must)\b/,
};
const NEEDED: readonly Field[] = ['place', 'what', 'qty'];
const REASON = 'Why it was refused';

/**
 * Read a grid as a carry list.
 * @throws SheetError where no line names a place, an item and a quantity as headings
 */
export function readCarrySheet(grid: Grid): CarrySheet {
  const texts = textsOf(grid);
  const head = texts.findIndex(row => NEEDED.every(f => columnOf(row, f) >= 0));
  if (head < 0)
    throw new SheetError(
      'No line has headings for a place, an item and a quantity.',
      'Name the columns Compartment, Item and Qty; Min, Tracked and Critical may stand beside them.',
    );
  const headings = texts[head] ?? [];
  const at = (field: Field) => columnOf(headings, field);
  const rows: CarryRow[] = [];
  texts.slice(head + 1).forEach((cells, i) => {
    if (cells.every(c => c.trim() === '')) return;
    const cell = (field: Field) =>
      at(field) < 0 ? '' : (cells[at(field)] ?? '').trim().replace(/\s+/g, ' ');
    rows.push(rowOf(rows.length + 1, lineOf(grid, head + 1 + i), cell, headings[at('qty')] ?? 'Qty'));
  });
  const refused = rows.filter(r => !r.ok);
  return {
    headingLine: lineOf(grid, head),
    rows,
    accepted: rows.length - refused.length,
    refused: refused.length,
    refusedCsv: `\ufeff${Papa.unparse(
      {
        fields: ['Compartment', 'Item', 'Qty', 'Min', 'Tracked?', REASON],
        data: refused.map(r => [...r.cells, r.problems.map(p => `${p.wrong} ${p.todo}`).join(' ')]),
      },
      { newline: '\r\n' },
    )}\r\n`,
  };
}

function columnOf(row: readonly string[], field: Field): number {
  return row.findIndex(text => CALLED[field].test(text.trim().toLowerCase()));
}

function rowOf(row: number, line: number, cell: (field: Field) => string, qtyHeading: string): CarryRow {
  const place = cell('place');
  const what = cell('what');
  const [qty, min] = [amountOf(cell('qty')), cell('min') === '' ? null : amountOf(cell('min'))];
  const problems: CarryRow['problems'] = [];
  if (place === '') problems.push(problem('Compartment', 'No place is named.', 'Say where it rides.'));
  if (what === '') problems.push(problem('Item', 'No item is named.', 'Say what it is.'));
  if (qty === null)
    problems.push(
      problem(qtyHeading, `“${cell('qty')}” is no quantity.`, 'Write it in figures: 4. Nothing is guessed.'),
    );
  if (min === null && cell('min') !== '')
    problems.push(problem('Min', `“${cell('min')}” is no quantity.`, 'Write it in figures: 4.'));
  const tracked = yesOf(cell('tracked'));
  if (tracked === 'unclear')
    problems.push(problem('Tracked?', `“${cell('tracked')}” is neither yes nor no.`, 'Write Y or N.'));
  const cells = [place, what, cell('qty'), cell('min'), cell('tracked')];
  if (problems.length > 0 || qty === null)
    return { row, line, ok: false, becomes: null, body: null, short: 0, problems, notes: [], cells };
  const guess = guessLine(what);
  const isTracked = tracked === 'yes' || (tracked === null && guess.family !== null);
  const least = min ?? qty;
  const notes: string[] = [];
  if (tracked === 'yes' && guess.family === null)
    notes.push(
      'It is said to be tracked; of which family is not clear from its words. It is counted until somebody says.',
    );
  if (least > qty) notes.push(`The sheet has ${qty} of at least ${least}: ${least - qty} short.`);
  const body: LineBody = {
    what,
    family: isTracked ? guess.family : null,
    like: isTracked && guess.family !== null ? guess.like : {},
    // What the list asks for is at least its minimum, however few were there when the sheet was written.
    qty: Math.max(qty, least),
    min: least,
    place,
    critical: yesOf(cell('critical')) === 'yes',
    verify: guess.verify,
    reading: null,
    source: null,
  };
  return {
    row,
    line,
    ok: true,
    becomes: { place, title: what, qty, min: least, tracked: isTracked },
    body,
    short: Math.max(0, least - qty),
    problems,
    notes,
    cells,
  };
}

const problem = (column: string, wrong: string, todo: string) => ({ column, wrong, todo });

/** A quantity as figures; words and guesses are not taken. */
function amountOf(text: string): number | null {
  return /^\d{1,4}$/.test(text) ? Number(text) : null;
}

function yesOf(text: string): 'yes' | 'no' | 'unclear' | null {
  if (text === '') return null;
  if (/^(y|yes|true|x|1)$/i.test(text)) return 'yes';
  return /^(n|no|false|0|-)$/i.test(text) ? 'no' : 'unclear';
}
