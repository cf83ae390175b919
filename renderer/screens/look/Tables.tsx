import { useState } from 'react';
import type { DueState } from '../../../domain/derive/due.ts';
import { MARK_STATES } from '../../../domain/derive/marks.ts';
import { useDensity } from '../../parts/grid/density.ts';
import { type Column, Grid } from '../../parts/grid/Grid.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DateText, daysFigure } from '../../parts/words/dates.tsx';
import styles from './look.module.css';

interface Specimen {
  number: string;
  state: (typeof MARK_STATES)[number] | DueState;
  dueOn: string | null;
  days: number | null;
}

const DATES: readonly (readonly [string | null, number | null])[] = [
  ['2024-03-31', -969],
  [null, null],
  [null, null],
  ['2026-06-14', -164],
  ['2027-02-01', 68],
  ['2027-03-14', 109],
  [null, null],
  ['2026-12-01', 6],
  ['2027-11-02', 342],
  [null, null],
];

const ROWS: readonly Specimen[] = MARK_STATES.map((state, i) => ({
  number: `31-${107 + i * 11}`,
  state,
  dueOn: DATES[i]?.[0] ?? null,
  days: DATES[i]?.[1] ?? null,
}));

const COLUMNS: readonly Column<Specimen>[] = [
  { key: 'number', head: 'Number', width: '11ch', cell: r => <span>{r.number}</span> },
  { key: 'state', head: 'State', width: 'minmax(14ch, 1fr)', cell: r => <StateMark state={r.state} /> },
  {
    key: 'due',
    head: 'Due',
    width: '12ch',
    figure: true,
    sort: { state: 'ascending', onSort: () => {} },
    cell: r => <DateText date={r.dueOn} />,
  },
  {
    key: 'days',
    head: 'Days left',
    width: '9ch',
    figure: true,
    cell: r => <span>{daysFigure(r.days)}</span>,
  },
];

/** A table with a row in every state. */
export function Tables() {
  const density = useDensity();
  const [active, setActive] = useState(3);
  return (
    <section aria-label="Tables">
      <h2>Tables</h2>
      <p className={styles.lead}>
        The number stands before the journal’s margin. Figures to the right, units in the head. Washed with a
        bar: the row you are on.
      </p>
      <div className={styles.specimen}>
        <Grid
          label="Specimen"
          columns={COLUMNS}
          count={ROWS.length}
          rowAt={i => ROWS[i]}
          active={active}
          onActive={setActive}
          density={density}
          takesFocus={false}
        />
      </div>
    </section>
  );
}
