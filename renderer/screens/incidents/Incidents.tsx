import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { IncidentLine } from '../../../db/api-incidents.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Figures, figure, type Told } from '../../parts/words/Figures.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { openForm } from './forms.ts';
import styles from './incidents.module.css';

/** Whose is on which rig since it was picked up together? Every incident, the open ones first. */
export function Incidents() {
  useDocumentTitle('Incidents · Baybook');
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const incidents = useAsk('incidents.list', {}, { keep: true });
  const families = useAsk('vocabulary.list', {}).data?.families;
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const isRead = incidents.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const rows = incidents.data?.rows ?? [];
  const line = rows.find(i => i.id === active) ?? rows[0];
  const open = (incident: string) => void navigate({ to: '/incidents/$incident', params: { incident } });
  const enter = () => summary && families && setForm(openForm(summary.units, families, summary.today));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/checks' }));
  useKeys('The list', [
    { key: 'n', label: 'Open an incident with a mixed pick-up', run: enter },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What went home on the wrong rig?</h1>
        {incidents.data ? <Numbers rows={rows} /> : null}
      </header>
      {incidents.data === undefined ? <NotReady loaded={incidents} /> : null}
      {incidents.data && rows.length === 0 ? (
        <Empty>
          <p>
            No incident has been opened. After several companies picked up together, open one, read the
            numbers on each rig, and what is foreign, missing or on the wrong rig is told with who likely has
            it.
          </p>
        </Empty>
      ) : null}
      {rows.length > 0 ? (
        <div className={styles.list}>
          <RowTable
            label="Incidents"
            columns={COLUMNS}
            rows={rows}
            keyOf={i => i.id}
            onOpen={i => open(i.id)}
            onActive={i => setActive(i.id)}
            isFaint={i => i.state === 'settled' && i.listsIn === i.rigs}
          />
        </div>
      ) : null}
      <footer className={styles.foot}>
        {line ? (
          <Action weight="main" hint="Enter" onClick={() => open(line.id)}>
            Open it
          </Action>
        ) : null}
        <Action weight={line ? 'plain' : 'main'} hint="n" onClick={enter}>
          A new one
        </Action>
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {form && summary ? (
        <DeedDialog
          form={form}
          today={summary.today}
          onClose={() => setForm(null)}
          onDone={answer => {
            const [opened] = answer.entries;
            if (opened) open(opened);
          }}
        />
      ) : null}
    </div>
  );
}

const COLUMNS: readonly TableColumn<IncidentLine>[] = [
  {
    key: 'on',
    head: 'When',
    figure: true,
    cell: i => <span className={styles.oneLine}>{dateText(i.on)}</span>,
  },
  { key: 'name', head: 'Incident', cell: i => <strong>{i.name}</strong> },
  { key: 'there', head: 'Who was there', cell: i => [...i.units, ...i.agencies].join(', ') },
  { key: 'families', head: 'Picked up', cell: i => i.families.join(', ') },
  {
    key: 'lists',
    head: 'Lists in',
    figure: true,
    cell: i => (
      <b className={i.listsIn < i.rigs ? styles.wrong : undefined}>
        {i.listsIn} of {i.rigs}
      </b>
    ),
  },
  { key: 'ours', head: 'Another’s', figure: true, cell: i => figure(i.ours) },
  { key: 'foreign', head: 'Foreign', figure: true, cell: i => figure(i.foreign, true) },
  { key: 'doubtful', head: 'In doubt', figure: true, cell: i => figure(i.doubtful, true) },
  { key: 'missing', head: 'Missing', figure: true, cell: i => figure(i.missing, true) },
  {
    key: 'state',
    head: 'It is',
    cell: i => (i.state === 'open' ? <b className={styles.wrong}>Open</b> : 'Settled'),
  },
];

function Numbers({ rows }: { rows: readonly IncidentLine[] }) {
  const open = rows.filter(i => i.state === 'open');
  const sum = (of: (i: IncidentLine) => number) => open.reduce((n, i) => n + of(i), 0);
  const told: readonly Told[] = [
    [open.length, 'open', false],
    [sum(i => i.ours), 'on another rig than believed', false],
    [sum(i => i.foreign), 'foreign', true],
    [sum(i => i.missing), 'missing', true],
    [rows.reduce((n, i) => n + i.rigs - i.listsIn, 0), 'lists not in', true],
    [rows.length - open.length, 'settled', false],
  ];
  return <Figures told={told} />;
}
