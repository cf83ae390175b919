import { useState } from 'react';
import type { Problem } from '../../../db/api.ts';
import type { TextFile } from '../../../db/api-desk.ts';
import { useAsk } from '../../api/ask.ts';
import { host } from '../../api/transport.ts';
import { Action } from '../../parts/Action.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { saveText } from '../../parts/saveFile.ts';
import { toast } from '../../parts/toast.ts';
import { Notice, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './department.module.css';
import { Foot } from './Foot.tsx';
import { useActiveRow, useFocusWhen } from './useActiveRow.ts';

interface Line {
  key: string;
  title: string;
  form: string;
  holds: string;
}

const LEDGER = 'ledger';
/** Between two files: a browser takes them one after the other. */
const BETWEEN_MS = 250;

const COLUMNS: TableColumn<Line>[] = [
  { key: 'title', head: 'What', cell: l => <span className={styles.strong}>{l.title}</span> },
  { key: 'form', head: 'As', cell: l => l.form },
  { key: 'holds', head: 'What it holds', cell: l => <span className={styles.soft}>{l.holds}</span> },
];

/** Everything out, in open formats. */
export function Export() {
  const words = useAsk('vocabulary.list', {});
  const [busy, setBusy] = useState<string | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const lines: Line[] = [
    ...(words.data?.families ?? []).map(f => ({
      key: f.id,
      title: f.plural.charAt(0).toUpperCase() + f.plural.slice(1),
      form: 'CSV',
      holds:
        'Every thing with its attributes, place, condition, and for each requirement last, due and state',
    })),
    {
      key: LEDGER,
      title: 'The ledger',
      form: 'JSON Lines',
      holds: 'Every entry, one a line, in its exact stored bytes: what any other program needs to check it',
    },
  ];
  const active = useActiveRow(lines);
  useFocusWhen(words.data !== undefined);
  const { row } = active;

  /** @returns whether all were saved */
  async function save(which: readonly Line[]): Promise<void> {
    if (busy !== null) return;
    setProblem(null);
    const names: string[] = [];
    for (const line of which) {
      setBusy(line.title);
      const answer =
        line.key === LEDGER
          ? await host().ask('export.ledger', {})
          : await host().ask('export.items', { family: line.key });
      if (!answer.ok) {
        setProblem(answer.error);
        break;
      }
      hand(answer.value, line.key === LEDGER);
      names.push(answer.value.name);
      if (which.length > 1) await new Promise(resolve => setTimeout(resolve, BETWEEN_MS));
    }
    setBusy(null);
    if (names.length > 0) toast(`Exported: ${names.join(', ')}`);
  }

  useKeys('Export', [
    { key: 'e', label: 'Export this one', run: () => row && void save([row]) },
    { key: 'v', label: 'Export everything, a file each', run: () => void save(lines) },
  ]);
  if (!words.data) return <NotReady loaded={words} />;
  return (
    <>
      <div className={styles.body}>
        {problem ? <Notice problem={problem} /> : null}
        <RowTable
          onActive={active.onActive}
          label="Exports"
          columns={COLUMNS}
          rows={lines}
          keyOf={l => l.key}
          onOpen={l => void save([l])}
        />
        <p className={styles.aside} role="status">
          {busy
            ? `Writing ${busy}…`
            : 'The data is the department’s own: these files need no Baybook to be read. PINs are in none of them. To move or keep the whole file, make a backup.'}
        </p>
      </div>
      <Foot
        adds={
          <Action weight="main" hint="v" onClick={() => void save(lines)} disabled={busy !== null}>
            Export everything
          </Action>
        }
      >
        {row ? (
          <Action weight="quiet" hint="e" onClick={() => void save([row])} disabled={busy !== null}>
            Export {row.title.toLowerCase()}
          </Action>
        ) : null}
      </Foot>
    </>
  );
}

function hand({ name, text }: TextFile, isLedger: boolean): void {
  saveText(name, text, isLedger ? 'application/jsonl;charset=utf-8' : 'text/csv;charset=utf-8');
}
