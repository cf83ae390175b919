import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { KitTemplatePage } from '../../../db/api-kits.ts';
import { FAMILIES } from '../../../domain/rulebook/index.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import { endForm, lineForm } from '../carry/forms.ts';
import { TEMPLATE_LINES } from './columns.tsx';
import styles from './kits.module.css';

/** What a kind of kit holds, line by line; every kit of it is counted against this. */
export function KitTemplate({ template }: { template: string }) {
  const page = useAsk('kit.template', { template }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Known key={template} page={page.data} />;
}

function Known({ page }: { page: KitTemplatePage }) {
  useDocumentTitle(`${page.what} · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const summary = useAsk('department.summary', {}).data;
  const [form, setForm] = useState<DeedForm | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const top = useRef<HTMLDivElement>(null);
  useEffect(() => top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true }), []);
  const line = page.lines.find(l => l.line === active) ?? page.lines[0];
  const list = { of: page.id, name: page.what, places: [] };
  const POCKET = 'The pocket or pouch of the kit: main, side pocket';
  const more = () => setForm(lineForm(list, FAMILIES, null, line?.place ?? 'main', POCKET));
  const change = (l: KitTemplatePage['lines'][number]) =>
    setForm(lineForm(list, FAMILIES, l, undefined, POCKET));
  const end = () => line && setForm(endForm(list, line));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/kits' }));
  useKeys('The list', [
    { key: 'n', label: 'A line more', run: more },
    { key: 'Delete', label: 'Take the line off the list', run: end },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What does a kit of this kind hold: {page.what}?</h1>
        <p className={styles.numbers}>
          <span>
            <b>{page.lines.length}</b> {page.lines.length === 1 ? 'line' : 'lines'}
          </span>
          <span>
            <b>{page.lines.filter(l => l.critical).length}</b> critical
          </span>
          <span>
            <b>{page.kits.length}</b> {page.kits.length === 1 ? 'kit' : 'kits'}
            {page.kits.length > 0 ? `: ${page.kits.map(k => k.number).join(', ')}` : ''}
          </span>
        </p>
      </header>
      <div className={styles.list}>
        {page.lines.length === 0 ? (
          <Empty>
            <p>
              Nothing is on its list yet. Put the lines on it one by one: what, how many, in which pocket.
            </p>
          </Empty>
        ) : (
          <RowTable
            label={`What a ${page.what.toLowerCase()} holds`}
            columns={TEMPLATE_LINES}
            rows={page.lines}
            keyOf={l => l.line}
            onOpen={change}
            onActive={l => setActive(l.line)}
          />
        )}
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
          <Action hint="Delete" onClick={end}>
            Take it off
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
