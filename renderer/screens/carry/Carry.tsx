import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { CarryLineNow, CarryPage } from '../../../db/api-checks.ts';
import { toServe } from '../../../domain/carry/lacking.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from '../checks/checks.module.css';
import { readSheet } from '../import/sheet.ts';
import { COLUMNS, EXTRA, PUBLISHED, SCHEDULES } from './columns.tsx';
import { endForm, lineForm, templateForm } from './forms.ts';
import { SheetDialog } from './SheetDialog.tsx';
import { scheduleForm } from './scheduleForm.ts';

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
  const begin = () => setForm(templateForm(page));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/checks' }));
  useKeys('The list', [
    { key: 'n', label: 'A line more', run: more },
    { key: 'k', label: 'A list to begin from', run: begin },
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
        {page.published.length > 0 ? (
          <>
            <h2 className={styles.section}>
              What the published lists ask{' '}
              <span className={styles.soft}>
                an advice: your AHJ says which edition binds you; what is not stated is not counted
              </span>
            </h2>
            <RowTable
              label="What the published lists ask"
              columns={PUBLISHED}
              rows={[...page.published].sort((a, b) => Number(a.met) - Number(b.met))}
              keyOf={m => m.id}
              isFaint={m => m.met}
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
        <Action hint="k" onClick={begin}>
          Begin from a list
        </Action>
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

function Numbers({ page }: { page: CarryPage }) {
  const short = page.lines.filter(l => toServe(l, l.lacking) > 0).length;
  const critical = page.lines.filter(l => l.critical && toServe(l, l.lacking) > 0).length;
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
