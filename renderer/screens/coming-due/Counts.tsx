/** The answer in one line of numbers: each is a filter. */
import type { DueState } from '../../../domain/derive/due.ts';
import { useAsk } from '../../api/ask.ts';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { dateText } from '../../parts/words/dates.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import styles from './coming-due.module.css';
import { countsArgs, type DueSearch, TO_DO, toggleState } from './filter.ts';

const SHOWN: readonly DueState[] = [...TO_DO, 'current'];

export function Counts({ search, onChange }: { search: DueSearch; onChange: (search: DueSearch) => void }) {
  const counts = useAsk('due.counts', countsArgs(search), { keep: true });
  // Where it fails the list fails too, and says so.
  if (counts.isError) return null;
  if (!counts.data) return <NotReady loaded={counts} />;
  const { byState } = counts.data;
  return (
    <div className={styles.counts}>
      {SHOWN.filter(s => (byState[s] ?? 0) > 0).map(state => (
        <button
          key={state}
          type="button"
          className={styles.count}
          aria-pressed={Array.isArray(search.state) && search.state.includes(state)}
          onClick={() => onChange(toggleState(search, state))}
        >
          <b>{(byState[state] ?? 0).toLocaleString('en-US')}</b> <StateMark state={state} />
        </button>
      ))}
    </div>
  );
}

/** How many things the counts are over, and for which day. */
export function AsOf({ search }: { search: DueSearch }) {
  const counts = useAsk('due.counts', countsArgs(search), { keep: true }).data;
  if (!counts) return null;
  const { things, on } = counts;
  return (
    <span className={styles.asOf}>
      {things.toLocaleString('en-US')} {things === 1 ? 'thing' : 'things'} in the department, {dateText(on)}
    </span>
  );
}
