import type { MarkState } from '../../../domain/derive/marks.ts';
import { SHAPE_BOX, SHAPES } from './shapes.tsx';
import styles from './state.module.css';

const TONE: Readonly<Record<MarkState, string | undefined>> = {
  'life ended': styles.late,
  overdue: styles.late,
  'never done': styles.late,
  'retest owed': styles.stopped,
  'tagged out': styles.stopped,
  missing: styles.stopped,
  'due soon': styles.coming,
  'not judged': styles.unsure,
  current: styles.quiet,
  'not applicable': styles.quiet,
};

const WORDS: Readonly<Record<MarkState, string>> = {
  'life ended': 'Life ended',
  'retest owed': 'Retest owed',
  'never done': 'Never done',
  overdue: 'Overdue',
  'tagged out': 'Tagged out',
  missing: 'Missing',
  'not judged': 'Not judged',
  'due soon': 'Due soon',
  current: 'Current',
  'not applicable': 'Not applicable',
};

/** A state: its shape, its color and its word, always together. */
export function StateMark({ state, large = false }: { state: MarkState; large?: boolean }) {
  return (
    <span className={`${styles.mark} ${TONE[state]} ${large ? styles.large : ''}`}>
      <svg className={styles.shape} viewBox={SHAPE_BOX} aria-hidden="true" focusable="false">
        {SHAPES[state]}
      </svg>
      <span className={styles.word}>{WORDS[state]}</span>
    </span>
  );
}

/** The word of a state, as it begins a line. */
export const stateWord = (state: MarkState): string => WORDS[state] ?? state;
