/** The numbers that count: at the head of a screen, and in the columns of its list. */
import type { ReactNode } from 'react';
import styles from '../frame.module.css';

/** A number, what it counts, and whether more than none of it is wrong. */
export type Told = readonly [n: number, words: string, wrong: boolean];

/** The numbers at the head of a screen; what else is said of it stands behind them. */
export function Figures({ told, children }: { told: readonly Told[]; children?: ReactNode }) {
  return (
    <p className={styles.numbers}>
      {told.map(([n, words, wrong]) => (
        <span key={words}>
          <b className={wrong && n > 0 ? styles.wrong : undefined}>{n.toLocaleString('en-US')}</b> {words}
        </span>
      ))}
      {children}
    </p>
  );
}

/** A number in a column, a dash for none. */
export const figure = (n: number, wrong = false): ReactNode =>
  n === 0 ? '–' : <b className={wrong ? styles.wrong : undefined}>{n.toLocaleString('en-US')}</b>;
