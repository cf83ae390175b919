/** A sheet of what a unit carries: every row as the line it would become, before any is taken. */
import { useState } from 'react';
import type { Deed } from '../../../db/api.ts';
import type { CarryPage, CarryRow, CarrySheet } from '../../../db/api-checks.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import formStyles from '../../parts/form/form.module.css';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { saveText } from '../../parts/saveFile.ts';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from '../checks/checks.module.css';

interface SheetDialogProps {
  page: Pick<CarryPage, 'of' | 'name'>;
  file: { name: string; bytes: string };
  today: string;
  onClose: () => void;
}

export function SheetDialog({ page, file, today, onClose }: SheetDialogProps) {
  const preview = useAsk('carry.preview', { ...file, of: page.of });
  const [taking, setTaking] = useState(false);
  const sheet = preview.data;
  return (
    <Dialog title={`${file.name}: what it becomes on the list of ${page.name}`} onClose={onClose} wide>
      {sheet === undefined ? <NotReady loaded={preview} /> : null}
      {sheet ? (
        <div className={styles.editor}>
          <p>
            <b>{sheet.accepted}</b> lines,{' '}
            <b className={sheet.refused > 0 ? styles.wrong : undefined}>{sheet.refused}</b> refused.{' '}
            {sheet.replaces > 0
              ? 'A line of the same words in the same place is changed; the others stay.'
              : ''}
          </p>
          <div className={styles.sheetRows}>
            <RowTable
              label="Rows of the sheet"
              columns={COLUMNS}
              rows={sheet.rows}
              keyOf={r => String(r.row)}
            />
          </div>
          <div className={formStyles.foot}>
            {sheet.refused > 0 ? (
              <Action
                weight="quiet"
                onClick={() => saveText(`refused ${file.name}`, sheet.refusedCsv, 'text/csv;charset=utf-8')}
              >
                Save the refused rows
              </Action>
            ) : null}
            <Action weight="quiet" hint="Escape" onClick={onClose}>
              Cancel
            </Action>
            <Action
              weight="main"
              data-autofocus
              disabled={sheet.accepted === 0}
              onClick={() => setTaking(true)}
            >
              Take {sheet.accepted} lines
            </Action>
          </div>
        </div>
      ) : null}
      {taking && sheet ? (
        <DeedDialog
          form={takeForm(page, sheet)}
          today={today}
          onClose={() => setTaking(false)}
          onDone={onClose}
        />
      ) : null}
    </Dialog>
  );
}

function takeForm(page: Pick<CarryPage, 'name'>, sheet: CarrySheet & { deeds: Deed[] }): DeedForm {
  const short = sheet.deeds.length - 1;
  return {
    title: `Put ${sheet.accepted} lines on the list of ${page.name}`,
    verb: 'Take them',
    initial: {},
    says: () => [
      short > 0
        ? `${short} counted ${short === 1 ? 'line has' : 'lines have'} fewer than the least: they are reported short.`
        : 'Nothing that is counted has fewer than the least.',
    ],
    rows: () => [],
    deeds: () => sheet.deeds,
    done: () => `${sheet.accepted} lines are on the list of ${page.name}.`,
  };
}

const COLUMNS: readonly TableColumn<CarryRow>[] = [
  { key: 'line', head: 'Line', figure: true, cell: r => r.line },
  { key: 'place', head: 'Place', cell: r => r.becomes?.place ?? r.cells[0] ?? '' },
  { key: 'what', head: 'What', cell: r => r.becomes?.title ?? r.cells[1] ?? '' },
  { key: 'qty', head: 'There', figure: true, cell: r => r.becomes?.qty ?? r.cells[2] ?? '' },
  { key: 'min', head: 'Least', figure: true, cell: r => r.becomes?.min ?? r.cells[3] ?? '' },
  {
    key: 'filled',
    head: 'Filled by',
    cell: r => (r.body ? (r.body.family === null ? 'counted' : (familyOf(r.body.family)?.title ?? '')) : ''),
  },
  {
    key: 'said',
    head: 'Said of it',
    cell: r =>
      r.ok ? (
        r.notes.join(' ')
      ) : (
        <b className={styles.wrong}>Refused: {r.problems.map(p => `${p.wrong} ${p.todo}`).join(' ')}</b>
      ),
  },
];
