/** What a change of the book would do, told beside its form while it is filled in: nothing is written yet. */
import { useDebouncedValue } from '@mantine/hooks';
import type { RuleQuestions, RulePreview as Told } from '../../../db/api-rules.ts';
import { clockWords } from '../../../domain/rulebook/clock-words.ts';
import { familyOf } from '../../../domain/rulebook/index.ts';
import { midSentence } from '../../../domain/rulebook/words.ts';
import { useAsk } from '../../api/ask.ts';
import { stateWord } from '../state/StateMark.tsx';
import { dateText } from '../words/dates.tsx';
import { Notice, NotReady } from '../words/NotReady.tsx';
import styles from './rulePreview.module.css';

export type PreviewAsked = RuleQuestions['rulebook.preview']['takes'];

/** Months that are told; the rest of a long change lies after them. */
const MONTHS = 12;
const THINGS = 8;

export function RulePreview({ asked }: { asked: PreviewAsked }) {
  const [settled] = useDebouncedValue(JSON.stringify(asked), 250);
  const told = useAsk('rulebook.preview', JSON.parse(settled) as PreviewAsked, { keep: true });
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and the arrows reach what lies below only with the focus in it.
    <section className={styles.preview} aria-label="What it would do" aria-live="polite" tabIndex={0}>
      <h3>What it would do</h3>
      {told.data ? <Preview told={told.data} /> : <NotReady loaded={told} />}
    </section>
  );
}

function Preview({ told }: { told: Told }) {
  const { problems, moved, months, changes } = told;
  return (
    <>
      {problems.map(p => (
        <Notice key={p.message} problem={p} />
      ))}
      {[...Map.groupBy(told.verdicts, v => `${v.change} ${v.force.says}`)].map(([key, [v]]) => (
        <p key={key} className={styles.verdict}>
          {v?.change === 'looser' ? (
            <strong>
              Looser than the book: it needs a reason and who decides it, and stays marked wherever its dates
              appear.{' '}
            </strong>
          ) : null}
          {v?.change === 'stricter' ? 'Stricter than the book. ' : null}
          {v?.force.says}
        </p>
      ))}
      {told.falls.map(f => (
        <p key={`${f.requirement.id} ${f.from}`} className={styles.verdict}>
          <strong>{fallen(f)} falls away.</strong>
        </p>
      ))}
      {told.falls.length > 0 ? <p>What moves is told for {dateText(told.on)}.</p> : null}
      <ul className={styles.sums}>
        {sums(told).map(said => (
          <li key={said}>{said}</li>
        ))}
      </ul>
      {moved.earlier + moved.later + moved.gained + moved.lost > 0 && months.length > 0 ? (
        <table className={styles.months}>
          <caption>Due by month, of what moves</caption>
          <thead>
            <tr>
              <th scope="col">Month</th>
              <th scope="col">Now</th>
              <th scope="col">Then</th>
            </tr>
          </thead>
          <tbody>
            {months.slice(0, MONTHS).map(m => (
              <tr key={m.month}>
                <th scope="row">{dateText(m.month)}</th>
                <td>{m.before}</td>
                <td>{m.after}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      {changes.length > 0 ? (
        <table className={styles.things}>
          <caption>{changes.length > THINGS ? 'The first of them' : 'Which'}</caption>
          <tbody>
            {changes.slice(0, THINGS).map(c => (
              <tr key={`${c.item} ${c.requirement}`}>
                <th scope="row">{c.number}</th>
                <td>{standing(c.was)}</td>
                <td>→ {standing(c.becomes)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
    </>
  );
}

/** `Service test each May, decided for 12 Dec 2026 on,`. */
function fallen({ requirement, from, ended }: Told['falls'][number]): string {
  const what = ended ? 'ended' : midSentence(clockWords(requirement, familyOf(requirement.family)));
  return `${requirement.title}, ${what}, decided for ${dateText(from)} on,`;
}

const standing = ({ state, dueOn }: Told['changes'][number]['was']): string =>
  `${stateWord(state)}${dueOn === null ? '' : `, ${dateText(dueOn)}`}`;

function sums({ things, concerned, moved, becomesLate, noLongerLate, notJudged }: Told): string[] {
  const n = (count: number, what: string) => (count > 0 ? [`${count.toLocaleString('en-US')} ${what}`] : []);
  const all = [
    ...n(moved.earlier, 'fall due earlier'),
    ...n(moved.later, 'fall due later'),
    ...n(moved.gained, 'are asked for that were not'),
    ...n(moved.lost, 'are no longer asked for'),
    ...n(becomesLate, 'become late'),
    ...n(noLongerLate, 'are no longer late'),
    ...n(notJudged, 'are not judged'),
  ];
  if (things === 0) return ['It concerns no thing of the department.'];
  if (all.length === 0)
    return [`No date moves: ${concerned.before.toLocaleString('en-US')} stand as they did.`];
  return all;
}
