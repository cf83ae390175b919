import type { UseQueryResult } from '@tanstack/react-query';
import { useState } from 'react';
import type { HistoryLine, ItemPage } from '../../../db/api.ts';
import { capital } from '../../../domain/capital.ts';
import { photosWords } from '../../../domain/photos.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { voidForm } from '../../parts/deeds/voidForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PhotoDialog, Photos, type Shot } from '../../parts/photos/Photos.tsx';
import { DateText, dateText, momentText, whenText } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './thing.module.css';

type History = UseQueryResult<HistoryLine[]>;

const columnsIn = (number: string, zone: string): readonly TableColumn<HistoryLine>[] => [
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
        <Photos shots={shotsOf(number, l)} />
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

/** The photos of a record, each with what it is of. */
const shotsOf = (number: string, line: HistoryLine): Shot[] =>
  line.photos.map(photo => ({
    photo,
    of: `${number}, ${line.what}${line.voided ? ' (void)' : ''}`,
    told: `${dateText(line.effective)}${line.byName ? `, ${line.byName}` : ''}`,
  }));

/** Everything the ledger says of it, the latest first; a mistake is voided in the open. */
export function Records({ number, history }: { number: string; history: History }) {
  const { today = '', zone = 'UTC' } = useAsk('department.summary', {}).data ?? {};
  const [voiding, setVoiding] = useState<HistoryLine | null>(null);
  const lines = history.data;
  const last = lines?.find(l => l.voided === null) ?? null;
  const [looking, setLooking] = useState<readonly Shot[]>([]);
  const shots = (lines ?? []).flatMap(l => shotsOf(number, l));
  useKeys('One thing', [
    { key: 'v', label: 'Void the last record, or the one that has the focus', run: () => setVoiding(last) },
    ...(shots.length > 0 ? [{ key: 'o', label: 'Its photos', run: () => setLooking(shots) }] : []),
  ]);
  return (
    <section aria-label="Every record">
      <h2>
        Every record
        <span className={styles.hint}>
          {shots.length > 0 ? (
            <Action weight="quiet" hint="o" onClick={() => setLooking(shots)}>
              {capital(photosWords(shots.length))}
            </Action>
          ) : null}
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
          columns={columnsIn(number, zone)}
          rows={lines}
          keyOf={l => l.fact}
          isFaint={l => l.voided !== null}
          onKey={(line, key) => {
            // Enter on a record that has photos opens them; another has nothing to open.
            if (key === 'Enter' && line.photos.length > 0) {
              setLooking(shotsOf(number, line));
              return true;
            }
            if (key !== 'v' || line.voided) return false;
            setVoiding(line);
            return true;
          }}
        />
      ) : null}
      {looking.length > 0 ? <PhotoDialog shots={looking} onClose={() => setLooking([])} /> : null}
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
