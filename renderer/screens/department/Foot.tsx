import type { ReactNode } from 'react';
import styles from './department.module.css';

/** Under a part: what can be done with the row, and at the end what can be added. */
export function Foot({ children, adds }: { children?: ReactNode; adds?: ReactNode }) {
  return (
    <footer className={styles.foot}>
      {children}
      <span className={styles.footRight}>{adds}</span>
    </footer>
  );
}
