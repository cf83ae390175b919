/** What stands where an answer is not there yet, and where it failed: never the same as an empty list. */
import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';
import type { Problem } from '../../../db/api.ts';
import { problemOf } from '../../api/problem.ts';
import styles from './words.module.css';

/** What was wrong and what to do about it. */
export function Notice({ problem }: { problem: Problem }) {
  return (
    <div className={styles.notice} role="alert">
      <strong>{problem.message}</strong>
      {problem.todo}
    </div>
  );
}

/** An answer that is waited for or failed. */
export function NotReady({ loaded }: { loaded: Pick<UseQueryResult, 'status' | 'error'> }) {
  if (loaded.status === 'error') return <Notice problem={problemOf(loaded.error)} />;
  return <p className={styles.waiting}>Reading the book…</p>;
}

/** A list that was read and holds nothing. */
export function Empty({ children }: { children: ReactNode }) {
  return <div className={styles.empty}>{children}</div>;
}
