/** One question of the walk-round: what was found, or what was read. */
import { type FormEvent, useState } from 'react';
import { type Criterion, NOT_FITTED } from '../../../domain/checkoffs/criterion.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { OneOf, TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import styles from './rigs.module.css';

export function AnswerDialog({
  criterion,
  before,
  onClose,
  onAnswer,
}: {
  criterion: Criterion;
  before: string;
  onClose: () => void;
  onAnswer: (value: string) => void;
}) {
  const form = criterion.answer;
  const [value, setValue] = useState(before || (form.kind === 'choice' ? (form.values[0]?.value ?? '') : ''));
  const [wrong, setWrong] = useState(false);
  const send = (event: FormEvent) => {
    event.preventDefault();
    const said = value.trim();
    if (form.kind === 'choice' || /^\d+(\.\d+)?$/.test(said)) onAnswer(said);
    else setWrong(true);
  };
  const choices = [
    ...(form.kind === 'choice' ? form.values : []),
    ...(criterion.mayLack && form.kind === 'choice' ? [{ value: NOT_FITTED, title: 'not fitted' }] : []),
  ];
  return (
    <Dialog title={criterion.question} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        {form.kind === 'choice' ? (
          <OneOf label={criterion.title} value={value} onChange={setValue} choices={choices} first />
        ) : (
          <TextField
            label={criterion.title}
            unit={form.unit === '' ? undefined : form.unit}
            value={value}
            onChange={setValue}
            problem={
              wrong
                ? { message: `“${value.trim()}” is no number.`, todo: 'Enter what was read, in figures.' }
                : undefined
            }
            first
          />
        )}
        {criterion.caution ? <p className={styles.soft}>{criterion.caution}</p> : null}
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            That is it
          </Action>
        </div>
      </form>
    </Dialog>
  );
}
