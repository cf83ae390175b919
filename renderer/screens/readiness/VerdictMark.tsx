/**
 * The verdict on a unit: an apparatus bay whose door is up, half down, shut, or not to be made out. Told apart in grey
 * and at 12 px; used for verdicts and nothing else, as the hanging tags are for what is due.
 */
import type { ReactNode } from 'react';
import type { Verdict } from '../../../domain/coverage/readiness.ts';
import styles from './verdict.module.css';

const BAY = 'M1 12.5V1h14v11.5';
const frame = (width: number) => <path d={BAY} fill="none" stroke="currentColor" strokeWidth={width} />;

const SHAPES: Readonly<Record<Verdict, ReactNode>> = {
  ready: frame(1),
  'ready with limits': (
    <>
      {frame(1.7)}
      <path d="M1 1h14v6.4H1z" fill="currentColor" />
    </>
  ),
  'not ready': (
    <path
      d="M.2.2h15.6v12.3H.2zM2.6 3.7v1.1h10.8V3.7zM2.6 7.7v1.1h10.8V7.7z"
      fill="currentColor"
      fillRule="evenodd"
    />
  ),
  'not known': <path d={BAY} fill="none" stroke="currentColor" strokeWidth="1.7" strokeDasharray="2.6 2.1" />,
};

const TONE: Readonly<Record<Verdict, string | undefined>> = {
  'not ready': styles.notReady,
  'ready with limits': styles.limits,
  'not known': styles.notKnown,
  ready: styles.ready,
};

/** The word of a verdict, as it begins a line. */
export const verdictWord = (verdict: Verdict): string => verdict.charAt(0).toUpperCase() + verdict.slice(1);

/** A verdict: its shape, its color and its word, always together. */
export function VerdictMark({ verdict, large = false }: { verdict: Verdict; large?: boolean }) {
  return (
    <span className={`${styles.mark} ${TONE[verdict]} ${large ? styles.large : ''}`}>
      <svg className={styles.shape} viewBox="-0.5 -0.5 17 13" aria-hidden="true" focusable="false">
        {SHAPES[verdict]}
      </svg>
      <span>{verdictWord(verdict)}</span>
    </span>
  );
}
