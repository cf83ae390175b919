import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { KitLine } from '../../../db/api-kits.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { focusNextTable } from '../../parts/grid/nextTable.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { toast } from '../../parts/toast.ts';
import { Figures, type Told } from '../../parts/words/Figures.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { KITS, TEMPLATE_LIST } from './columns.tsx';
import { checkForm, kitForm, openForm, templateForm } from './forms.ts';
import styles from './kits.module.css';

/** Which kits are sealed, complete and in date? Those that do not serve stand first. */
export function Kits() {
  useDocumentTitle('Kits · Baybook');
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const list = useAsk('kits.list', {}, { keep: true });
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const isRead = list.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const rows = list.data?.rows ?? [];
  const templates = list.data?.templates ?? [];
  const kit = rows.find(k => k.item === active) ?? rows[0];
  const open = (item: string, count = false) =>
    void navigate({ to: '/kits/$item', params: { item }, search: count ? { count: true } : {} });
  const template = (id: string) =>
    void navigate({ to: '/kits/templates/$template', params: { template: id } });
  const add = () => {
    if (templates.length === 0) toast('Draw up the list of its kind first: what such a kit holds.');
    else setForm(kitForm(templates));
  };
  const addTemplate = () => list.data && setForm(templateForm(templates));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/checks' }));
  const nextTable = () => focusNextTable(top.current);
  useKeys('Kits', [
    { key: 'n', label: 'Receive a kit', run: add },
    { key: 'k', label: 'A kind of kit: what it holds', run: addTemplate },
    { key: 'l', label: 'The next table', run: nextTable },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  useKeys(
    'The kit',
    [
      { key: 's', label: 'Read its seal', run: () => kit && setForm(checkForm(kit)) },
      { key: 'o', label: 'It was opened', run: () => kit && setForm(openForm(kit)) },
      { key: 'c', label: 'Count it in full and seal it', run: () => kit && open(kit.item, true) },
    ],
    kit !== undefined,
  );
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>Which kits are sealed, complete and in date?</h1>
        {list.data ? <Numbers rows={rows} /> : null}
      </header>
      {list.data === undefined ? <NotReady loaded={list} /> : null}
      <div className={styles.list}>
        {list.data && rows.length === 0 ? (
          <Empty>
            <p>
              No kit is kept yet. A kit is a bag or set that moves whole, sealed with a numbered tag. First
              draw up what a kind of kit holds, then receive each kit of it, count it and seal it.
            </p>
          </Empty>
        ) : null}
        {rows.length > 0 ? (
          <RowTable
            label="Kits, those that do not serve first"
            columns={KITS}
            rows={rows}
            keyOf={k => k.item}
            onOpen={k => open(k.item)}
            onActive={k => setActive(k.item)}
          />
        ) : null}
        {templates.length > 0 ? (
          <>
            <h2 className={styles.section}>What each kind holds</h2>
            <RowTable
              label="What each kind of kit holds"
              columns={TEMPLATE_LIST}
              rows={templates}
              keyOf={t => t.id}
              onOpen={t => template(t.id)}
            />
          </>
        ) : null}
      </div>
      <footer className={styles.foot}>
        {kit ? (
          <>
            <Action weight="main" hint="Enter" onClick={() => open(kit.item)}>
              What is in it
            </Action>
            <Action hint="s" onClick={() => setForm(checkForm(kit))}>
              Read its seal
            </Action>
            <Action hint="o" onClick={() => setForm(openForm(kit))}>
              It was opened
            </Action>
            <Action hint="c" onClick={() => open(kit.item, true)}>
              Count and seal
            </Action>
          </>
        ) : null}
        <Action weight={rows.length === 0 && templates.length > 0 ? 'main' : 'plain'} hint="n" onClick={add}>
          Receive a kit
        </Action>
        <Action weight={templates.length === 0 ? 'main' : 'plain'} hint="k" onClick={addTemplate}>
          A kind of kit
        </Action>
        {templates.length > 0 ? (
          <Action weight="quiet" hint="l" onClick={nextTable}>
            Next table
          </Action>
        ) : null}
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} />
      ) : null}
    </div>
  );
}

function Numbers({ rows }: { rows: readonly KitLine[] }) {
  const count = (is: (k: KitLine) => boolean) => rows.filter(is).length;
  const told: readonly Told[] = [
    [rows.length, rows.length === 1 ? 'kit' : 'kits', false],
    [count(k => k.effect === 'blocks'), 'that do not serve', true],
    [count(k => k.state !== 'sealed'), 'owing a full count and a seal', true],
    [count(k => k.effect === 'limits'), 'short of something', false],
  ];
  return <Figures told={told} />;
}
