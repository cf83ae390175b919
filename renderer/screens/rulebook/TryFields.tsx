/** The fields of an imagined thing: its attributes, and one line for each thing that was done to it. */
import { useId } from 'react';
import { OUTCOMES, type Outcome } from '../../../domain/facts.ts';
import type { Attribute, Choice, Family } from '../../../domain/rulebook/types.ts';
import { Field } from '../../parts/form/Field.tsx';
import { TextField, Tick } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import { readDate } from '../../parts/form/readDate.ts';
import type { Happened } from './examples.ts';
import styles from './rulebook.module.css';
import tryStyles from './try.module.css';

interface AttributeControlProps {
  attribute: Attribute;
  value: string;
  today: string;
  onChange: (value: string) => void;
}

export function AttributeControl({ attribute, value, today, onChange }: AttributeControlProps) {
  const { title, type, unit, choices = [] } = attribute;
  if (type === 'flag')
    return <Tick label={title} checked={value === 'yes'} onChange={on => onChange(on ? 'yes' : '')} />;
  if (type === 'choice') return <Select label={title} value={value} choices={choices} onChange={onChange} />;
  if (type === 'when')
    return (
      <TextField
        label={title}
        value={value}
        onChange={onChange}
        // Nothing typed is nothing known, never today.
        note={value.trim() === '' ? 'Not known' : readDate(value, today).words}
      />
    );
  return <TextField label={title} value={value} onChange={onChange} unit={unit} />;
}

interface SelectProps {
  label: string;
  value: string;
  choices: readonly Choice[];
  onChange: (value: string) => void;
}

function Select({ label, value, choices, onChange }: SelectProps) {
  const id = useId();
  return (
    <Field id={id} label={label}>
      {described => (
        <select
          {...described}
          id={id}
          className={formStyles.input}
          value={value}
          onChange={event => onChange(event.currentTarget.value)}
        >
          <option value="">Not known</option>
          {choices.map(c => (
            <option key={c.value} value={c.value}>
              {c.title}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  pass: 'passed',
  fail: 'failed',
  'not completed': 'not completed',
};

interface HistoryFieldsProps {
  family: Family;
  history: readonly Happened[];
  today: string;
  onChange: (history: readonly Happened[]) => void;
}

export function HistoryFields({ family, history, today, onChange }: HistoryFieldsProps) {
  if (history.length === 0) return <p className={styles.soft}>Nothing was ever done to it.</p>;
  const change = (id: number, next: Partial<Happened>) =>
    onChange(history.map(h => (h.id === id ? { ...h, ...next } : h)));
  return (
    <ol className={tryStyles.history}>
      {history.map((line, i) => (
        <li key={line.id}>
          <select
            className={formStyles.input}
            aria-label={`Line ${i + 1}: what was done`}
            value={line.activity}
            onChange={event => change(line.id, { activity: event.currentTarget.value })}
          >
            {family.activities.map(a => (
              <option key={a.id} value={a.id}>
                {a.title}
              </option>
            ))}
          </select>
          <span>
            <input
              className={formStyles.input}
              aria-label={`Line ${i + 1}: date`}
              aria-describedby={`history-${line.id}`}
              autoComplete="off"
              placeholder="Today"
              value={line.on}
              onChange={event => change(line.id, { on: event.currentTarget.value })}
            />
            <span id={`history-${line.id}`} className={formStyles.note}>
              {readDate(line.on, today).words}
            </span>
          </span>
          <select
            className={formStyles.input}
            aria-label={`Line ${i + 1}: outcome`}
            value={line.outcome}
            onChange={event =>
              change(line.id, { outcome: OUTCOMES.find(o => o === event.currentTarget.value) ?? 'pass' })
            }
          >
            {OUTCOMES.map(o => (
              <option key={o} value={o}>
                {OUTCOME_WORDS[o]}
              </option>
            ))}
          </select>
          <button
            type="button"
            className={tryStyles.takeOut}
            onClick={() => onChange(history.filter(h => h.id !== line.id))}
          >
            ×<span className="seen-by-readers"> take line {i + 1} out</span>
          </button>
        </li>
      ))}
    </ol>
  );
}
