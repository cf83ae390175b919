import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { CarryHolder, DefectLine, OwedLine, SwapLine } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { photoForm } from '../../parts/deeds/photoForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { Photos } from '../../parts/photos/Photos.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './checks.module.css';
import { beginForm, dueWords, missedForm, settleForm, swapManyForm, swapSettleForm } from './forms.ts';

/** Is it all there and does it work? Every unit with its list, its last check-off and what was found wrong. */
export function Checks() {
  useDocumentTitle('Check-offs · Baybook');
  const navigate = useNavigate();
  const holders = useAsk('carry.holders', {}, { keep: true });
  const defects = useAsk('defects.list', { open: true }, { keep: true });
  const swaps = useAsk('swaps.list', { open: true }, { keep: true }).data ?? [];
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [beginning, setBeginning] = useState(false);
  const [active, setActive] = useState<CarryHolder | null>(null);
  const [defect, setDefect] = useState<string | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const isRead = holders.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const missed = (holders.data ?? [])
    .flatMap(h => h.owed)
    .filter(o => o.state !== 'owed')
    .sort((a, b) => (a.dueAt < b.dueAt ? 1 : -1));
  const hasty = holders.data?.find(h => h.last?.haste)?.last?.haste;
  const at = active && holders.data?.find(h => h.of === active.of);

  const open = (checkoff: string) => void navigate({ to: '/checks/$checkoff', params: { checkoff } });
  const list = (h: CarryHolder) => void navigate({ to: '/carry/$of', params: { of: h.of } });
  const go = (h: CarryHolder) => {
    if (h.draft) open(h.draft.id);
    else if (h.lines === 0) list(h);
    else if (summary) {
      setBeginning(true);
      setForm(beginForm(h, summary.today, owedNow(h)));
    }
  };
  const settle = (d: DefectLine) => {
    if (d.item && d.condition && d.condition !== 'serviceable')
      void navigate({ to: '/thing/$item', params: { item: d.item }, search: {} });
    else setForm(settleForm(d));
  };
  // The one that had the focus last, else the oldest.
  const worst = defects.data?.rows.find(d => d.id === defect) ?? defects.data?.rows[0];
  const photograph = (d: DefectLine) =>
    setForm(photoForm(d.id, `${d.name}, ${d.what === '' ? d.kind : d.what}`));
  useKeys(
    'Found wrong',
    [{ key: 'c', label: 'Add a photo of it', run: () => worst && photograph(worst) }],
    worst !== undefined,
  );
  const incidents = () => void navigate({ to: '/incidents' });
  useKeys('The list', [{ key: 'i', label: 'Incidents: numbers read after a mixed pick-up', run: incidents }]);
  useKeys('The unit', [
    { key: 'l', label: 'Its carry list', run: () => at && list(at) },
    {
      key: 'x',
      label: 'Many swapped at once, numbers owed',
      run: () => at && summary && setForm(swapManyForm(at, summary.today)),
    },
    { key: 'k', label: 'Kits: seals, contents, dates', run: () => void navigate({ to: '/kits' }) },
    { key: 't', label: 'Its last signed check-off', run: () => at?.last && open(at.last.id) },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>Is it all there and does it work?</h1>
        {holders.data ? <Numbers holders={holders.data} open={defects.data?.total ?? 0} /> : null}
      </header>
      {holders.data === undefined ? <NotReady loaded={holders} /> : null}
      {holders.data?.length === 0 ? (
        <Empty>
          <p>There are no units yet. A unit has a carry list: what it must carry, line by line, and where.</p>
        </Empty>
      ) : null}
      {holders.data && holders.data.length > 0 ? (
        <div className={styles.list}>
          <RowTable
            label="Units and their check-offs"
            columns={hasty ? [...HOLDERS, PACE] : HOLDERS}
            rows={holders.data}
            keyOf={h => h.of}
            onOpen={go}
            onActive={setActive}
          />
          {hasty ? (
            <p className={styles.pace}>
              Pace: by the times on the sheet of the last one. The department notes under {hasty.under_s} s a
              line; it is a note and no finding.
            </p>
          ) : null}
          {swaps.length > 0 ? (
            <>
              <h2 className={styles.section}>Swapped, numbers owed</h2>
              <RowTable
                label="Swapped, numbers owed"
                columns={SWAPS}
                rows={swaps}
                keyOf={w => w.id}
                onOpen={w => setForm(swapSettleForm(w))}
              />
            </>
          ) : null}
          {missed.length > 0 ? (
            <>
              <h2 className={styles.section}>Late and missed</h2>
              <RowTable
                label="Late and missed"
                columns={MISSED}
                rows={missed}
                keyOf={o => `${o.schedule} ${o.on} ${o.shift}`}
                onOpen={o => setForm(missedForm(o))}
                isFaint={o => o.reason !== null}
              />
            </>
          ) : null}
          <h2 className={styles.section}>
            Found wrong and not settled
            {worst ? (
              <Action weight="quiet" hint="c" onClick={() => photograph(worst)}>
                Add a photo
              </Action>
            ) : null}
          </h2>
          {defects.data && defects.data.rows.length > 0 ? (
            <RowTable
              label="Found wrong and not settled; c adds a photo to the one that has the focus"
              columns={DEFECTS}
              rows={defects.data.rows}
              keyOf={d => d.id}
              onOpen={settle}
              onActive={d => setDefect(d.id)}
              isOpen={d => d.id === worst?.id}
            />
          ) : (
            <p className={styles.soft}>Nothing.</p>
          )}
        </div>
      ) : null}
      <footer className={styles.foot}>
        {at ? (
          <>
            <Action weight="main" hint="Enter" onClick={() => go(at)}>
              {at.draft ? 'Go on with it' : at.lines === 0 ? 'Draw up its list' : 'Begin'}
            </Action>
            <Action hint="l" onClick={() => list(at)}>
              Its carry list
            </Action>
            {at.last ? (
              <Action hint="t" onClick={() => at.last && open(at.last.id)}>
                The last one
              </Action>
            ) : null}
            <Action hint="x" onClick={() => summary && setForm(swapManyForm(at, summary.today))}>
              Many swapped
            </Action>
            <PrintAction paper={{ paper: 'check-off sheet', of: at.of }} label="Print a sheet" />
          </>
        ) : null}
        <Action hint="k" onClick={() => void navigate({ to: '/kits' })}>
          Kits
        </Action>
        <Action hint="i" onClick={incidents}>
          Incidents
        </Action>
      </footer>
      {form && summary ? (
        <DeedDialog
          form={form}
          today={summary.today}
          onClose={() => {
            setForm(null);
            setBeginning(false);
          }}
          onDone={answer => {
            const [begun] = answer.entries;
            if (beginning && begun) open(begun);
          }}
        />
      ) : null}
    </div>
  );
}

/** What is owed of a unit now: what is late before what is due today. */
const owedNow = (h: CarryHolder): OwedLine | null =>
  h.owed.findLast(o => o.state === 'late') ?? h.owed.find(o => o.state === 'owed') ?? null;

const SWAPS: readonly TableColumn<SwapLine>[] = [
  { key: 'on', head: 'When', figure: true, cell: w => dateText(w.on) },
  { key: 'name', head: 'Unit', cell: w => <strong className={styles.oneLine}>{w.name}</strong> },
  { key: 'what', head: 'What', cell: w => `${capital(w.family)}: ${w.down} down, ${w.up} up` },
  {
    key: 'owed',
    head: 'Owed',
    cell: w => (
      <b className={styles.wrong}>
        {w.owed.down} down, {w.owed.up} up
      </b>
    ),
  },
  { key: 'rack', head: 'Rack', cell: w => w.rack },
  { key: 'note', head: 'Note', cell: w => w.note ?? '' },
  { key: 'by', head: 'By', cell: w => <span className={styles.oneLine}>{w.byName ?? '–'}</span> },
];

const MISSED: readonly TableColumn<OwedLine>[] = [
  { key: 'due', head: 'Was due', figure: true, cell: o => dueWords(o) },
  { key: 'name', head: 'Unit', cell: o => <strong className={styles.oneLine}>{o.name}</strong> },
  { key: 'title', head: 'What', cell: o => o.title },
  { key: 'by', head: 'By', cell: o => o.by ?? '–' },
  {
    key: 'state',
    head: 'It is',
    cell: o => <b className={o.state === 'done late' ? undefined : styles.wrong}>{capital(o.state)}</b>,
  },
  { key: 'reason', head: 'Why', cell: o => o.reason ?? <span className={styles.soft}>nobody said</span> },
];

const HOLDERS: readonly TableColumn<CarryHolder>[] = [
  { key: 'name', head: 'Unit', cell: h => <strong className={styles.oneLine}>{h.name}</strong> },
  {
    key: 'rig',
    head: 'On',
    cell: h => (
      <span className={styles.oneLine}>
        {h.rig === null ? (
          <span className={styles.soft}>no rig</span>
        ) : h.rig.name === h.name ? (
          ''
        ) : (
          h.rig.name
        )}
      </span>
    ),
  },
  { key: 'station', head: 'Station', cell: h => <span className={styles.oneLine}>{h.station ?? '–'}</span> },
  { key: 'lines', head: 'Lines', figure: true, cell: h => (h.lines === 0 ? 'none' : h.lines) },
  { key: 'draft', head: 'Now', cell: h => <Now holder={h} /> },
  {
    key: 'last',
    head: 'Last signed',
    figure: true,
    cell: h => (h.last?.signedOn ? dateText(h.last.signedOn) : <span className={styles.soft}>never</span>),
  },
  { key: 'by', head: 'By', cell: h => <span className={styles.oneLine}>{h.last?.signedBy ?? '–'}</span> },
  {
    key: 'counter',
    head: 'Countersigned',
    cell: h => <span className={styles.oneLine}>{h.last?.countersignedBy ?? '–'}</span>,
  },
  { key: 'exceptions', head: 'Exceptions', figure: true, cell: h => h.last?.exceptions ?? '–' },
  {
    key: 'open',
    head: 'Open',
    figure: true,
    cell: h => (h.openDefects > 0 ? <b className={styles.wrong}>{h.openDefects}</b> : '–'),
  },
];

/** Only where something is noted. */
const PACE: TableColumn<CarryHolder> = {
  key: 'pace',
  head: 'Pace',
  figure: true,
  cell: h => (h.last?.haste ? `${h.last.haste.secondsPerLine} s a line` : ''),
};

const DEFECTS: readonly TableColumn<DefectLine>[] = [
  { key: 'since', head: 'Since', figure: true, cell: d => dateText(d.since) },
  { key: 'name', head: 'Unit', cell: d => <strong className={styles.oneLine}>{d.name}</strong> },
  { key: 'place', head: 'Place', cell: d => <span className={styles.oneLine}>{d.place ?? '–'}</span> },
  { key: 'what', head: 'What', cell: d => d.what },
  { key: 'number', head: 'Number', cell: d => <span className="mono">{d.number ?? ''}</span> },
  {
    key: 'kind',
    head: 'Found',
    cell: d => (
      <span className={styles.oneLine}>
        {capital(d.kind)}
        {d.short === null ? '' : ` ${d.short}`}
      </span>
    ),
  },
  { key: 'now', head: 'Now', cell: d => (d.condition ? <ConditionWord condition={d.condition} /> : null) },
  {
    key: 'note',
    head: 'Note',
    cell: d => (
      <>
        {d.note ?? ''}
        <Photos
          shots={d.photos.map(photo => ({
            photo,
            of: `${d.name}, ${d.what}: ${d.kind}`,
            told: d.note ?? '',
          }))}
        />
      </>
    ),
  },
  { key: 'by', head: 'By', cell: d => <span className={styles.oneLine}>{d.foundBy ?? '–'}</span> },
];

function Now({ holder }: { holder: CarryHolder }) {
  if (holder.draft)
    return <b className={styles.oneLine}>draft since {dateText(holder.draft.started.slice(0, 10))}</b>;
  const owed = owedNow(holder);
  if (owed === null) return <span>–</span>;
  return (
    <b className={`${styles.oneLine} ${owed.state === 'late' ? styles.wrong : ''}`}>
      {owed.title}: {owed.state === 'late' ? `late since ${dateText(owed.on)}` : `by ${owed.dueAt.slice(11)}`}
    </b>
  );
}

function Numbers({ holders, open }: { holders: readonly CarryHolder[]; open: number }) {
  const owed = holders.filter(h => owedNow(h) !== null && !h.draft).length;
  const drafts = holders.filter(h => h.draft).length;
  const never = holders.filter(h => h.lines > 0 && !h.last).length;
  return (
    <p className={styles.numbers}>
      <span>
        <b>{holders.filter(h => h.lines > 0).length}</b> with a carry list
      </span>
      <span>
        <b>{owed}</b> owed now
      </span>
      <span>
        <b>{drafts}</b> {drafts === 1 ? 'draft' : 'drafts'}
      </span>
      {never > 0 ? (
        <span>
          <b className={styles.wrong}>{never}</b> never checked off
        </span>
      ) : null}
      <span>
        <b className={open > 0 ? styles.wrong : undefined}>{open}</b> open
      </span>
    </p>
  );
}
