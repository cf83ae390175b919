import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { CarryLineNow, CarryPage } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import type { Schedule } from '../../../domain/checkoffs/schedule.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from '../checks/checks.module.css';
import { readSheet } from '../import/sheet.ts';
import { endForm, lineForm } from './forms.ts';
import { SheetDialog } from './SheetDialog.tsx';
import { scheduleForm, scheduleWords } from './scheduleForm.ts';

/** The carry list of a unit or a reserve rig, line by line, against what is known to ride there. */
export function Carry({ of }: { of: string }) {
  const page = useAsk('carry.page', { of }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <OneList key={page.data.of} page={page.data} />;
}

function OneList({ page }: { page: CarryPage }) {
  useDocumentTitle(`${page.name}, carry list · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const summary = useAsk('department.summary', {}).data;
  const vocabulary = useAsk('vocabulary.list', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const [file, setFile] = useState<{ name: string; bytes: string } | null>(null);
  const chooser = useRef<HTMLInputElement>(null);
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => top.current?.querySelector<HTMLElement>('tbody tr')?.focus(), []);
  const line = page.lines.find(l => l.line === active) ?? page.lines[0];
  const families = vocabulary?.families ?? [];
  const change = (l: CarryLineNow) => setForm(lineForm(page, families, l));
  const more = () => setForm(lineForm(page, families, null, line?.place));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/checks' }));
  useKeys('The list', [
    { key: 'n', label: 'A line more', run: more },
    { key: 'v', label: 'Bring a sheet', run: () => chooser.current?.click() },
    { key: 'y', label: 'When it is gone through', run: () => setForm(scheduleForm(page, null)) },
    { key: 'Delete', label: 'Take the line off the list', run: () => line && setForm(endForm(page, line)) },
    {
      key: 'j',
      label: 'The rig: its places and what is in them',
      run: () => page.rig && void navigate({ to: '/rigs/$rig', params: { rig: page.rig.id }, search: {} }),
    },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What must {page.name} carry?</h1>
        <Numbers page={page} />
      </header>
      <div className={styles.list}>
        {page.lines.length === 0 ? (
          <Empty>
            <p>
              Nothing is on its list yet. Put the lines on it one by one: what, how many, where it rides, and
              whether the unit is ready without it. Or bring the sheet you keep: a column for the place, the
              item and the quantity.
            </p>
          </Empty>
        ) : (
          <RowTable
            label={`Carry list of ${page.name}`}
            columns={COLUMNS}
            rows={page.lines}
            keyOf={l => l.line}
            onOpen={change}
            onActive={l => setActive(l.line)}
          />
        )}
        {page.schedules.length > 0 ? (
          <>
            <h2 className={styles.section}>When it is gone through</h2>
            <RowTable
              label="When it is gone through"
              columns={SCHEDULES}
              rows={page.schedules}
              keyOf={s => `${s.schedule} ${s.from}`}
              onOpen={s => setForm(scheduleForm(page, s))}
            />
          </>
        ) : null}
        {page.extra.length > 0 ? (
          <>
            <h2 className={styles.section}>On the rig and on no line</h2>
            <RowTable
              label="On the rig and on no line"
              columns={EXTRA}
              rows={page.extra}
              keyOf={t => t.item}
              onOpen={t => void navigate({ to: '/thing/$item', params: { item: t.item }, search: {} })}
            />
          </>
        ) : null}
      </div>
      <footer className={styles.foot}>
        {line ? (
          <Action hint="Enter" onClick={() => change(line)}>
            Change the line
          </Action>
        ) : null}
        <Action weight={page.lines.length === 0 ? 'main' : 'plain'} hint="n" onClick={more}>
          A line more
        </Action>
        {line ? (
          <Action hint="Delete" onClick={() => setForm(endForm(page, line))}>
            Take it off
          </Action>
        ) : null}
        <Action hint="v" onClick={() => chooser.current?.click()}>
          Bring a sheet
        </Action>
        <input
          ref={chooser}
          type="file"
          accept=".csv,.xlsx,text/csv"
          hidden
          aria-label="Sheet of what it carries"
          onChange={event => {
            const chosen = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (chosen)
              void readSheet(chosen, chosen.name).then(({ name, bytes }) => setFile({ name, bytes }));
          }}
        />
        <Action hint="y" onClick={() => setForm(scheduleForm(page, null))}>
          When it is gone through
        </Action>
        <PrintAction paper={{ paper: 'check-off sheet', of: page.of }} label="Print a check-off sheet" />
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {file && summary ? (
        <SheetDialog page={page} file={file} today={summary.today} onClose={() => setFile(null)} />
      ) : null}
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} />
      ) : null}
    </div>
  );
}

const COLUMNS: readonly TableColumn<CarryLineNow>[] = [
  { key: 'code', head: 'Code', cell: l => <span className="mono">{l.code}</span> },
  { key: 'place', head: 'Place', cell: l => <span className={styles.oneLine}>{l.place}</span> },
  { key: 'what', head: 'What', cell: l => (l.critical ? <b>{l.what}</b> : l.what) },
  { key: 'critical', head: 'Critical', cell: l => (l.critical ? 'critical' : '') },
  { key: 'qty', head: 'Carried', figure: true, cell: l => l.qty },
  { key: 'min', head: 'Least', figure: true, cell: l => l.min },
  {
    key: 'how',
    head: 'By',
    cell: l => (
      <span className={styles.oneLine}>
        {l.reading
          ? `${l.reading.title}${l.reading.atLeast ? `, at least ${l.reading.atLeast}` : ''}`
          : capital(l.verify)}
      </span>
    ),
  },
  {
    key: 'serving',
    head: 'Known here',
    figure: true,
    cell: l => (l.serving === null ? <span className={styles.soft}>counted</span> : l.serving),
  },
  {
    key: 'lacking',
    head: 'Lacking',
    figure: true,
    cell: l =>
      l.lacking === 0 ? (
        '–'
      ) : (
        <b className={l.qty - l.lacking < l.min ? styles.wrong : undefined}>
          {l.lacking}
          {l.qty - l.lacking < l.min ? ' short' : ''}
        </b>
      ),
  },
  {
    key: 'checked',
    head: 'Last gone through',
    figure: true,
    cell: l => (l.checked ? dateText(l.checked.on) : <span className={styles.soft}>never</span>),
  },
  {
    key: 'defects',
    head: 'Open',
    cell: l => l.defects.map(d => `${d.kind}${d.note ? `: ${d.note}` : ''}`).join('; '),
  },
];

const SCHEDULES: readonly TableColumn<Schedule>[] = [
  { key: 'title', head: 'What', cell: s => <strong>{s.title}</strong> },
  { key: 'every', head: 'When', cell: s => capital(scheduleWords(s)) },
  { key: 'grace', head: 'Hours of grace', figure: true, cell: s => s.graceHours },
  { key: 'by', head: 'By', cell: s => s.by ?? 'whoever is there' },
  {
    key: 'what',
    head: 'Goes through',
    cell: s =>
      `${s.scope === 'operated only' ? 'what is operated or read' : 'everything'}${s.places ? ` in ${s.places.join(', ')}` : ''}`,
  },
];

const EXTRA: readonly TableColumn<CarryPage['extra'][number]>[] = [
  { key: 'number', head: 'Number', cell: t => <span className="mono">{t.number}</span> },
  { key: 'what', head: 'What', cell: t => t.what },
  { key: 'place', head: 'Where', cell: t => t.place || 'in no place of it' },
];

function Numbers({ page }: { page: CarryPage }) {
  const short = page.lines.filter(l => l.qty - l.lacking < l.min).length;
  const critical = page.lines.filter(l => l.critical && l.qty - l.lacking < l.min).length;
  const nowhere = page.places.filter(p => p.at === null).length;
  return (
    <p className={styles.numbers}>
      <span>
        <b>{page.lines.length}</b> lines in {page.places.length} places
        {page.rig && page.rig.name !== page.name ? `, on ${page.rig.name}` : ''}
      </span>
      <span>
        <b className={short > 0 ? styles.wrong : undefined}>{short}</b> under the least
        {critical > 0 ? `, ${critical} of them critical` : ''}
      </span>
      {page.rig && nowhere > 0 ? (
        <span>
          <b className={styles.wrong}>{nowhere}</b> {nowhere === 1 ? 'place is' : 'places are'} not on{' '}
          {page.rig.name}
        </span>
      ) : null}
      {page.extra.length > 0 ? (
        <span>
          <b>{page.extra.length}</b> on no line
        </span>
      ) : null}
    </p>
  );
}
