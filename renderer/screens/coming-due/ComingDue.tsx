import { useDebouncedCallback, useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { Paper } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { problemOf } from '../../api/problem.ts';
import { Action } from '../../parts/Action.tsx';
import { setDensity, useDensity } from '../../parts/grid/density.ts';
import { Grid, type GridHandle } from '../../parts/grid/Grid.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { WhyPanel } from '../../parts/why/WhyPanel.tsx';
import { Notice, NotReady } from '../../parts/words/NotReady.tsx';
import { AsOf, Counts } from './Counts.tsx';
import { dueColumns } from './columns.tsx';
import styles from './coming-due.module.css';
import { cleared, type FilterHandle, FilterSentence } from './FilterSentence.tsx';
import { Foot } from './Foot.tsx';
import { type DueSearch, type GroupBy, isFiltered, listArgs, sortedBy } from './filter.ts';
import { GroupHeading } from './GroupHeading.tsx';
import { NothingFits, NothingYet } from './Nothing.tsx';
import { useDueRows } from './useDueRows.ts';
import { useExport } from './useExport.ts';
import { useNames } from './useNames.ts';

const GROUPINGS: readonly (GroupBy | undefined)[] = [undefined, 'month', 'unit', 'family'];
const ORDERS = ['due', 'number', 'place', 'title'] as const;

/** The row each list was left at, for coming back to it. */
const lastActive = new Map<string, number>();

/** The list as it stands, with its order and its groups. */
const paperOf = (search: DueSearch): Paper => ({
  paper: 'coming due',
  filter: { ...listArgs(search), ...(search.by ? { by: search.by } : {}) },
});

/** What must be done, by when, and why? */
export function ComingDue({ search }: { search: DueSearch }) {
  useDocumentTitle('Coming due · Baybook');
  const navigate = useNavigate();
  const names = useNames();
  const density = useDensity();
  const summary = useAsk('department.summary', {});
  const rows = useDueRows(search);
  const grid = useRef<GridHandle>(null);
  const filter = useRef<FilterHandle>(null);
  const listKey = JSON.stringify([listArgs(search), search.by]);
  const [active, setActiveNow] = useState(() => lastActive.get(listKey) ?? 0);
  const [begin, setBegin] = useState<string | null>(null);

  const familyTitle = useCallback(
    (family: string) => names.families.find(f => f.id === family)?.title ?? family,
    [names.families],
  );
  const exporting = useExport(summary.data?.today ?? '', familyTitle);
  const line = Math.min(active, Math.max(rows.lines - 1, 0));
  const row = rows.rowAt(line);
  const shown = search.item ?? row?.item;
  const isNew = rows.total === 0 && summary.data?.things === 0;
  const isOpen = search.item !== undefined && search.duty !== undefined;

  const setActive = (at: number) => {
    setActiveNow(at);
    lastActive.set(listKey, at);
  };
  const change = useCallback(
    (next: DueSearch) => {
      setActiveNow(0);
      void navigate({ to: '/due', search: next });
    },
    [navigate],
  );
  const columns = useMemo(() => dueColumns(search, familyTitle, change), [search, familyTitle, change]);
  const show = (item: string | undefined, duty: string | undefined) =>
    void navigate({ to: '/due', search: { ...search, item, duty }, replace: true });
  const follow = useDebouncedCallback((at: number) => {
    const next = rows.rowAt(at);
    if (isOpen && next) show(next.item, next.requirement);
  }, 90);
  const close = () => {
    show(undefined, undefined);
    grid.current?.focus();
  };
  const openAt = (at: number) => {
    const group = rows.groupAt(at);
    if (group) return rows.fold(at, group.folded);
    const next = rows.rowAt(at);
    if (next) show(next.item, next.requirement);
  };
  const start = (deed: string) => {
    if (!row) return;
    setBegin(deed);
    show(row.item, row.requirement);
  };
  const nextOf = <T,>(list: readonly T[], now: T) => list[(list.indexOf(now) + 1) % list.length] as T;

  const sortOn = () => change(sortedBy(search, nextOf(ORDERS, search.sort ?? 'due')));
  const turnDensity = () => setDensity(density === 'dense' ? 'comfortable' : 'dense');

  useKeys('Coming due', [
    {
      key: 'f',
      label: 'Filter by typing; Backspace takes the last one out',
      run: () => filter.current?.focus(),
    },
    { key: 'c', label: 'Clear the filter', run: () => change(cleared(search)) },
    {
      key: 'g',
      label: 'Group by month, unit, family',
      run: () => change({ ...search, by: nextOf(GROUPINGS, search.by) }),
    },
    { key: 's', label: 'Sort by due date, number, place, title', run: sortOn },
    { key: 'v', label: 'Export what is shown', run: () => exporting.begin(search) },
    { key: 'o', label: 'Open the page of the thing', run: () => shown && openPage(shown) },
    { key: 'z', label: 'Rows comfortable or dense', run: turnDensity },
  ]);
  useKeys(
    'The row',
    [
      { key: 'r', label: 'Record a test or inspection', run: () => start('record') },
      { key: 'm', label: 'Move', run: () => start('move') },
      { key: 't', label: 'Tag out', run: () => start('tag out') },
      { key: 'b', label: 'Back in service', run: () => start('return') },
    ],
    !isOpen && row !== undefined,
  );
  useKeys('The panel', [{ key: 'Escape', label: 'Close the panel', run: close }], isOpen);

  const openPage = (item: string) => void navigate({ to: '/thing/$item', params: { item } });

  return (
    <div className={`${styles.screen} ${isOpen ? styles.withPanel : ''}`}>
      <header className={styles.header}>
        <div className={styles.question}>
          <h1>What must be done, by when, and why?</h1>
          <AsOf search={search} />
        </div>
        <Counts search={search} onChange={change} />
      </header>
      <FilterSentence
        search={search}
        names={names}
        onChange={change}
        onLeave={() => grid.current?.focus()}
        handle={filter}
      />
      <div className={styles.table}>
        {rows.failure ? <Notice problem={problemOf(rows.failure)} /> : null}
        {rows.total === undefined && !rows.failure ? (
          <NotReady loaded={{ status: 'pending', error: null }} />
        ) : null}
        {isNew ? <NothingYet onImport={() => void navigate({ to: '/import' })} /> : null}
        {rows.total !== undefined && !isNew ? (
          <Grid
            label="Coming due"
            handle={grid}
            listKey={listKey}
            columns={columns}
            count={rows.lines}
            rowAt={rows.rowAt}
            headingAt={at => {
              const heading = rows.groupAt(at);
              return heading ? <GroupHeading {...heading} /> : null;
            }}
            active={line}
            onActive={at => {
              setActive(at);
              follow(at);
            }}
            onOpen={openAt}
            onFold={rows.fold}
            isOpen={r => r.item === search.item && r.requirement === search.duty}
            onSight={rows.onSight}
            density={density}
            empty={<NothingFits filtered={isFiltered(search)} />}
          />
        ) : null}
      </div>
      <Foot total={rows.total} exporting={exporting}>
        {row && !isOpen ? (
          <>
            <Action weight="quiet" hint="Enter" onClick={() => openAt(line)}>
              Why
            </Action>
            <Action weight="quiet" hint="r" onClick={() => start('record')}>
              Record
            </Action>
            <Action weight="quiet" hint="o" onClick={() => openPage(row.item)}>
              Its page
            </Action>
          </>
        ) : null}
        <span className={styles.footRight}>
          <Action weight="quiet" hint="s" onClick={sortOn}>
            Sort
          </Action>
          <Action weight="quiet" hint="z" onClick={turnDensity}>
            {density === 'dense' ? 'Comfortable rows' : 'Dense rows'}
          </Action>
          <PrintAction paper={paperOf(search)} label="Print" disabled={!rows.total} />
          <Action weight="quiet" hint="v" onClick={() => exporting.begin(search)} disabled={!rows.total}>
            Export what is shown
          </Action>
        </span>
      </Foot>
      {isOpen ? (
        <WhyPanel
          item={search.item ?? ''}
          duty={search.duty ?? ''}
          begin={begin}
          onBegun={() => setBegin(null)}
          onClose={close}
          onOpenPage={openPage}
        />
      ) : null}
    </div>
  );
}
