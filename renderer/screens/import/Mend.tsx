/** What only a person can settle of a sheet: how columns are read, how days are ordered, what is new. */
import type { ImportOffer, ImportPreview, SheetColumn } from '../../../db/api.ts';
import { OneOf, Tick } from '../../parts/form/fields.tsx';
import styles from './import.module.css';
import type { Accepted } from './sheet.ts';

interface ColumnsProps {
  columns: readonly SheetColumn[];
  fields: ImportPreview['fields'];
  onMap: (column: number, field: string | null) => void;
}

/** Each column of the sheet, what it is read as, and a few of its values. */
export function Columns({ columns, fields, onMap }: ColumnsProps) {
  return (
    <section aria-label="Columns">
      <h2>Columns</h2>
      <table className={styles.columns}>
        <thead>
          <tr>
            <th scope="col">In the sheet</th>
            <th scope="col">Read as</th>
          </tr>
        </thead>
        <tbody>
          {columns.map(column => (
            <tr key={column.index}>
              <th scope="row">
                {column.heading || `Column ${column.index + 1}`}
                <span className={styles.examples}>{column.examples.slice(0, 3).join(' · ')}</span>
              </th>
              <td>
                <select
                  aria-label={`${column.heading || `Column ${column.index + 1}`} is read as`}
                  value={column.field ?? ''}
                  className={column.field === null ? styles.aside : undefined}
                  onChange={event => onMap(column.index, event.currentTarget.value || null)}
                >
                  <option value="">Leave aside</option>
                  {fields.map(f => (
                    <option key={f.field} value={f.field}>
                      {f.title}
                    </option>
                  ))}
                </select>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Lines of the sheet that were taken for no row, so that none is missed unseen. */
export function LeftOut({ lines }: { lines: ImportPreview['leftOut'] }) {
  if (lines.length === 0) return null;
  return (
    <section aria-label="Lines left out">
      <h2>Lines left out</h2>
      <ul className={styles.leftOut}>
        {lines.map(({ line, text, why }) => (
          <li key={line}>
            Line {line}: <q>{text}</q> {why}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface DayOrdersProps {
  questions: ImportPreview['questions'];
  answers: Readonly<Record<string, 'day first' | 'month first'>>;
  onAnswer: (column: number, order: 'day first' | 'month first') => void;
}

/** Columns whose dates read either way: only a person knows. */
export function DayOrders({ questions, answers, onAnswer }: DayOrdersProps) {
  if (questions.length === 0) return null;
  return (
    <section aria-label="Questions">
      <h2>Questions</h2>
      {questions.map(q => (
        <div key={q.column} className={styles.question}>
          <OneOf
            label={`${q.heading}: which comes first in ${q.examples.slice(0, 3).join(', ')}?`}
            value={answers[String(q.column)] ?? ''}
            onChange={order => onAnswer(q.column, order as 'day first' | 'month first')}
            choices={[
              { value: 'month first', title: 'The month' },
              { value: 'day first', title: 'The day' },
            ]}
          />
        </div>
      ))}
    </section>
  );
}

interface OffersProps {
  offers: readonly ImportOffer[];
  accepted: Accepted;
  onAccepted: (accepted: Accepted) => void;
}

/** Permits that the sheet names and nobody has confirmed. */
export function Permits({ offers, accepted, onAccepted }: OffersProps) {
  const permits = offers.filter(o => o.kind === 'permit');
  if (permits.length === 0) return null;
  return (
    <section aria-label="Permits">
      <h2>Permits to confirm</h2>
      <p className={styles.soft}>
        Nothing is judged by a permit until it is confirmed. Tick it only with the permit or the label in
        hand.
      </p>
      {permits.map(o => (
        <Tick
          key={o.name}
          label={`${o.name}: ${rowsWord(o.rows)}`}
          note={permitNote(o)}
          checked={accepted.confirmedPermits.has(o.name)}
          onChange={on =>
            onAccepted({ ...accepted, confirmedPermits: withName(accepted.confirmedPermits, o.name, on) })
          }
        />
      ))}
    </section>
  );
}

/** Places that the sheet speaks of and the department does not have yet. */
export function NewPlaces({ offers, accepted, onAccepted }: OffersProps) {
  const places = offers.filter(o => o.kind === 'place');
  if (places.length === 0) return null;
  return (
    <section aria-label="New places">
      <h2>New places</h2>
      {places.map(o => (
        <Tick
          key={o.name}
          label={o.name}
          aside={`${o.what}, ${rowsWord(o.rows)}`}
          checked={!accepted.refusedPlaces.has(o.name)}
          onChange={on =>
            onAccepted({ ...accepted, refusedPlaces: withName(accepted.refusedPlaces, o.name, !on) })
          }
        />
      ))}
    </section>
  );
}

function permitNote({ what, permit }: ImportOffer): string {
  if (!permit) return what;
  const life =
    permit.lifeMonths === null
      ? 'no fixed life'
      : permit.lifeMonths === 'label'
        ? 'life by its label'
        : `life ${permit.lifeMonths / 12} years`;
  const seen = permit.confidence === 'read' ? '' : ` Known only from ${permit.confidence}.`;
  return `${permit.construction}, every ${permit.months / 12} years, ${life}.${seen} ${permit.note}`;
}

export const rowsWord = (n: number) => (n === 1 ? '1 row' : `${n.toLocaleString('en-US')} rows`);

function withName(names: ReadonlySet<string>, name: string, on: boolean): ReadonlySet<string> {
  const next = new Set(names);
  if (on) next.add(name);
  else next.delete(name);
  return next;
}
