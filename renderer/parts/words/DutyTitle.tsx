import type { DueListRow } from '../../../db/api.ts';
import { OWN_MARK, rangeWords } from '../../../domain/rulebook/due-words.ts';
import { DateText } from './dates.tsx';
import styles from './words.module.css';

/** What is owed, with the mark of a rule of the department's own, and of a projection its range. */
export function DutyTitle({ row }: { row: Pick<DueListRow, 'title' | 'own' | 'dueOn' | 'dueTo'> }) {
  const range = rangeWords(row.dueOn, row.dueTo);
  return (
    <span className={styles.duty}>
      <span className={styles.dutyTitle}>{row.title}</span>
      {row.own === null ? null : (
        <span className={row.own === 'looser' ? styles.looser : styles.own}> · {OWN_MARK[row.own]}</span>
      )}
      {range === null ? null : <span className={styles.range}> · {range}</span>}
    </span>
  );
}

/** When: a day, or of a projection its earliest, marked as about. */
export function DueDate({ row }: { row: Pick<DueListRow, 'dueOn' | 'dueTo' | 'owedSince'> }) {
  return (
    <span>
      {row.dueTo === null ? null : <span title="A range: a reading decides">≈ </span>}
      <DateText date={row.dueOn ?? row.owedSince} />
    </span>
  );
}
