/** Measures as people write them: fractions of an inch, feet marks, thousands separators, units in the cell. */
import { isBlankLike } from './cell-text.ts';

/** A unit as the reader knows it. */
export type Unit =
  | 'in'
  | 'ft'
  | 'yd'
  | 'mm'
  | 'cm'
  | 'm'
  | 'psi'
  | 'bar'
  | 'kPa'
  | 'MPa'
  | 's'
  | 'min'
  | 'h'
  | 'lb'
  | 'kg'
  | 'cc'
  | '%'
  | 'months'
  | 'years';

/** What a field measures: the unit it is kept in, its bounds, and whether it is kept in whole units. */
export interface MeasureKind {
  unit: Unit;
  whole: boolean;
  /** Above this it cannot be what the field says; catches a forgotten decimal point or unit. */
  most: number;
  /** Below this likewise. */
  least?: number;
  zeroAllowed?: boolean;
  /** Sizes of the trade that a metric figure is the usual rendering of. */
  nominal?: readonly { value: number; metric: readonly number[]; metricUnit: Unit }[];
}

export type MeasureReading =
  | { kind: 'blank' }
  | { kind: 'value'; value: number }
  | { kind: 'problem'; code: 'unreadable' | 'not positive' | 'implausible'; why: string };

/** A number and the unit written with it. */
interface Figure {
  value: number;
  decimals: number;
  unit: Unit | null;
  /** Words after the unit that change nothing: `LDH`, `hose`. */
  rest: string;
}

const UNITS_BY_WORD = new Map<string, readonly Unit[]>(
  (
    [
      ['in', ['"', '”', '“', '″', "''", '’’', 'in', 'inch', 'inches', 'ins']],
      ['ft', ["'", '’', '‘', '′', '`', '´', 'ft', 'fts', 'feet', 'foot', 'lf']],
      ['yd', ['yd', 'yds', 'yard', 'yards']],
      ['mm', ['mm', 'millimeter', 'millimeters', 'millimetres']],
      ['cm', ['cm', 'centimeters', 'centimetres']],
      ['psi', ['psi', 'psig', 'psia', 'pounds', '#', 'lb', 'lbs', 'lb/in2', 'lbs/in2']],
      ['bar', ['bar', 'bars', 'barg']],
      ['kPa', ['kpa']],
      ['MPa', ['mpa']],
      ['s', ['s', 'sec', 'secs', 'second', 'seconds']],
      ['min', ['min', 'mins', 'minute', 'minutes', 'm']],
      ['h', ['h', 'hr', 'hrs', 'hour', 'hours']],
      ['lb', ['lb', 'lbs', '#', 'pounds', 'pound']],
      ['kg', ['kg', 'kgs']],
      ['cc', ['cc', 'ml', 'cm3']],
      ['%', ['%', 'percent', 'pct']],
      ['m', ['m', 'meter', 'meters', 'metre', 'metres', 'mtr', 'mtrs']],
      ['months', ['mo', 'mos', 'month', 'months']],
      ['years', ['y', 'yr', 'yrs', 'year', 'years']],
    ] as [Unit, string[]][]
  )
    .flatMap(([unit, words]) => words.map(word => [word, unit] as const))
    .reduce(
      (map, [word, unit]) => map.set(word, [...(map.get(word) ?? []), unit]),
      new Map<string, Unit[]>(),
    ),
);

/** How many of the kept unit one of another is. Inch, foot and pascal by definition; psi per bar to nine places. */
const FACTORS: Partial<Record<Unit, Partial<Record<Unit, number>>>> = {
  in: { in: 1, mm: 1 / 25.4, cm: 1 / 2.54, ft: 12 },
  ft: { ft: 1, in: 1 / 12, yd: 3, m: 1 / 0.3048, cm: 1 / 30.48, mm: 1 / 304.8 },
  psi: { psi: 1, bar: 14.5037738, kPa: 0.145037738, MPa: 145.037738 },
  s: { s: 1, min: 60, h: 3600 },
  min: { min: 1, s: 1 / 60, h: 60 },
  lb: { lb: 1, kg: 1 / 0.45359237 },
  cc: { cc: 1 },
  '%': { '%': 1 },
  months: { months: 1, years: 12 },
};

const VULGAR = new Map(
  Object.entries({
    '¼': '1/4',
    '½': '1/2',
    '¾': '3/4',
    '⅛': '1/8',
    '⅜': '3/8',
    '⅝': '5/8',
    '⅞': '7/8',
    '⅓': '1/3',
    '⅔': '2/3',
  }),
);
const VULGAR_SIGN = /[¼½¾⅛⅜⅝⅞⅓⅔]/g;
const DASHES = /[‐‑‒–—−]/g;
const MIXED = /^([-+(]?)\s*(\d+)(?:\s*[-+&]\s*|\s+(?:and\s+)?)(\d+)\s*\/\s*(\d+)(?!\d)(.*)$/i;
const FRACTION = /^([-+(]?)\s*(\d+)\s*\/\s*(\d+)(?!\d)(.*)$/;
const THOUSANDS = /^([-+(]?)\s*(\d{1,3}(?:[, ]\d{3})+(?:\.\d+)?)(?![\d,])(.*)$/;
const DECIMAL_COMMA = /^([-+(]?)\s*(\d+),(\d{1,2})(?!\d)(.*)$/;
const PLAIN = /^([-+(]?)\s*(\d+\.?\d*|\.\d+)(.*)$/;
const FEET_AND_INCHES =
  /^(\d+)\s*(?:'|’|′|ft\.?|feet|foot)\s*-?\s*(\d+(?:\.\d+)?(?:\s+\d+\/\d+)?|\d+\/\d+)\s*(?:"|”|″|''|in\.?|inch(?:es)?)?$/i;
const UNIT_WORD = /^(''|’’|lbs?\/in2|["”“″'’‘′`´#%]|[a-z]+3?)(?![a-z])/i;
/** Words beside a measure that say what the thing is and not how much. */
const IDLE = new Set(
  'ldh mdh sdh dj dia diameter diam id nom nominal hose attack supply long each ea rated section service test wp sp g approx'.split(
    ' ',
  ),
);

/**
 * Read a measure in a field's unit.
 * @param headingUnit the unit the heading names, used where the cell has none
 */
export function readMeasure(text: string, kind: MeasureKind, headingUnit: Unit | null): MeasureReading {
  if (isBlankLike(text)) return { kind: 'blank' };
  const figure = figureOf(text, kind.unit);
  if (figure === null || !idle(figure.rest)) return { kind: 'problem', code: 'unreadable', why: '' };
  const unit = figure.unit ?? headingUnit ?? kind.unit;
  const factor = FACTORS[kind.unit]?.[unit];
  if (factor === undefined) {
    return { kind: 'problem', code: 'unreadable', why: `${unit} does not measure this` };
  }
  if (figure.value < 0 || (figure.value === 0 && !kind.zeroAllowed)) {
    return { kind: 'problem', code: 'not positive', why: '' };
  }
  return bounded(figure, unit, factor, kind);
}

function bounded(figure: Figure, unit: Unit, factor: number, kind: MeasureKind): MeasureReading {
  const value = nominalOf(figure, unit, kind) ?? converted(figure, factor, kind);
  // An inch mark where feet were meant: 50" is a slip for 50' sooner than a length of 4 ft.
  const least = kind.unit === 'ft' && unit === 'in' ? 8 : (kind.least ?? 0);
  if (value > kind.most || (value < least && value !== 0)) {
    return { kind: 'problem', code: 'implausible', why: `${shown(value)} ${kind.unit}` };
  }
  if (kind.whole && !Number.isInteger(value)) {
    return { kind: 'problem', code: 'unreadable', why: `whole ${kind.unit} only` };
  }
  return { kind: 'value', value };
}

/** A metric figure that is the usual rendering of a size of the trade is that size: 65 mm hose is 2½ in hose. */
function nominalOf(figure: Figure, unit: Unit, kind: MeasureKind): number | null {
  const size = kind.nominal?.find(n => n.metricUnit === unit && n.metric.includes(figure.value));
  return size?.value ?? null;
}

function converted(figure: Figure, factor: number, kind: MeasureKind): number {
  const exact = figure.value * factor;
  if (factor === 1) return Number(exact.toFixed(4));
  if (kind.whole) return Math.round(exact);
  // A whole number of the kept unit that, turned back and rounded as written, gives the very figure, is what was
  // measured: 15.24 m and 15.2 m are 50 ft; 15 m is 49.2 ft.
  const whole = Math.round(exact);
  const scale = 10 ** figure.decimals;
  if (figure.decimals > 0 && Math.round((whole / factor) * scale) === Math.round(figure.value * scale))
    return whole;
  return Number(exact.toFixed(kind.unit === 'in' ? 2 : 1));
}

/** The number a text begins with, its unit in the sense the field needs, and what follows. */
function figureOf(text: string, kept: Unit): Figure | null {
  const plain = text
    .replace(VULGAR_SIGN, sign => ` ${VULGAR.get(sign) ?? ''}`)
    .replaceAll('⁄', '/')
    .replace(DASHES, '-')
    .replace(/[*†‡\s]+$/, '')
    .trim();
  if (kept === 'ft' || kept === 'in') {
    const feet = feetAndInches(plain, kept);
    if (feet) return feet;
  }
  const number = numberOf(plain);
  return number === null ? null : withUnit(number, kept);
}

function feetAndInches(text: string, kept: Unit): Figure | null {
  const m = FEET_AND_INCHES.exec(text);
  if (!m) return null;
  const inches = numberOf(m[2] ?? '');
  if (inches === null || inches.value >= 12) return null;
  const total = Number(m[1]) * 12 + inches.value;
  return { value: kept === 'ft' ? total / 12 : total, decimals: 4, unit: kept, rest: '' };
}

interface Counted {
  value: number;
  decimals: number;
  after: string;
}

function numberOf(text: string): Counted | null {
  let m = MIXED.exec(text);
  if (m) return fraction(m[1], Number(m[2]), Number(m[3]), Number(m[4]), m[5]);
  m = FRACTION.exec(text);
  if (m) return fraction(m[1], 0, Number(m[2]), Number(m[3]), m[4]);
  m = THOUSANDS.exec(text);
  if (m) return counted(m[1], (m[2] ?? '').replace(/[, ]/g, ''), m[3]);
  m = DECIMAL_COMMA.exec(text);
  if (m) return counted(m[1], `${m[2]}.${m[3]}`, m[4]);
  m = PLAIN.exec(text);
  return m ? counted(m[1], m[2] ?? '', m[3]) : null;
}

function counted(sign: string | undefined, digits: string, after: string | undefined): Counted {
  const decimals = (digits.split('.')[1] ?? '').length;
  return signed(sign, { value: Number(digits), decimals, after: after ?? '' });
}

/** A fraction of 1 only: `13/4` is a slip for `1 3/4` as likely as it is 3¼. */
function fraction(
  sign: string | undefined,
  whole: number,
  top: number,
  bottom: number,
  after: string | undefined,
): Counted | null {
  if (bottom < 2 || top < 1 || top >= bottom) return null;
  return signed(sign, { value: whole + top / bottom, decimals: 4, after: after ?? '' });
}

function signed(sign: string | undefined, n: Counted): Counted {
  if (sign === '-') return { ...n, value: -n.value };
  // A number in brackets is a loss in a bookkeeper's sheet: below zero.
  return sign === '(' ? { ...n, value: -n.value, after: n.after.replace(/^\s*\)/, '') } : n;
}

function withUnit(n: Counted, kept: Unit): Figure {
  const after = n.after.replace(/^[\s-]+/, '');
  const m = UNIT_WORD.exec(after);
  const meanings = m ? UNITS_BY_WORD.get((m[1] ?? '').toLowerCase()) : undefined;
  if (!m || !meanings) return { value: n.value, decimals: n.decimals, unit: null, rest: after };
  // `m` is meters or minutes, `lb` a load or a pressure: the sense that the field can use.
  const unit = meanings.find(u => FACTORS[kept]?.[u] !== undefined) ?? meanings[0] ?? null;
  return { value: n.value, decimals: n.decimals, unit, rest: after.slice(m[0].length) };
}

function idle(rest: string): boolean {
  const words = rest
    .toLowerCase()
    .replace(/[.,()]/g, ' ')
    .split(' ')
    .filter(w => w !== '');
  return words.every(word => IDLE.has(word));
}

/** The unit a heading names: `Length (m)`, `Dia, in.`, `Svc PSI`; null where it names none that measures this. */
export function unitInHeading(heading: string, kept: Unit): Unit | null {
  const words = heading
    .toLowerCase()
    .replace(/[.,:()[\]/]/g, ' ')
    .split(/\s+/)
    .filter(w => w !== '');
  for (const word of words.slice().reverse()) {
    if (word === 'in' && !/[([,/]\s*in\.?\s*[)\]]?\s*$|\bin\.?$/i.test(heading)) continue;
    const unit = UNITS_BY_WORD.get(word)?.find(u => FACTORS[kept]?.[u] !== undefined);
    if (unit) return unit;
  }
  return null;
}

/** Every unit a heading may name, whatever it measures. */
export function unitsInHeading(heading: string): Unit[] {
  const bracketed = [...heading.matchAll(/[([]([^)\]]*)[)\]]/g)].map(m => m[1] ?? '');
  return bracketed.flatMap(text => [
    ...(UNITS_BY_WORD.get(text.toLowerCase().replace(/\.$/, '').trim()) ?? []),
  ]);
}

/** Whether a unit can be turned into the one a field is kept in. */
export function measures(unit: Unit, kept: Unit): boolean {
  return FACTORS[kept]?.[unit] !== undefined;
}

/** A decimal as the ledger keeps it: `2.5`, `50`. */
export function decimalText(value: number): string {
  return String(Number(value.toFixed(4)));
}

/** A hose diameter: a decimal with at least one place, `3.0`. */
export function diameterText(value: number): string {
  return Number.isInteger(value) ? value.toFixed(1) : decimalText(value);
}

function shown(value: number): string {
  return String(Number(value.toFixed(2)));
}
