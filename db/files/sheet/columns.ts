/** What each column is: guessed from its heading and from what stands in it, corrected by the person. */
import { fitOf, isOtherwise, polarityOf, type Sample, sampleOf } from './column-fit.ts';
import { type FieldPlan, mainActivity, OUTCOME_UNPLACED, plansOf } from './fields.ts';
import type { Cell } from './grid.ts';
import { REASON_HEADING, scoreFor, yearOfHeading } from './heading-fit.ts';
import { headingWords } from './heading-words.ts';
import { measures, type Unit, unitInHeading, unitsInHeading } from './measures.ts';
import type { Polarity } from './outcomes.ts';
import { SheetError } from './sheet-error.ts';

export interface Column {
  index: number;
  heading: string;
  plan: FieldPlan | null;
  /** The unit its heading names, where the field is a measure. */
  unit: Unit | null;
  polarity: Polarity;
  /** The field it is shown as read for: its own, or that of the year's column whose month it holds. */
  field: string | null;
  /** The column of the month, where this one of dates holds the year alone. */
  monthIn: number | null;
  /** The year of a result column that holds one year's results. */
  year: number | null;
}

/** A heading that says a field less than this does not count. */
const LEAST_HEADING = 54;
const SURE_STATUS = 80;
const LEAST_SCORE = 58;
/** What stands in a column moves its score by up to this much either way. */
const CONTENT_WEIGHT = 22;
/** Of a field with a form of its own, next to nothing in the column has that form. */
const NO_FIT = 0.1;
/** Below this a heading may mean something else, and what stands in the column rules the field out. */
const SURE_HEADING = 90;
/** A further column for a field that several may hold must be headed so. */
const FURTHER_HEADING = 88;

/**
 * Guess the columns of a family's sheet, then put the person's corrections in place. A corrected field leaves
 * the column that was guessed for it, unless several columns may hold it.
 * @param mapping fields by column index; null leaves a column aside
 * @throws SheetError where the mapping names an unknown field
 */
export function columnsOf(
  family: string,
  headings: readonly string[],
  body: readonly { cells: Cell[]; texts: string[] }[],
  mapping: Readonly<Record<string, string | null>>,
): Column[] {
  const plans = plansOf(family);
  const samples = headings.map((_, i) => sampleOf(body, i));
  const chosen = guess(plans, headings, samples);
  placeOutcomes(family, plans, chosen, headings);
  correct(plans, chosen, mapping, headings.length);
  const months = monthColumns(chosen, headings, samples, mapping);
  const given = new Map([...months].map(([year, month]) => [month, chosen.get(year)?.field ?? null]));
  return headings.map((heading, index) => {
    const plan = given.has(index) ? null : (chosen.get(index) ?? null);
    return {
      index,
      heading,
      plan,
      field: plan?.field ?? given.get(index) ?? null,
      monthIn: months.get(index) ?? null,
      unit: plan?.measure ? unitInHeading(heading, plan.measure.unit) : null,
      polarity: plan?.kind === 'outcome' ? polarityOf(heading) : 'either',
      year: plan?.kind === 'outcome' ? yearOfHeading(headingWords(heading)) : null,
    };
  });
}

interface Candidate {
  index: number;
  plan: FieldPlan;
  heading: number;
  score: number;
}

function guess(
  plans: readonly FieldPlan[],
  headings: readonly string[],
  samples: readonly Sample[],
): Map<number, FieldPlan> {
  const candidates: Candidate[] = [];
  for (const [index, text] of headings.entries()) {
    if (text === '' || text.toLowerCase() === REASON_HEADING.toLowerCase()) continue;
    const words = headingWords(text);
    const units = unitsInHeading(text);
    for (const plan of plans) {
      const heading = scoreFor(words, plan);
      // `Rung condition` is not the condition of the ladder: a status is taken only from a heading that says so.
      if (heading < (plan.kind === 'status' ? SURE_STATUS : LEAST_HEADING)) continue;
      const wrongUnit =
        plan.measure && units.length > 0 && !units.some(u => measures(u, plan.measure?.unit ?? u));
      const sample = samples[index] ?? { cells: [], texts: [] };
      const fit = fitOf(plan, sample, text);
      if (fit < NO_FIT && sample.texts.length > 1 && (heading < SURE_HEADING || isOtherwise(plan, sample)))
        continue;
      const score = heading + (fit - 0.5) * 2 * CONTENT_WEIGHT - (wrongUnit ? 40 : 0);
      if (score >= LEAST_SCORE)
        candidates.push({ index, plan, heading: plan.many && yearOfHeading(words) ? 100 : heading, score });
    }
  }
  candidates.sort((a, b) => b.score - a.score || a.index - b.index);
  const chosen = new Map<number, Candidate>();
  for (const candidate of candidates) if (isFree(chosen, candidate)) chosen.set(candidate.index, candidate);
  makeRoom(chosen, candidates);
  return new Map([...chosen].map(([index, { plan }]) => [index, plan]));
}

/** Whether a column is still without a field and the field without a column, or may have a further one. */
function isFree(chosen: ReadonlyMap<number, Candidate>, { index, plan, heading }: Candidate): boolean {
  if (chosen.has(index)) return false;
  const taken = [...chosen.values()].some(c => c.plan.field === plan.field);
  return !taken || (plan.many && heading >= FURTHER_HEADING);
}

/**
 * A column left without a field takes the one it suits from a column that has another use: `I.D.` beside
 * `Asset tag` is the inside diameter.
 */
function makeRoom(chosen: Map<number, Candidate>, candidates: readonly Candidate[]): void {
  for (const wanted of candidates) {
    if (chosen.has(wanted.index) || wanted.plan.many) continue;
    const holder = [...chosen.values()].find(c => c.plan.field === wanted.plan.field);
    if (!holder) continue;
    const other = candidates.find(
      c =>
        c.index === holder.index &&
        c.plan.field !== holder.plan.field &&
        ![...chosen.values()].some(taken => taken.plan.field === c.plan.field),
    );
    if (!other || wanted.score + other.score <= holder.score + LEAST_SCORE) continue;
    chosen.set(holder.index, other);
    chosen.set(wanted.index, wanted);
  }
}

/**
 * A result that names no test belongs to the nearest date to its left that has no result of its own; with none
 * there, to the family's first test.
 */
function placeOutcomes(
  family: string,
  plans: readonly FieldPlan[],
  chosen: Map<number, FieldPlan>,
  headings: readonly string[],
): void {
  const main = mainActivity(family);
  const byField = new Map(plans.map(plan => [plan.field, plan]));
  for (let index = 0; index < headings.length; index++) {
    if (chosen.get(index)?.field !== OUTCOME_UNPLACED) continue;
    const polarity = polarityOf(headings[index] ?? '');
    const activity = activityLeftOf(chosen, headings, index, polarity !== 'either') ?? main;
    const plan = byField.get(`outcome ${activity}`);
    if (plan && activity !== UNPLACEABLE) chosen.set(index, plan);
    else chosen.delete(index);
  }
}

const UNPLACEABLE = '';

function activityLeftOf(
  chosen: ReadonlyMap<number, FieldPlan>,
  headings: readonly string[],
  index: number,
  isTick: boolean,
): string | null {
  for (let i = index - 1; i >= 0; i--) {
    const plan = chosen.get(i);
    // A date that could not be placed keeps its result from another test.
    if (!plan && headingWords(headings[i] ?? '').join(' ') === 'date') return UNPLACEABLE;
    if (plan?.kind === 'date' && plan.activity !== undefined) return plan.activity;
    if (plan?.kind === 'outcome' && plan.activity !== undefined) {
      const alsoTick = polarityOf(headings[i] ?? '') !== 'either';
      if (!(isTick && alsoTick)) return null;
    }
  }
  return null;
}

/** `Hydro month` beside `Hydro year`: two columns of one date, the year's column with the month's. */
function monthColumns(
  chosen: ReadonlyMap<number, FieldPlan>,
  headings: readonly string[],
  samples: readonly Sample[],
  mapping: Readonly<Record<string, string | null>>,
): Map<number, number> {
  const months = new Map<number, number>();
  for (const [index, plan] of chosen) {
    const words = headingWords(headings[index] ?? '');
    if (plan.kind !== 'date' || !words.includes('year')) continue;
    const wanted = words.map(word => (word === 'year' ? 'month' : word)).join(' ');
    const month = headings.findIndex((h, i) => i !== index && headingWords(h).join(' ') === wanted);
    if (month < 0 || mapping[String(month)] !== undefined) continue;
    const texts = samples[month]?.texts ?? [];
    if (texts.length > 0 && texts.filter(isMonth).length >= texts.length * MOSTLY) months.set(index, month);
  }
  return months;
}

const MOSTLY = 0.8;

function isMonth(text: string): boolean {
  return /^(0?[1-9]|1[0-2]|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?)$/i.test(text);
}

function correct(
  plans: readonly FieldPlan[],
  chosen: Map<number, FieldPlan>,
  mapping: Readonly<Record<string, string | null>>,
  width: number,
): void {
  const said = new Map<number, FieldPlan | null>();
  for (const [key, field] of Object.entries(mapping)) {
    const index = Number(key);
    if (!Number.isInteger(index) || index < 0 || index >= width) continue;
    const plan = field === null ? null : plans.find(p => p.field === field && p.field !== OUTCOME_UNPLACED);
    if (plan === undefined) {
      throw new SheetError(`No column can be read as “${field}”.`, 'Choose one of the fields in the list.');
    }
    said.set(index, plan);
  }
  const claimed = new Set([...said.values()].flatMap(plan => (plan && !plan.many ? [plan.field] : [])));
  for (const [index, plan] of chosen) if (claimed.has(plan.field) && !said.has(index)) chosen.delete(index);
  for (const [index, plan] of said) {
    if (plan) chosen.set(index, plan);
    else chosen.delete(index);
  }
}
