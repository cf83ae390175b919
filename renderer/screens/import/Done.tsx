import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import type { ActAnswer, ImportPreview } from '../../../db/api.ts';
import { Action } from '../../parts/Action.tsx';
import { DeedDialog } from '../../parts/deeds/DeedDialog.tsx';
import { voidForm } from '../../parts/deeds/voidForm.ts';
import { useKeys } from '../../parts/keys/keys.tsx';
import styles from './import.module.css';

interface DoneProps {
  name: string;
  answer: ActAnswer;
  preview: ImportPreview;
  today: string;
  onAnother: () => void;
}

/** What was taken in, and what can follow: see it, bring another sheet, or take it back. */
export function Done({ name, answer, preview, today, onAnother }: DoneProps) {
  const navigate = useNavigate();
  const [undoing, setUndoing] = useState(false);
  const next = useRef<HTMLButtonElement>(null);
  // After the dialog that signed it has given the focus back to what is no longer there.
  useEffect(() => {
    const waiting = setTimeout(() => next.current?.focus(), 30);
    return () => clearTimeout(waiting);
  }, []);
  const see = () => void navigate({ to: '/due', search: { family: preview.family } });
  useKeys('Import', [
    { key: 'Enter', label: 'See what is due on it', run: see },
    { key: 'o', label: 'Bring another sheet', run: onAnother },
    { key: 'u', label: 'Take it back', run: () => setUndoing(true) },
  ]);
  return (
    <div className={styles.empty}>
      <header className={styles.header}>
        <h1>{name} was taken in</h1>
        <p className={styles.numbers}>
          <span>
            <b>{preview.accepted.toLocaleString('en-US')}</b> rows as{' '}
            <b>{answer.entries.length.toLocaleString('en-US')}</b> entries of the ledger
          </span>
          {preview.refused > 0 ? (
            <span>
              <b>{preview.refused.toLocaleString('en-US')}</b> refused rows were left out
            </span>
          ) : null}
        </p>
      </header>
      <div className={styles.doneActions}>
        <Action ref={next} weight="main" hint="Enter" onClick={see}>
          See what is due on it
        </Action>
        <Action hint="o" onClick={onAnother}>
          Bring another sheet
        </Action>
        <Action weight="quiet" hint="u" onClick={() => setUndoing(true)}>
          Take it back
        </Action>
      </div>
      {undoing ? (
        <DeedDialog
          form={voidForm(answer.batch, name)}
          today={today}
          onClose={() => setUndoing(false)}
          onDone={onAnother}
        />
      ) : null}
    </div>
  );
}
