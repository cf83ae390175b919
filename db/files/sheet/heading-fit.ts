/** How well a heading says a field: its words, those that rule it out, and the year of a column a year. */
import type { FieldPlan } from './fields.ts';
import { headingScore } from './heading-words.ts';

/** The column that `refusedCsv` adds, which is never read. */
export const REASON_HEADING = 'Reason';

/**
 * How well a heading says a field, with the words that rule the field out. The year of a column a year
 * (`2024 test`, or `2024` alone) is no part of its name.
 */
export function scoreFor(words: readonly string[], plan: FieldPlan): number {
  const score = plainScore(words, plan);
  if (plan.kind !== 'date' && plan.kind !== 'outcome') return score;
  const noYear = words.filter(word => !YEAR.test(word));
  if (noYear.length === words.length || plan.role === 'made' || plan.role === 'expiry') return score;
  return Math.max(score, plainScore(noYear.length === 0 ? ['test'] : noYear, plan) - 3);
}

function plainScore(words: readonly string[], plan: FieldPlan): number {
  const score = headingScore(words, plan.says, plan.drop);
  return score < 97 && words.some(word => plan.ruledOut.has(word) && !plan.drop.family.has(word)) ? 0 : score;
}

/** The year of a column that holds one year's results, or null. */
export function yearOfHeading(words: readonly string[]): number | null {
  const years = words.filter(word => YEAR.test(word));
  return years.length === 1 ? Number(years[0]) : null;
}

const YEAR = /^(19[5-9]\d|20\d\d)$/;
