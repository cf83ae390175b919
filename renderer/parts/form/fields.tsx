/** The plain fields: words, dates, one of a few, yes or no. */
import { useId } from 'react';
import { Field, FieldError, type FieldProblem } from './Field.tsx';
import styles from './form.module.css';
import { readDate } from './readDate.ts';

interface PlainProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  note?: string | undefined;
  problem?: FieldProblem | undefined;
  required?: boolean | undefined;
  first?: boolean;
}

export function TextField({
  label,
  value,
  onChange,
  note,
  problem,
  required,
  first,
  unit,
  secret,
}: PlainProps & { unit?: string | undefined; secret?: boolean }) {
  const id = useId();
  return (
    <Field
      id={id}
      label={unit ? `${label}, ${unit}` : label}
      note={note}
      problem={problem}
      required={required}
    >
      {described => (
        <input
          {...described}
          id={id}
          className={`${styles.input} ${unit ? styles.figure : ''}`}
          type={secret ? 'password' : 'text'}
          inputMode={secret ? 'numeric' : undefined}
          autoComplete="off"
          value={value}
          data-autofocus={first || undefined}
          onChange={event => onChange(event.currentTarget.value)}
        />
      )}
    </Field>
  );
}

export function LongField({ label, value, onChange, note, problem, required, first }: PlainProps) {
  const id = useId();
  return (
    <Field
      id={id}
      label={label}
      note={note ?? 'Shift+Enter begins a new line.'}
      problem={problem}
      required={required}
    >
      {described => (
        <textarea
          {...described}
          id={id}
          className={styles.input}
          rows={2}
          value={value}
          data-autofocus={first || undefined}
          onChange={event => onChange(event.currentTarget.value)}
          // As in every other field Enter sends; a new line is the rarer wish.
          onKeyDown={event => {
            if (event.key !== 'Enter' || event.shiftKey || event.nativeEvent.isComposing) return;
            event.preventDefault();
            event.currentTarget.form?.requestSubmit();
          }}
        />
      )}
    </Field>
  );
}

/** A date as people write it; below it stands how it was read. */
export function DateField({
  label,
  value,
  onChange,
  problem,
  required,
  first,
  today,
}: PlainProps & { today: string }) {
  const read = readDate(value, today);
  return (
    <TextField
      label={label}
      value={value}
      onChange={onChange}
      problem={problem}
      required={required}
      {...(first ? { first } : {})}
      note={read.words}
    />
  );
}

interface OneOfProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  choices: readonly { value: string; title: string }[];
  problem?: FieldProblem | undefined;
  first?: boolean;
}

/** One of a few, all in sight. */
export function OneOf({ label, value, onChange, choices, problem, first }: OneOfProps) {
  const id = useId();
  const isChosen = choices.some(c => c.value === value);
  return (
    <fieldset className={styles.oneOf} aria-describedby={problem ? `${id}-problem` : undefined}>
      <legend className={styles.label}>{label}</legend>
      <div className={styles.choices}>
        {choices.map((choice, i) => (
          <label key={choice.value} className={styles.choice}>
            <input
              type="radio"
              name={id}
              value={choice.value}
              checked={choice.value === value}
              data-autofocus={(first && (choice.value === value || (i === 0 && !isChosen))) || undefined}
              onChange={() => onChange(choice.value)}
            />
            <span>{choice.title}</span>
          </label>
        ))}
      </div>
      {problem ? <FieldError id={`${id}-problem`} problem={problem} /> : null}
    </fieldset>
  );
}

interface TickProps {
  label: string;
  checked: boolean;
  onChange: (checked: boolean) => void;
  note?: string | undefined;
  /** Said at the end of the line. */
  aside?: string;
}

export function Tick({ label, checked, onChange, note, aside }: TickProps) {
  return (
    <label className={styles.tick}>
      <input type="checkbox" checked={checked} onChange={event => onChange(event.currentTarget.checked)} />
      <span>
        {label}
        {note ? <span className={styles.note}>{note}</span> : null}
      </span>
      {aside ? <span className={styles.aside}>{aside}</span> : null}
    </label>
  );
}
