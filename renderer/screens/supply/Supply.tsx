import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { SupplyLine } from '../../../db/api-supply.ts';
import { FAMILIES } from '../../../domain/rulebook/index.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { receiveForm as receiveThingForm } from '../../parts/deeds/receiveForm.ts';
import { focusNextTable } from '../../parts/grid/nextTable.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { STOCK } from './columns.tsx';
import { countForm } from './countForm.ts';
import { issueForm, moveForm, receiveForm, writeOffForm } from './flowForms.ts';
import { addForm, amendForm, parForm } from './kindForms.ts';
import { NARROWED, type Narrowed, Numbers } from './Numbers.tsx';
import { OtherTables } from './OtherTables.tsx';
import { StockHistory } from './StockHistory.tsx';
import styles from './supply.module.css';

interface Opened {
  stock: string;
  what: string;
  perBox: number | null;
  place: string | null;
}

const keyOf = (l: SupplyLine) => `${l.stock} ${l.place ?? ''}`;

/** What have we on the shelf? Counted stock by place, what to order, and the spares that stand ready. */
export function Supply() {
  useDocumentTitle('Supply · Baybook');
  const navigate = useNavigate();
  const list = useAsk('supply.list', {}, { keep: true });
  const summary = useAsk('department.summary', {}).data;
  const members = useAsk('members.list', {}).data ?? [];
  const [form, setForm] = useState<DeedForm | null>(null);
  const [opened, setOpened] = useState<Opened | null>(null);
  const [narrowed, setNarrowed] = useState<Narrowed | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const isRead = list.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const all = list.data?.rows ?? [];
  const rows = narrowed === null ? all : all.filter(NARROWED[narrowed].fits);
  const line = rows.find(l => keyOf(l) === active) ?? rows[0];
  const isPlaced = line !== undefined && line.place !== null;

  const add = () => setForm(addForm());
  const receiveThing = () => setForm(receiveThingForm(FAMILIES, { assignment: 'ready spare' }));
  const on = (make: (l: SupplyLine) => DeedForm) => () => line && setForm(make(line));
  const placed = (make: (l: SupplyLine) => DeedForm) => () => isPlaced && setForm(make(line));
  const receive = on(receiveForm);
  const issue = placed(l => issueForm(l, summary as NonNullable<typeof summary>));
  const move = placed(moveForm);
  const count = placed(l => countForm(l, members));
  const writeOff = placed(writeOffForm);
  const par = on(parForm);
  const amend = on(amendForm);
  const step = () => {
    const known = (Object.keys(NARROWED) as Narrowed[]).filter(k => all.some(NARROWED[k].fits));
    setNarrowed(known[narrowed === null ? 0 : known.indexOf(narrowed) + 1] ?? null);
  };
  const nextTable = () => focusNextTable(top.current);
  const toFills = () => void navigate({ to: '/fills' });
  useKeys('The list', [
    { key: 'n', label: 'A new kind of stock', run: add },
    { key: 'v', label: 'Receive a thing that has a number', run: receiveThing },
    { key: 'f', label: 'Short ones alone, expired ones, and so on; then all again', run: step },
    { key: 'l', label: 'The next table: to order, ready spares, and back', run: nextTable },
    { key: 'b', label: 'Bottles: may one be filled, and the fill log', run: toFills },
  ]);
  useKeys(
    'The stock',
    [
      { key: 'r', label: 'Receive some', run: receive },
      { key: 'y', label: 'Set its par', run: par },
      { key: 'e', label: 'Amend the kind', run: amend },
    ],
    line !== undefined,
  );
  useKeys(
    'The stock in its place',
    [
      { key: 'i', label: 'Issue some', run: issue },
      { key: 'm', label: 'Move some elsewhere', run: move },
      { key: 't', label: 'Count it', run: count },
      { key: 'o', label: 'Write some off', run: writeOff },
    ],
    isPlaced && summary !== undefined,
  );
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What have we on the shelf?</h1>
        {list.data ? <Numbers list={list.data} narrowed={narrowed} onNarrow={setNarrowed} /> : null}
      </header>
      {list.data === undefined ? <NotReady loaded={list} /> : null}
      <div className={styles.list}>
        {list.data && all.length === 0 ? (
          <Empty>
            <p>
              No stock is kept yet. A kind of stock is what is counted and not numbered: gloves, absorbent,
              batteries. Begin with one, receive or count it where it lies, and say what each place should
              hold.
            </p>
          </Empty>
        ) : null}
        {rows.length > 0 ? (
          <RowTable
            label="Stock by place, short and expired first"
            columns={STOCK}
            rows={rows}
            keyOf={keyOf}
            onOpen={l => setOpened({ stock: l.stock, what: l.what, perBox: l.perBox, place: l.place })}
            onActive={l => setActive(keyOf(l))}
          />
        ) : null}
        {list.data ? <OtherTables onOpen={r => setOpened({ ...r, place: null })} /> : null}
      </div>
      <footer className={styles.foot}>
        <Action weight={all.length === 0 ? 'main' : 'quiet'} hint="n" onClick={add}>
          New kind
        </Action>
        {line ? (
          <>
            <Action hint="r" onClick={receive}>
              Receive
            </Action>
            <Action hint="i" disabled={!isPlaced} onClick={issue}>
              Issue
            </Action>
            <Action hint="m" disabled={!isPlaced} onClick={move}>
              Move
            </Action>
            <Action hint="t" disabled={!isPlaced} onClick={count}>
              Count
            </Action>
            <Action hint="o" disabled={!isPlaced} onClick={writeOff}>
              Write off
            </Action>
            <Action hint="y" onClick={par}>
              Par
            </Action>
            <Action weight="quiet" hint="e" onClick={amend}>
              Amend
            </Action>
          </>
        ) : null}
        <Action weight="quiet" hint="v" onClick={receiveThing}>
          Receive a thing
        </Action>
        <Action weight="quiet" hint="l" onClick={nextTable}>
          Next table
        </Action>
        <Action weight="quiet" hint="b" onClick={toFills}>
          Fill log
        </Action>
        <PrintAction paper={{ paper: 'reorder list' }} label="Reorder list" />
      </footer>
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} />
      ) : null}
      {opened && summary ? (
        <StockHistory
          {...opened}
          line={all.find(l => l.stock === opened.stock && l.place === opened.place) ?? null}
          today={summary.today}
          onClose={() => setOpened(null)}
        />
      ) : null}
    </div>
  );
}
