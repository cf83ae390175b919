/** How well what stands in a column suits a field. */
import { isBlankLike } from './cell-text.ts';
import { readChoice, readFlag, readStatus } from './choices.ts';
import { readMark } from './cylinder-marks.ts';
import type { FieldPlan } from './fields.ts';
import type { Cell } from './grid.ts';
import { headingWords } from './heading-words.ts';
import { readMeasure, unitInHeading } from './measures.ts';
import { type Polarity, readOutcome } from './outcomes.ts';
import { dateShapeOf } from './typed-dates.ts';

const SAMPLE_ROWS = 300;

/** The cells of a column under the headings, blank-like ones left away. */
export interface Sample {
  cells: Cell[];
  texts: string[];
}

export function sampleOf(body: readonly { cells: Cell[]; texts: string[] }[], index: number): Sample {
  const sample: Sample = { cells: [], texts: [] };
  // Taken over the whole height, so that a long sheet's end counts as much as its start.
  const step = Math.max(1, Math.floor(body.length / SAMPLE_ROWS));
  for (let i = 0; i < body.length; i += step) {
    const text = body[i]?.texts[index] ?? '';
    if (isBlankLike(text)) continue;
    sample.cells.push(body[i]?.cells[index] ?? null);
    sample.texts.push(text);
  }
  return sample;
}

/** How well what stands in a column suits a field, 0 to 1; 0.5 where the column is empty. */
export function fitOf(plan: FieldPlan, sample: Sample, heading: string): number {
  const n = sample.texts.length;
  if (n === 0) return 0.5;
  const share = (test: (text: string) => boolean) => sample.texts.filter(test).length / n;
  switch (plan.kind) {
    case 'number':
    case 'serial':
      return (
        (new Set(sample.texts).size / n) *
        (1 - dateShare(sample)) *
        (1 - 0.8 * share(isMeasured)) *
        (0.6 + 0.4 * share(hasDigit))
      );
    case 'date':
      return dateShare(sample);
    case 'outcome':
      return share(text => readOutcome(text, polarityOf(heading))?.outcome != null);
    case 'status':
      return share(text => {
        const { condition, assignment } = readStatus(text);
        return condition !== null || assignment !== null;
      });
    case 'choice':
      return share(text => readChoice(plan.field, text) !== null);
    case 'mark':
      return share(text => readMark(text).known);
    case 'rin':
      return share(text => RIN.test(text));
    case 'measure': {
      const { measure } = plan;
      if (!measure) return 0;
      const unit = unitInHeading(heading, measure.unit);
      return share(text => readMeasure(text, measure, unit).kind === 'value');
    }
    case 'flag':
      return share(text => readFlag(text) !== undefined);
    case 'place':
      return 1 - dateShare(sample) - 0.4 * share(text => /^-?\d+\.\d+$/.test(text));
    default:
      return 0.4 + 0.6 * share(text => /[a-z]{2}/i.test(text) && !RIN.test(text)) - dateShare(sample) * 0.8;
  }
}

/**
 * Whether a column plainly holds something else than dates, measures or results: `In service` over Y and N is
 * no date, `Passed` over dates no result. Words that are merely unreadable leave the field in place, so that
 * they are refused and not lost.
 */
export function isOtherwise(plan: FieldPlan, sample: Sample): boolean {
  const share = (test: (text: string) => boolean) => sample.texts.filter(test).length / sample.texts.length;
  if (plan.kind === 'outcome')
    return dateShare(sample) > OTHERWISE || share(t => /^[\d.,]+$/.test(t)) > OTHERWISE;
  if (plan.kind !== 'date' && plan.kind !== 'measure') return false;
  const words = share(text => {
    const { condition, assignment } = readStatus(text);
    return (
      condition !== null ||
      assignment !== null ||
      readOutcome(text) !== undefined ||
      readFlag(text) !== undefined
    );
  });
  return words > OTHERWISE || (plan.kind === 'measure' && dateShare(sample) > OTHERWISE);
}

const OTHERWISE = 0.7;
const RIN = /^[A-Z]\d{3}$/i;

/** Written as a measure and not as a number of a thing: `2½"`, `1-3/4`, `50'`, `1.75`, `65 mm`. */
function isMeasured(text: string): boolean {
  return /^\d*\s?-?(\d\/\d|[¼½¾])|\d\s*(["”″'’′]|mm|in\.?|ft\.?)$|^\d*\.\d+$/i.test(text);
}

function hasDigit(text: string): boolean {
  return /\d/.test(text);
}

/** Bare digits count less: `300` is a pressure sooner than March 2000. */
function dateShare(sample: Sample): number {
  let sum = 0;
  for (const [i, cell] of sample.cells.entries()) {
    const text = sample.texts[i] ?? '';
    const shape = dateShapeOf(cell);
    if (shape.kind !== 'date') {
      if (shape.kind === 'unreadable' && shape.why !== 'text') sum += 0.8;
      continue;
    }
    if (shape.loose) sum += 0.15;
    else if (shape.month === null) sum += shape.year >= 1940 && shape.year <= 2060 ? 0.75 : 0.2;
    else sum += shape.serial && !(cell instanceof Date) && /^\d+$/.test(text) ? 0.8 : 1;
  }
  return sum / Math.max(1, sample.cells.length);
}

/** A column headed by one word of the pair is ticked: an `X` under `Fail` is a fail. */
export function polarityOf(heading: string): Polarity {
  const words = headingWords(heading).filter(
    word => !['test', 'service', 'inspection', 'hydro', 'visual'].includes(word),
  );
  if (words.length > 2) return 'either';
  if (words.includes('result')) return 'either';
  if (words.some(word => word === 'pass' || word === 'passed' || word === 'ok')) return 'pass';
  return words.some(word => word === 'fail' || word === 'failed') ? 'fail' : 'either';
}
