import { useState } from 'react';
import type { BackupMade, DepartmentFile } from '../../../db/api.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { momentText } from '../../parts/words/dates.tsx';
import { Empty, Notice, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { Heads } from './Heads.tsx';
import { PreviewDialog } from './PreviewDialog.tsx';
import { useActiveRow, useFocusWhen } from './useActiveRow.ts';
import { useBackups } from './useBackups.ts';
import { sizeText } from './words.ts';

/** Copies of the whole file: made, checked, looked into, restored beside. */
export function Backup() {
  const { listed, busy, made, problem, make } = useBackups();
  const zone = useAsk('department.summary', {}).data?.zone;
  const [open, setOpen] = useState<string | null>(null);
  const backups = listed.data?.backups?.files ?? [];
  const active = useActiveRow(backups);
  useFocusWhen(backups.length > 0);
  const { row } = active;
  const look = () => row && setOpen(row.name);
  useKeys('Backup', [
    { key: 'n', label: 'Back up now', run: () => void make() },
    { key: 'e', label: 'Look into the backup; from there it is restored', run: () => void look() },
  ]);

  if (!listed.data) return <NotReady loaded={listed} />;
  const columns: TableColumn<DepartmentFile>[] = [
    { key: 'name', head: 'Backup', cell: f => f.name.replace(/\.baybook$/, '') },
    {
      key: 'at',
      head: 'Written',
      cell: f => (zone ? momentText(new Date(f.changedAt).toISOString(), zone) : ''),
    },
    { key: 'size', head: 'Size', figure: true, cell: f => sizeText(f.bytes) },
  ];
  return (
    <>
      <div className={styles.body}>
        {problem ? <Notice problem={problem} /> : null}
        {busy ? <p role="status">Copying the file and checking every entry of the copy…</p> : null}
        {made && !busy ? <Made made={made} /> : null}
        {backups.length === 0 ? (
          <Empty>
            <p>
              There is no backup yet. One takes seconds, and work goes on meanwhile: a whole copy of the file
              as it stands between two deeds, checked entry by entry, with what it ends with as text beside
              it.
            </p>
            <p>
              <Action weight="main" hint="n" onClick={() => void make()} disabled={busy}>
                Make the first backup
              </Action>
            </p>
          </Empty>
        ) : (
          <RowTable
            onActive={active.onActive}
            label="Backups"
            columns={columns}
            rows={backups}
            keyOf={f => f.name}
            onOpen={f => setOpen(f.name)}
          />
        )}
        <p className={styles.aside}>
          Backups lie in <span className={styles.path}>{listed.data.backups?.folder}</span>. A disk fails
          whole: copy them, with their anchors, to another disk or a network folder.
        </p>
      </div>
      <Foot
        adds={
          <Action
            weight={backups.length > 0 ? 'main' : 'quiet'}
            hint="n"
            onClick={() => void make()}
            disabled={busy}
          >
            {busy ? 'Backing up…' : 'Back up now'}
          </Action>
        }
      >
        {row ? (
          <Action weight="quiet" hint="e" onClick={() => void look()}>
            Look into it, restore
          </Action>
        ) : null}
      </Foot>
      {open ? <PreviewDialog name={open} zone={zone} onClose={() => setOpen(null)} /> : null}
    </>
  );
}

function Made({ made }: { made: BackupMade }) {
  return (
    <section className={styles.made} aria-label="The backup just made" role="status">
      <p>
        <strong>{made.name.replace(/\.baybook$/, '')}</strong> is written and checked:{' '}
        {made.entries.toLocaleString('en-US')} entries, each the same as in the open file,{' '}
        {sizeText(made.bytes)}. Its anchor lies beside it as text.
      </p>
      <Heads heads={made.heads} label="What the backup ends with" />
    </section>
  );
}
