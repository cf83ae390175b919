import { useState } from 'react';
import type { MemberLine } from '../../../db/api.ts';
import { PIN_GUARD } from '../../../domain/people/pins.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { grantsInWords } from './grants.ts';
import { addMemberForm, amendMemberForm, entitleForm, pinForm } from './memberForms.ts';
import { useActiveRow, useFocusWhen } from './useActiveRow.ts';

/** The member that every department begins with beside the one who opens it. */
const TERMINAL = 'Terminal is whom scripts on this computer act as where they name nobody.';

/** Who there is, what each may do, and who signs with a PIN. */
export function Members() {
  const members = useAsk('members.list', {});
  const words = useAsk('vocabulary.list', {});
  const summary = useAsk('department.summary', {});
  const [form, setForm] = useState<DeedForm | null>(null);
  const active = useActiveRow(members.data ?? []);
  useFocusWhen(members.data !== undefined && words.data !== undefined);
  const families = words.data?.families ?? [];
  const { row } = active;
  const add = () => setForm(addMemberForm(families));
  const amend = () => row && setForm(amendMemberForm(row));
  const entitle = () => row && setForm(entitleForm(row, families));
  const setPin = () => row && setForm(pinForm(row));

  useKeys('Members', [
    { key: 'n', label: 'Add a member', run: add },
    { key: 'e', label: 'Amend number, name or qualifications', run: () => void amend() },
    { key: 'g', label: 'Position and entitlements', run: () => void entitle() },
    { key: 'k', label: 'Set or change the PIN', run: () => void setPin() },
  ]);

  if (!members.data || !words.data) return <NotReady loaded={members.data ? words : members} />;
  const columns: TableColumn<MemberLine>[] = [
    { key: 'number', head: 'Number', cell: m => <span className="mono">{m.number}</span> },
    { key: 'name', head: 'Name', cell: m => <span className={styles.strong}>{m.name}</span> },
    { key: 'position', head: 'Position', cell: m => m.position ?? 'of their own' },
    {
      key: 'qualified',
      head: 'Qualified as',
      cell: m =>
        m.qualifications
          .map(q => `${q.title}${q.expires ? `, until ${dateText(q.expires)}` : ''}`)
          .join('; '),
    },
    { key: 'may', head: 'May', cell: m => grantsInWords(m.grants, families) },
    {
      key: 'pin',
      head: 'Signs',
      cell: m => (m.hasPin ? 'with a PIN' : <span className={styles.soft}>by name</span>),
    },
  ];
  return (
    <>
      <div className={styles.body}>
        <RowTable
          onActive={active.onActive}
          label="Members"
          columns={columns}
          rows={members.data}
          keyOf={m => m.id}
          onOpen={m => setForm(entitleForm(m, families))}
        />
        <p className={styles.aside}>
          Looking needs nobody. A deed is signed by a member who may do it: by name alone, or with the PIN
          where one is set. PINs are kept beside the ledger, scrambled, and never leave this file in an
          export. {PIN_GUARD} {members.data.some(m => m.number === 'T') ? TERMINAL : null}
        </p>
      </div>
      <Foot
        adds={
          <Action weight="quiet" hint="n" onClick={add}>
            Add member
          </Action>
        }
      >
        {row ? (
          <>
            <Action weight="quiet" hint="e" onClick={() => void amend()}>
              Amend {row.name}
            </Action>
            <Action weight="quiet" hint="g" onClick={() => void entitle()}>
              What they may do
            </Action>
            <Action weight="quiet" hint="k" onClick={() => void setPin()}>
              {row.hasPin ? 'Change PIN' : 'Set a PIN'}
            </Action>
          </>
        ) : null}
      </Foot>
      {form ? (
        <DeedDialog form={form} today={summary.data?.today ?? ''} onClose={() => setForm(null)} />
      ) : null}
    </>
  );
}
