/** The side panel on one duty of one thing: why this date, what can be done, and what the date stands on. */
import { useRef, useState } from 'react';
import type { Explanation, ItemPage } from '../../../db/api.ts';
import { rangeWords } from '../../../domain/rulebook/due-words.ts';
import { OWN_WORDS } from '../../../domain/rulebook/words.ts';
import { useAsk } from '../../api/ask.ts';
import { Action } from '../Action.tsx';
import { THING_DEEDS } from '../deeds/deeds.ts';
import { ThingActions } from '../deeds/ThingActions.tsx';
import { useKeys } from '../keys/keys.tsx';
import { ConditionWord } from '../state/ConditionWord.tsx';
import { StateMark } from '../state/StateMark.tsx';
import { DateText, daysWords } from '../words/dates.tsx';
import { NotReady } from '../words/NotReady.tsx';
import { Plate } from '../words/Plate.tsx';
import { Counted, OtherClocks, Rule } from './WhySections.tsx';
import styles from './why.module.css';

interface WhyPanelProps {
  item: string;
  duty: string;
  /** A deed to begin with at once. */
  begin?: string | null;
  onBegun?: () => void;
  onClose: () => void;
  /** Absent on the page of the thing itself. */
  onOpenPage?: (item: string) => void;
  /** Whether what can be done is offered here. */
  actions?: boolean;
}

export function WhyPanel({ item, duty, begin, onBegun, onClose, onOpenPage, actions = true }: WhyPanelProps) {
  const page = useAsk('item.page', { item });
  const why = useAsk('due.explain', { item, requirement: duty });
  const body = useRef<HTMLElement>(null);
  // A key pressed while the thing is still being read is not lost.
  const [early, setEarly] = useState<string | null>(null);
  useKeys(
    'This thing',
    THING_DEEDS.filter(d => d.usual).map(d => ({ key: d.key, label: d.title, run: () => setEarly(d.id) })),
    actions && !page.data,
  );
  useKeys('The panel', [{ key: 'i', label: 'Into the panel, to read on', run: () => body.current?.focus() }]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keys must be able to reach it.
    <aside ref={body} className={styles.panel} aria-label="Why this date" tabIndex={0}>
      <div className={styles.top}>
        {page.data ? <Head page={page.data} alone={!actions} /> : <NotReady loaded={page} />}
        <Action weight="quiet" hint="Escape" onClick={onClose}>
          Close
        </Action>
      </div>
      {page.data && why.data ? <DutyLine page={page.data} why={why.data} /> : null}
      {page.data && actions ? (
        <div className={styles.actions}>
          <ThingActions
            thing={page.data}
            options={{ activity: why.data?.rule.activity, now: page.data }}
            {...(why.data ? { expected: expectedNext(why.data) } : {})}
            begin={why.data ? (begin ?? early) : null}
            onBegun={() => {
              setEarly(null);
              onBegun?.();
            }}
          >
            {onOpenPage ? (
              <Action weight="quiet" hint="o" onClick={() => onOpenPage(item)}>
                Its page
              </Action>
            ) : null}
          </ThingActions>
        </div>
      ) : null}
      {why.data ? <Why why={why.data} /> : <NotReady loaded={why} />}
    </aside>
  );
}

/** Whose date it is; on the page of the thing itself that is said already. */
function Head({ page, alone }: { page: ItemPage; alone: boolean }) {
  if (alone) return <h2>Why this date?</h2>;
  return (
    <div>
      <Plate number={page.number} />
      <p className={styles.what}>{page.what}</p>
      <p className={styles.where}>
        {page.place ?? 'Place not known'}
        {page.condition !== 'serviceable' ? <ConditionWord condition={page.condition} /> : null}
      </p>
    </div>
  );
}

function DutyLine({ page, why }: { page: ItemPage; why: Explanation }) {
  const row = page.due.find(d => d.requirement === why.requirement);
  return (
    <div className={styles.duty}>
      <h2>{why.rule.title}</h2>
      {why.rule.own ? (
        <p className={styles.due}>
          {OWN_WORDS[why.rule.own.change]} {why.rule.own.authority ? `${why.rule.own.authority}: ` : ''}
          {why.rule.own.reason}
        </p>
      ) : null}
      <StateMark state={why.state} large />
      {row?.owedSince ? (
        <p className={styles.due}>
          owed since <DateText date={row.owedSince} />
        </p>
      ) : null}
      {why.dueOn ? (
        <p className={styles.due}>
          {rangeWords(why.dueOn, why.dueTo) ?? (
            <>
              due <DateText date={why.dueOn} />
            </>
          )}
          {row?.daysLeft != null ? <span className={styles.days}>{daysWords(row.daysLeft)}</span> : null}
        </p>
      ) : null}
    </div>
  );
}

function Why({ why }: { why: Explanation }) {
  return (
    <>
      <p className={styles.paragraph}>{why.paragraph}</p>
      {why.steps.length > 0 ? (
        <section>
          <h3>How the date is reached</h3>
          <ol>
            {why.steps.map(step => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </section>
      ) : null}
      <Counted why={why} />
      {why.clocks.length > 1 ? <OtherClocks clocks={why.clocks} /> : null}
      {why.wouldChange.length > 0 ? (
        <section>
          <h3>What would change it</h3>
          <ul>
            {why.wouldChange.map(w => (
              <li key={w}>{w}</li>
            ))}
          </ul>
        </section>
      ) : null}
      <Rule why={why} />
    </>
  );
}

/**
 * The deed that settles a duty: what cannot be judged for want of a permit is met by confirming it, an end of life by
 * retiring, a printed date by reading the new label.
 */
function expectedNext({ rule, state }: Explanation): string {
  const { kind } = rule.clock;
  if (state === 'not judged' && kind.startsWith('cylinder')) return 'confirm permit';
  const isLife = kind === 'cylinder life' || kind === 'life' || kind === 'made before';
  if (isLife && (state === 'life ended' || state === 'due soon')) return 'retire';
  return kind === 'printed date' ? 'amend' : 'record';
}
