import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { NoticeLine } from '../../../db/api-notices.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Figures, figure, type Told } from '../../parts/words/Figures.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { issueForm, kindWord } from './forms.ts';
import styles from './notices.module.css';

/** What has been recalled, and is any of it still in use? Every notice, what is open first. */
export function Notices() {
  useDocumentTitle('Recalls and stop-use notices · Baybook');
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const notices = useAsk('notices.list', {}, { keep: true });
  const families = useAsk('vocabulary.list', {}).data?.families;
  const summary = useAsk('department.summary', {}).data;
  const [entering, setEntering] = useState(false);
  const [active, setActive] = useState<string | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const isRead = notices.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const rows = notices.data?.rows ?? [];
  const line = rows.find(n => n.id === active) ?? rows[0];
  const open = (notice: string) => void navigate({ to: '/notices/$notice', params: { notice } });
  // The form opens once its words are read: a key that comes before them is not lost.
  const enter = () => setEntering(true);
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/tagouts' }));
  useKeys('The list', [
    { key: 'n', label: 'Enter a recall or stop-use notice', run: enter },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What has been recalled, and is any of it in use?</h1>
        {notices.data ? <Numbers rows={rows} /> : null}
      </header>
      {notices.data === undefined ? <NotReady loaded={notices} /> : null}
      {notices.data && rows.length === 0 ? (
        <Empty>
          <p>
            No notice has been entered. Enter what a maker or an authority names, by maker, model, serials or
            dates, and every thing that it concerns is listed here until it is settled.
          </p>
        </Empty>
      ) : null}
      {rows.length > 0 ? (
        <div className={styles.list}>
          <RowTable
            label="Recalls and stop-use notices"
            columns={COLUMNS}
            rows={rows}
            keyOf={n => n.id}
            onOpen={n => open(n.id)}
            onActive={n => setActive(n.id)}
            isFaint={n => n.closed !== null && n.open === 0}
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
          Enter a notice
        </Action>
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {entering && families && summary ? (
        <DeedDialog
          form={issueForm(families)}
          today={summary.today}
          onClose={() => setEntering(false)}
          onDone={answer => {
            const [entered] = answer.entries;
            if (entered) open(entered);
          }}
        />
      ) : null}
    </div>
  );
}

const COLUMNS: readonly TableColumn<NoticeLine>[] = [
  { key: 'kind', head: 'Kind', cell: n => <span className={styles.oneLine}>{kindWord(n)}</span> },
  { key: 'title', head: 'Notice', cell: n => <strong>{n.title}</strong> },
  { key: 'family', head: 'Of', cell: n => <span className={styles.oneLine}>{n.familyTitle}</span> },
  { key: 'by', head: 'Issued by', cell: n => <span className={styles.oneLine}>{n.issuedBy}</span> },
  { key: 'on', head: 'On', figure: true, cell: n => dateText(n.on) },
  { key: 'concerned', head: 'Concerned', figure: true, cell: n => figure(n.concerned) },
  { key: 'perhaps', head: 'Perhaps', figure: true, cell: n => figure(n.perhaps) },
  { key: 'use', head: 'In use', figure: true, cell: n => figure(n.inUse, true) },
  { key: 'tagged', head: 'Out', figure: true, cell: n => figure(n.tagged) },
  { key: 'lost', head: 'Not found', figure: true, cell: n => figure(n.notFound, true) },
  { key: 'settled', head: 'Settled', figure: true, cell: n => figure(n.settled) },
  {
    key: 'open',
    head: 'Open',
    figure: true,
    cell: n => (n.closed === null || n.open > 0 ? figure(n.open, n.closed !== null) : 'closed'),
  },
];

function Numbers({ rows }: { rows: readonly NoticeLine[] }) {
  const open = rows.filter(n => n.closed === null || n.open > 0);
  const sum = (of: (n: NoticeLine) => number) => open.reduce((total, n) => total + of(n), 0);
  const told: readonly Told[] = [
    [open.length, open.length === 1 ? 'open notice' : 'open notices', false],
    [sum(n => n.inUse), 'concerned and in use', true],
    [sum(n => n.notFound), 'not found', true],
    [sum(n => n.open), 'to settle', false],
    [rows.length - open.length, 'closed', false],
  ];
  return <Figures told={told} />;
}
