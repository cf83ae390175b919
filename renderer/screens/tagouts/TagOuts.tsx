import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { ChainLine } from '../../../db/api-checks.ts';
import { capital } from '../../../domain/capital.ts';
import { STAGES, type Stage } from '../../../domain/chains/chain.ts';
import { photosWords } from '../../../domain/photos.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { ThingActions } from '../../parts/deeds/ThingActions.tsx';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { PrintAction } from '../../parts/paper/PrintAction.tsx';
import { PhotoDialog, Photos, type Shot } from '../../parts/photos/Photos.tsx';
import { ConditionWord } from '../../parts/state/ConditionWord.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { Empty, NotReady } from '../../parts/words/NotReady.tsx';
import styles from './tagouts.module.css';

/** What each stage expects next, by the id of the deed. */
const EXPECTED: Readonly<Record<Stage, string>> = {
  missing: 'found',
  'held for investigation': 'release',
  tagged: 'send to repair',
  'at repair': 'repaired',
  'retest owed': 'record',
  'to be returned': 'return',
  'limited use': 'return',
};

/** What is broken, and where is it stuck? Every open chain, the stuck ones first. */
export function TagOuts() {
  useDocumentTitle('Tag-outs · Baybook');
  const navigate = useNavigate();
  const chains = useAsk('chains.list', {}, { keep: true });
  const [stage, setStage] = useState<Stage | null>(null);
  const [active, setActive] = useState<string | null>(null);
  const [looking, setLooking] = useState(false);
  const top = useRef<HTMLDivElement>(null);
  const isRead = chains.data !== undefined;
  useEffect(() => {
    if (isRead) top.current?.querySelector<HTMLElement>('tbody tr')?.focus({ preventScroll: true });
  }, [isRead]);
  const all = chains.data?.rows ?? [];
  const rows = stage === null ? all : all.filter(c => c.stage === stage);
  const line = rows.find(c => c.item === active) ?? rows[0];
  const open = (c: ChainLine) => void navigate({ to: '/thing/$item', params: { item: c.item }, search: {} });
  const step = () => {
    const known = STAGES.filter(s => all.some(c => c.stage === s));
    const at = stage === null ? -1 : known.indexOf(stage);
    setStage(known[at + 1] ?? null);
  };
  const toNotices = () => void navigate({ to: '/notices' });
  const shots = line ? shotsOf(line) : [];
  useKeys('The list', [
    ...(shots.length > 0 ? [{ key: 'o', label: 'Its photos', run: () => setLooking(true) }] : []),
    { key: 'f', label: 'The next stage alone, then all again', run: step },
    { key: 'n', label: 'Recalls and stop-use notices', run: toNotices },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>What is broken, and where is it stuck?</h1>
        {chains.data ? <Numbers all={all} stage={stage} onStage={setStage} /> : null}
      </header>
      {chains.data === undefined ? <NotReady loaded={chains} /> : null}
      {chains.data && all.length === 0 ? (
        <Empty>
          <p>Nothing is out of service. What is tagged out stands here until it is back, or gone for good.</p>
        </Empty>
      ) : null}
      {rows.length > 0 ? (
        <div className={styles.chains}>
          <div className={styles.list}>
            <RowTable
              label="Open chains, the stuck ones first"
              columns={COLUMNS}
              rows={rows}
              keyOf={c => c.item}
              onOpen={open}
              onActive={c => setActive(c.item)}
              isOpen={c => c === line}
            />
          </div>
          {line ? <Steps line={line} /> : null}
        </div>
      ) : null}
      <footer className={styles.foot}>
        {line ? (
          <ThingActions key={line.item} thing={line} options={{}} expected={EXPECTED[line.stage]}>
            <Action weight="quiet" hint="Enter" onClick={() => open(line)}>
              Its page
            </Action>
          </ThingActions>
        ) : null}
        {line ? <PrintAction paper={{ paper: 'tag', item: line.item }} label="Print its tag" /> : null}
        {shots.length > 0 ? (
          <Action weight="quiet" hint="o" onClick={() => setLooking(true)}>
            {capital(photosWords(shots.length))}
          </Action>
        ) : null}
        <Action weight="quiet" hint="n" onClick={toNotices}>
          Notices
        </Action>
      </footer>
      {looking && shots.length > 0 ? <PhotoDialog shots={shots} onClose={() => setLooking(false)} /> : null}
    </div>
  );
}

const COLUMNS: readonly TableColumn<ChainLine>[] = [
  { key: 'number', head: 'Number', cell: c => <span className={`mono ${styles.oneLine}`}>{c.number}</span> },
  { key: 'what', head: 'What', cell: c => <span className={styles.cut}>{c.what}</span> },
  {
    key: 'stage',
    head: 'Stands at',
    cell: c => <span className={styles.oneLine}>{capital(c.stage)}</span>,
  },
  {
    key: 'days',
    head: 'Days there',
    figure: true,
    cell: c =>
      c.stuck ? (
        <b className={styles.stuck}>{c.days.toLocaleString('en-US')} stuck</b>
      ) : (
        c.days.toLocaleString('en-US')
      ),
  },
  { key: 'from', head: 'Out since', figure: true, cell: c => dateText(c.from.slice(0, 10)) },
  {
    key: 'where',
    head: 'Where, and why',
    cell: c => (
      <span className={styles.cut}>
        {c.place ?? 'place not known'}
        {c.reason ? <span className={styles.soft}>: {c.reason}</span> : null}
      </span>
    ),
  },
];

/** The photos of a step, each with what it is of; and those of the whole chain, the latest first. */
const shotsOfStep = (line: ChainLine, step: ChainLine['steps'][number]): Shot[] =>
  step.photos.map(photo => ({
    photo,
    of: `${line.number}, ${step.what}`,
    told: `${dateText(step.on)}${step.byName ? `, ${step.byName}` : ''}`,
  }));
const shotsOf = (line: ChainLine): Shot[] => line.steps.flatMap(step => shotsOfStep(line, step)).reverse();

/** The chain of one thing, step by step, and what comes next. */
function Steps({ line }: { line: ChainLine }) {
  return (
    <aside className={styles.steps} aria-label={`The chain of ${line.number}`}>
      <h2>
        <span className="mono">{line.number}</span> {line.what}
      </h2>
      <p className={styles.now}>
        <ConditionWord condition={line.condition} spoken />
        {line.tag ? <span>tag {line.tag}</span> : null}
        {line.unit ? <span>on {line.unit}</span> : null}
        {line.promised ? <span>promised for {dateText(line.promised)}</span> : null}
      </p>
      <ol>
        {line.steps.map((step, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: steps are a history; none is ever put between two others here.
          <li key={i}>
            <time dateTime={step.on}>{dateText(step.on)}</time>
            <span>{step.what}</span>
            {step.byName ? <span className={styles.soft}>{step.byName}</span> : null}
            <Photos shots={shotsOfStep(line, step)} />
          </li>
        ))}
      </ol>
      <p className={styles.next}>
        <b>Next</b> {line.next}.
      </p>
    </aside>
  );
}

function Numbers({
  all,
  stage,
  onStage,
}: {
  all: readonly ChainLine[];
  stage: Stage | null;
  onStage: (stage: Stage | null) => void;
}) {
  const stuck = all.filter(c => c.stuck).length;
  return (
    <p className={styles.numbers}>
      <button type="button" aria-pressed={stage === null} onClick={() => onStage(null)}>
        <b>{all.length}</b> open
      </button>
      <span>
        <b className={stuck > 0 ? styles.stuck : undefined}>{stuck}</b> stuck
      </span>
      {STAGES.map(s => ({ s, n: all.filter(c => c.stage === s).length }))
        .filter(({ n }) => n > 0)
        .map(({ s, n }) => (
          <button
            key={s}
            type="button"
            aria-pressed={stage === s}
            onClick={() => onStage(stage === s ? null : s)}
          >
            <b>{n}</b> {s}
          </button>
        ))}
    </p>
  );
}
