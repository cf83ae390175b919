/** Cells that hold measures, alone or several in one: `1 3/4" x 50'`, `4500/30`. */
import type { Column } from './columns.ts';
import type { FieldPlan } from './fields.ts';
import { decimalText, diameterText, type MeasureKind, type MeasureReading, readMeasure } from './measures.ts';

type Value = string | number | boolean | null;
type Refuse = (code: string, wrong: string, todo: string) => void;

const TIMES = /\s*[x×]\s*/i;
const PRESSURE_AND_MINUTES = /^(\d{1,2},?\d{3})\s*(?:psi)?\s*[/x@-]\s*(\d{2,3})\s*(?:min\w*)?$/i;
const MINUTES_AND_PRESSURE = /^(\d{2,3})\s*(?:min\w*)?\s*[/x@ -]\s*(\d{1,2},?\d{3})\s*(?:psi)?$/i;

/** Read a measure's cell into the fields, or refuse it. */
export function readCellMeasure(
  family: string,
  column: Column,
  plan: FieldPlan,
  text: string,
  fields: Record<string, Value>,
  refuse: Refuse,
): void {
  const kind = plan.measure;
  if (!kind) return;
  const reading = readSingle(family, column, plan, kind, text);
  if (reading.kind === 'problem') {
    if (isBoth(family, plan, text)) return;
    refuse(codeOf(plan, reading), wrongOf(plan, reading, text), todoOf(kind));
  }
  const value = reading.kind === 'value' ? kept(plan, reading.value) : null;
  if (fields[plan.field] === undefined || fields[plan.field] === null) fields[plan.field] = value;
}

function readSingle(
  family: string,
  column: Column,
  plan: FieldPlan,
  kind: MeasureKind,
  text: string,
): MeasureReading {
  // A hold of 3 or 5 with no unit is minutes, as test procedures give it; of 180, seconds.
  if (plan.field === 'held_s' && column.unit === null && /^\d{1,2}$/.test(text) && Number(text) <= 15) {
    return readMeasure(text, kind, 'min');
  }
  if (plan.field === 'lifeLabel_months' && column.unit === null && /^\d{1,2}$/.test(text)) {
    return Number(text) <= 40 ? readMeasure(text, kind, 'years') : readMeasure(text, kind, null);
  }
  if (
    plan.field === 'lifeLabel_months' &&
    /^(no limit|unlimited|nll|non[- ]?limited|indefinite)/i.test(text)
  ) {
    return { kind: 'blank' };
  }
  const [first = text] = family === 'hose' && plan.field === 'diameter_in' ? text.split(TIMES) : [];
  return readMeasure(first, kind, column.unit);
}

/**
 * Measures that stand in another's cell: a hose length after its size, a ladder's length in its type, a
 * cylinder's minutes beside its pressure. They count where no column of their own says otherwise.
 */
export function sizeAndMore(
  family: string,
  fields: Record<string, Value>,
  columns: readonly Column[],
  texts: readonly string[],
): void {
  const textOf = (field: string) => {
    const column = columns.find(c => c.plan?.field === field);
    return column ? (texts[column.index] ?? '') : '';
  };
  if (family === 'hose') {
    const length = textOf('diameter_in').split(TIMES)[1];
    if (length !== undefined)
      fill(
        fields,
        'length_ft',
        readMeasure(length, { unit: 'ft', whole: false, least: 3, most: 1000 }, null),
      );
  }
  if (family === 'ladder') {
    const m = /(\d{1,3}(?:\.\d+)?)\s*(?:'|’|-?\s*(?:ft|foot|feet)\b)/i.exec(textOf('type'));
    if (m)
      fill(
        fields,
        'length_ft',
        readMeasure(m[1] ?? '', { unit: 'ft', whole: false, least: 4, most: 130 }, null),
      );
  }
  if (family !== 'cylinder') return;
  for (const field of ['ratedDuration_min', 'servicePressure_psi']) {
    const both = pressureAndMinutes(textOf(field));
    if (!both) continue;
    for (const [key, value] of Object.entries(both)) {
      if (fields[key] === undefined || fields[key] === null) fields[key] = value;
    }
  }
}

function fill(fields: Record<string, Value>, field: string, reading: MeasureReading): void {
  if (reading.kind !== 'value' || (fields[field] !== undefined && fields[field] !== null)) return;
  fields[field] = decimalText(reading.value);
}

function isBoth(family: string, plan: FieldPlan, text: string): boolean {
  const holds = plan.field === 'ratedDuration_min' || plan.field === 'servicePressure_psi';
  return family === 'cylinder' && holds && pressureAndMinutes(text) !== null;
}

function pressureAndMinutes(text: string): { servicePressure_psi: number; ratedDuration_min: number } | null {
  const first = PRESSURE_AND_MINUTES.exec(text);
  const second = MINUTES_AND_PRESSURE.exec(text);
  const [psi, min] = first ? [first[1], first[2]] : [second?.[2], second?.[1]];
  if (psi === undefined || min === undefined) return null;
  return { servicePressure_psi: Number(psi.replace(',', '')), ratedDuration_min: Number(min) };
}

function kept(plan: FieldPlan, value: number): string | number {
  if (plan.attribute?.type === 'whole') return value;
  return plan.field === 'diameter_in' ? diameterText(value) : decimalText(value);
}

function codeOf(plan: FieldPlan, reading: MeasureReading & { kind: 'problem' }): string {
  const what = plan.field
    .replace(/_.*$/, '')
    .replace(/^.*Pressure$|^markedTest$/, 'pressure')
    .toLowerCase();
  if (reading.code === 'not positive') return `${what} not positive`;
  return reading.code === 'implausible' ? `${what} implausible` : `${what} unreadable`;
}

function wrongOf(plan: FieldPlan, reading: MeasureReading & { kind: 'problem' }, text: string): string {
  if (reading.code === 'not positive') return `${plan.title} ${text} is not above zero.`;
  if (reading.code === 'implausible')
    return `${plan.title} ${text} would be ${reading.why}, which cannot be right.`;
  if (/\d[oO]|[oO]\d|\d[lI]|[lI]\d/.test(text)) {
    return `${plan.title} “${text}” has a letter where a digit belongs.`;
  }
  return `${plan.title} “${text}” cannot be read${reading.why === '' ? '' : `: ${reading.why}`}.`;
}

function todoOf(kind: MeasureKind): string {
  const examples: Partial<Record<string, string>> = {
    in: 'Enter inches, such as 1 3/4 or 2.5, or give the unit (65 mm).',
    ft: 'Enter feet, such as 50, or give the unit (15.2 m).',
    psi: 'Enter whole psi, such as 4500, or give the unit (310 bar).',
    min: 'Enter whole minutes, such as 30.',
    s: 'Enter seconds, such as 180, or give the unit (3 min).',
  };
  return examples[kind.unit] ?? `Enter a number in ${kind.unit}.`;
}
