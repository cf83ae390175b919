import type { UseQueryResult } from '@tanstack/react-query';
import { useState } from 'react';
import type { HistoryLine, ItemPage } from '../../../db/api.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { voidForm } from '../../parts/deeds/voidForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { DateText, momentText, whenText } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './thing.module.css';

type History = UseQueryResult<HistoryLine[]>;

const columnsIn = (zone: string): readonly TableColumn<HistoryLine>[] => [
  { key: 'on', head: 'On', figure: true, cell: l => <DateText date={l.effective} /> },
  {
    key: 'what',
    head: 'What',
    cell: l => (
      <>
        <span className={l.voided ? styles.struck : undefined}>{l.what}</span>
        {l.voided ? (
          <span className={styles.voided}>
            void since {whenText(l.voided.on, zone)}: {l.voided.why}
          </span>
        ) : null}
      </>
    ),
  },
  {
    key: 'by',
    head: 'Signed by',
    cell: l => <span className={styles.oneLine}>{l.byName ? `${l.byName} (${l.via})` : l.via}</span>,
  },
  { key: 'recorded', head: 'Entered', figure: true, cell: l => momentText(l.recordedAt, zone) },
];

/** Everything the ledger says of it, the latest first; a mistake is voided in the open. */
export function Records({ history }: { history: History }) {
  const { today = '', zone = 'UTC' } = useAsk('department.summary', {}).data ?? {};
  const [voiding, setVoiding] = useState<HistoryLine | null>(null);
  const lines = history.data;
  const last = lines?.find(l => l.voided === null) ?? null;
  useKeys('One thing', [
    { key: 'v', label: 'Void the last record, or the one that has the focus', run: () => setVoiding(last) },
  ]);
  return (
    <section aria-label="Every record">
      <h2>
        Every record
        <span className={styles.hint}>
          <Action weight="quiet" hint="v" disabled={last === null} onClick={() => setVoiding(last)}>
            Void the last one
          </Action>
        </span>
      </h2>
      {lines === undefined ? <NotReady loaded={history} /> : null}
      {lines?.length === 0 ? (
        <Empty>
          <p>Nothing is on record.</p>
        </Empty>
      ) : null}
      {lines && lines.length > 0 ? (
        <RowTable
          label="Every record; v voids the one that has the focus"
          columns={columnsIn(zone)}
          rows={lines}
          keyOf={l => l.fact}
          isFaint={l => l.voided !== null}
          onKey={(line, key) => {
            if (key !== 'v' || line.voided) return false;
            setVoiding(line);
            return true;
          }}
        />
      ) : null}
      {voiding ? (
        <DeedDialog
          form={voidForm(voiding.fact, voiding.what)}
          today={today}
          onClose={() => setVoiding(null)}
        />
      ) : null}
    </section>
  );
}

/** Where it has been, and how that was known each time. */
export function Places({ page, history }: { page: ItemPage; history: History }) {
  const places = history.data?.filter(l => l.kind === 'place' && l.voided === null) ?? [];
  return (
    <section aria-label="Where it has been">
      <h2>Where it has been</h2>
      {places.length === 0 ? (
        <p className={styles.soft}>{page.place ?? 'No place is on record.'}</p>
      ) : (
        <ol className={styles.places}>
          {places.map(l => (
            <li key={l.fact}>
              <DateText date={l.effective} />
              <span>{l.what}</span>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}
