/** Where a sheet's headings stand. */
import { textOf } from './cell-text.ts';
import type { FieldPlan } from './fields.ts';
import type { Cell, Grid } from './grid.ts';
import { scoreFor } from './heading-fit.ts';
import { headingWords } from './heading-words.ts';

export interface Layout {
  headingLine: number;
  headings: string[];
  /** Index of the first line under the headings. */
  bodyAt: number;
}

/** Headings are looked for in so many filled lines. */
const SEARCH_LINES = 40;
const STRONG = 78;
const FAINT = 50;
/** Column headings that need the group above them to mean anything. */
const NEEDS_GROUP = new Set([
  'date',
  'result',
  'psi',
  'pressure',
  'by',
  'status',
  'number',
  'pass',
  'fail',
  'test',
  'mo',
  'year',
]);

/** The texts of every line. */
export function textsOf(grid: Grid): string[][] {
  const width = Math.max(0, ...grid.cells.map(row => row.length));
  return grid.cells.map(row => Array.from({ length: width }, (_, i) => textOf(row[i])));
}

/** The line of the sheet as a person sees it. */
export function lineOf(grid: Grid, at: number): number {
  return grid.lines?.[at] ?? at + 1;
}

/**
 * Find the headings: the line whose cells name the most fields, the first of equals, with the line above or
 * below it where headings are written in two.
 */
export function findHeadings(grid: Grid, texts: readonly string[][], plans: readonly FieldPlan[]): Layout {
  const scores = new ScoreCache(plans);
  const filled = texts.flatMap((row, at) => (row.some(t => t !== '') ? [at] : [])).slice(0, SEARCH_LINES);
  let best = -1;
  let bestCount = 0;
  for (const at of filled) {
    const count = countHeadings(texts[at] ?? [], scores);
    if (count > bestCount) [best, bestCount] = [at, count];
  }
  if (bestCount < 2) {
    const single = best >= 0 && filledCells(texts[best] ?? []) <= 2 ? best : -1;
    best = single >= 0 && bestCount >= 1 ? single : firstWide(texts, filled);
    if (best < 0 || (bestCount < 1 && looksLikeData(texts[best] ?? []))) return noHeadings(texts, filled);
  }
  return withNeighbors(grid, texts, best, scores);
}

class ScoreCache {
  readonly #plans: readonly FieldPlan[];
  readonly #known = new Map<string, number>();

  constructor(plans: readonly FieldPlan[]) {
    this.#plans = plans;
  }

  /** How well a heading names its best field. */
  of(heading: string): number {
    const known = this.#known.get(heading);
    if (known !== undefined) return known;
    const words = headingWords(heading);
    const score = Math.max(0, ...this.#plans.map(plan => scoreFor(words, plan)));
    this.#known.set(heading, score);
    return score;
  }
}

function countHeadings(row: readonly string[], scores: ScoreCache): number {
  let count = 0;
  for (const text of row) {
    if (text === '' || text.length > 60 || /^[-\d.,/ ]+$/.test(text)) continue;
    const score = scores.of(text);
    if (score >= STRONG) count += 1;
    else if (score >= FAINT) count += 0.3;
  }
  return count;
}

function withNeighbors(grid: Grid, texts: readonly string[][], at: number, scores: ScoreCache): Layout {
  let headings = texts[at] ?? [];
  let last = at;
  const below = texts[at + 1] ?? [];
  if (continuesHeadings(headings, below, scores)) {
    headings = headings.map((top, i) => joined(top, below[i] ?? '', scores));
    last = at + 1;
  } else {
    const above = texts[at - 1];
    if (above && isGroupLine(above)) headings = underGroups(above, headings, scores);
  }
  return { headingLine: lineOf(grid, last), headings: [...headings], bodyAt: last + 1 };
}

/** A second line of headings: no digits, and mostly units or words that make the heading above say more. */
function continuesHeadings(top: readonly string[], below: readonly string[], scores: ScoreCache): boolean {
  const filled = below.flatMap((text, i) => (text === '' ? [] : [{ text, i }]));
  if (filled.length === 0 || filled.some(({ text }) => /\d/.test(text) || text.length > 30)) return false;
  const saying = filled.filter(({ text, i }) => {
    if (
      /^[([]?(in|ft|psi|min|mm|m|bar|lbs?|yyyy|mm\/yy|mm\/yyyy|yrs?|inches|feet|p\/f|y\/n|date)\.?[)\]]?$/i.test(
        text,
      )
    ) {
      return true;
    }
    const both = scores.of(`${top[i] ?? ''} ${text}`);
    return top[i] === '' ? scores.of(text) >= STRONG : both >= STRONG && both >= scores.of(top[i] ?? '');
  });
  return saying.length * 2 > filled.length;
}

function isGroupLine(row: readonly string[]): boolean {
  const filled = row.flatMap((text, i) => (text === '' ? [] : [{ text, i }]));
  return (
    filled.length > 0 &&
    filled.some(({ i }) => i > 0) &&
    filled.every(f => f.text.length <= 40 && !/\d{3,}/.test(f.text))
  );
}

/** Merged cells above the headings (`Service test` over `Date` and `Result`) are said once, at their left end. */
function underGroups(above: readonly string[], headings: readonly string[], scores: ScoreCache): string[] {
  let group = '';
  return headings.map((heading, i) => {
    if (above[i] !== '' && above[i] !== undefined) group = above[i];
    return heading === '' && (above[i] ?? '') !== '' ? (above[i] ?? '') : joined(group, heading, scores);
  });
}

function joined(group: string, heading: string, scores: ScoreCache): string {
  if (group === '' || heading === '') return group || heading;
  const both = `${group} ${heading}`;
  const alone = scores.of(heading);
  const words = headingWords(heading);
  const needs = words.every(word => NEEDS_GROUP.has(word));
  const better = scores.of(both) > alone || (needs && scores.of(both) >= FAINT);
  // Units under a heading belong to it whatever the score.
  return better || /^[([]/.test(heading) || alone === 0 ? both : heading;
}

function firstWide(texts: readonly string[][], filled: readonly number[]): number {
  const widest = Math.max(0, ...filled.map(at => filledCells(texts[at] ?? [])));
  return filled.find(at => filledCells(texts[at] ?? []) * 2 > widest) ?? -1;
}

export function filledCells(row: readonly string[]): number {
  return row.filter(text => text !== '').length;
}

function looksLikeData(row: readonly string[]): boolean {
  const filled = row.filter(text => text !== '');
  return filled.filter(text => /\d/.test(text)).length * 2 > filled.length;
}

function noHeadings(texts: readonly string[][], filled: readonly number[]): Layout {
  const width = texts[0]?.length ?? 0;
  const first = firstWide(texts, filled);
  return {
    headingLine: 0,
    headings: Array.from({ length: width }, (_, i) => `Column ${i + 1}`),
    bodyAt: Math.max(0, first),
  };
}

/**
 * The lines under the headings that columns are told from: the fuller half, so that totals and signatures at the
 * end do not count.
 */
export function tellingLines(
  grid: Grid,
  texts: readonly string[][],
  layout: Layout,
): { cells: Cell[]; texts: string[] }[] {
  const lines = texts.flatMap((row, at) =>
    at >= layout.bodyAt ? [{ cells: grid.cells[at] ?? [], texts: row, filled: filledCells(row) }] : [],
  );
  const most = Math.max(0, ...lines.map(line => line.filled));
  return lines.filter(line => line.filled > 0 && line.filled * 2 >= most);
}
