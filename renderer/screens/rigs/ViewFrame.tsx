import type { ReactNode } from 'react';
import type { View } from '../../../domain/rigs/drawing.ts';
import styles from './rigs.module.css';

const TITLES: Readonly<Record<View, string>> = {
  'driver side': 'Driver side',
  'officer side': 'Officer side',
  rear: 'Rear',
  top: 'Top',
  cab: 'Cab',
};

/** One view: the outline of a rig in ink behind the boxes of its places. */
export function ViewFrame({ view, children }: { view: View; children: ReactNode }) {
  return (
    <figure className={styles.view} data-view={view}>
      <figcaption>{TITLES[view]}</figcaption>
      <div className={styles.canvas}>
        <svg
          className={styles.outline}
          viewBox={OUTLINES[view].box}
          preserveAspectRatio="none"
          aria-hidden="true"
          focusable="false"
        >
          {OUTLINES[view].drawn}
        </svg>
        <div className={`${styles.boxes} ${styles[BODY[view]] ?? ''}`}>{children}</div>
      </div>
    </figure>
  );
}

/** Where the body of the rig lies in the outline: the boxes lie over it. */
const BODY: Readonly<Record<View, string>> = {
  'driver side': 'bodyRight',
  'officer side': 'bodyLeft',
  top: 'bodyRight',
  rear: 'bodyWhole',
  cab: 'bodyWhole',
};

const line = {
  fill: 'none',
  stroke: 'currentColor',
  strokeWidth: 1.2,
  vectorEffect: 'non-scaling-stroke',
} as const;

/** The front is on the left of the driver's side and of the top, on the right of the officer's. */
const SIDE = (
  <>
    <path {...line} d="M3 50V27L11 9H40V50" />
    <path {...line} d="M9 26L15 13H34V26Z" />
    <path {...line} d="M0 50H256" />
    <circle {...line} cx="22" cy="50.5" r="8" />
    <circle {...line} cx="208" cy="50.5" r="8" />
  </>
);

/** The rear and the cab stand on their two wheels. */
const END = <path {...line} d="M12 50V59H28V50M100 50V59H116V50M0 50H128" />;

const OUTLINES: Readonly<Record<View, { box: string; drawn: ReactNode }>> = {
  'driver side': { box: '0 0 256 60', drawn: SIDE },
  'officer side': { box: '0 0 256 60', drawn: <g transform="translate(256 0) scale(-1 1)">{SIDE}</g> },
  top: { box: '0 0 256 60', drawn: <path {...line} d="M4 14Q1 30 4 46L40 50V10ZM11 13.2V46.8" /> },
  rear: { box: '0 0 128 60', drawn: END },
  cab: { box: '0 0 128 60', drawn: END },
};
