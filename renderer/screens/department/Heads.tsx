import type { LedgerHead } from '../../../db/api.ts';
import styles from './department.module.css';

/** The newest entry of each device: an anchor, to be read aloud or copied. */
export function Heads({
  heads,
  label,
  own,
}: {
  heads: readonly LedgerHead[];
  label: string;
  own?: string | undefined;
}) {
  if (heads.length === 0) return null;
  return (
    <table className={styles.heads} aria-label={label}>
      <thead>
        <tr>
          <th scope="col">Device</th>
          <th scope="col" className={styles.figure}>
            Entries
          </th>
          <th scope="col">Hash of its newest entry</th>
        </tr>
      </thead>
      <tbody>
        {heads.map(h => (
          <tr key={h.device}>
            <td className="mono">
              {h.device}
              {h.device === own ? <span className={styles.soft}> this file</span> : null}
            </td>
            <td className={styles.figure}>{h.seq.toLocaleString('en-US')}</td>
            <td className={styles.hash}>{h.hash}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
