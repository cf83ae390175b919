import styles from './words.module.css';

/** The box that stands before work that can hurt someone. */
export function Caution({ cautions, who }: { cautions: readonly string[]; who?: string | undefined }) {
  return (
    <section className={styles.caution} aria-label="Before you start">
      <h3>Before you start</h3>
      <ul>
        {cautions.map(c => (
          <li key={c}>{c}</li>
        ))}
      </ul>
      {who ? <p>{who}</p> : null}
      <p>Follow the manufacturer, the current standard and your AHJ; tests by qualified people.</p>
    </section>
  );
}
