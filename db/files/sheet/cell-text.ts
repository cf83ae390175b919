/** Cells as a person sees them: text without stray spaces, and which texts stand for "nothing known". */
import { type Day, dayText } from '../../../domain/calendar/day.ts';
import type { Cell } from './grid.ts';

const STRAY = /\u200b|\u200c|\u200d|\u2060|\ufeff/g;
const SPACES = /[\s\u00a0]+/g;
/** `="0012"`: how some programs keep a spreadsheet from changing a number. */
const GUARDED = /^="(.*)"$/;

/** A cell as text: spaces trimmed and collapsed, a date as `YYYY-MM-DD`, an empty cell as ''. */
export function textOf(cell: Cell | undefined): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'string') return cleanText(cell);
  if (typeof cell === 'number') return numberText(cell);
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return Number.isNaN(cell.getTime()) ? '' : dayText(dayOfDateCell(cell));
}

/** Text with stray characters removed and every run of spaces and line ends made one space. */
export function cleanText(text: string): string {
  const plain = unmangled(text).replace(STRAY, '').replace(SPACES, ' ').trim();
  const guarded = GUARDED.exec(plain);
  return guarded ? (guarded[1] ?? '').trim() : plain;
}

/** UTF-8 once opened as Windows-1252 and saved again: `50â€™` was `50’`, `2Â½` was `2½`. */
const MANGLED: readonly (readonly [RegExp, string])[] = [
  [/â€™|â€˜/g, '’'],
  [/â€[“”]/g, '–'],
  [/â€œ|â€\u009d?/g, '”'],
  [/Â(?=[\u00a0-\u00bf ])/g, ''],
  [/Ã—/g, '×'],
];

function unmangled(text: string): string {
  if (!/â€|Â|Ã—/.test(text)) return text;
  return MANGLED.reduce((known, [from, to]) => known.replace(from, to), text);
}

/** The civil day of a workbook's date cell: such cells are read as midnight UTC, whatever the zone of the machine. */
export function dayOfDateCell(cell: Date): Day {
  return Math.floor(cell.getTime() / 86_400_000) as Day;
}

// Six places undo the binary noise of a computed cell (1.7500000000000002) and keep every measure whole.
function numberText(value: number): string {
  return Number.isInteger(value) ? String(value) : String(Number(value.toFixed(6)));
}

const BLANKS = new Set([
  '',
  '.',
  'n/a',
  'na',
  'n.a.',
  'n.a',
  '#n/a',
  'none',
  'nil',
  'null',
  'new',
  'brand new',
  'unknown',
  'unk',
  'unk.',
  'tbd',
  'tba',
  'not known',
  'not recorded',
  'not available',
  'not applicable',
  'no record',
  'no records',
  'no date',
  'undated',
  'never',
  'not yet',
  'pending',
  'blank',
  '(blank)',
  'missing',
  'illegible',
  'not legible',
  'unreadable',
]);
const ONLY_MARKS = /^[-–—_?*.\s/]+$/;

/** Whether a text says that nothing is known: empty, `-`, `N/A`, `none`, `new`, `unknown`, `?`, `TBD`. */
export function isBlankLike(text: string): boolean {
  return BLANKS.has(text.toLowerCase()) || ONLY_MARKS.test(text);
}
