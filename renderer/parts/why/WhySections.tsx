import type { ExplainedRecord, Explanation } from '../../../db/api.ts';
import { capital } from '../../../domain/capital.ts';
import type { Source } from '../../../domain/rulebook/types.ts';
import { LATE_WORDS, SEEN_WORDS } from '../../../domain/rulebook/words.ts';
import { StateMark } from '../state/StateMark.tsx';
import { DateText, dateText } from '../words/dates.tsx';
import styles from './why.module.css';

/** The records the date counts from, and those it does not, with the reason. */
export function Counted({ why: { counted, notCounted } }: { why: Explanation }) {
  if (counted.length + notCounted.length === 0) return null;
  return (
    <section>
      <h3>What is on record</h3>
      <table className={styles.records}>
        <tbody>
          {counted.map(r => (
            <RecordRow key={r.fact} record={r} says="counts" />
          ))}
          {notCounted.map(r => (
            <RecordRow key={r.fact} record={r} says={r.why} faint />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function RecordRow({
  record,
  says,
  faint = false,
}: {
  record: ExplainedRecord;
  says: string;
  faint?: boolean;
}) {
  return (
    <tr className={faint ? styles.faint : undefined}>
      <td>
        <DateText date={record.on} />
      </td>
      <td>
        {capital(record.activity)}, {OUTCOMES[record.outcome]}
        {record.by ? `, ${record.by}` : ''}
      </td>
      <td>{says}</td>
    </tr>
  );
}

/** Every date of the thing, so that the one that governs is seen among the others. */
export function OtherClocks({ clocks }: { clocks: Explanation['clocks'] }) {
  return (
    <section>
      <h3>All its dates</h3>
      <table className={styles.records}>
        <tbody>
          {clocks.map(c => (
            <tr key={c.requirement} className={c.wins ? styles.wins : undefined}>
              <td>
                <DateText date={c.dueOn} />
              </td>
              <td>
                {c.title}
                {c.wins ? <span className={styles.first}> comes first</span> : null}
                {c.listed ? null : <span> another settles it or is stricter: not listed</span>}
              </td>
              <td>
                <StateMark state={c.state} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The rule in full: by what authority, where it binds, what being late does. */
export function Rule({ why: { rule, inForce, force } }: { why: Explanation }) {
  return (
    <section>
      <h3>The rule</h3>
      <dl className={styles.rule}>
        {rule.sources.map((source, i) => (
          <SourceLine key={`${source.document} ${source.section}`} source={source} first={i === 0} />
        ))}
        <dt>Force</dt>
        <dd>
          <strong>{capital(force.force)} here.</strong> {force.says}
        </dd>
        <dt>Binds</dt>
        <dd>{rule.binds}</dd>
        <dt>Being late</dt>
        <dd>{LATE_WORDS[rule.late]}</dd>
        <dt>Who</dt>
        <dd>{rule.who}</dd>
        {inForce.from || inForce.to ? (
          <>
            <dt>In force</dt>
            <dd>
              {inForce.from ? `from ${dateText(inForce.from)}` : 'from the start'}
              {inForce.to ? `, until ${dateText(inForce.to)}` : ''}
            </dd>
          </>
        ) : null}
      </dl>
    </section>
  );
}

const OUTCOMES = { pass: 'passed', fail: 'failed', 'not completed': 'not completed' } as const;

function SourceLine({ source, first }: { source: Source; first: boolean }) {
  return (
    <>
      <dt>{first ? 'By' : 'And'}</dt>
      <dd>
        {[source.document, source.section].filter(Boolean).join(', ')}
        {source.edition ? ` (${source.edition})` : ''}.{' '}
        {[SEEN_WORDS[source.confidence], source.note].filter(Boolean).join(' ')}
      </dd>
    </>
  );
}
