import styles from './look.module.css';

const COLORS = [
  ['--paper', 'Paper'],
  ['--paper-over', 'Paper that floats, fields'],
  ['--paper-under', 'The row under the pointer'],
  ['--ink', 'Ink'],
  ['--ink-soft', 'Ink, softer'],
  ['--ink-faint', 'Ink, faint: labels, good news'],
  ['--hair', 'Hairline'],
  ['--edge', 'Edge of a field'],
  ['--act', 'You can act here'],
  ['--act-wash', 'The row you are on'],
  ['--coming', 'Due soon'],
  ['--late', 'Overdue, never done, life ended'],
  ['--stopped', 'Retest owed, tagged out, missing'],
] as const;

/** Each color by what it is for. Rigs, stations and families have none. */
export function Colors() {
  return (
    <section aria-label="Colors">
      <h2>Colors</h2>
      <ul className={styles.colors}>
        {COLORS.map(([name, use]) => (
          <li key={name}>
            <span className={styles.swatch} style={{ background: `var(${name})` }} />
            {use}
          </li>
        ))}
      </ul>
    </section>
  );
}
