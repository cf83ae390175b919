import { useAsk } from '../../api/ask.ts';
import { dateText } from '../../parts/words/dates.tsx';
import { NotReady } from '../../parts/words/NotReady.tsx';
import panelStyles from './panel.module.css';
import styles from './rulebook.module.css';

const CHANGE = {
  stricter: 'stricter than the book',
  looser: 'LOOSER than the book',
  other: 'other than the book',
  local: 'the department’s own',
} as const;

/** What was decided on a requirement, when, by whom and why, the newest first, with what each decision changed. */
export function RuleHistory({ requirement }: { requirement: string }) {
  const told = useAsk('rulebook.history', { requirement });
  if (!told.data) return <NotReady loaded={told} />;
  return (
    <ol className={panelStyles.history}>
      {told.data.map((line, i) => (
        <li key={`${line.entry} ${line.requirement.id}`} className={panelStyles.told}>
          <strong>
            {line.did === 'ended' ? 'Ended' : i === told.data.length - 1 ? 'Adopted' : 'Changed'}{' '}
            {line.from === null ? 'from the opening on' : `from ${dateText(line.from)} on`}
          </strong>
          {line.change ? `, ${CHANGE[line.change]}` : ''}
          {line.did === 'adopted' && line.inForce === null ? (
            <strong>; it was in force on no day</strong>
          ) : (
            ''
          )}
          <span className={styles.soft}>
            {' '}
            {line.by ?? 'nobody'}, {dateText(line.at.slice(0, 10))}.
          </span>
          {line.reason ? (
            <p>
              {line.authority ? `${line.authority}: ` : ''}
              {line.reason}
            </p>
          ) : null}
          {line.changed.length > 0 ? (
            <dl className={panelStyles.facts}>
              {line.changed.map(c => (
                <div key={c.what} className={panelStyles.change}>
                  <dt>{c.what}</dt>
                  <dd>
                    <del>{c.was}</del> <ins>{c.now}</ins>
                  </dd>
                </div>
              ))}
            </dl>
          ) : null}
        </li>
      ))}
    </ol>
  );
}
