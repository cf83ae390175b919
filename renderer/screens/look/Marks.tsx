import { MARK_STATES } from '../../../domain/derive/marks.ts';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { SHAPE_BOX, SHAPES, STATE_MEANS } from '../../parts/state/shapes.tsx';
import styles from './look.module.css';

/** Every state: its mark, the shape in grey at its smallest and enlarged, and what it says. */
export function Marks() {
  return (
    <section aria-label="State marks">
      <h2>State marks</h2>
      <p className={styles.lead}>
        One hanging tag with its hole, filled, cut or broken. Word, shape and color together; the shape alone
        is told apart in grey at 12 px. What is current has no color: the eye lands on what is wrong.
      </p>
      <table className={styles.marks}>
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col">Grey, 12 px</th>
            <th scope="col">Large</th>
            <th scope="col">What it says</th>
          </tr>
        </thead>
        <tbody>
          {MARK_STATES.map(state => (
            <tr key={state}>
              <td>
                <StateMark state={state} />
              </td>
              <td className={styles.grey}>
                <svg width="17.5" height="12" viewBox={SHAPE_BOX} aria-hidden="true">
                  {SHAPES[state]}
                </svg>
              </td>
              <td>
                <svg width="57" height="39" viewBox={SHAPE_BOX} aria-hidden="true">
                  {SHAPES[state]}
                </svg>
              </td>
              <td>{STATE_MEANS[state]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
