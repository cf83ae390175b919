/** How many things a requirement concerns, and how they stand today. */
import { Link } from '@tanstack/react-router';
import type { DueCounts } from '../../../db/api.ts';
import { DUE_STATES, type DueState } from '../../../domain/derive/due.ts';
import { useAsk } from '../../api/ask.ts';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import panelStyles from './panel.module.css';
import styles from './rulebook.module.css';

const statesOf = ({ byState }: DueCounts): { state: DueState; n: number }[] =>
  DUE_STATES.flatMap(state => {
    const n = byState[state] ?? 0;
    return n > 0 && state !== 'not applicable' ? [{ state, n }] : [];
  });

const thingsText = (n: number) => `${n.toLocaleString('en-US')} ${n === 1 ? 'thing' : 'things'}`;

/** As marks, each leading to those things. */
export function Standing({ requirement }: { requirement: string }) {
  const counts = useAsk('due.counts', { requirement });
  if (!counts.data) return <NotReady loaded={counts} />;
  const states = statesOf(counts.data);
  if (states.length === 0) return <p className={styles.soft}>It concerns nothing today.</p>;
  const all = states.reduce((sum, s) => sum + s.n, 0);
  return (
    <ul className={panelStyles.standing}>
      <li>
        <Link to="/due" search={{ requirement, state: 'all' }}>
          {thingsText(all)}
        </Link>
      </li>
      {states.map(({ state, n }) => (
        <li key={state}>
          <Link to="/due" search={{ requirement, state: [state] }}>
            <b>{n.toLocaleString('en-US')}</b> <StateMark state={state} />
          </Link>
        </li>
      ))}
    </ul>
  );
}
