import type { ReactNode } from 'react';
import { KeyHint } from './KeyHint.tsx';
import styles from './words.module.css';

/** A box to type in, with the key that leads into it at its end. */
export function KeyedBox({ hint, children }: { hint: string; children: ReactNode }) {
  return (
    <span className={styles.keyedBox}>
      {children}
      <span className={styles.keyedHint}>
        <KeyHint of={hint} />
      </span>
    </span>
  );
}
