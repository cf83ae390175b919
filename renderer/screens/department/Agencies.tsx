import { useState } from 'react';
import type { AgencyLine } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { DateText, daysWords } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { addAgencyForm, amendAgencyForm } from './agencyForm.ts';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { useActiveRow, useFocusWhen } from './useActiveRow.ts';

const COLUMNS: TableColumn<AgencyLine>[] = [
  { key: 'name', head: 'Name', cell: a => <span className={styles.strong}>{a.name}</span> },
  {
    key: 'rin',
    head: 'RIN',
    cell: a => (a.rin ? <span className="mono">{a.rin}</span> : <span className={styles.soft}>none</span>),
  },
  {
    key: 'expires',
    head: 'RIN expires',
    cell: a => (
      <span className={styles.standing}>
        <DateText date={a.rinExpires} />
        {a.rinDaysLeft === null ? null : <span className={styles.soft}>{daysWords(a.rinDaysLeft)}</span>}
      </span>
    ),
  },
  {
    key: 'state',
    head: 'Standing',
    cell: a => (a.rinState === null ? '' : <RinState state={a.rinState} />),
  },
];

/** What expiring means for a RIN, beside its mark. */
function RinState({ state }: { state: NonNullable<AgencyLine['rinState']> }) {
  return (
    <span className={styles.standing}>
      <StateMark state={state} />
      {state === 'overdue' ? (
        <span>RIN expired: ask for its new approval before sending cylinders</span>
      ) : null}
      {state === 'due soon' ? <span>ask for its renewal</span> : null}
    </span>
  );
}

/** Who comes from outside, and whether their RIN still stands. */
export function Agencies() {
  const page = useAsk('department.page', {});
  const today = useAsk('department.summary', {}).data?.today ?? '';
  const [form, setForm] = useState<DeedForm | null>(null);
  const agencies = page.data?.agencies ?? [];
  const active = useActiveRow(agencies);
  useFocusWhen(agencies.length > 0);
  const { row } = active;
  const add = () => setForm(addAgencyForm());
  const amend = () => row && setForm(amendAgencyForm(row));
  useKeys('Agencies', [
    { key: 'n', label: 'Add an agency', run: add },
    { key: 'e', label: 'Amend name, RIN, expiry', run: () => void amend() },
  ]);

  if (!page.data) return <NotReady loaded={page} />;
  return (
    <>
      <div className={styles.body}>
        {agencies.length === 0 ? (
          <Empty>
            <p>
              No agency is known yet. Add those who test or repair for you: a cylinder can be requalified only
              by a shop with a RIN, and its records name it.
            </p>
            <p>
              <Action weight="main" hint="n" onClick={add}>
                Add the first agency
              </Action>
            </p>
          </Empty>
        ) : (
          <RowTable
            onActive={active.onActive}
            label="Agencies"
            columns={COLUMNS}
            rows={agencies}
            keyOf={a => a.id}
            onOpen={a => setForm(amendAgencyForm(a))}
          />
        )}
      </div>
      <Foot
        adds={
          <Action weight="quiet" hint="n" onClick={add}>
            Add agency
          </Action>
        }
      >
        {row ? (
          <Action weight="quiet" hint="e" onClick={() => void amend()}>
            Amend {row.name}
          </Action>
        ) : null}
      </Foot>
      {form ? <DeedDialog form={form} today={today} onClose={() => setForm(null)} /> : null}
    </>
  );
}
