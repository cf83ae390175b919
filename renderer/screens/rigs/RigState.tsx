import type { RigLine } from '../../../db/api-desk.ts';
import { SHAPE_BOX, SHAPES } from '../../parts/state/shapes.tsx';
import styles from './rigs.module.css';

/** The condition of a rig; in service is quiet. */
export function RigState({ condition }: { condition: RigLine['condition'] }) {
  if (condition === 'in service') return <span className={styles.oneLine}>In service</span>;
  return (
    <span className={styles.stopped}>
      {condition === 'out of service' ? (
        <svg className={styles.shape} viewBox={SHAPE_BOX} aria-hidden="true" focusable="false">
          {SHAPES['tagged out']}
        </svg>
      ) : null}
      {condition === 'limited' ? 'Limited' : 'Out of service'}
    </span>
  );
}
