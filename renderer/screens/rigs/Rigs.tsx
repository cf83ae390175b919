import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useMemo, useRef } from 'react';
import type { RigLine } from '../../../db/api-desk.ts';
import type { DueState } from '../../../domain/derive/due.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { KeyHint } from '../../parts/words/KeyHint.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { RigState } from './RigState.tsx';
import styles from './rigs.module.css';

/** What rides where? Every rig, first line and reserve. */
export function Rigs() {
  useDocumentTitle('Rigs · Baybook');
  const navigate = useNavigate();
  const rigs = useAsk('rigs.list', {}, { keep: true });
  const top = useRef<HTMLDivElement>(null);
  const isRead = rigs.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const open = (rig: RigLine) => void navigate({ to: '/rigs/$rig', params: { rig: rig.id }, search: {} });
  // A rig that no unit rides is found by its name.
  const columns = useMemo(() => {
    const due = (rig: RigLine) =>
      void navigate({ to: '/due', search: rig.unitId ? { unit: rig.unitId } : { text: rig.name } });
    return { due, list: columnsFor(due) };
  }, [navigate]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What rides where?</h1>
        {rigs.data ? <Numbers rigs={rigs.data} /> : null}
      </header>
      {rigs.data === undefined ? <NotReady loaded={rigs} /> : null}
      {rigs.data?.length === 0 ? (
        <Empty>
          <p>There are no rigs yet. A unit brings its own rig; a reserve rig stands by itself.</p>
          <p>
            <Action
              weight="main"
              hint="9"
              onClick={() => void navigate({ to: '/department', search: { part: 'places' } })}
            >
              Add stations, units and rigs
            </Action>
          </p>
        </Empty>
      ) : null}
      {rigs.data && rigs.data.length > 0 ? (
        <div className={styles.list}>
          <RowTable
            label="Rigs"
            columns={columns.list}
            rows={rigs.data}
            keyOf={r => r.id}
            onOpen={open}
            onKey={(rig, key) => {
              if (key === 'c') columns.due(rig);
              return key === 'c';
            }}
          />
          <p className={styles.under}>
            <span>
              <KeyHint of="Enter" /> opens a rig: its places, its drawing, who rode it
            </span>
            <span>
              <KeyHint of="c" /> shows what is due on it
            </span>
          </p>
        </div>
      ) : null}
    </div>
  );
}

/** States worth a place in the list, the heaviest first. */
const TOLD: readonly DueState[] = [
  'life ended',
  'retest owed',
  'never done',
  'overdue',
  'not judged',
  'due soon',
];

const columnsFor = (onDue: (rig: RigLine) => void): readonly TableColumn<RigLine>[] => [
  { key: 'name', head: 'Rig', cell: r => <strong className={styles.oneLine}>{r.name}</strong> },
  {
    key: 'unit',
    head: 'Ridden by',
    cell: r => (
      <span className={styles.oneLine}>{r.unit ?? <span className={styles.soft}>nobody</span>}</span>
    ),
  },
  { key: 'station', head: 'Station', cell: r => <span className={styles.oneLine}>{r.station ?? '–'}</span> },
  {
    key: 'standing',
    head: 'Standing',
    cell: r => <span className={styles.oneLine}>{r.standing === 'reserve' ? 'Reserve' : 'First line'}</span>,
  },
  { key: 'condition', head: 'Condition', cell: r => <RigState condition={r.condition} /> },
  {
    key: 'due',
    head: 'What is due on it',
    cell: r =>
      TOLD.some(s => r.byState[s]) ? (
        <button
          type="button"
          tabIndex={-1}
          className={styles.dueOn}
          onClick={event => {
            event.stopPropagation();
            onDue(r);
          }}
        >
          {TOLD.filter(s => r.byState[s]).map(state => (
            <span key={state} className={styles.count}>
              <b>{r.byState[state]}</b> <StateMark state={state} />
            </span>
          ))}
        </button>
      ) : (
        <span className={styles.soft}>nothing</span>
      ),
  },
  { key: 'things', head: 'Things', figure: true, cell: r => r.things.toLocaleString('en-US') },
  { key: 'miles', head: 'Miles', figure: true, cell: r => meterOf(r, 'miles') },
  { key: 'hours', head: 'Engine hours', figure: true, cell: r => meterOf(r, 'engine hours') },
  { key: 'read', head: 'Read', figure: true, cell: lastRead },
  {
    key: 'left',
    head: 'Not returned',
    figure: true,
    cell: r => (r.notReturned > 0 ? <b className={styles.late}>{r.notReturned}</b> : '–'),
  },
];

/** The last reading of a meter; the day each was read is on the rig's page. */
function meterOf(rig: RigLine, meter: string): string {
  const read = rig.meters.find(m => m.meter === meter);
  return read ? read.reading.toLocaleString('en-US') : '–';
}

/** The day a meter of the rig was last read. */
function lastRead({ meters }: RigLine): string {
  const last = meters
    .map(m => m.on)
    .sort()
    .at(-1);
  return last ? dateText(last) : '–';
}

function Numbers({ rigs }: { rigs: readonly RigLine[] }) {
  const count = (fits: (rig: RigLine) => boolean) => rigs.filter(fits).length;
  const left = rigs.reduce((sum, r) => sum + r.notReturned, 0);
  const parts: [number, string][] = [
    [count(r => r.standing === 'first line'), 'first line'],
    [count(r => r.standing === 'reserve'), 'reserve'],
    [count(r => r.condition === 'out of service'), 'out of service'],
    [count(r => r.condition === 'limited'), 'limited'],
    [left, left === 1 ? 'thing not returned' : 'things not returned'],
  ];
  return (
    <p className={styles.numbers}>
      {parts
        .filter(([n], i) => n > 0 || i < 2)
        .map(([n, what]) => (
          <span key={what}>
            <b>{n}</b> {what}
          </span>
        ))}
    </p>
  );
}
