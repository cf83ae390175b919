import type { FillLine } from '../../../db/api-supply.ts';
import { againstWords } from '../../../domain/supply/fill-against.ts';
import { grouped, showMeasure, type UnitSystem } from '../../../domain/units.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import styles from './fills.module.css';

const soft = (text: string) => <span className={styles.soft}>{text}</span>;

export const columns = (measures: UnitSystem): readonly TableColumn<FillLine>[] => {
  const psi = (n: number | null) =>
    n === null ? soft('–') : measures === 'US' ? grouped(n) : showMeasure(n, 'psi', measures);
  const unit = measures === 'US' ? ', psi' : '';
  return [
    {
      key: 'number',
      head: 'Bottle',
      cell: l => (
        <strong className={styles.oneLine}>
          <span className="mono">{l.number}</span>
        </strong>
      ),
    },
    {
      key: 'on',
      head: 'Filled',
      figure: true,
      cell: l => <span className={styles.oneLine}>{dateText(l.on)}</span>,
    },
    { key: 'filler', head: 'By', cell: l => <span className={styles.oneLine}>{l.filler}</span> },
    {
      key: 'hydro',
      head: 'Hydro read',
      figure: true,
      cell: l => (l.hydroDate ? dateText(l.hydroDate) : soft('–')),
    },
    { key: 'from', head: `From${unit}`, figure: true, cell: l => psi(l.from_psi) },
    { key: 'to', head: `To${unit}`, figure: true, cell: l => psi(l.to_psi) },
    {
      key: 'at',
      head: 'At',
      cell: l => <span className={styles.oneLine}>{l.compressor?.number ?? soft('–')}</span>,
    },
    { key: 'against', head: 'What spoke against it', cell: l => <Against line={l} /> },
  ];
};

function Against({ line }: { line: FillLine }) {
  const { against, pulled, owner, checked, note } = line;
  const told = against.filter(a => a.effect !== 'note');
  return (
    <span className={styles.cut}>
      {pulled ? owner === null ? <StateMark state="tagged out" /> : <b>Set aside</b> : null}
      {pulled ? ' ' : ''}
      {owner === null ? '' : `${owner}. `}
      {told.length > 0 ? told.map(againstWords).join(' ') : ''}
      {checked ? null : soft('Recorded as a service')}
      {note === null ? null : soft(` ${note}`)}
    </span>
  );
}
