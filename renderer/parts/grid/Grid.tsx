/**
 * The table: a window on a list of any length. The head stays, the first column is ruled off like a journal's
 * margin, one row is the active one. The focus stays on the table and arrows move the active row, so rows may come
 * and go under it.
 */
import { useVirtualizer } from '@tanstack/react-virtual';
import {
  type KeyboardEvent,
  type ReactNode,
  type Ref,
  useEffect,
  useId,
  useImperativeHandle,
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
  /** Left out where the table is narrower than its `narrow`. */
  spare?: boolean;
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
  /** Left and right on the active row: a heading closes and opens. */
  onFold?: (index: number, open: boolean) => void;
  /** Changes when it becomes another list: the table then starts at its top. */
  listKey?: string;
  handle?: Ref<GridHandle>;
}

export function Grid<R>(props: GridProps<R>) {
  const {
    label,
    columns,
    count,
    rowAt,
    headingAt,
    active,
    onActive,
    onOpen,
    isOpen,
    onSight,
    density,
    onFold,
  } = props;
  const { listKey } = props;
  const scroller = useRef<HTMLTableElement>(null);
  const id = useId();
  const height = rowHeight(density);
  const rows = useVirtualizer({
    count,
    getScrollElement: () => scroller.current,
    estimateSize: () => height,
    overscan: 14,
    // The head stands over the rows and stays: rows begin under it, and are not hidden behind it.
    scrollMargin: HEAD_HEIGHT,
    scrollPaddingStart: HEAD_HEIGHT,
  });
  const seen = rows.getVirtualItems();
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
  // A table that appears where nothing has the focus takes it, so that its keys work at once.
  useEffect(() => {
    if (document.activeElement === document.body) scroller.current?.focus({ preventScroll: true });
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

  const template = { '--columns': columns.map(c => c.width).join(' ') } as React.CSSProperties;
  const wide = columns.filter(c => !c.spare);
  const narrowTemplate = { '--columns-narrow': wide.map(c => c.width).join(' ') } as React.CSSProperties;
  return (
    <div className={styles.frame} style={{ ...template, ...narrowTemplate }}>
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
        <tbody className={styles.body} style={{ height: rows.getTotalSize() }}>
          {seen.map(({ index, start }) => (
            <GridRow
              key={index}
              id={`${id}-${index}`}
              index={index}
              top={start - HEAD_HEIGHT}
              height={height}
              columns={columns}
              row={rowAt(index)}
              heading={headingAt?.(index) ?? null}
              active={index === active}
              isOpen={isOpen}
              onClick={() => {
                onActive(index);
                onOpen?.(index);
              }}
            />
          ))}
        </tbody>
      </table>
    </div>
  );
}

const HEAD_HEIGHT = 28;

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

interface GridRowProps<R> {
  id: string;
  index: number;
  top: number;
  height: number;
  columns: readonly Column<R>[];
  row: R | undefined;
  heading: ReactNode | null;
  active: boolean;
  isOpen: ((row: R) => boolean) | undefined;
  onClick: () => void;
}

function GridRow<R>({
  id,
  index,
  top,
  height,
  columns,
  row,
  heading,
  active,
  isOpen,
  onClick,
}: GridRowProps<R>) {
  const open = row !== undefined && isOpen?.(row) === true;
  const place = { transform: `translateY(${top}px)`, height };
  const classes = `${styles.row} ${active ? styles.active : ''} ${open ? styles.open : ''}`;
  return (
    <tr
      id={id}
      aria-rowindex={index + 2}
      className={`${classes} ${heading === null ? '' : styles.heading}`}
      style={place}
      onClick={onClick}
      {...(isOpen && heading === null ? { 'aria-selected': open } : {})}
    >
      {heading === null ? (
        columns.map(c => (
          <td key={c.key} className={cellClass(c)}>
            {row === undefined ? null : c.cell(row)}
          </td>
        ))
      ) : (
        <td colSpan={columns.length}>{heading}</td>
      )}
    </tr>
  );
}

function cellClass<R>(column: Column<R>): string {
  return `${styles.cell} ${column.figure ? styles.figure : ''} ${column.spare ? styles.spare : ''}`;
}
