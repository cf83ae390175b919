import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { FillLine } from '../../../db/api-supply.ts';
import { dayText, parseDay } from '../../../domain/calendar/day.ts';
import { fillCautions } from '../../../domain/supply/fill-cautions.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { voidForm } from '../../parts/deeds/voidForm.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { Caution } from '../../parts/words/Caution.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { useMeasures } from '../../parts/words/useMeasures.ts';
import { columns } from './columns.tsx';
import { FillPanel, focusField } from './FillPanel.tsx';
import styles from './fills.module.css';
import { useFill } from './useFill.ts';

/** How far back the log is shown. */
const SPANS = [
  { title: 'today', days: 0 },
  { title: '7 days', days: 6 },
  { title: '31 days', days: 30 },
  { title: 'a year', days: 365 },
] as const;

/** May this bottle be filled, and what was? */
export function Fills() {
  useDocumentTitle('Fill log · Baybook');
  const summary = useAsk('department.summary', {}).data;
  return summary ? <FillScreen today={summary.today} /> : null;
}

function FillScreen({ today }: { today: string }) {
  const navigate = useNavigate();
  const measures = useMeasures();
  const form = useRef<HTMLFormElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const fill = useFill(field => focusField(form.current, field), today);
  const [span, setSpan] = useState(2);
  const [against, setAgainst] = useState(false);
  const [active, setActive] = useState<string | null>(null);
  const [voiding, setVoiding] = useState<FillLine | null>(null);
  const days = SPANS[span % SPANS.length] ?? SPANS[0];
  const filter = { from: before(today, days.days), to: today, ...(against ? { against: true } : {}) };
  const log = useAsk('fills.list', filter, { keep: true });
  const rows = log.data?.rows ?? [];
  const line = rows.find(l => l.entry === active) ?? rows[0];
  const isRead = log.data !== undefined;
  // Whoever comes here has a bottle in hand.
  useEffect(() => {
    if (isRead) focusField(form.current, 'number');
  }, [isRead]);

  const toNumber = () => focusField(form.current, 'number');
  const leaveField = () => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    list.current?.querySelector<HTMLElement>('tbody tr[tabindex="0"]')?.focus();
  };
  const open = (l: FillLine | undefined) =>
    l?.item && void navigate({ to: '/thing/$item', params: { item: l.item } });
  const back = () => void navigate({ to: '/supply' });
  useKeys('The fill', [
    { key: 'n', label: 'The next bottle: its number', run: toNumber },
    {
      key: 'Escape',
      label: 'Out of the field, to the log',
      run: leaveField,
      whileTyping: true,
    },
  ]);
  useKeys('The log', [
    { key: 'f', label: 'Today, 7 days, 31 days, a year', run: () => setSpan(s => (s + 1) % SPANS.length) },
    { key: 'g', label: 'Only what was told against, then all', run: () => setAgainst(a => !a) },
    { key: 'v', label: 'Void the fill under the cursor', run: () => line && setVoiding(line) },
    { key: 'b', label: 'Back to Supply', run: back },
  ]);
  return (
    <div className={styles.screen}>
      <header className={styles.header}>
        <h1>May this bottle be filled?</h1>
        {log.data ? (
          <p className={styles.numbers}>
            <button type="button" aria-pressed={!against} onClick={() => setAgainst(false)}>
              {against ? 'All fills' : <Count n={log.data.total} one="fill" many="fills" />}{' '}
              {span === 0 ? 'today' : `in ${days.title}`}
            </button>
            <button
              type="button"
              aria-pressed={against}
              disabled={log.data.against === 0 && !against}
              onClick={() => setAgainst(a => !a)}
            >
              <b className={log.data.against > 0 ? styles.wrong : undefined}>{log.data.against}</b> that
              something spoke against
            </button>
            <span>
              <b>{log.data.pulled}</b> pulled or set aside
            </span>
          </p>
        ) : null}
      </header>
      <div className={styles.list} ref={list}>
        <div className={styles.top}>
          <h2 className="seen-by-readers">The fill</h2>
          <FillPanel fill={fill} form={form} compressors={log.data?.compressors ?? []} today={today} />
          <Caution cautions={fill.check?.cautions ?? fillCautions({})} />
        </div>
        <h2 className={styles.section}>The log, {span === 0 ? 'today' : days.title}, newest first</h2>
        {log.data === undefined ? <NotReady loaded={log} /> : null}
        {log.data && rows.length === 0 ? (
          <Empty>
            <p>
              {against ? 'Nothing spoke against any fill' : 'Nothing was filled'}{' '}
              {span === 0 ? 'today' : `in ${days.title}`}.
            </p>
          </Empty>
        ) : null}
        {rows.length > 0 ? (
          <RowTable
            label="Fills, newest first"
            columns={columns(measures)}
            rows={rows}
            keyOf={l => l.entry}
            onOpen={open}
            onActive={l => setActive(l.entry)}
          />
        ) : null}
      </div>
      <footer className={styles.foot}>
        <Action weight="main" hint="n" onClick={toNumber}>
          Next bottle
        </Action>
        <Action hint="f" onClick={() => setSpan(s => (s + 1) % SPANS.length)}>
          {days.title.charAt(0).toUpperCase() + days.title.slice(1)}
        </Action>
        <Action hint="g" aria-pressed={against} onClick={() => setAgainst(a => !a)}>
          {against ? 'All fills' : 'Told against'}
        </Action>
        <Action weight="quiet" hint="v" disabled={!line} onClick={() => line && setVoiding(line)}>
          Void
        </Action>
        <Action weight="quiet" hint="b" onClick={back}>
          Supply
        </Action>
        <PrintAction paper={{ paper: 'fill log', ...filter }} label="Fill log" />
      </footer>
      {voiding ? (
        <DeedDialog
          form={voidForm(voiding.entry, `fill of ${voiding.number}`)}
          today={today}
          onClose={() => setVoiding(null)}
        />
      ) : null}
    </div>
  );
}

const Count = ({ n, one, many }: { n: number; one: string; many: string }) => (
  <>
    <b>{n.toLocaleString('en-US')}</b> {n === 1 ? one : many}
  </>
);

/** The day so many days before. */
function before(today: string, days: number): string {
  const day = parseDay(today);
  return day === null ? today : dayText((day - days) as typeof day);
}
