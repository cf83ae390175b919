/**
 * The table: a window on a list of any length. The head stays, the first column is ruled off like a journal's
 * margin, one row is the active one. The focus stays on the table and arrows move the active row, so rows may come
 * and go under it.
 */
import { useElementSize } from '@mantine/hooks';
import { useVirtualizer } from '@tanstack/react-virtual';
import {
  type CSSProperties,
  type KeyboardEvent,
  memo,
  type ReactNode,
  type Ref,
  useCallback,
  useEffect,
  useId,
  useImperativeHandle,
  useMemo,
  useRef,
} from 'react';
import { rowHeight } from './density.ts';
import styles from './grid.module.css';

export interface Column<R> {
  key: string;
  head: ReactNode;
  /** As in a grid template: `9ch`, `minmax(8ch, 1fr)`. */
  width: string;
  figure?: boolean;
  /** Left out where the table is narrow: what else can be seen in the panel beside it. */
  spare?: boolean;
  /** Where it holds for a row, what the cell says runs on over the empty cells after it. */
  spills?: (row: R) => boolean;
  sort?: { state: 'ascending' | 'descending' | 'none'; onSort: () => void };
  cell: (row: R) => ReactNode;
}

export interface GridHandle {
  focus(): void;
}

interface GridProps<R> {
  /** What the table holds, for readers. */
  label: string;
  columns: readonly Column<R>[];
  count: number;
  /** The row at a place, or undefined while its page is on its way. */
  rowAt: (index: number) => R | undefined;
  /** A heading over rows in place of a row: drawn across the whole width. */
  headingAt?: (index: number) => ReactNode | null;
  active: number;
  onActive: (index: number) => void;
  /** Enter or a click on the row. */
  onOpen?: (index: number) => void;
  /** The row that is open beside the table. */
  isOpen?: (row: R) => boolean;
  /** Which places are in sight, so that their pages can be asked for. */
  onSight?: (first: number, last: number) => void;
  density: 'comfortable' | 'dense';
  /** What stands under the head where there are no rows; the table stays, and so does the focus. */
  empty?: ReactNode;
  /** Left and right on the active row: a heading closes and opens. */
  onFold?: (index: number, open: boolean) => void;
  /** Changes when it becomes another list: the table then starts at its top. */
  listKey?: string;
  /** Takes the focus when it appears where nothing has it, so that its keys work at once. */
  takesFocus?: boolean;
  handle?: Ref<GridHandle>;
}

export function Grid<R>(props: GridProps<R>) {
  const { label, count, rowAt, headingAt, active, onActive, onOpen, isOpen, onSight, density, onFold } =
    props;
  const { listKey, takesFocus = true } = props;
  const { ref: frame, width } = useElementSize();
  // Until it is measured it is taken for wide.
  const isNarrow = width > 0 && width < NARROW;
  const columns = useMemo(
    () => (isNarrow ? props.columns.filter(c => !c.spare) : props.columns),
    [isNarrow, props.columns],
  );
  const scroller = useRef<HTMLTableElement>(null);
  const id = useId();
  const height = rowHeight(density);
  const rows = useVirtualizer({
    count,
    getScrollElement: () => scroller.current,
    estimateSize: () => height,
    overscan: 8,
    // The head stands over the rows and stays: rows begin under it, and are not hidden behind it.
    scrollMargin: HEAD_HEIGHT,
    scrollPaddingStart: HEAD_HEIGHT,
  });
  const seen = rows.getVirtualItems();
  const above = (seen[0]?.start ?? HEAD_HEIGHT) - HEAD_HEIGHT;
  const below = rows.getTotalSize() + HEAD_HEIGHT - (seen.at(-1)?.end ?? HEAD_HEIGHT);
  const first = seen[0]?.index ?? 0;
  const last = seen.at(-1)?.index ?? 0;

  // biome-ignore lint/correctness/useExhaustiveDependencies: heights are measured anew when the density changes.
  useEffect(() => rows.measure(), [density]);
  useEffect(() => onSight?.(first, last), [first, last, onSight]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only where another list begins, not on every move.
  useEffect(() => {
    if (active > 0) rows.scrollToIndex(active, { align: 'center' });
    else rows.scrollToOffset(0);
  }, [listKey]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when it appears.
  useEffect(() => {
    if (takesFocus && document.activeElement === document.body)
      scroller.current?.focus({ preventScroll: true });
  }, []);
  useImperativeHandle(
    props.handle,
    () => ({ focus: () => scroller.current?.focus({ preventScroll: true }) }),
    [],
  );

  const go = (index: number) => {
    const to = Math.min(Math.max(index, 0), count - 1);
    if (to < 0) return;
    onActive(to);
    rows.scrollToIndex(to);
  };
  const page = () =>
    Math.max(1, Math.floor(((scroller.current?.clientHeight ?? 0) - HEAD_HEIGHT) / height) - 1);

  const moveOf = (key: string): (() => void) | undefined => {
    switch (key) {
      case 'ArrowDown':
        return () => go(active + 1);
      case 'ArrowUp':
        return () => go(active - 1);
      case 'PageDown':
        return () => go(active + page());
      case 'PageUp':
        return () => go(active - page());
      case 'Home':
        return () => go(0);
      case 'End':
        return () => go(count - 1);
      case 'Enter':
        return () => onOpen?.(active);
      case 'ArrowLeft':
      case 'ArrowRight':
        return onFold && (() => onFold(active, key === 'ArrowRight'));
    }
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.altKey || event.ctrlKey || event.metaKey) return;
    const move = moveOf(event.key);
    if (!move) return;
    event.preventDefault();
    move();
  };

  const clicked = useRef<(index: number) => void>(undefined);
  clicked.current = index => {
    onActive(index);
    onOpen?.(index);
  };
  const onRowClick = useCallback((index: number) => clicked.current?.(index), []);

  const template = { '--columns': columns.map(c => c.width).join(' ') } as CSSProperties;
  return (
    <div ref={frame} className={styles.frame} style={template}>
      {/* The focus stays on the table; the active row is told by its id. */}
      <table
        ref={scroller}
        className={styles.scroller}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table whose rows are reached by keys is a grid, by the WAI-ARIA grid pattern.
        role="grid"
        aria-label={label}
        aria-rowcount={count + 1}
        aria-activedescendant={count > 0 ? `${id}-${active}` : undefined}
        tabIndex={0}
        onKeyDown={onKeyDown}
      >
        <thead className={styles.headGroup}>
          <tr aria-rowindex={1} className={`${styles.row} ${styles.head}`}>
            {columns.map(c => (
              <HeadCell key={c.key} column={c} />
            ))}
          </tr>
        </thead>
        {/* Rows lie one under another between two spaces: a row that carried its own place would be styled anew by itself. */}
        <tbody aria-hidden="true" className={styles.space} style={{ height: above }} />
        <tbody className={styles.body}>
          {seen.map(({ index }) => {
            const row = rowAt(index);
            return (
              <GridRow
                key={index}
                id={`${id}-${index}`}
                index={index}
                columns={columns as readonly Column<unknown>[]}
                row={row}
                heading={headingAt?.(index) ?? null}
                active={index === active}
                open={isOpen && row !== undefined ? isOpen(row) : null}
                onClick={onRowClick}
              />
            );
          })}
        </tbody>
        <tbody aria-hidden="true" className={styles.space} style={{ height: below }} />
      </table>
      {count === 0 ? <div className={styles.empty}>{props.empty}</div> : null}
    </div>
  );
}

const HEAD_HEIGHT = 28;
const NARROW = 940;

function HeadCell<R>({ column }: { column: Column<R> }) {
  const { sort } = column;
  return (
    <th scope="col" className={cellClass(column)} {...(sort ? { 'aria-sort': sort.state } : {})}>
      {sort ? (
        <button type="button" className={styles.sort} onClick={sort.onSort} tabIndex={-1}>
          {column.head}
          <span aria-hidden="true" className={styles.arrow}>
            {sort.state === 'none' ? '' : sort.state === 'ascending' ? '▲' : '▼'}
          </span>
        </button>
      ) : (
        column.head
      )}
    </th>
  );
}

interface GridRowProps {
  id: string;
  index: number;
  columns: readonly Column<unknown>[];
  row: unknown;
  heading: ReactNode | null;
  active: boolean;
  /** Null where rows of the table do not open. */
  open: boolean | null;
  onClick: (index: number) => void;
}

/** Drawn anew only when something of its own has changed: rows that stay in sight cost nothing while scrolling. */
const GridRow = memo(function GridRow(props: GridRowProps) {
  const { id, index, columns, row, heading, active, open, onClick } = props;
  const state = [
    active ? styles.active : '',
    open ? styles.open : '',
    heading === null ? '' : styles.heading,
  ];
  return (
    <tr
      id={id}
      aria-rowindex={index + 2}
      className={[styles.row, ...state].join(' ')}
      onClick={() => onClick(index)}
      {...(open === null ? {} : { 'aria-selected': open })}
    >
      {heading !== null ? (
        <td colSpan={columns.length}>{heading}</td>
      ) : row === undefined ? (
        // On its way: no more than the margin, so that a list can fly past at the speed of the hand.
        <>
          <td className={styles.cell} />
          <td colSpan={columns.length - 1} />
        </>
      ) : (
        columns.map(c => (
          <td key={c.key} className={`${cellClass(c)} ${c.spills?.(row) ? styles.spills : ''}`}>
            {c.cell(row)}
          </td>
        ))
      )}
    </tr>
  );
});

function cellClass<R>(column: Column<R>): string {
  return `${styles.cell} ${column.figure ? styles.figure : ''}`;
}
