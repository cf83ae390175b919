/** A short table, held whole: one row has the focus, arrows move it, Enter opens. */
import { type KeyboardEvent, type ReactNode, useState } from 'react';
import styles from './rowtable.module.css';

export interface TableColumn<R> {
  key: string;
  head: ReactNode;
  figure?: boolean;
  cell: (row: R) => ReactNode;
}

interface RowTableProps<R> {
  label: string;
  columns: readonly TableColumn<R>[];
  rows: readonly R[];
  keyOf: (row: R) => string;
  onOpen?: (row: R) => void;
  /** Keys of the row that has the focus. */
  onKey?: (row: R, key: string) => boolean;
  /** Told the row that takes the focus. */
  onActive?: (row: R) => void;
  isOpen?: (row: R) => boolean;
  isFaint?: (row: R) => boolean;
}

/** How many rows each key goes on; Home and End go as far as there are any. */
const STEPS: Readonly<Record<string, number>> = {
  ArrowDown: 1,
  ArrowUp: -1,
  PageDown: 10,
  PageUp: -10,
  End: Number.MAX_SAFE_INTEGER,
  Home: -Number.MAX_SAFE_INTEGER,
};

export function RowTable<R>(props: RowTableProps<R>) {
  const { label, columns, rows, keyOf, onOpen, onKey, onActive, isOpen, isFaint } = props;
  const [active, setActive] = useState(0);
  const at = Math.min(active, Math.max(rows.length - 1, 0));

  const onKeyDown = (event: KeyboardEvent<HTMLTableRowElement>, row: R) => {
    if (event.target !== event.currentTarget || event.altKey || event.ctrlKey || event.metaKey) return;
    const step = STEPS[event.key];
    if (step !== undefined) {
      const all = [...(event.currentTarget.parentElement?.children ?? [])];
      const next = Math.min(Math.max(all.indexOf(event.currentTarget) + step, 0), all.length - 1);
      (all[next] as HTMLElement | undefined)?.focus();
    } else if (event.key === 'Enter' && onOpen) onOpen(row);
    else if (!onKey?.(row, event.key)) return;
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table whose rows are reached by keys is a grid, by the WAI-ARIA grid pattern.
    <table className={styles.table} role="grid" aria-label={label}>
      <thead>
        <tr>
          {columns.map(c => (
            <th key={c.key} scope="col" className={c.figure ? styles.figure : undefined}>
              {c.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          <tr
            key={keyOf(row)}
            tabIndex={i === at ? 0 : -1}
            className={[isOpen?.(row) ? styles.open : '', isFaint?.(row) ? styles.faint : ''].join(' ')}
            {...(isOpen ? { 'aria-selected': isOpen(row) } : {})}
            onFocus={() => {
              setActive(i);
              onActive?.(row);
            }}
            onKeyDown={event => onKeyDown(event, row)}
            {...(onOpen ? { onClick: () => onOpen(row), 'data-opens': true } : {})}
          >
            {columns.map(c => (
              <td key={c.key} className={c.figure ? styles.figure : undefined}>
                {c.cell(row)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
