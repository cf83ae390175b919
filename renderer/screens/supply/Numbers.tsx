import type { SupplyLine, SupplyList } from '../../../db/api-supply.ts';
import styles from './supply.module.css';

/** What the list can be narrowed to. */
export const NARROWED = {
  short: { title: 'short', fits: (l: SupplyLine) => l.short > 0 },
  expired: { title: 'with expired', fits: (l: SupplyLine) => l.expired > 0 },
  soon: {
    title: 'expiring soon',
    fits: (l: SupplyLine) => l.lots.some(lot => lot.onHand > 0 && lot.state === 'expires soon'),
  },
  owed: { title: 'owing a count', fits: (l: SupplyLine) => l.countOwed },
} as const;
export type Narrowed = keyof typeof NARROWED;

/** The answer in one line; each number narrows the list to what it counts. */
export function Numbers({
  list,
  narrowed,
  onNarrow,
}: {
  list: SupplyList;
  narrowed: Narrowed | null;
  onNarrow: (to: Narrowed | null) => void;
}) {
  return (
    <p className={styles.numbers}>
      <button type="button" aria-pressed={narrowed === null} onClick={() => onNarrow(null)}>
        <b>{list.kinds.toLocaleString('en-US')}</b> kinds, <b>{list.rows.length.toLocaleString('en-US')}</b>{' '}
        places
      </button>
      {(Object.keys(NARROWED) as Narrowed[]).map(key => {
        const n = list.rows.filter(NARROWED[key].fits).length;
        return (
          <button
            key={key}
            type="button"
            aria-pressed={narrowed === key}
            disabled={n === 0}
            onClick={() => onNarrow(narrowed === key ? null : key)}
          >
            <b className={n > 0 && key !== 'soon' ? styles.wrong : undefined}>{n}</b> {NARROWED[key].title}
          </button>
        );
      })}
    </p>
  );
}
