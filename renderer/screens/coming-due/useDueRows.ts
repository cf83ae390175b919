/** The list of Coming due as lines of a table: rows, or groups with their headings, as a window on the query. */
import { useState } from 'react';
import type { DueFilter, DueGroup, DueListRow } from '../../../db/api.ts';
import { question, useAsk } from '../../api/ask.ts';
import {
  PAGE_ROWS,
  type PageQuery,
  type RowWindow,
  type Stretch,
  useWindow,
} from '../../parts/grid/useWindow.ts';
import { type DueSearch, filterArgs, type GroupBy, listArgs } from './filter.ts';

export interface DueRows extends RowWindow<DueListRow> {
  /** How many rows the filter finds; undefined while the first answer is on its way. */
  total: number | undefined;
  failure: Error | null;
  groupAt: (line: number) => { group: DueGroup; folded: boolean } | null;
  fold: (line: number, open: boolean) => void;
}

export function useDueRows(search: DueSearch): DueRows {
  const [folded, setFolded] = useState<ReadonlySet<string>>(new Set());
  const { by } = search;
  const args = listArgs(search);
  const first = useAsk('due.list', { ...args, limit: PAGE_ROWS, offset: 0 }, { keep: true });
  const groups = useAsk(
    'due.groups',
    { ...filterArgs(search), by: by ?? 'month' },
    { when: by !== undefined },
  );

  const pageOf =
    (more: object, from = 0) =>
    (offset: number): PageQuery<DueListRow> =>
      question('due.list', {
        ...args,
        ...more,
        limit: PAGE_ROWS,
        offset: from + offset,
      }) as unknown as PageQuery<DueListRow>;
  const total = first.data?.total;
  const inOrder = by === 'month' && search.descending ? groups.data?.toReversed() : groups.data;
  const stretches: Stretch<DueListRow>[] = [];
  let from = 0;
  for (const group of inOrder ?? []) {
    stretches.push({
      key: group.key,
      rows: folded.has(group.key) ? 0 : group.total,
      headed: true,
      // Months lie one after another in the list by date; units and families are asked for one by one.
      pageOf: by === 'month' ? pageOf({}, from) : pageOf(groupFilter(by, group.key)),
    });
    from += group.total;
  }
  if (by === undefined) stretches.push({ key: 'all', rows: total ?? 0, headed: false, pageOf: pageOf({}) });
  const rows = useWindow(stretches);
  const groupAt = (line: number) => {
    const spot = by === undefined ? null : rows.spotAt(line);
    const group = spot && spot.row < 0 ? inOrder?.[spot.stretch] : undefined;
    return group ? { group, folded: folded.has(group.key) } : null;
  };
  return {
    ...rows,
    total,
    failure: first.error ?? (by === undefined ? null : groups.error) ?? rows.error,
    groupAt,
    fold(line, open) {
      const key = groupAt(line)?.group.key;
      if (key === undefined) return;
      setFolded(before => {
        const next = new Set(before);
        if (open) next.delete(key);
        else next.add(key);
        return next;
      });
    },
  };
}

function groupFilter(by: GroupBy | undefined, key: string): DueFilter {
  if (by === 'family') return { family: key };
  return { unit: key === '' ? 'none' : key };
}
