import { useDocumentTitle } from '@mantine/hooks';
import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { RigPage } from '../../../db/api-desk.ts';
import { capital } from '../../../domain/capital.ts';
import { CRITERIA } from '../../../domain/checkoffs/criteria.ts';
import { type Criterion, NOT_FITTED } from '../../../domain/checkoffs/criterion.ts';
import { judgeRig, type RigJudgement } from '../../../domain/checkoffs/walk-round.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import type { DeedForm } from '../../parts/deeds/deedForm.ts';
import { RowTable, type TableColumn } from '../../parts/grid/RowTable.tsx';
import { useKeys } from '../../parts/keys/keys.tsx';
import { Caution } from '../../parts/words/Caution.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import { AnswerDialog } from './AnswerDialog.tsx';
import styles from './rigs.module.css';
import { type Answers, walkForm } from './walkForm.ts';

/** Round the rig and through its cab: exceptions first, readings where they are read, and what they do to the rig. */
export function WalkRound({ rig }: { rig: string }) {
  const page = useAsk('rig.page', { rig }, { keep: true });
  if (!page.data)
    return (
      <div className={styles.screen}>
        <NotReady loaded={page} />
      </div>
    );
  return <Walking page={page.data} />;
}

function Walking({ page }: { page: RigPage }) {
  useDocumentTitle(`${page.name}, walk-round · Baybook`);
  const navigate = useNavigate();
  const summary = useAsk('department.summary', {}).data;
  const [answers, setAnswers] = useState<Answers>({});
  const [active, setActive] = useState(0);
  const [asking, setAsking] = useState<Criterion | null>(null);
  const [form, setForm] = useState<DeedForm | null>(null);
  const top = useRef<HTMLDivElement>(null);
  const judged = judgeRig(answers);
  const criterion = CRITERIA[active];
  useEffect(() => rowAt(top.current, 0)?.focus(), []);

  const answer = (c: Criterion, value: string) => {
    setAnswers(before => ({ ...before, [c.id]: value }));
    const next = Math.min(CRITERIA.indexOf(c) + 1, CRITERIA.length - 1);
    // Once the dialog has given the focus back.
    requestAnimationFrame(() => setTimeout(() => rowAt(top.current, next)?.focus()));
  };
  const good = () => {
    if (criterion?.answer.kind === 'choice') answer(criterion, criterion.answer.values[0]?.value ?? '');
    else if (criterion) setAsking(criterion);
  };
  const restIsGood = () =>
    setAnswers(before => ({
      ...Object.fromEntries(
        CRITERIA.flatMap(c => (c.answer.kind === 'choice' ? [[c.id, c.answer.values[0]?.value ?? '']] : [])),
      ),
      ...before,
    }));
  const back = () => void navigate({ to: '/rigs/$rig', params: { rig: page.id }, search: {} });
  const sign = () => setForm(walkForm(page, answers, judged));
  useKeys('The walk-round', [
    { key: 'a', label: 'It is as it should be', run: good },
    { key: 'r', label: 'Everything else that is looked at is as it should be', run: restIsGood },
    {
      key: 'n',
      label: 'The rig has no such thing',
      run: () => criterion?.mayLack && answer(criterion, NOT_FITTED),
    },
    { key: 'g', label: 'Sign', run: sign },
    { key: 'Escape', label: 'Back to the rig', run: back },
  ]);
  return (
    <div className={styles.screen} ref={top}>
      <header className={styles.header}>
        <h1>{page.name}: is it fit to go out?</h1>
        <p className={styles.numbers}>
          <span>
            <b>{CRITERIA.length - judged.unanswered.length}</b> of {CRITERIA.length} looked at
          </span>
          <span>
            <b className={judged.out.length > 0 ? styles.late : undefined}>{judged.out.length}</b> out of
            service
          </span>
          <span>
            <b>{judged.limited.length}</b> limited
          </span>
          <span>
            <b>{judged.notes.length}</b> to note
          </span>
          <span className={styles.soft}>It advises; it does not change dispatch status.</span>
        </p>
      </header>
      <div className={styles.walk}>
        <div className={styles.list}>
          <RowTable
            label="Walk-round"
            columns={columnsFor(answers, judged)}
            rows={CRITERIA}
            keyOf={c => c.id}
            onOpen={setAsking}
            onActive={c => setActive(CRITERIA.indexOf(c))}
          />
        </div>
        <aside className={styles.walkSide} aria-label="What it comes to">
          {criterion?.caution ? (
            <Caution
              cautions={[criterion.caution]}
              who="Follow the manufacturer and your AHJ; a driver qualified for this rig."
            />
          ) : null}
          <Findings title="Out of service" findings={judged.out} late />
          <Findings title="Limited" findings={judged.limited} />
          <Findings title="To note" findings={judged.notes} />
          <Findings title="Not judged" findings={judged.notJudged} />
        </aside>
      </div>
      <footer className={styles.foot}>
        <Action weight="main" hint="a" onClick={good}>
          As it should be
        </Action>
        <Action hint="Enter" onClick={() => criterion && setAsking(criterion)}>
          Something else
        </Action>
        {criterion?.mayLack ? (
          <Action hint="n" onClick={() => answer(criterion, NOT_FITTED)}>
            Not fitted
          </Action>
        ) : null}
        <Action hint="r" onClick={restIsGood}>
          The rest is as it should be
        </Action>
        <Action weight={judged.unanswered.length === 0 ? 'main' : 'plain'} hint="g" onClick={sign}>
          Sign
        </Action>
        <Action weight="quiet" hint="Escape" onClick={back}>
          Back
        </Action>
      </footer>
      {asking ? (
        <AnswerDialog
          criterion={asking}
          before={answers[asking.id] ?? ''}
          onClose={() => setAsking(null)}
          onAnswer={value => {
            answer(asking, value);
            setAsking(null);
          }}
        />
      ) : null}
      {form && summary ? (
        <DeedDialog form={form} today={summary.today} onClose={() => setForm(null)} onDone={back} />
      ) : null}
    </div>
  );
}

function Findings({
  title,
  findings,
  late = false,
}: {
  title: string;
  findings: RigJudgement['out'];
  late?: boolean;
}) {
  if (findings.length === 0) return null;
  return (
    <section aria-label={title}>
      <h2 className={late ? styles.late : undefined}>{title}</h2>
      <ul>
        {findings.map(f => (
          <li key={f.criterion}>{f.text}.</li>
        ))}
      </ul>
    </section>
  );
}

function columnsFor(answers: Answers, judged: RigJudgement): readonly TableColumn<Criterion>[] {
  const says = (c: Criterion): { words: string; late: boolean } => {
    if (judged.out.some(f => f.criterion === c.id)) return { words: 'Out of service', late: true };
    if (judged.limited.some(f => f.criterion === c.id)) return { words: 'Limited', late: true };
    if (judged.notes.some(f => f.criterion === c.id)) return { words: 'To note', late: false };
    if (judged.notJudged.some(f => f.criterion === c.id)) return { words: 'Not judged', late: false };
    return { words: answers[c.id] === undefined ? '' : '✓', late: false };
  };
  return [
    { key: 'group', head: 'What', cell: c => <span className={styles.soft}>{capital(c.group)}</span> },
    { key: 'question', head: 'Question', cell: c => c.question },
    {
      key: 'answer',
      head: 'Found',
      cell: c => {
        const said = answers[c.id];
        if (said === undefined) return <span className={styles.soft}>–</span>;
        const unit = c.answer.kind === 'reading' && said !== NOT_FITTED ? c.answer.unit : '';
        return <span>{`${said}${unit.startsWith('/') ? unit : unit && ` ${unit}`}`}</span>;
      },
    },
    {
      key: 'does',
      head: 'It does',
      cell: c => {
        const { words, late } = says(c);
        return <b className={`${styles.oneLine} ${late ? styles.late : ''}`}>{words}</b>;
      },
    },
  ];
}

const rowAt = (top: HTMLElement | null, index: number): HTMLElement | null =>
  top?.querySelectorAll<HTMLElement>('tbody tr')[index] ?? null;
