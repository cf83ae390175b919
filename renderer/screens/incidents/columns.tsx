/** The columns of one rig's numbers: what each is, and what settling will do with it. */
import type { IncidentRig } from '../../../db/api-incidents.ts';
import type { Choices } from '../../../domain/incident/settlement.ts';
import type { TableColumn } from '../../parts/grid/RowTable.tsx';
import styles from './incidents.module.css';
import type { Row } from './rows.ts';

const IS_WORDS: Readonly<Record<Row['is'], string>> = {
  waiting: 'Being kept…',
  missing: 'Missing',
  duplicated: 'In doubt',
  foreign: 'Foreign',
  'other rig': 'Another rig’s',
  elsewhere: 'From elsewhere',
  own: 'Its own',
};
const WRONG: ReadonlySet<Row['is']> = new Set(['missing', 'duplicated', 'foreign']);

export const columnsFor = (rig: IncidentRig, choices: Choices): readonly TableColumn<Row>[] => [
  { key: 'number', head: 'Number', cell: r => <span className={`mono ${styles.oneLine}`}>{r.number}</span> },
  {
    key: 'is',
    head: 'It is',
    cell: r => (
      <span className={styles.oneLine}>
        {WRONG.has(r.is) ? <b className={styles.wrong}>{IS_WORDS[r.is]}</b> : IS_WORDS[r.is]}
      </span>
    ),
  },
  { key: 'what', head: 'What', cell: r => <span className={styles.oneLine}>{r.what}</span> },
  { key: 'at', head: 'Read in', cell: r => <span className={styles.oneLine}>{r.at}</span> },
  { key: 'used', head: 'Used', cell: r => (r.used ? 'used' : '') },
  { key: 'where', head: 'Whose, or where', cell: r => r.where },
  { key: 'then', head: 'Settling it', cell: r => thenWords(r, rig, choices) },
];

/** What settling does with the row, as it is chosen now. */
function thenWords(row: Row, rig: IncidentRig, choices: Choices): string {
  switch (row.is) {
    case 'missing': {
      const choice = choices.missing.find(m => m.item === row.lost?.thing.item);
      if (!choice || choice.as === 'leave') return 'left as it is';
      return choice.as === 'searched' ? `missing; searched for: ${choice.where}` : 'reported missing';
    }
    case 'duplicated': {
      const item = choices.which.find(w => w.rig === rig.rig && w.number === row.number)?.item;
      return item === undefined ? 'nothing, until it is decided' : `lies on ${rig.name}`;
    }
    case 'foreign': {
      const whose = choices.foreign.find(f => f.rig === rig.rig && f.number === row.number)?.whose;
      return whose ? `taken for ${whose}` : 'kept as nobody’s';
    }
    case 'own':
      return row.where === '' ? '' : `lies in ${row.at}`;
    case 'other rig':
    case 'elsewhere':
      return `lies on ${rig.name}${row.at ? `, ${row.at}` : ''}`;
    default:
      return '';
  }
}
