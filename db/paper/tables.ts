/** Tables on paper: hairlines under the rows, a rule under the heads, nothing upright, heads on every page. */
import type { Content, ContentTable, CustomTableLayout, TableCell } from 'pdfmake/interfaces.js';

const HAIR_PT = 0.35;
const RULE_PT = 0.9;
const HAIR = '#6b6b6b';

const GAP_PT = 8;

const base: CustomTableLayout = {
  vLineWidth: () => 0,
  paddingLeft: () => 0,
  // The last column ends where the rules do.
  paddingRight: (column, node) => (column === (node.table.widths?.length ?? 0) - 1 ? 0 : GAP_PT),
  paddingTop: () => 1.8,
  paddingBottom: () => 2.2,
};

const heads = (node: ContentTable): number => Number(node.table.headerRows ?? 0);

/** The layouts by name: `list` has a head, `plain` none, `box` is the ruled box of cautions, `fields` is bare. */
export const LAYOUTS: Readonly<Record<'list' | 'plain' | 'box' | 'fields', CustomTableLayout>> = {
  list: {
    ...base,
    hLineWidth: (line, node) => (line < heads(node) ? 0 : line === heads(node) ? RULE_PT : HAIR_PT),
    hLineColor: (line, node) => (line === heads(node) ? 'black' : HAIR),
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
  alignment: 'right',
  fontFeatures: ['tnum'],
  noWrap: true,
});

/** A number of a thing, a serial or a hash. */
export const monoCell = (text: string): TableCell => ({ ...inMono(text) });

/** A number or a serial in the face of numbers; one with a space in it in the narrow face, since the other draws none. */
export const inMono = (text: string): { text: string; font: 'Mono' | 'Narrow' } => ({
  text,
  font: /\s/.test(text) ? 'Narrow' : 'Mono',
});

/** A cell with more characters than this may be taller than a page: its row is let break rather than be cut off. */
export const LONG_TEXT = 900;

/** How many characters stand in content. */
export function textLength(content: unknown): number {
  if (typeof content === 'string') return content.length;
  if (Array.isArray(content)) return content.reduce((sum: number, part) => sum + textLength(part), 0);
  if (content === null || typeof content !== 'object') return 0;
  const { text, stack, columns, ul, table } = content as Record<string, unknown>;
  const body = table === undefined ? [] : (table as { body: unknown }).body;
  return [text, stack, columns, ul, body].reduce((sum: number, part) => sum + textLength(part), 0);
}

/** The room of a mark; the gap after it stands between it and its word. */
const MARK_COLUMN_PT = 10;

const widthsOf = (heads: readonly Head[]): Head['width'][] =>
  heads.flatMap(({ width, over = 1 }) => [...Array.from({ length: over - 1 }, () => MARK_COLUMN_PT), width]);

const canBreak = (rows: TableCell[][]) => rows.some(row => row.some(cell => textLength(cell) > LONG_TEXT));

/**
 * A table under heads that are repeated on every page; no row is torn across two.
 * @param title stands over the heads, so that it is neither left alone at the foot of a page nor missed on the next
 */
export function listTable(heads: readonly Head[], rows: TableCell[][], title: string | null = null): Content {
  const widths = widthsOf(heads);
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
  const titleCells: TableCell[][] =
    title === null
      ? []
      : [
          [
            { text: title, style: 'section', colSpan: widths.length },
            ...Array.from({ length: widths.length - 1 }, (): TableCell => ({})),
          ],
        ];
  return {
    table: {
      headerRows: titleCells.length + 1,
      keepWithHeaderRows: canBreak(rows) ? 0 : 1,
      dontBreakRows: !canBreak(rows),
      widths,
      body: [...titleCells, headCells, ...rows],
    },
    layout: 'list',
    font: 'Narrow',
  };
}

/** Rows that go on under heads which stand above already. */
export const bareTable = (heads: readonly Head[], rows: TableCell[][]): Content => ({
  table: { widths: widthsOf(heads), dontBreakRows: !canBreak(rows), body: rows },
  layout: 'plain',
  font: 'Narrow',
});
