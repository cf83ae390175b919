/** Searching help: every typed word must be found; a title counts more than a heading, a heading more than text. */
import { type HelpPage, textOf } from './pages/page.ts';

export interface FoundPage {
  page: HelpPage;
  /** The sentence of the page that holds most of what was typed; null where only the title does. */
  excerpt: string | null;
  /** The section that sentence is in; null where it is the page's lead. */
  section: number | null;
}

const TITLE = 12;
const LEAD = 4;
const HEADING = 3;
const TEXT = 1;

/** @returns all pages in their order where nothing is typed, else those that fit, the best first */
export function findPages(pages: readonly HelpPage[], typed: string): FoundPage[] {
  const wanted = wordsOf(typed);
  if (wanted.length === 0) return pages.map(page => ({ page, excerpt: null, section: null }));
  return pages
    .map((page, order) => ({ page, order, weight: weightOf(page, wanted) }))
    .filter(f => f.weight > 0)
    .sort((a, b) => b.weight - a.weight || a.order - b.order)
    .map(({ page }) => ({ page, ...excerptOf(page, wanted) }));
}

/** 0 where a word is found nowhere on the page. */
function weightOf(page: HelpPage, wanted: readonly string[]): number {
  const parts: [number, string[]][] = [
    [TITLE, wordsOf(page.title)],
    [LEAD, wordsOf(page.lead)],
    [
      HEADING,
      page.sections.flatMap(s => wordsOf(`${s.heading ?? ''} ${s.terms?.map(t => t.word).join(' ') ?? ''}`)),
    ],
    [TEXT, page.sections.flatMap(s => textOf(s).flatMap(wordsOf))],
  ];
  const weights = wanted.map(word =>
    parts.reduce((sum, [weight, words]) => {
      if (words.includes(word)) return sum + 2 * weight;
      return words.some(w => w.startsWith(word)) ? sum + weight : sum;
    }, 0),
  );
  return weights.some(w => w === 0) ? 0 : weights.reduce((sum, w) => sum + w, 0);
}

/** The sentence that holds the most of the typed words, the first of those that hold as many, and where it is. */
function excerptOf(page: HelpPage, wanted: readonly string[]): Omit<FoundPage, 'page'> {
  let best: Omit<FoundPage, 'page'> & { held: number } = { excerpt: null, section: null, held: 0 };
  const look = (text: string, section: number | null) => {
    const words = wordsOf(text);
    const held = wanted.filter(word => words.some(w => w.startsWith(word))).length;
    if (held > best.held) best = { excerpt: text, section, held };
  };
  look(page.lead, null);
  page.sections.forEach((section, i) => {
    for (const text of textOf(section)) look(text, i);
  });
  return { excerpt: best.excerpt, section: best.section };
}

function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(w => w !== '');
}
