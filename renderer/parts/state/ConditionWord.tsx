import type { Condition } from '../../../domain/facts.ts';
import { StateMark } from './StateMark.tsx';
import styles from './state.module.css';

/** The condition of a thing: a mark where it is a state of its own, a word where it is not; serviceable is silent. */
export function ConditionWord({ condition, spoken = false }: { condition: Condition; spoken?: boolean }) {
  if (condition === 'tagged out' || condition === 'missing' || condition === 'retest owed')
    return <StateMark state={condition} />;
  if (condition === 'serviceable') return spoken ? <span>Serviceable</span> : null;
  const word = condition.charAt(0).toUpperCase() + condition.slice(1);
  return <span className={styles.condition}>{word}</span>;
}
