import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { ChangeoverPage } from '../../../db/api-changeovers.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { toast } from '../../parts/toast.ts';
import { Figures, type Told } from '../../parts/words/Figures.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './changeover.module.css';
import { ExceptDialog } from './ExceptDialog.tsx';
import { changeoverForm } from './forms.ts';
import { type Exceptions, movedOf, type Row, rowsOf } from './rows.ts';

/** A crew changes its whole rig: what moves, what is there already, what stays. Exceptions only. */
export function Changeover({ from, to }: { from: string; to: string }) {
  const page = useAsk('rig.changeover', { from, to }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Changing key={`${page.data.from.id} ${page.data.to.id}`} page={page.data} />;
}

function Changing({ page }: { page: ChangeoverPage }) {
  useDocumentTitle(`${page.unit.name} to ${page.to.name} · Baybook`);
  const navigate = useNavigate();
  const summary = useAsk('department.summary', {}).data;
  const [exceptions, setExceptions] = useState<Exceptions>({});
  const [all, setAll] = useState(false);
  const [active, setActive] = useState<string | null>(null);
  const [asking, setAsking] = useState<Row | null>(null);
  const [form, setForm] = useState<DeedForm | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const rows = useMemo(() => rowsOf(page, all), [page, all]);
  const row = rows.find(r => r.key === active) ?? rows[0];
  useEffect(() => rowAt(top.current, 0)?.focus({ preventScroll: true }), []);

  const except = (of: Row | undefined) => {
    if (of?.kind === 'moves') setAsking(of);
    else toast('Only what moves can be left out.');
  };
  const clear = () => {
    if (!row) return;
    const { [row.key]: _gone, ...rest } = exceptions;
    setExceptions(rest);
  };
  const said = (exception: Exceptions[string] | null) => {
    if (!asking) return;
    const { [asking.key]: _gone, ...rest } = exceptions;
    setExceptions(exception === null ? rest : { ...rest, [asking.key]: exception });
    const next = Math.min(rows.indexOf(asking) + 1, rows.length - 1);
    setAsking(null);
    // Once the dialog has given the focus back.
    requestAnimationFrame(() => setTimeout(() => rowAt(top.current, next)?.focus()));
  };
  const sign = () => {
    if (!summary) return;
    if (page.toRiddenBy !== null)
      toast(`${page.toRiddenBy} rides ${page.to.name}: say first that it left it.`);
    else setForm(changeoverForm(page, exceptions, summary.today));
  };
  const back = () => void navigate({ to: '/rigs/$rig', params: { rig: page.from.id }, search: {} });
  useKeys('The change', [
    { key: 'x', label: 'It did not move, and why', run: () => except(row) },
    { key: 'Backspace', label: 'It moved after all', run: clear },
    { key: 'f', label: 'What moves alone, then everything', run: () => setAll(!all) },
    { key: 'g', label: 'Sign this leg', run: sign },
    { key: 'Escape', label: 'Back to the rig', run: back },
  ]);
  const left = rowsOf(page, false).filter(r => exceptions[r.key] !== undefined).length;
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>
          {page.unit.name} {page.back ? 'goes back to' : 'changes to'} {page.to.name}: what moves?
        </h1>
        <Numbers page={page} left={left} />
        <State page={page} />
      </header>
      <div className={styles.list}>
        {rows.length === 0 ? (
          <Empty>
            <p>
              {page.places.length === 0
                ? `${page.unit.name} has no carry list, and nothing came along: nothing moves but the crew. Move single things from the page of the rig.`
                : `Nothing has to move: all that the list asks for is on ${page.to.name}.`}
            </p>
          </Empty>
        ) : (
          <RowTable
            label="What moves, place by place"
            columns={columnsFor(page, exceptions)}
            rows={rows}
            keyOf={r => r.key}
            onOpen={except}
            onActive={r => setActive(r.key)}
            isFaint={r => r.kind !== 'moves' && r.kind !== 'lacking'}
          />
        )}
      </div>
      <footer className={styles.foot}>
        <Action weight="main" hint="g" onClick={sign}>
          Everything {left > 0 ? 'else ' : ''}moved: sign
        </Action>
        <Action hint="x" onClick={() => except(row)}>
          It did not move
        </Action>
        {row && exceptions[row.key] ? (
          <Action hint="Backspace" onClick={clear}>
            It moved after all
          </Action>
        ) : null}
        <Action hint="f" onClick={() => setAll(!all)}>
          {all ? 'What moves alone' : 'Everything'}
        </Action>
        <PrintAction
          paper={{ paper: 'changeover sheet', from: page.from.id, to: page.to.id }}
          label="Print the crew’s sheet"
        />
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {asking ? (
        <ExceptDialog
          row={asking}
          before={exceptions[asking.key]}
          onClose={() => setAsking(null)}
          onSay={said}
        />
      ) : null}
      {form && summary ? (
        <DeedDialog
          form={form}
          today={summary.today}
          onClose={() => setForm(null)}
          onDone={() => void navigate({ to: '/rigs/$rig', params: { rig: page.to.id }, search: {} })}
        />
      ) : null}
    </div>
  );
}

function Numbers({ page: { counts }, left }: { page: ChangeoverPage; left: number }) {
  const told: readonly Told[] = [
    [counts.moves, 'to move', false],
    [left, 'left out', false],
    [counts.there, 'there already', false],
    [counts.stays, 'stay', false],
    [counts.besides, 'there besides', false],
    [counts.lacking, 'lacking on both', true],
  ];
  return <Figures told={told} />;
}

/** What speaks against taking that rig. It advises; the officer decides. */
function State({ page: { to, toCondition, toReason, toRiddenBy } }: { page: ChangeoverPage }) {
  if (toCondition === 'in service' && toRiddenBy === null) return null;
  return (
    <p className={styles.against}>
      {toCondition === 'in service' ? null : (
        <b>
          {to.name} is {toCondition}
          {toReason ? `: ${toReason}` : ''}.
        </b>
      )}{' '}
      {toRiddenBy === null ? null : <b>{toRiddenBy} rides it now.</b>}
    </p>
  );
}

const KIND_WORDS = {
  moves: 'Moves',
  there: 'There already',
  lacking: 'Lacking',
  stays: 'Stays',
  besides: 'There besides',
} as const;

const columnsFor = (page: ChangeoverPage, exceptions: Exceptions): readonly TableColumn<Row>[] => [
  { key: 'place', head: 'Place', cell: r => <span className={styles.oneLine}>{r.place || '–'}</span> },
  { key: 'does', head: 'It', cell: r => <Does row={r} exceptions={exceptions} /> },
  {
    key: 'number',
    head: 'Number',
    cell: r => <span className={`mono ${styles.oneLine}`}>{r.number || '–'}</span>,
  },
  { key: 'what', head: 'What', cell: r => r.what },
  {
    key: 'from',
    head: 'From',
    cell: r => (r.kind === 'moves' && r.from !== r.place ? r.from || page.from.name : ''),
  },
  {
    key: 'to',
    head: 'To',
    cell: r => (r.kind === 'moves' && r.to !== r.place ? r.to || `${page.to.name} itself` : ''),
  },
  {
    key: 'why',
    head: 'Why',
    cell: r => <span className={styles.cut}>{exceptions[r.key]?.why || r.why}</span>,
  },
];

function Does({ row, exceptions }: { row: Row; exceptions: Exceptions }) {
  if (exceptions[row.key] !== undefined) {
    const { planned, moved } = movedOf(row, exceptions);
    return (
      <b className={`${styles.wrong} ${styles.oneLine}`}>
        {row.thing === null ? `${moved} of ${planned} moved` : 'Did not move'}
      </b>
    );
  }
  const words = KIND_WORDS[row.kind];
  if (row.kind === 'lacking') return <b className={`${styles.wrong} ${styles.oneLine}`}>{words}</b>;
  return <span className={styles.oneLine}>{row.kind === 'moves' ? <b>{words}</b> : words}</span>;
}

const rowAt = (top: HTMLElement | null, index: number): HTMLElement | null =>
  top?.querySelectorAll<HTMLElement>('tbody tr')[index] ?? null;
