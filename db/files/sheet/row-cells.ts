/** The cells of a row that need no other row: number, words, choices, marks, places. */
import type { BodyRow } from './body-rows.ts';
import { isBlankLike } from './cell-text.ts';
import { readChoice, readFlag, readStatus } from './choices.ts';
import type { Column } from './columns.ts';
import { readMark } from './cylinder-marks.ts';
import { type Draft, joined } from './draft.ts';
import type { FieldPlan } from './fields.ts';
import { readCellMeasure } from './measure-cells.ts';

const SHORTENED = /^\d(\.\d+)?e\+\d+$/i;

/** Two numbers and a dash, which spreadsheet programs take for a date and write as one. */
const TWO_NUMBERS = /^\d{1,2}-\d{1,3}$/;
const TURNED_INTO_DATE =
  /^(\d{1,2}-(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)-\d{2})$/i;

/** Whether most numbers of a sheet are such pairs: then `12-Oct` among them was `10-12`. */
export function numbersArePairs(numbers: readonly string[]): boolean {
  return numbers.length > 0 && numbers.filter(text => TWO_NUMBERS.test(text)).length * 2 > numbers.length;
}

/** The number: from its own column, or, where a sheet has none, the serial. */
export function readNumber(draft: Draft, row: BodyRow, columns: readonly Column[], arePairs: boolean): void {
  const own = columns.find(column => column.plan?.field === 'number');
  const column = own ?? columns.find(c => c.plan?.field === 'serial') ?? null;
  const text = column ? (row.texts[column.index] ?? '') : '';
  draft.fields.number = null;
  const isDate = column !== null && row.cells[column.index] instanceof Date;
  if (isDate || (arePairs && TURNED_INTO_DATE.test(text))) {
    const wrong = `The number is a date, ${text}: the spreadsheet program has changed it.`;
    draft.refuse(column, 'number unreadable', wrong, 'Format the column as text and type the number again.');
  } else if (SHORTENED.test(text)) {
    const wrong = `The number ${text} was shortened by the spreadsheet program.`;
    draft.refuse(column, 'number unreadable', wrong, 'Format the column as text and save the sheet again.');
  } else if (isBlankLike(text)) {
    const todo = column ? 'Enter the number painted or tagged on it.' : 'Say which column holds the number.';
    draft.refuse(column, 'number missing', 'The number is missing.', todo);
  } else {
    draft.fields.number = text;
  }
}

/** The columns that need nothing but their own cell. */
export function readPlain(draft: Draft, column: Column, text: string, family: string): void {
  const { plan } = column;
  if (!plan) return;
  const value = isBlankLike(text) ? null : text;
  switch (plan.kind) {
    case 'serial':
      if (SHORTENED.test(text))
        draft.note(column, `Serial ${text} was shortened by the spreadsheet program; left empty.`);
      draft.set('serial', SHORTENED.test(text) ? null : value);
      break;
    case 'text':
      draft.set(plan.field, value);
      break;
    case 'rin':
      draft.set(plan.field, value?.toUpperCase() ?? null);
      break;
    case 'remarks':
      if (!/^([-–—]*|n\/?a|none|null|nil)$/i.test(text))
        draft.fields[plan.field] = joined(draft.fields[plan.field], text);
      else draft.set(plan.field, null);
      break;
    case 'choice':
      readChoiceCell(draft, column, plan, value);
      break;
    case 'flag':
      draft.set(plan.field, value === null ? markAlone(text) : (readFlag(value) ?? null));
      break;
    case 'status':
      readStatusCell(draft, column, value);
      break;
    case 'measure':
      readCellMeasure(family, column, plan, text, draft.fields, (code, wrong, todo) =>
        draft.refuse(column, code, wrong, todo),
      );
      break;
    default:
  }
}

// A lone star reads as "nothing" elsewhere; here it is the mark itself.
function markAlone(text: string): true | null {
  return /^\*+$/.test(text) ? true : null;
}

function readChoiceCell(draft: Draft, column: Column, plan: FieldPlan, value: string | null): void {
  const choice = value === null ? null : readChoice(plan.field, value);
  draft.set(plan.field, choice);
  if (value !== null && choice === null)
    draft.note(column, `${plan.title} “${value}” is not one that is kept; left empty.`);
}

/** The mark, and from it the service pressure where no column of the sheet gives one. */
export function readMarkCell(draft: Draft, column: Column, value: string | null): void {
  const mark = value === null ? null : readMark(value);
  const material = mark && !mark.known ? readChoice('construction', mark.spec) : null;
  draft.set('spec', material === null ? (mark?.spec ?? null) : null);
  if (material !== null) {
    draft.set('construction', material);
    draft.note(column, `“${value}” is no specification or permit; taken as the construction.`);
  }
  const marked = mark?.servicePressure_psi ?? null;
  if (marked === null) return;
  const given = draft.fields.servicePressure_psi ?? null;
  if (given === null) draft.fields.servicePressure_psi = marked;
  else if (given !== marked)
    draft.note(column, `The mark says ${marked} psi, the sheet ${given} psi; the sheet is kept.`);
}

function readStatusCell(draft: Draft, column: Column, value: string | null): void {
  const status = value === null ? { condition: null, assignment: null } : readStatus(value);
  draft.set('condition', status.condition);
  if (status.assignment !== null) draft.set('assignment', status.assignment);
  if (value === null || status.condition !== null || status.assignment !== null) return;
  draft.set('status', value);
  draft.note(column, `Status “${value}” is not one that is kept; left aside.`);
}

const RIG_HEADING = /\b(engine|truck|station)\b/i;
const PLACE_TITLE =
  /\b(engine|eng|truck|ladder|tower|tender|tanker|brush|rescue|squad|quint|station|sta|reserve|medic|ambulance|utility|support|hazmat|boat|rack|room|storage|shop|training|spare|[etlrbsq]-?\d+)\b/i;

/** Location, compartment and station together; a section's title where no column says. */
export function readPlaces(draft: Draft, row: BodyRow, columns: readonly Column[]): void {
  const said = (field: string) => {
    const column = columns.find(c => c.plan?.field === field);
    const text = column ? (row.texts[column.index] ?? '') : '';
    if (!column || isBlankLike(text)) return null;
    // A bare number under `Engine` or `Station` is the number of one.
    const kind = RIG_HEADING.exec(column.heading)?.[1];
    return kind && /^\d+$/.test(text) ? `${capital(kind)} ${text}` : text;
  };
  const [place, spot, station] = [said('place'), said('compartment'), said('station')];
  const section = PLACE_TITLE.test(row.section) ? row.section.replace(/\s*[:(-].*$/, '') : '';
  // A place with no number in it (`hose rack`) is in its station; `Engine 31 crosslay` says where it is itself.
  const named = place !== null && station !== null && !/\d/.test(place) ? `${station} ${place}` : place;
  const where = named ?? (station || (section === '' ? null : section));
  if (columns.some(c => c.plan?.kind === 'place') || where !== null) {
    draft.fields.place = [where, spot].filter(part => part !== null).join(' ') || null;
  }
  for (const [field, value] of [
    ['station', station],
    ['compartment', spot],
  ] as const) {
    if (columns.some(c => c.plan?.field === field)) draft.fields[field] = value;
  }
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1).toLowerCase();
}
