import { StateMark } from '../../parts/state/StateMark.tsx';
import { monthText } from '../../parts/words/dates.tsx';
import styles from './coming-due.module.css';

/** The line over the rows of a group: its name, its rows, and how they stand. */
export function GroupHeading({
  group,
  folded,
}: {
  group: { key: string; title: string; total: number; byState: object };
  folded: boolean;
}) {
  const states = Object.entries(group.byState) as [Parameters<typeof StateMark>[0]['state'], number][];
  return (
    <span className={styles.groupHeading}>
      <span aria-hidden="true">{folded ? '▸' : '▾'}</span> {groupTitle(group)}
      <b>{group.total.toLocaleString('en-US')}</b>
      {states.map(([state, n]) => (
        <span key={state} className={styles.groupState}>
          {n.toLocaleString('en-US')} <StateMark state={state} />
        </span>
      ))}
      <span className="seen-by-readers">{folded ? 'folded' : 'open'}</span>
    </span>
  );
}

/** A month is told by its number; it is shown by its name. */
function groupTitle({ key, title }: { key: string; title: string }): string {
  return /^\d{4}-\d{2}$/.test(key) ? monthText(key) : title;
}
