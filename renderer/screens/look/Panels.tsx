import type { MarkState } from '../../../domain/derive/marks.ts';
import { StateMark } from '../../parts/state/StateMark.tsx';
import { Plate } from '../../parts/words/Plate.tsx';
import styles from './look.module.css';

const SPECIMENS: readonly (readonly [MarkState, string, string, string])[] = [
  [
    'overdue',
    '31-107',
    'due 14 Jun 2026, 164 days ago',
    'Hose 31-107 was last service-tested on 14 Jun 2025 and passed. The department tests hose every 12 months, so the next test was due on 14 Jun 2026. No test is on record since.',
  ],
  [
    'retest owed',
    'E-28-3',
    'owed since 3 Oct 2026',
    'A rung of ladder E-28-3 was repaired on 3 Oct 2026. A service test is owed before it goes back, whatever its date.',
  ],
  [
    'current',
    'C-101',
    'due 31 Jan 2029, 798 days left',
    'Cylinder C-101 was requalified in Jan 2024. By its permit, as confirmed from the label, that holds for 5 years, through the last day of Jan 2029.',
  ],
  [
    'not judged',
    'C-140',
    'no date',
    'DOT-SP 10945 is a permit that the department has not confirmed. Read the permit or the label in hand and confirm its construction, interval and life.',
  ],
];

/** The head of the side panel in the states it is met in. */
export function Panels() {
  return (
    <section aria-label="Panels">
      <h2>Panels</h2>
      <div className={styles.panels}>
        {SPECIMENS.map(([state, number, due, paragraph]) => (
          <div key={number} className={styles.panel}>
            <Plate number={number} />
            <p className={styles.duty}>
              <StateMark state={state} large />
              <span>{due}</span>
            </p>
            <p className={styles.paragraph}>{paragraph}</p>
          </div>
        ))}
      </div>
    </section>
  );
}
