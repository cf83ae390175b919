import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { KitPage } from '../../../db/api-kits.ts';
import { capital } from '../../../domain/capital.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { Counting } from './Counting.tsx';
import { CONTENTS, SealWord, Serves } from './columns.tsx';
import { checkForm, openForm } from './forms.ts';
import styles from './kits.module.css';

/** One kit: what is in it line by line, its seal, and its full count. */
export function OneKit({ item, count }: { item: string; count: boolean }) {
  const page = useAsk('kit.page', { item }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Known key={item} page={page.data} counting={count} />;
}

function Known({ page, counting: beginCounting }: { page: KitPage; counting: boolean }) {
  useDocumentTitle(`${page.number} · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [counting, setCounting] = useState(beginCounting && page.contents.length > 0);
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!counting) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [counting]);
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/kits' }));
  const thing = (item: string) => void navigate({ to: '/thing/$item', params: { item }, search: {} });
  const template = () =>
    page.template && void navigate({ to: '/kits/templates/$template', params: { template: page.template } });
  useKeys(
    'The kit',
    [
      {
        key: 'c',
        label: 'Count it in full and seal it',
        run: () => page.contents.length > 0 && setCounting(true),
      },
      { key: 's', label: 'Read its seal', run: () => setForm(checkForm(page)) },
      { key: 'o', label: 'It was opened', run: () => setForm(openForm(page)) },
      { key: 'j', label: 'Its own page: history, moves, tag-out', run: () => thing(page.item) },
      { key: 'k', label: 'What its kind holds', run: () => template() },
      { key: 'Escape', label: 'Back to where you came from', run: back },
    ],
    !counting,
  );
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>
          What is in {page.number}
          {page.kind ? `, ${page.kind.charAt(0).toLowerCase()}${page.kind.slice(1)}` : ''}?
        </h1>
        <p className={styles.numbers}>
          <span>
            <Serves kit={page} />
          </span>
          <span>
            seal <SealWord kit={page} />
          </span>
          {page.expires ? <span>earliest date {dateText(page.expires)}</span> : null}
          <span>
            {page.countedOn
              ? `counted in full ${dateText(page.countedOn.slice(0, 10))}`
              : 'never counted in full'}
          </span>
          <span>{page.place ?? 'place not known'}</span>
        </p>
        {page.reasons.length > 0 ? (
          <ul className={styles.reasons}>
            {page.reasons.slice(0, 4).map(reason => (
              <li key={reason}>{capital(reason)}</li>
            ))}
            {page.reasons.length > 4 ? (
              <li className={styles.soft}>and {page.reasons.length - 4} more</li>
            ) : null}
          </ul>
        ) : null}
      </header>
      {counting ? (
        <Counting page={page} onDone={() => setCounting(false)} />
      ) : (
        <>
          <div className={styles.list}>
            {page.contents.length === 0 ? (
              <Empty>
                <p>
                  {page.template
                    ? 'Nothing is on the list of its kind yet. Say line by line what such a kit holds.'
                    : `No template is called ${page.kind ?? 'what it is'}. Draw one up where the kits are listed, or amend the kind of this one.`}
                </p>
              </Empty>
            ) : (
              <RowTable
                label={`What is in ${page.number}`}
                columns={CONTENTS}
                rows={page.contents}
                keyOf={c => c.line}
                onOpen={c => c.things[0] && thing(c.things[0].item)}
              />
            )}
            {page.extra.length > 0 ? (
              <>
                <h2 className={styles.section}>In it and on no line</h2>
                <RowTable
                  label="In it and on no line"
                  columns={EXTRA}
                  rows={page.extra}
                  keyOf={t => t.item}
                  onOpen={t => thing(t.item)}
                />
              </>
            ) : null}
          </div>
          <footer className={styles.foot}>
            {page.contents.length > 0 ? (
              <Action weight="main" hint="c" onClick={() => setCounting(true)}>
                Count and seal
              </Action>
            ) : null}
            <Action hint="s" onClick={() => setForm(checkForm(page))}>
              Read its seal
            </Action>
            <Action hint="o" onClick={() => setForm(openForm(page))}>
              It was opened
            </Action>
            <Action hint="j" onClick={() => thing(page.item)}>
              Its own page
            </Action>
            {page.template ? (
              <Action hint="k" onClick={template}>
                What its kind holds
              </Action>
            ) : null}
            <Action weight="quiet" hint="Escape" onClick={back}>
              Back
            </Action>
          </footer>
        </>
      )}
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} />
      ) : null}
    </div>
  );
}

const EXTRA: readonly TableColumn<KitPage['extra'][number]>[] = [
  { key: 'number', head: 'Number', cell: t => <span className="mono">{t.number}</span> },
  { key: 'what', head: 'What', cell: t => t.what },
];
