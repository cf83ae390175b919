/** Why something did not move, and of a count how many did. */
import { type FormEvent, useState } from 'react';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';
import type { Exception, Row } from './rows.ts';

interface ExceptProps {
  row: Row;
  before: Exception | undefined;
  onClose: () => void;
  /** Null: it moved after all. */
  onSay: (exception: Exception | null) => void;
}

export function ExceptDialog({ row, before, onClose, onSay }: ExceptProps) {
  const planned = row.line?.moves ?? 0;
  const isCount = row.thing === null;
  const [why, setWhy] = useState(before?.why ?? '');
  const [moved, setMoved] = useState(String(before?.moved ?? 0));
  const [wrong, setWrong] = useState(false);
  const send = (event: FormEvent) => {
    event.preventDefault();
    const n = /^\d+$/.test(moved.trim()) ? Number(moved) : Number.NaN;
    if (isCount && !(n < planned)) setWrong(true);
    else onSay({ moved: isCount ? n : null, why: why.trim() });
  };
  return (
    <Dialog
      title={isCount ? `${row.line?.what ?? ''}: not all moved` : `${row.number} ${row.what} did not move`}
      onClose={onClose}
    >
      <form onSubmit={send} className={formStyles.form} noValidate>
        {isCount ? (
          <TextField
            label={`How many of ${planned} moved`}
            value={moved}
            onChange={setMoved}
            problem={
              wrong
                ? {
                    message: `“${moved.trim()}” is not fewer than the ${planned} that were to move.`,
                    todo: 'Enter how many moved, in figures.',
                  }
                : undefined
            }
            first
          />
        ) : null}
        <TextField
          label="Why"
          value={why}
          onChange={setWhy}
          note="On the charger, in use, not found: as far as it is known."
          first={!isCount}
        />
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          {before ? <Action onClick={() => onSay(null)}>It moved after all</Action> : null}
          <Action weight="main" hint="Enter" type="submit">
            It did not move
          </Action>
        </div>
      </form>
    </Dialog>
  );
}
