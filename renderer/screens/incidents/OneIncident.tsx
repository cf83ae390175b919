import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate, useRouter } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { IncidentPage, IncidentRig } from '../../../db/api-incidents.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { toast } from '../../parts/toast.ts';
import { dateText } from '../../parts/words/dates.tsx';
import { Figures, type Told } from '../../parts/words/Figures.tsx';
import { Empty, Notice, NotReady } from '../../parts/words/NotReady.tsx';
import { columnsFor } from './columns.tsx';
import { DecideDialog, isToDecide } from './DecideDialog.tsx';
import { effectWords } from './effects.ts';
import { amendForm, namerOf, settleForm } from './forms.ts';
import styles from './incidents.module.css';
import { ReadBox } from './ReadBox.tsx';
import { type Chosen, choicesOf, NOTHING_CHOSEN, type Row, rowsOf } from './rows.ts';
import { useReads } from './useReads.ts';

/** One incident: the numbers read on each rig, what they come to, and who likely has what is missing. */
export function OneIncident({ incident }: { incident: string }) {
  const page = useAsk('incident.page', { incident }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Known key={page.data.id} page={page.data} />;
}

function Known({ page }: { page: IncidentPage }) {
  useDocumentTitle(`${page.name} · Baybook`);
  const navigate = useNavigate();
  const { history: visited } = useRouter();
  const summary = useAsk('department.summary', {}).data;
  const families = useAsk('vocabulary.list', {}).data?.families;
  const reads = useReads(page);
  const [chosen, setChosen] = useState<Chosen>(NOTHING_CHOSEN);
  const [activeRig, setActiveRig] = useState(() => firstToRead(page));
  const [active, setActive] = useState<string | null>(null);
  const [deciding, setDeciding] = useState<Row | null>(null);
  const [form, setForm] = useState<DeedForm | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const box = useRef<HTMLInputElement>(null);
  const rig = page.rigs.find(r => r.rig === activeRig) ?? page.rigs[0];
  const rows = rig ? rowsOf(page, rig, reads.of(rig.rig), reads.isKept(rig.rig)) : [];
  const row = rows.find(r => r.key === active) ?? rows[0];
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, where the screen begins; the page is keyed by its id.
  useEffect(() => {
    const at = page.rigs.findIndex(r => r.rig === activeRig);
    top.current?.querySelectorAll<HTMLElement>('[data-pane="rigs"] tbody tr')[at]?.focus();
  }, []);

  const read = () => box.current?.focus();
  const decide = (of: Row | undefined) => {
    if (of && isToDecide(of)) setDeciding(of);
    else toast('There is nothing to decide on it.');
  };
  const use = (number: string | null) => {
    if (!rig) return;
    const list = reads.of(rig.rig);
    const all = number === null && list.every(r => r.used);
    reads.change(rig.rig, before =>
      before.map(r => {
        if (number === null) return { ...r, used: !all };
        return r.number === number ? { ...r, used: !r.used } : r;
      }),
    );
  };
  const takeOff = () => {
    if (rig && row?.lost === null) reads.change(rig.rig, list => list.filter(r => r.number !== row.number));
  };
  const settle = async () => {
    if (!(await reads.keep())) return;
    setSettling(true);
  };
  const [settling, setSettling] = useState(false);
  // The page has been asked again after the last list was kept: what is settled is what is shown.
  useEffect(() => {
    if (!settling) return;
    setSettling(false);
    if (page.readings.length === 0 && page.rigs.every(r => r.list === null || r.settled))
      toast('Nothing has been read that is not settled.');
    else setForm(settleForm(page, chosen));
  }, [settling, page, chosen]);
  const amend = () => summary && families && setForm(amendForm(page, summary.units, families));
  const back = () => (visited.canGoBack() ? visited.back() : void navigate({ to: '/incidents' }));
  const isOpen = page.rigs.some(r => !r.settled);
  useKeys('This incident', [
    { key: 'c', label: 'Read numbers on the rig', run: read },
    { key: 'g', label: 'Settle: shows first what it does', run: () => void settle() },
    { key: 'e', label: 'Amend who was there, what was picked up', run: amend },
    { key: 'Escape', label: 'Back to where you came from', run: back },
  ]);
  useKeys(
    'The number',
    [
      { key: 'd', label: 'Decide: missing, whose, which of several', run: () => decide(row) },
      { key: 'u', label: 'It was used, or not', run: () => row?.lost === null && use(row.number) },
      { key: 'a', label: 'Everything read on this rig was used, or nothing', run: () => use(null) },
      { key: 'Backspace', label: 'Take the number off the list', run: takeOff },
    ],
    row !== undefined,
  );
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>{page.name}: what went home on the wrong rig?</h1>
        <Numbers page={page} />
        {reads.problem ? <Notice problem={reads.problem} /> : null}
        {rig ? <ReadBox key={rig.rig} box={box} rig={rig} reads={reads} /> : null}
      </header>
      <div className={styles.reading}>
        <section aria-label="Rigs that were there" data-pane="rigs" className={styles.pane}>
          <RowTable
            label="Rigs that were there"
            columns={rigColumns(page.rigs, reads.of)}
            rows={page.rigs}
            keyOf={r => r.rig}
            onActive={r => setActiveRig(r.rig)}
            onOpen={read}
            isOpen={r => r === rig}
          />
          <Settlements page={page} />
        </section>
        <section aria-label={rig ? `Numbers on ${rig.name}` : 'Numbers'} className={styles.pane}>
          {rows.length > 0 && rig ? (
            <RowTable
              key={rig.rig}
              label={`Numbers on ${rig.name}`}
              columns={columnsFor(rig, choicesOf(page, chosen))}
              rows={rows}
              keyOf={r => r.key}
              onOpen={decide}
              onActive={r => setActive(r.key)}
              isFaint={r => r.is === 'own' && r.where === ''}
            />
          ) : (
            <Empty>
              <p>
                {rig?.settled
                  ? 'What was read on it is settled. Read again, and only what is new is judged.'
                  : 'Its list has not come in: read the numbers on it, one after the other.'}
              </p>
            </Empty>
          )}
        </section>
      </div>
      <footer className={styles.foot}>
        <Action weight={page.readings.length === 0 ? 'main' : 'plain'} hint="c" onClick={read}>
          Read numbers
        </Action>
        {row && isToDecide(row) ? (
          <Action hint="d" onClick={() => decide(row)}>
            Decide
          </Action>
        ) : null}
        {row && row.lost === null ? (
          <>
            <Action hint="u" onClick={() => use(row.number)}>
              {row.used ? 'Not used' : 'Used'}
            </Action>
            <Action hint="a" onClick={() => use(null)}>
              All used
            </Action>
            <Action hint="Backspace" onClick={takeOff}>
              Take off
            </Action>
          </>
        ) : null}
        {isOpen ? (
          <Action weight={page.readings.length > 0 ? 'main' : 'plain'} hint="g" onClick={() => void settle()}>
            Settle
          </Action>
        ) : null}
        <Action hint="e" onClick={amend}>
          Amend
        </Action>
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {deciding && rig ? (
        <DecideDialog
          page={page}
          rig={rig}
          row={deciding}
          chosen={chosen}
          onClose={() => setDeciding(null)}
          onChoose={next => {
            setChosen(next);
            setDeciding(null);
          }}
        />
      ) : null}
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} />
      ) : null}
    </div>
  );
}

/** The first rig whose list is not settled, what was read before what was not. */
const firstToRead = (page: IncidentPage): string | undefined =>
  (page.rigs.find(r => r.list !== null && !r.settled) ?? page.rigs.find(r => r.list === null) ?? page.rigs[0])
    ?.rig;

const rigColumns = (
  rigs: readonly IncidentRig[],
  listOf: (rig: string) => readonly unknown[],
): readonly TableColumn<IncidentRig>[] => [
  { key: 'unit', head: 'Unit', cell: r => <strong className={styles.oneLine}>{r.unitName}</strong> },
  // Most crews rode their own rigs, which bear their names.
  ...(rigs.some(r => r.name !== r.unitName)
    ? [
        {
          key: 'rig',
          head: 'On',
          cell: (r: IncidentRig) => (
            <span className={styles.oneLine}>{r.name === r.unitName ? '' : r.name}</span>
          ),
        },
      ]
    : []),
  { key: 'read', head: 'Read', figure: true, cell: r => listOf(r.rig).length || '–' },
  { key: 'believed', head: 'Believed', figure: true, cell: r => r.believed.toLocaleString('en-US') },
  {
    key: 'list',
    head: 'List',
    cell: r => {
      if (listOf(r.rig).length > 0 && (r.settled || r.list === null)) return 'being read';
      if (r.settled) return 'settled';
      return r.list ? 'in' : <b className={`${styles.wrong} ${styles.oneLine}`}>not in</b>;
    },
  },
];

/** What was settled before, in the sentences in which it was shown. */
function Settlements({ page }: { page: IncidentPage }) {
  const nameOf = namerOf(page);
  return page.settlements.map(s => (
    <section key={s.fact} className={styles.settled} aria-label={`Settled ${dateText(s.on)}`}>
      <h2>
        Settled {dateText(s.on)}
        {s.byName ? ` by ${s.byName}` : ''}
      </h2>
      {s.note ? <p>{s.note}</p> : null}
      {effectWords(s, nameOf).map(words => (
        <p key={words}>{words}</p>
      ))}
    </section>
  ));
}

function Numbers({ page }: { page: IncidentPage }) {
  const told: readonly Told[] = [
    [page.listsIn, `of ${page.rigs.length} lists in`, false],
    [page.own, 'where they belong', false],
    [page.ours, 'of ours from elsewhere', false],
    [page.foreign, 'foreign', true],
    [page.doubtful, 'in doubt', true],
    [page.missing, 'missing', true],
  ];
  return (
    <Figures told={told}>
      <span>{dateText(page.on)}</span>
      {page.agencies.length > 0 ? <span>with {page.agencies.join(', ')}</span> : null}
      <span>picked up: {page.families.join(', ').toLowerCase()}</span>
    </Figures>
  );
}
