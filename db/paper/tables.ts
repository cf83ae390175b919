/** Tables on paper: hairlines under the rows, a rule under the heads, nothing upright, heads on every page. */
import type { Alignment, Content, CustomTableLayout, TableCell } from 'pdfmake/interfaces.js';

const HAIR_PT = 0.35;
const RULE_PT = 0.9;
const HAIR = '#6b6b6b';

const base: CustomTableLayout = {
  vLineWidth: () => 0,
  paddingLeft: () => 0,
  paddingRight: () => 8,
  paddingTop: () => 1.8,
  paddingBottom: () => 2.2,
};

/** The layouts by name: `list` has a head, `plain` none, `box` is the ruled box of cautions, `fields` is bare. */
export const LAYOUTS: Readonly<Record<'list' | 'plain' | 'box' | 'fields', CustomTableLayout>> = {
  list: {
    ...base,
    hLineWidth: line => (line === 0 ? 0 : line === 1 ? RULE_PT : HAIR_PT),
    hLineColor: line => (line === 1 ? 'black' : HAIR),
  },
  plain: { ...base, hLineWidth: line => (line === 0 ? 0 : HAIR_PT), hLineColor: HAIR },
  box: {
    hLineWidth: () => RULE_PT,
    vLineWidth: () => RULE_PT,
    paddingLeft: () => 9,
    paddingRight: () => 9,
    paddingTop: () => 6,
    paddingBottom: () => 7,
  },
  fields: { ...base, hLineWidth: () => 0, paddingTop: () => 0.8, paddingBottom: () => 0.8 },
};

export interface Head {
  head: string;
  width: number | 'auto' | '*';
  /** Figures stand on the right and as wide as each other. */
  figure?: boolean;
  /** How many columns the head stands over: a state has its mark and its word. */
  over?: number;
}

/** A figure or a date in a column of them: every digit as wide as the next, and on one line. */
export const figureCell = (text: string): TableCell => ({
  text,
  alignment: 'right' satisfies Alignment,
  fontFeatures: ['tnum'],
  noWrap: true,
});

/** A number of a thing, a serial or a hash. */
export const monoCell = (text: string): TableCell => ({ text, font: 'Mono' });

/** A table under heads that are repeated on every page; no row is torn across two. */
export function listTable(heads: readonly Head[], rows: TableCell[][]): Content {
  const headCells = heads.flatMap(({ head, figure, over = 1 }): TableCell[] => [
    {
      text: head,
      bold: true,
      colSpan: over,
      noWrap: true,
      ...(figure ? { alignment: 'right' as const } : {}),
    },
    ...Array.from({ length: over - 1 }, (): TableCell => ({})),
  ]);
  return {
    table: {
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: heads.flatMap(({ width, over = 1 }) => [...Array.from({ length: over - 1 }, () => 15), width]),
      body: [headCells, ...rows],
    },
    layout: 'list',
    font: 'Narrow',
  };
}
