import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { NoticePage } from '../../../db/api-notices.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { toast } from '../../parts/toast.ts';
import { Figures, type Told } from '../../parts/words/Figures.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { COLUMNS, type NoticeRow, rowsOf } from './columns.tsx';
import { closeForm, expectForm, settleForm, settleSerialForm, stillInUse, tagOutForm } from './forms.ts';
import { NoticeSide } from './NoticeSide.tsx';
import styles from './notices.module.css';

/** One notice: every thing it concerns or perhaps does, and how each is settled. */
export function OneNotice({ notice }: { notice: string }) {
  const page = useAsk('notice.page', { notice }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Known key={page.data.id} page={page.data} />;
}

function Known({ page }: { page: NoticePage }) {
  useDocumentTitle(`${page.title} · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const [openOnly, setOpenOnly] = useState(false);
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true }), []);
  const rows = rowsOf(page, openOnly);
  const row = rows.find(r => r.key === active) ?? rows[0];
  /** What was done, and on which line: the row goes to the end of the list and the cursor to the one that follows. */
  const done = useRef<{ page: NoticePage; at: number } | null>(null);
  useEffect(() => {
    if (done.current === null || form !== null || done.current.page === page) return;
    const at = Math.min(done.current.at, rows.length - 1);
    done.current = null;
    // After the dialog has given the focus back to the row that it came from.
    setTimeout(() => top.current?.querySelectorAll<HTMLElement>('tbody tr')[at]?.focus());
  });
  const inUse = stillInUse(page).length;

  const show = ({ thing }: NoticeRow) => {
    if (thing === null) return;
    if (thing.isRig) void navigate({ to: '/rigs/$rig', params: { rig: thing.item }, search: {} });
    else void navigate({ to: '/thing/$item', params: { item: thing.item }, search: {} });
  };
  const tagOut = () => {
    if (inUse > 0) setForm(tagOutForm(page));
    else toast('Nothing that it surely concerns is still in service.');
  };
  const settle = () => {
    if (!row) return;
    if (!row.open) toast('It is settled. If that was wrong, void that entry and say why.');
    else setForm(row.thing ? settleForm(page, row.thing) : settleSerialForm(page, row.serial));
  };
  const close = () => {
    if (page.closed) toast('It is closed already.');
    else if (page.open > 0) toast(`${page.open.toLocaleString('en-US')} to settle before it can be closed.`);
    else setForm(closeForm(page));
  };
  const expect = () => (page.closed ? toast('It is closed: enter a new notice.') : setForm(expectForm(page)));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/notices' }));
  useKeys('This notice', [
    { key: 't', label: 'Tag out everything it concerns that is still in service', run: tagOut },
    { key: 's', label: 'Settle the thing or serial of the row', run: settle },
    { key: 'e', label: 'A serial that it names and that is not here', run: expect },
    { key: 'c', label: 'Close the notice', run: close },
    { key: 'f', label: 'Open ones alone, then all again', run: () => setOpenOnly(!openOnly) },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  // What is in use goes first; then one after the other is settled; then it can be closed.
  const next = page.closed && page.open === 0 ? null : inUse > 0 ? 't' : page.open > 0 ? 's' : 'c';
  const weight = (key: string) => (key === next ? 'main' : 'plain');
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>{page.title}</h1>
        <Numbers page={page} />
      </header>
      <div className={styles.one}>
        <div className={styles.list}>
          {rows.length === 0 ? (
            <Empty>
              <p>
                {page.things.length + page.expected.length > 0
                  ? 'Everything is settled.'
                  : 'Nothing in the department is meant by it, as far as is known. A serial that the maker says was shipped here can be kept open.'}
              </p>
            </Empty>
          ) : (
            <RowTable
              label="What it concerns"
              columns={COLUMNS}
              rows={rows}
              keyOf={r => r.key}
              onOpen={show}
              onActive={r => setActive(r.key)}
              isOpen={r => r === row}
              isFaint={r => !r.open}
            />
          )}
        </div>
        <NoticeSide page={page} row={row} />
      </div>
      <footer className={styles.foot}>
        {inUse > 0 ? (
          <Action weight={weight('t')} hint="t" onClick={tagOut}>
            Tag out {inUse.toLocaleString('en-US')}
          </Action>
        ) : null}
        {row?.open ? (
          <Action weight={weight('s')} hint="s" onClick={settle}>
            Settle {row.thing ? row.thing.number : row.serial.serial}
          </Action>
        ) : null}
        {row?.thing ? (
          <Action hint="Enter" onClick={() => show(row)}>
            Its page
          </Action>
        ) : null}
        {page.closed ? null : (
          <Action hint="e" onClick={expect}>
            A serial not here
          </Action>
        )}
        {page.closed === null && page.open === 0 ? (
          <Action weight={weight('c')} hint="c" onClick={close}>
            Close the notice
          </Action>
        ) : null}
        <Action weight="quiet" hint="f" aria-pressed={openOnly} onClick={() => setOpenOnly(!openOnly)}>
          {openOnly ? 'All of it' : 'Open ones alone'}
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
          onDone={() => {
            done.current = { page, at: row ? rows.indexOf(row) : 0 };
          }}
        />
      ) : null}
    </div>
  );
}

function Numbers({ page }: { page: NoticePage }) {
  const told: readonly Told[] = [
    [page.concerned, 'concerned', false],
    [page.perhaps, 'perhaps', false],
    [page.inUse, 'in use', true],
    [page.tagged, 'out of service', false],
    [page.notFound, 'not found', true],
    [page.settled, 'settled', false],
    [page.open, 'to settle', false],
  ];
  return <Figures told={told} />;
}
