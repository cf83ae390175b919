/** Everything tagged out, at repair, held or missing in the whole department, the oldest first: what is stuck. */
import { differenceInCalendarDays, parseISO } from 'date-fns';
import type { Readiness } from '../../../db/api-desk.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './readiness.module.css';

type OutLine = Readiness['outOfService'][number];

interface OutOfServiceProps {
  lines: readonly OutLine[];
  on: string;
  onOpenPage: (item: string) => void;
}

export function OutOfService({ lines, on, onOpenPage }: OutOfServiceProps) {
  return (
    <section className={styles.block} aria-label="Out of service, the oldest first">
      <h2>
        Out of service, the oldest first
        <span className={styles.soft}>{lines.length > 0 ? countWords(lines) : ''}</span>
      </h2>
      {lines.length === 0 ? (
        <p className={styles.nothing}>Nothing is tagged out, at repair, held or missing.</p>
      ) : (
        <RowTable
          label="Out of service, the oldest first"
          columns={columnsOn(on)}
          rows={lines}
          keyOf={l => l.item}
          onOpen={l => onOpenPage(l.item)}
        />
      )}
    </section>
  );
}

const CONDITIONS = ['missing', 'held for investigation', 'tagged out', 'at repair'] as const;

function countWords(lines: readonly OutLine[]): string {
  return CONDITIONS.map(c => ({ c, n: lines.filter(l => l.condition === c).length }))
    .filter(({ n }) => n > 0)
    .map(({ c, n }) => `${n} ${c}`)
    .join(', ');
}

const columnsOn = (on: string): TableColumn<OutLine>[] => [
  { key: 'number', head: 'Number', cell: l => <span className={styles.number}>{l.number}</span> },
  {
    key: 'condition',
    head: 'Condition',
    cell: l => <ConditionWord condition={l.condition} />,
  },
  { key: 'since', head: 'Since', figure: true, cell: l => (l.since ? dateText(l.since.slice(0, 10)) : '–') },
  { key: 'days', head: 'Days', figure: true, cell: l => daysOut(l.since, on) },
  {
    key: 'what',
    head: 'What, and why',
    cell: l => (
      <span className={styles.wraps}>
        {l.what}
        {l.reason ? <span className={styles.why}>{l.reason}</span> : null}
      </span>
    ),
  },
  {
    key: 'place',
    head: 'Where',
    cell: l => <span className={styles.where}>{l.place ?? 'Place not known'}</span>,
  },
];

/** Whole days since the day it went out, where that day is known. */
function daysOut(since: string | null, on: string): string {
  if (since === null || since.length < 'YYYY-MM-DD'.length) return '';
  return differenceInCalendarDays(parseISO(on), parseISO(since.slice(0, 10))).toLocaleString('en-US');
}
