/**
 * A window on a long answer: the pages in sight are asked for, kept a while, and never all held at once. The answer
 * may come in stretches (groups), each with its own question and perhaps a heading line before its rows.
 */
import { useQueries } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';

export const PAGE_ROWS = 100;
const SETTLE_MS = 70;

export interface PageQuery<R> {
  queryKey: readonly unknown[];
  queryFn: () => Promise<{ total: number; rows: R[] }>;
}

/** Lines that follow one another and are asked for together. */
export interface Stretch<R> {
  key: string;
  /** How many rows it holds; 0 while it is folded. */
  rows: number;
  /** Whether a heading line stands before the rows. */
  headed: boolean;
  pageOf: (offset: number) => PageQuery<R>;
}

/** Where a line of the table lies: in which stretch, and at which row of it (-1: its heading). */
export interface Spot {
  stretch: number;
  row: number;
}

/** @returns null past the last line */
export function spotOf(stretches: readonly Stretch<never>[], line: number): Spot | null {
  let start = 0;
  for (const [at, stretch] of stretches.entries()) {
    const lines = stretch.rows + (stretch.headed ? 1 : 0);
    if (line < start + lines) return { stretch: at, row: line - start - (stretch.headed ? 1 : 0) };
    start += lines;
  }
  return null;
}

export interface RowWindow<R> {
  lines: number;
  spotAt: (line: number) => Spot | null;
  rowAt: (line: number) => R | undefined;
  onSight: (first: number, last: number) => void;
  /** The first failure among the pages in sight, or null. */
  error: Error | null;
}

export function useWindow<R>(stretches: readonly Stretch<R>[]): RowWindow<R> {
  const [sight, setSight] = useState({ first: 0, last: 0 });
  const spotAt = (line: number) => spotOf(stretches as readonly Stretch<never>[], line);

  const wanted = new Map<string, PageQuery<R>>();
  for (let line = sight.first; line <= sight.last; line++) {
    const spot = spotAt(line);
    const stretch = spot ? stretches[spot.stretch] : undefined;
    if (!spot || !stretch || spot.row < 0) continue;
    const key = pageKey(spot);
    if (!wanted.has(key)) wanted.set(key, stretch.pageOf(Math.floor(spot.row / PAGE_ROWS) * PAGE_ROWS));
  }
  const keys = [...wanted.keys()];
  const pages = useQueries({ queries: [...wanted.values()] });

  const last = useRef(sight);
  const later = useRef<ReturnType<typeof setTimeout>>(undefined);
  const onSight = useCallback((first: number, end: number) => {
    const flew = Math.abs(first - last.current.first) > PAGE_ROWS;
    last.current = { first, last: end };
    clearTimeout(later.current);
    const settle = () =>
      setSight(before => (before.first === first && before.last === end ? before : { first, last: end }));
    // While the list flies past, nobody reads it: pages are asked for where it comes to rest.
    if (flew) later.current = setTimeout(settle, SETTLE_MS);
    else settle();
  }, []);
  useEffect(() => () => clearTimeout(later.current), []);
  return {
    lines: stretches.reduce((sum, s) => sum + s.rows + (s.headed ? 1 : 0), 0),
    spotAt,
    rowAt(line) {
      const spot = spotAt(line);
      if (!spot || spot.row < 0) return undefined;
      return pages[keys.indexOf(pageKey(spot))]?.data?.rows[spot.row % PAGE_ROWS];
    },
    onSight,
    error: pages.find(p => p.error)?.error ?? null,
  };
}

const pageKey = ({ stretch, row }: Spot) => `${stretch} ${Math.floor(row / PAGE_ROWS)}`;
