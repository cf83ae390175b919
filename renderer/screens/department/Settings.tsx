import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { UNKNOWN_PROFILE } from '../../../domain/rulebook/force.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { profileForm } from './profileForm.ts';
import { type Setting, settingForm, settingsOf } from './settings.ts';
import { useActiveRow, useFocusWhen } from './useActiveRow.ts';

const COLUMNS: TableColumn<Setting>[] = [
  { key: 'title', head: 'Setting', cell: s => s.title },
  { key: 'value', head: 'Is', cell: s => <span className={styles.strong}>{s.value}</span> },
  { key: 'changes', head: 'What it changes', cell: s => <span className={styles.soft}>{s.changes}</span> },
];

/** What holds for the whole department, and what each of it changes. */
export function Settings() {
  const page = useAsk('department.page', {});
  const today = useAsk('department.summary', {}).data?.today ?? '';
  const [open, setOpen] = useState<Setting | null>(null);
  const book = useAsk('rulebook.list', { family: 'equipment' });
  const profile = book.data?.profile ?? UNKNOWN_PROFILE;
  const settings = page.data && book.data ? settingsOf(page.data, profile) : [];
  const active = useActiveRow(settings);
  useFocusWhen(settings.length > 0);
  const { row } = active;
  useKeys('Settings', [{ key: 'e', label: 'Amend the setting', run: () => row && setOpen(row) }]);
  if (!page.data || !book.data) return <NotReady loaded={page.data ? book : page} />;
  return (
    <>
      <div className={styles.body}>
        <RowTable
          onActive={active.onActive}
          label="Settings"
          columns={COLUMNS}
          rows={settings}
          keyOf={s => s.key}
          onOpen={setOpen}
        />
        <p className={styles.aside}>
          How early a warning comes and what being late does are set for each requirement, in the{' '}
          <Link to="/rules" search={{}}>
            rule book
          </Link>
          . Light or dark, row height and letter keys belong to this computer: press 9.
        </p>
      </div>
      <Foot>
        {row ? (
          <Action weight="quiet" hint="e" onClick={() => setOpen(row)}>
            Amend {row.title.toLowerCase()}
          </Action>
        ) : null}
      </Foot>
      {open ? (
        <DeedDialog
          form={open.key === 'profile' ? profileForm(profile) : settingForm(page.data.id, open)}
          today={today}
          onClose={() => setOpen(null)}
        />
      ) : null}
    </>
  );
}
