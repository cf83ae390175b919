/** Delimited text in whatever encoding and with whatever separator the department's program wrote. */
import Papa from 'papaparse';
import type { Grid } from './grid.ts';

const DELIMITERS = [',', ';', '\t', '|'] as const;
const SEP_LINE = /^sep=(.)\r?\n?$/i;
/** Lines that are enough to tell the separator. */
const SAMPLE_LINES = 60;

/**
 * Text from bytes: UTF-8 or UTF-16 by its mark or its look, else Windows-1252, which has a character for
 * nearly every byte, so a curly feet mark or a ½ from an older program survives.
 */
export function decodeText(bytes: Uint8Array): string {
  const [a, b] = [bytes[0], bytes[1]];
  if (a === 0xff && b === 0xfe) return decode(bytes, 'utf-16le');
  if (a === 0xfe && b === 0xff) return decode(bytes, 'utf-16be');
  const zeros = zeroShares(bytes);
  if (zeros.odd > 0.4 && zeros.even < 0.1) return decode(bytes, 'utf-16le');
  if (zeros.even > 0.4 && zeros.odd < 0.1) return decode(bytes, 'utf-16be');
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return decode(bytes, 'windows-1252');
  }
}

function decode(bytes: Uint8Array, encoding: string): string {
  return new TextDecoder(encoding).decode(bytes);
}

/** How often the even and the odd bytes of the beginning are zero: Western text in UTF-16 has every other one so. */
function zeroShares(bytes: Uint8Array): { even: number; odd: number } {
  const n = Math.min(bytes.length, 2000);
  const zeros = [0, 0];
  for (let i = 0; i < n; i++) if (bytes[i] === 0) zeros[i % 2] = (zeros[i % 2] ?? 0) + 1;
  const half = Math.max(1, n / 2);
  return { even: (zeros[0] ?? 0) / half, odd: (zeros[1] ?? 0) / half };
}

/** Split text into cells, the separator told from the text itself (or from a first line `sep=;`). */
export function cellsOfText(text: string): Grid {
  const plain = text.startsWith('\ufeff') ? text.slice(1) : text;
  const firstEnd = plain.indexOf('\n');
  const sep = SEP_LINE.exec(firstEnd < 0 ? plain : plain.slice(0, firstEnd + 1));
  const body = sep && firstEnd >= 0 ? plain.slice(firstEnd + 1) : plain;
  const delimiter = sep?.[1] ?? delimiterOf(body);
  const cells = split(body, delimiter);
  const firstLine = sep ? 2 : 1;
  return { cells, lines: cells.map((_, i) => i + firstLine) };
}

function split(text: string, delimiter: string): string[][] {
  const quoted = Papa.parse<string[]>(text, { delimiter });
  if (!quoted.errors.some(e => e.type === 'Quotes')) return quoted.data;
  // A lone inch mark at the start of a cell opens a "quote" that swallows the lines after it. Read the lines
  // without quoting where that gives more rows of the usual width.
  const plain = Papa.parse<string[]>(text, { delimiter, quoteChar: '\u0000' }).data;
  return regularRows(plain) > regularRows(quoted.data) ? plain.map(row => row.map(unquote)) : quoted.data;
}

function unquote(cell: string): string {
  const m = /^\s*"(.*)"\s*$/.exec(cell);
  return m ? (m[1] ?? '').replaceAll('""', '"') : cell;
}

/** The separator that gives the most rows of one width, the wider of equals. */
function delimiterOf(text: string): string {
  let best: string = ',';
  let bestScore = 0;
  for (const delimiter of DELIMITERS) {
    if (!text.includes(delimiter)) continue;
    const rows = Papa.parse<string[]>(text, { delimiter, preview: SAMPLE_LINES }).data;
    const { width, count } = usualWidth(rows);
    const score = width < 2 ? 0 : count * Math.log2(width);
    if (score > bestScore) [best, bestScore] = [delimiter, score];
  }
  return best;
}

function regularRows(rows: readonly string[][]): number {
  return usualWidth(rows).count;
}

function usualWidth(rows: readonly string[][]): { width: number; count: number } {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
  let best = { width: 0, count: 0 };
  for (const [width, count] of counts) {
    if (width > 1 && count * Math.log2(width) > best.count * Math.log2(Math.max(best.width, 2))) {
      best = { width, count };
    }
  }
  return best;
}
