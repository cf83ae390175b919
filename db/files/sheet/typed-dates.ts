/**
 * What a cell says of a date, taken alone: the parts as typed, before its column has settled the order of day
 * and month and its row the century of a two-digit year.
 */
import { type Day, isDate, partsOf } from '../../../domain/calendar/day.ts';
import { cleanText, dayOfDateCell, isBlankLike } from './cell-text.ts';
import type { Cell } from './grid.ts';

/** A date as typed. `month` and `day` are null where the sheet does not give them. */
export interface TypedDate {
  kind: 'date';
  year: number;
  /** The year was typed with two digits; `year` is then 0 to 99. */
  shortYear: boolean;
  month: number | null;
  day: number | null;
  /** Two numbers and a year, `05/06/26`: `month` holds the first number and `day` the second, order not settled. */
  open: boolean;
  /** A spreadsheet serial number or a date cell: its day may be only how the program keeps a month. */
  serial: boolean;
  /** Bare digits that are as likely something else: `0823`, `16`. */
  loose: boolean;
  /** The requalifier's number of a stamp such as `08 A123 24`. */
  rin?: string;
}

export type DateShape =
  | TypedDate
  | { kind: 'blank' }
  | { kind: 'unreadable'; why: 'no year' | 'several' | 'text' };

/** Serial 25569 of the 1900 system is 1 January 1970. */
const SERIAL_OF_DAY_ZERO = 25_569;
const FIRST_SERIAL = 10_000;
const LAST_SERIAL = 73_050;

const MONTH_NAMES = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
] as const;

const ZEROS = /^0+([-/. :]0+)*$|^0?1\/0\/(1900|00)$/;
const WEEKDAY = /^(mon|tues?|wed(nes)?|thu(rs?)?|fri|sat(ur)?|sun)(day)?[.,]*\s+/i;
const CLOCK =
  /[T ,]+\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?\s*([ap]\.?m\.?)?\s*(z|utc|gmt|[a-z]{1,2}t|[+-]\d{2}:?\d{2})?$/i;
const ABOUT = /^(circa|ca\.?|c\.|approx(imately)?\.?|about|abt\.?|~)\s*/i;
/** What a date in a cell may say of itself before it: `exp 2027`, `Mfg. 4/16`. */
const SAYS =
  /^(exp\w*|mfg|mfd|made|dom|hydro|since|tested|installed|good (thru|through|until))\b[.:]*\s*(?=\S)/i;
const DASHES = /[‐‑‒–—−]/g;
const YEAR_FIRST = /^(\d{4})\s*[-/.\\ ]\s*(\d{1,2})\s*[-/.\\ ]\s*(\d{1,2})$/;
const YEAR_MONTH = /^(\d{4})\s*[-/.\\ ]\s*(\d{1,2})$/;
const THREE = /^(\d{1,2})\s*[-/.\\ ]\s*(\d{1,2})\s*[-/.\\ ,]\s*['’]?(\d{2}|\d{4})$/;
const MONTH_YEAR = /^(\d{1,2})\s*[-/.\\ ]\s*['’]?(\d{2}|\d{4})$/;
const TWO_NUMBERS = /^\d{1,2}\s*[-/.\\]\s*\d{1,2}$/;
const STAMP = /^(\d{1,2})[\s\-^/]*([A-Z]\d{3})[\s\-^/]*(\d{2}|\d{4})$/i;
const DIGITS = /^\d+$/;
const SERIAL_WITH_TIME = /^(\d{5})\.\d+$/;
const SHORT_YEAR = /^['’`](\d{2})$/;
const WORDS_AND_NUMBERS = /\d+(?:st|nd|rd|th)\b|\d+|[a-z]+/gi;
const FILLER = new Set(['of', 'the', 'on', 'yr', 'year', 'day']);
const SEVERAL = /\s*[;&,\n]\s*|\s+and\s+|\s+to\s+/i;

/** Read a cell as a date. `loose` digits are read too; the caller decides whether the field may take them. */
export function dateShapeOf(cell: Cell): DateShape {
  if (cell === null || typeof cell === 'boolean') {
    return cell === null ? { kind: 'blank' } : { kind: 'unreadable', why: 'text' };
  }
  if (cell instanceof Date) {
    return Number.isNaN(cell.getTime()) ? { kind: 'blank' } : fromDay(dayOfDateCell(cell));
  }
  return shapeOfText(cleanText(String(cell)));
}

function shapeOfText(raw: string): DateShape {
  if (isBlankLike(raw) || ZEROS.test(raw)) return { kind: 'blank' };
  const short = SHORT_YEAR.exec(raw);
  if (short) return dated(Number(short[1]), true, null, null);
  const text = raw
    .replace(DASHES, '-')
    .replace(/^['’`,;]+\s*/, '')
    .replace(WEEKDAY, '')
    .replace(CLOCK, '')
    .replace(SAYS, '')
    .replace(ABOUT, '')
    .replace(/[.,*†‡]+$/, '')
    .replace(/^\((.*)\)$/, '$1')
    .trim();
  if (text === '') return { kind: 'unreadable', why: 'text' };
  const shape = DIGITS.test(text) ? fromDigits(text) : (fromNumbers(text) ?? fromNamedMonth(text));
  if (shape.kind !== 'unreadable') return shape;
  const parts = text.split(SEVERAL).filter(part => part !== '');
  if (parts.length > 1 && parts.every(part => shapeOfPart(part)))
    return { kind: 'unreadable', why: 'several' };
  return shape;
}

function shapeOfPart(text: string): boolean {
  return (fromNumbers(text) ?? fromNamedMonth(text)).kind === 'date';
}

function dated(
  year: number,
  shortYear: boolean,
  month: number | null,
  day: number | null,
  more: Partial<Pick<TypedDate, 'open' | 'serial' | 'loose' | 'rin'>> = {},
): TypedDate {
  return { kind: 'date', year, shortYear, month, day, open: false, serial: false, loose: false, ...more };
}

function fromDay(on: Day): TypedDate {
  const { year, month, day } = partsOf(on);
  return dated(year, false, month, day, { serial: true });
}

function fromDigits(text: string): DateShape {
  const n = Number(text);
  if (text.length === 8) {
    const [y, m, d] = [Number(text.slice(0, 4)), Number(text.slice(4, 6)), Number(text.slice(6))];
    if (y >= 1900 && y <= 2100) return dated(y, false, m, d);
    const year = Number(text.slice(4));
    if (year >= 1900 && year <= 2100) {
      return dated(year, false, Number(text.slice(0, 2)), Number(text.slice(2, 4)), { open: true });
    }
  }
  if (text.length === 6) {
    const [y, m] = [Number(text.slice(0, 4)), Number(text.slice(4))];
    if (y >= 1900 && y <= 2100 && m >= 1 && m <= 12) return dated(y, false, m, null);
    const [first, second, year] = [text.slice(0, 2), text.slice(2, 4), text.slice(4)].map(Number);
    const open = { open: true, loose: true };
    if (isDate(2000, first ?? 0, second ?? 0)) return dated(year ?? 0, true, first ?? 0, second ?? 0, open);
  }
  if (text.length === 5 && n >= FIRST_SERIAL && n <= LAST_SERIAL)
    return fromDay((n - SERIAL_OF_DAY_ZERO) as Day);
  if (text.length === 4 && n >= 1900 && n <= 2100) return dated(n, false, null, null);
  // 0823, or 823 where the program has dropped the zero: month and year as they are stamped on a cylinder.
  if (text.length === 4 || text.length === 3) {
    const month = Number(text.slice(0, -2));
    if (month >= 1 && month <= 12) return dated(Number(text.slice(-2)), true, month, null, { loose: true });
  }
  if (text.length === 2) return dated(n, true, null, null, { loose: true });
  return { kind: 'unreadable', why: 'text' };
}

function fromNumbers(text: string): DateShape | null {
  let m = YEAR_FIRST.exec(text);
  if (m) return dated(Number(m[1]), false, Number(m[2]), Number(m[3]));
  m = YEAR_MONTH.exec(text);
  if (m) return dated(Number(m[1]), false, Number(m[2]), null);
  m = THREE.exec(text);
  if (m) {
    const [first, second, last] = [Number(m[1]), Number(m[2]), Number(m[3])];
    const shortYear = (m[3] ?? '').length === 2;
    // 98/05/06: no month and no day is above 31, so the year stands first.
    if (shortYear && first > 31) return dated(first, true, second, last);
    return dated(last, shortYear, first, second, { open: true });
  }
  m = MONTH_YEAR.exec(text);
  if (m) {
    // A point makes it as likely a decimal number as a date.
    const loose = text.includes('.') && (m[2] ?? '').length === 2;
    return dated(Number(m[2]), (m[2] ?? '').length === 2, Number(m[1]), null, { loose });
  }
  if (TWO_NUMBERS.test(text)) return { kind: 'unreadable', why: 'no year' };
  m = STAMP.exec(text);
  if (m) {
    const year = m[3] ?? '';
    return dated(Number(year), year.length === 2, Number(m[1]), null, { rin: (m[2] ?? '').toUpperCase() });
  }
  m = SERIAL_WITH_TIME.exec(text);
  if (m && Number(m[1]) >= FIRST_SERIAL) return fromDay((Number(m[1]) - SERIAL_OF_DAY_ZERO) as Day);
  return null;
}

function fromNamedMonth(text: string): DateShape {
  const unreadable: DateShape = { kind: 'unreadable', why: 'text' };
  const tokens = text.toLowerCase().match(WORDS_AND_NUMBERS) ?? [];
  let month = 0;
  let monthAt = -1;
  const numbers: { text: string; at: number; ordinal: boolean }[] = [];
  for (const [at, token] of tokens.entries()) {
    const digits = /^\d+/.exec(token);
    if (digits) {
      numbers.push({ text: digits[0], at, ordinal: digits[0].length < token.length });
    } else if (!FILLER.has(token)) {
      const named = monthNamed(token);
      if (named === 0 || month !== 0) return unreadable;
      [month, monthAt] = [named, at];
    }
  }
  const [a, b] = numbers;
  if (month === 0 || a === undefined || numbers.length > 2) return unreadable;
  if (/[^\p{L}\p{N}\s.,'’`/\\-]/u.test(text)) return unreadable;
  if (b === undefined) {
    const n = Number(a.text);
    if (a.ordinal || a.text.length === 1) return { kind: 'unreadable', why: 'no year' };
    if (a.text.length === 4) return dated(n, false, month, null);
    if (a.text.length !== 2) return unreadable;
    // `16-Apr` is how a spreadsheet shows 16 April of a year it does not show; `Apr-16` is how people write a month.
    if (a.at < monthAt && n <= 31) return { kind: 'unreadable', why: 'no year' };
    return dated(n, true, month, null);
  }
  const yearFirst = a.text.length === 4 || (a.text.length === 2 && b.text.length <= 2 && Number(a.text) > 31);
  const [year, day] = yearFirst ? [a, b] : [b, a];
  if (year.ordinal || day.text.length > 2 || (year.text.length !== 2 && year.text.length !== 4))
    return unreadable;
  return dated(Number(year.text), year.text.length === 2, month, Number(day.text));
}

function monthNamed(word: string): number {
  if (word.length < 3) return 0;
  return MONTH_NAMES.findIndex(name => name.startsWith(word)) + 1;
}
