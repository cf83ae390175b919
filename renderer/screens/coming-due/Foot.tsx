import type { ReactNode } from 'react';
import { Action } from '../../parts/Action.tsx';
import { Notice } from '../../parts/words/NotReady.tsx';
import styles from './coming-due.module.css';
import type { useExport } from './useExport.ts';

interface FootProps {
  total: number | undefined;
  exporting: ReturnType<typeof useExport>;
  children: ReactNode;
}

/** Under the table: how many rows, what can be done with the active one and with the list. */
export function Foot({ total, exporting, children }: FootProps) {
  const { progress, problem } = exporting;
  return (
    <footer className={styles.foot}>
      <span role="status" className={styles.total}>
        {progress
          ? `Exporting ${progress.done.toLocaleString('en-US')} of ${progress.total.toLocaleString('en-US')}…`
          : total === undefined
            ? ''
            : `${total.toLocaleString('en-US')} ${total === 1 ? 'row' : 'rows'}`}
      </span>
      {problem ? <Notice problem={problem} /> : null}
      {progress ? (
        <Action weight="quiet" onClick={exporting.stop}>
          Stop the export
        </Action>
      ) : (
        children
      )}
    </footer>
  );
}
