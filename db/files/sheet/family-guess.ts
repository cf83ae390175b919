/** Which family a sheet is of, by its words. */
import { fitOf, sampleOf } from './column-fit.ts';
import { columnsOf } from './columns.ts';
import { plansOf } from './fields.ts';
import type { Grid } from './grid.ts';
import { headingWords } from './heading-words.ts';
import { findHeadings, tellingLines, textsOf } from './layout.ts';

const FAMILIES = ['hose', 'ladder', 'cylinder', 'pack'] as const;
type FamilyId = (typeof FAMILIES)[number];

/** Words of titles and headings, and how much each speaks for a family. */
const WORDS: Readonly<Record<FamilyId, Readonly<Record<string, number>>>> = {
  hose: { hose: 4, diameter: 2, coupling: 1.5, footage: 2, jacket: 2, bore: 1 },
  ladder: { ladder: 4, heat: 2, sensor: 1, visual: 0.5, load: 1, set: 0.5 },
  cylinder: {
    cylinder: 3.5,
    bottle: 3.5,
    tank: 3,
    hydro: 1.5,
    requalification: 2,
    dot: 2,
    spec: 1.5,
    permit: 1.5,
    rin: 3,
    scba: 1,
    working: 0.5,
  },
  pack: { pack: 4, airpack: 4, scba: 2.5, flow: 3, harness: 2, regulator: 1.5, nfpa: 1.5, alarm: 1 },
};
/** A column whose values are the family's own choices, marks or sizes. */
const OWN_VALUES = 1.5;
/** Lines that are enough to tell. */
const SAMPLE_LINES = 80;
const LEAST = 3;
const MARGIN = 1;

/** The family a sheet reads as, or null where its titles, headings and values do not tell. */
export function guessFamily(grid: Grid): string | null {
  const texts = textsOf(grid).slice(0, SAMPLE_LINES);
  const [best, next] = FAMILIES.map(family => ({ family, score: scoreOf(family, grid, texts) })).sort(
    (a, b) => b.score - a.score,
  );
  if (!best || best.score < LEAST || (next && best.score - next.score < MARGIN)) return null;
  return best.family;
}

function scoreOf(family: FamilyId, grid: Grid, texts: readonly string[][]): number {
  const layout = findHeadings(grid, texts, plansOf(family));
  const titles = texts.slice(0, layout.bodyAt).flat();
  const words = new Set([...layout.headings, ...titles].flatMap(headingWords));
  let score = 0;
  for (const [word, weight] of Object.entries(WORDS[family])) if (words.has(word)) score += weight;
  const below = tellingLines(grid, texts, layout);
  for (const { index, heading, plan } of columnsOf(family, layout.headings, below, {})) {
    const telling = plan?.kind === 'choice' || plan?.kind === 'mark' || plan?.field === 'diameter_in';
    if (!plan || !telling) continue;
    const sample = sampleOf(below, index);
    if (sample.texts.length > 0 && fitOf(plan, sample, heading) > 0.6) score += OWN_VALUES;
  }
  return score;
}
