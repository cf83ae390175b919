/** Two small questions of a check-off: what was read, and why a place is left out. */
import { type FormEvent, useState } from 'react';
import type { CarryLineNow } from '../../../db/api-checks.ts';
import { Action } from '../../parts/Action.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { TextField } from '../../parts/form/fields.tsx';
import formStyles from '../../parts/form/form.module.css';

export function ReadingDialog({
  line,
  onClose,
  onRead,
}: {
  line: CarryLineNow;
  onClose: () => void;
  onRead: (reading: string) => void;
}) {
  const [reading, setReading] = useState('');
  const [wrong, setWrong] = useState(false);
  const title = line.reading?.title ?? 'Reading';
  const send = (event: FormEvent) => {
    event.preventDefault();
    const read = reading.trim().replaceAll(',', '');
    if (/^\d+(\.\d+)?$/.test(read)) onRead(read);
    else setWrong(true);
  };
  return (
    <Dialog title={`${line.code} ${line.what}`} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        <TextField
          label={title}
          unit={line.reading?.unit ?? undefined}
          value={reading}
          onChange={setReading}
          note={
            line.reading?.atLeast
              ? `At least ${line.reading.atLeast}${line.reading.unit ? ` ${line.reading.unit}` : ''}.`
              : 'It is kept and not judged.'
          }
          problem={
            wrong
              ? { message: `“${reading.trim()}” is no number.`, todo: 'Enter what was read, in figures.' }
              : undefined
          }
          first
        />
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            Read
          </Action>
        </div>
      </form>
    </Dialog>
  );
}

export function LeaveOutDialog({
  place,
  onClose,
  onSay,
}: {
  place: string;
  onClose: () => void;
  onSay: (why: string) => void;
}) {
  const [why, setWhy] = useState('');
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (why.trim() !== '') onSay(why.trim());
  };
  return (
    <Dialog title={`Leave ${place} out`} onClose={onClose}>
      <form onSubmit={send} className={formStyles.form} noValidate>
        <TextField
          label="Why it was not gone through"
          value={why}
          onChange={setWhy}
          note="It stays as it was last seen, and the sheet says so."
          required
          first
        />
        <div className={formStyles.foot}>
          <Action weight="quiet" hint="Escape" onClick={onClose}>
            Cancel
          </Action>
          <Action weight="main" hint="Enter" type="submit">
            Leave out
          </Action>
        </div>
      </form>
    </Dialog>
  );
}
