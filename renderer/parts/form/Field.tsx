/** A field with its label, its note, and what the store said of it, tied together for readers. */
import type { ReactNode } from 'react';
import type { Problem } from '../../../db/api.ts';
import styles from './form.module.css';

export type FieldProblem = Pick<Problem, 'message' | 'todo'>;

/** What ties the control to its note and problem. */
interface Described {
  'aria-describedby'?: string;
  'aria-invalid'?: true;
  'aria-required'?: true;
}

interface FieldProps {
  id: string;
  label: string;
  note?: ReactNode;
  problem?: FieldProblem | undefined;
  required?: boolean | undefined;
  children: (described: Described) => ReactNode;
}

export function Field({ id, label, note, problem, required, children }: FieldProps) {
  const described: Described = {};
  const ids = [note ? `${id}-note` : '', problem ? `${id}-problem` : ''].filter(Boolean).join(' ');
  if (ids) described['aria-describedby'] = ids;
  if (problem) described['aria-invalid'] = true;
  if (required) described['aria-required'] = true;
  return (
    <div className={styles.field}>
      <label className={styles.label} htmlFor={id}>
        {label}
      </label>
      {children(described)}
      {note ? (
        <div id={`${id}-note`} className={styles.note}>
          {note}
        </div>
      ) : null}
      {problem ? <FieldError id={`${id}-problem`} problem={problem} /> : null}
    </div>
  );
}

/** What was wrong with a field and what to do about it. */
export function FieldError({ id, problem }: { id: string; problem: FieldProblem }) {
  return (
    <div id={id} className={styles.problem} role="alert">
      <strong>{problem.message}</strong> {problem.todo}
    </div>
  );
}
