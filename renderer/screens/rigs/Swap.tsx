/** Swapping a thing on the rig with another of its family: which one, then one act that moves both. */
import { useDebouncedValue } from '@mantine/hooks';
import { type KeyboardEvent, useRef, useState } from 'react';
import type { RigItem, SpareLine } from '../../../db/api-desk.ts';
import { markOf } from '../../../domain/derive/marks.ts';
import { useAsk } from '../../api/ask.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { swapForm } from '../../parts/deeds/swapForm.ts';
import { TextField } from '../../parts/form/fields.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from './rigs.module.css';

interface SwapProps {
  item: Pick<RigItem, 'item' | 'number'>;
  today: string;
  onClose: () => void;
}

const SHOWN = 30;

export function Swap({ item, today, onClose }: SwapProps) {
  const [text, setText] = useState('');
  const [asked] = useDebouncedValue(text, 120);
  const [spare, setSpare] = useState<SpareLine | null>(null);
  const list = useRef<HTMLDivElement>(null);
  const spares = useAsk(
    'item.spares',
    { item: item.item, limit: SHOWN, ...(asked.trim() ? { text: asked } : {}) },
    { keep: true },
  );
  const found = spares.data;
  const firstRow = () => list.current?.querySelector<HTMLElement>('tbody tr');

  const inBox = (event: KeyboardEvent) => {
    if (!(event.target instanceof HTMLInputElement)) return;
    if (event.key === 'ArrowDown') firstRow()?.focus();
    else if (event.key === 'Enter' && asked === text) setSpare(found?.spares[0] ?? null);
    else return;
    event.preventDefault();
  };
  return (
    <Dialog title={`Swap ${item.number} with which?`} onClose={onClose} wide>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the box in it is an input; from it the arrow leads into the list. */}
      <div className={styles.swap} onKeyDown={inBox}>
        {found ? <Now line={found.current} /> : null}
        <TextField
          label="Narrow by number, what it is, place"
          value={text}
          onChange={setText}
          note="Enter takes the first; the down arrow goes into the list."
          first
        />
        {found === undefined ? <NotReady loaded={spares} /> : null}
        {found?.spares.length === 0 ? (
          <p className={styles.soft}>
            {asked.trim()
              ? 'Nothing elsewhere fits these words.'
              : 'There is no other of its family elsewhere.'}
          </p>
        ) : null}
        {found && found.spares.length > 0 ? (
          <div ref={list} className={styles.spares}>
            <RowTable
              key={asked}
              label="What it can be swapped with"
              columns={COLUMNS}
              rows={found.spares}
              keyOf={s => s.item}
              onOpen={setSpare}
              isFaint={s => s.against.length > 0}
            />
          </div>
        ) : null}
        {found && found.spares.length > 0 ? (
          <p className={styles.soft}>
            <KeyHint of="Enter" /> swaps with the row
            {found.total > found.spares.length
              ? `; ${(found.total - found.spares.length).toLocaleString('en-US')} more are found by typing`
              : ''}
          </p>
        ) : null}
      </div>
      {found && spare ? (
        <DeedDialog
          form={swapForm(found.current, spare)}
          today={today}
          onClose={() => setSpare(null)}
          onDone={onClose}
        />
      ) : null}
    </Dialog>
  );
}

/** The thing that leaves its place, as it is now. */
function Now({ line }: { line: SpareLine }) {
  return (
    <p className={styles.swapNow}>
      <b className="mono">{line.number}</b>
      <span>{line.what}</span>
      <span>{line.place ?? 'in no place'}</span>
      <SpareState line={line} />
    </p>
  );
}

function SpareState({ line }: { line: SpareLine }) {
  const mark = markOf(line);
  if (mark === 'not applicable') return <ConditionWord condition={line.condition} />;
  return <StateMark state={mark} />;
}

const COLUMNS: readonly TableColumn<SpareLine>[] = [
  {
    key: 'number',
    head: 'Number',
    cell: s => <span className={`mono ${styles.oneLine}`}>{s.number}</span>,
  },
  { key: 'what', head: 'What', cell: s => s.what },
  { key: 'place', head: 'Where it is', cell: s => s.place ?? 'in no place' },
  { key: 'as', head: 'As', cell: s => <span className={styles.oneLine}>{s.assignment ?? '–'}</span> },
  {
    key: 'state',
    head: 'State',
    cell: s => (
      <span className={styles.oneLine}>
        <SpareState line={s} />
      </span>
    ),
  },
  { key: 'against', head: 'Against it', cell: s => s.against.join(', ') || '–' },
];
