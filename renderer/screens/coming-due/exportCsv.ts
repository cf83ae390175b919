/** What is shown, as CSV: the whole filtered list in its order, page by page, so that it can be stopped. */
import Papa from 'papaparse';
import type { DueListRow } from '../../../db/api.ts';
import { OWN_MARK } from '../../../domain/rulebook/due-words.ts';
import { answered } from '../../api/problem.ts';
import { host } from '../../api/transport.ts';
import { type DueSearch, listArgs } from './filter.ts';

const ROWS_AT_ONCE = 1000;

/** @returns null where `stopped` said so before the end */
export async function dueCsv(
  search: DueSearch,
  familyTitle: (family: string) => string,
  onProgress: (done: number, total: number) => void,
  stopped: () => boolean,
): Promise<string | null> {
  const rows: DueListRow[] = [];
  for (;;) {
    const page = answered(
      await host().ask('due.list', { ...listArgs(search), limit: ROWS_AT_ONCE, offset: rows.length }),
    );
    if (stopped()) return null;
    rows.push(...page.rows);
    onProgress(rows.length, page.total);
    if (rows.length >= page.total || page.rows.length === 0) break;
  }
  return csvOf(rows, familyTitle);
}

/** Spreadsheets run text that begins like a formula; it is escaped. */
export function csvOf(rows: readonly DueListRow[], familyTitle: (family: string) => string): string {
  return Papa.unparse(
    rows.map(r => ({
      Number: r.number,
      Family: familyTitle(r.family),
      'What is owed': r.title,
      State: r.state,
      Due: r.dueOn ?? '',
      'Likely until': r.dueTo ?? '',
      'Beside the book': r.own === null ? '' : OWN_MARK[r.own],
      'Days left': r.daysLeft ?? '',
      'Last done': r.lastOn ?? '',
      Place: r.place ?? '',
      Unit: r.unit ?? '',
      Station: r.station ?? '',
      Condition: r.condition,
      'Being late': r.late,
    })),
    { escapeFormulae: true, newline: '\r\n' },
  );
}
