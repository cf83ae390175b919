/** Which rig the crew takes: its own first, then the reserves that nobody rides. */
import type { RigLine, RigPage } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { RigState } from './RigState.tsx';
import styles from './rigs.module.css';

interface ToWhichProps {
  page: Pick<RigPage, 'id' | 'unit' | 'name'>;
  onClose: () => void;
  onPick: (rig: string) => void;
}

export function ToWhich({ page, onClose, onPick }: ToWhichProps) {
  const rigs = useAsk('rigs.list', {});
  const rows = (rigs.data ?? [])
    .filter(r => r.id !== page.id && r.unit === null)
    .sort((a, b) => rank(a, page) - rank(b, page));
  return (
    <Dialog title={`Which rig does the crew of ${page.unit ?? page.name} take?`} onClose={onClose}>
      {rigs.data === undefined ? <NotReady loaded={rigs} /> : null}
      {rigs.data && rows.length === 0 ? (
        <p className={styles.soft}>
          Every other rig is ridden by a crew. Say on the page of a rig that nobody rides it first.
        </p>
      ) : null}
      {rows.length > 0 ? (
        <>
          <RowTable
            label="Rigs that nobody rides"
            columns={COLUMNS}
            rows={rows}
            keyOf={r => r.id}
            onOpen={r => onPick(r.id)}
          />
          <p className={styles.soft}>
            <KeyHint of="Enter" /> shows what moves; nothing is written yet
          </p>
        </>
      ) : null}
    </Dialog>
  );
}

/** A rig of the unit's name is its own; what is in service comes before what is not. */
const rank = (rig: RigLine, page: Pick<RigPage, 'unit'>): number =>
  (rig.name === page.unit ? 0 : rig.standing === 'reserve' ? 1 : 2) * 3 +
  (rig.condition === 'in service' ? 0 : rig.condition === 'limited' ? 1 : 2);

const COLUMNS: readonly TableColumn<RigLine>[] = [
  { key: 'name', head: 'Rig', cell: r => <strong className={styles.oneLine}>{r.name}</strong> },
  { key: 'standing', head: 'Standing', cell: r => (r.standing === 'reserve' ? 'Reserve' : 'First line') },
  { key: 'station', head: 'Station', cell: r => <span className={styles.oneLine}>{r.station ?? '–'}</span> },
  { key: 'condition', head: 'Condition', cell: r => <RigState condition={r.condition} /> },
  { key: 'things', head: 'Things', figure: true, cell: r => r.things.toLocaleString('en-US') },
];
