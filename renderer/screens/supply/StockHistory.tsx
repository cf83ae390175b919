import { useEffect, useRef, useState } from 'react';
import type { HistoryLine } from '../../../db/api.ts';
import type { SupplyLine } from '../../../db/api-supply.ts';
import { amountWords } from '../../../domain/supply/boxes.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { voidForm } from '../../parts/deeds/voidForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { DateText } from '../../parts/words/dates.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { lotWords } from './amounts.ts';
import styles from './supply.module.css';

interface StockHistoryProps {
  what: string;
  stock: string;
  perBox: number | null;
  /** Its lots in the place that was open, the first to be used first; none where no place was. */
  line: SupplyLine | null;
  today: string;
  onClose: () => void;
}

/** What lies there lot by lot, and everything that was told of the stock; a mistake is voided in the open. */
export function StockHistory({ what, stock, perBox, line, today, onClose }: StockHistoryProps) {
  const history = useAsk('supply.history', { stock });
  const [voiding, setVoiding] = useState<HistoryLine | null>(null);
  const rows = useRef<HTMLDivElement>(null);
  const isRead = history.data !== undefined && voiding === null;
  useEffect(() => {
    if (isRead) rows.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  if (voiding)
    return (
      <DeedDialog
        form={voidForm(voiding.fact, voiding.what)}
        today={today}
        onClose={() => setVoiding(null)}
      />
    );
  return (
    <Dialog title={what} onClose={onClose} wide>
      {line && line.lots.length > 0 ? (
        <section className={styles.lots} aria-label={`At ${line.placeName}`}>
          <h3>{line.placeName}, in the order it is to be used</h3>
          <ol>
            {line.lots.map(l => (
              <li key={l.lot ?? ''}>
                <b>{amountWords(l.onHand, perBox)}</b> {lotWords(l)}
                {l.state === 'expired' ? <b className={styles.wrong}> expired</b> : ''}
                {l.state === 'expires soon' ? ' expires soon' : ''}
                {l.onHand < 0 ? <b className={styles.wrong}> count owed</b> : ''}
              </li>
            ))}
          </ol>
        </section>
      ) : null}
      {history.data === undefined ? <NotReady loaded={history} /> : null}
      {history.data ? (
        <div className={styles.history} ref={rows}>
          <RowTable
            label={`Everything that was told of ${what}; v voids the line that has the focus`}
            columns={LINES}
            rows={history.data}
            keyOf={l => l.fact}
            isFaint={l => l.voided !== null}
            onKey={(l, key) => {
              if (key !== 'v' || l.voided) return false;
              setVoiding(l);
              return true;
            }}
          />
        </div>
      ) : null}
      <div className={styles.dialogFoot}>
        <span className={styles.soft}>v voids the line that has the focus; both stay in the ledger.</span>
        <Action weight="main" hint="Escape" onClick={onClose}>
          Close
        </Action>
      </div>
    </Dialog>
  );
}

const LINES: readonly TableColumn<HistoryLine>[] = [
  { key: 'on', head: 'On', figure: true, cell: l => <DateText date={l.effective} /> },
  {
    key: 'what',
    head: 'What',
    cell: l => (
      <>
        <span className={l.voided ? styles.struck : undefined}>{l.what}</span>
        {l.voided ? <span className={styles.soft}> void: {l.voided.why}</span> : null}
      </>
    ),
  },
  { key: 'by', head: 'Signed by', cell: l => <span className={styles.oneLine}>{l.byName ?? l.via}</span> },
];
